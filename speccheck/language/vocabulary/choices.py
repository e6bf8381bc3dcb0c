"""Values out of a closed list, never guessed, and the words that stand where a value should: "TBD", "per spec", a
dash.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from speccheck.english import did_you_mean
from speccheck.language.vocabulary.terms import Term, fold
from speccheck.quantities import Misread


@dataclass(frozen=True, slots=True)
class NotGiven:
    """The value that is missing: what stands in its place ("TBD", "", ...) and why that says nothing."""

    text: str = ""
    why: str = "blank"


OPEN = "to be settled later"
NOT_APPLICABLE = "said not to apply"
NOT_KNOWN = "said not to be known"
DASH = "a dash says nothing"
ELSEWHERE = "refers to another document"
OTHERS = "left to others"
NOT_SAID = "does not say what it is"

# What several cells of a line say together; the text of such a value is that of no single cell.
COLUMNS_DISAGREE = "two columns disagree"
COLUMN_BLANK = "two columns state it, and one of them is blank"
CELLS_DISAGREE = "two cells of the line disagree"
DISAGREEMENTS = frozenset({COLUMNS_DISAGREE, COLUMN_BLANK, CELLS_DISAGREE})

# The patterns meet the text in lower case, without full stops, with dashes as "-" and single blanks.
_ALWAYS = (
    (r"-[- ]*|_+", DASH),
    (r"\?[? ]*", NOT_KNOWN),
    (r"t ?[bdca] ?[dca](?:\b.*)?|tbs", OPEN),
    (r"to be (?:determined|confirmed|advised|decided|selected|submitted|coordinated|announced)\b.*", OPEN),
    (r"(?:later|pending|open|hold|on hold|not yet (?:known|selected|determined))", OPEN),
    (r"n ?/? ?a|not applicable|does not apply", NOT_APPLICABLE),
    (r"unknown|not known|not available|not given|not stated|no data", NOT_KNOWN),
)
_REFERENCES = (
    (r"(?:as |or )?per .+|as per .+|see .+|refer(?: to)? .+|in accordance with .+", ELSEWHERE),
    (r"(?:as|where) (?:required|needed|specified|shown|noted|indicated|scheduled|directed|per .+)\b.*", ELSEWHERE),
    (r"by (?:others|owner|gc|general contractor|manufacturer|mfr|factory)", OTHERS),
    (r"match existing|to match existing|match (?:ex|exist)|varies|various|vary|as existing", NOT_SAID),
)


def _compiled(table: tuple[tuple[str, str], ...]) -> tuple[tuple[re.Pattern[str], str], ...]:
    return tuple((re.compile(pattern), why) for pattern, why in table)


_ALWAYS_COMPILED = _compiled(_ALWAYS)
_REFERENCES_COMPILED = _compiled(_REFERENCES)


@lru_cache(maxsize=16384)
def not_given(text: str, *, references: bool = True) -> NotGiven | None:
    """Return the `NotGiven` that `text` is, or None where it may be a value.

    `references` also takes words that point elsewhere ("per spec", "by others") for no value; for a term whose
    values are free text they are text like any other.
    """
    stripped = text.strip()
    if not stripped:
        return NotGiven()
    plain = re.sub(r"\s+", " ", re.sub(r"[‐‑‒–—―−]", "-", stripped.casefold()).replace(".", "")).strip(" ()[]")
    tables = _ALWAYS_COMPILED + _REFERENCES_COMPILED if references else _ALWAYS_COMPILED
    for pattern, why in tables:
        if pattern.fullmatch(plain):
            return NotGiven(stripped, why)
    return NotGiven(stripped, NOT_SAID) if not plain else None


_YES = frozenset({"yes", "y", "true", "x", "✓", "✔", "☑", "1"})
_NO = frozenset({"no", "n", "false", "0", "none", "nil", "☐"})
_AROUND = " \t\r\n\"'“”‘’,;:"
_INCHES = re.compile(r"^[^\"“”'‘’]*\d\s*[\"”'’]")
_IN_BRACKETS = re.compile(r"(.+?)\s*[(\[]([^()\[\]]+)[)\]]")
# What parts a list for certain, then what also stands inside names ("straps & screws") and so parts only what is left.
_PARTED = (re.compile(r"[,;\n]"), re.compile(r"[/&+]|\band\b", re.I))


def read_choice(text: str, term: Term) -> str | Misread:
    """Return the choice of `term` that `text` names by any of its spellings."""
    found = _named(text, term)
    if found is not None:
        return found
    names = [_named(part, term) for part, _ in _parts(text, term)]
    several = list(dict.fromkeys(name for name in names if name is not None))
    if len(several) == 1 and None not in names:
        return several[0]
    if len(several) > 1 and None not in names:
        listed = " and ".join(f"`{name}`" for name in several)
        help = f"write the one value of `{term.name}`, or give each its own line: {listed}"
        return _misread(text, text, f"{{}} names {len(several)} values where `{term.name}` has one", help)
    return _unknown(text, text, term)


def read_set(text: str, term: Term) -> frozenset[str] | Misread:
    """Return the choices of `term` that `text` names, parted by `,`, `;`, `/`, `&`, `+`, "and" or line breaks."""
    whole = _named(text, term)
    if whole is not None:
        return frozenset({whole})
    found: set[str] = set()
    for part, name in _parts(text, term):
        if name is None:
            return _unknown(text, part, term)
        found.add(name)
    return frozenset(found) if found else _unknown(text, text, term)


def read_yes_no(text: str, term: Term) -> bool | Misread:
    """Return the answer of `text`: words of the term; yes, y, true, x, a check mark or 1; no, n, false or 0."""
    folded = fold(text.strip(_AROUND))
    if _INCHES.search(text):
        folded = ""  # `1"` is an inch, and no 1 in quotation marks
    if folded in term.answers:
        return term.answers[folded]
    if folded in _YES:
        return True
    if folded in _NO:
        return False
    return _misread(text, text, f"{{}} is neither yes nor no, which `{term.name}` must be", "write yes or no")


def _named(text: str, term: Term) -> str | None:
    """Return the choice that the whole of a text names: "CHW", "C.H.W.", "chilled water (CHW)"."""
    names = term.choice_names
    found = names.get(fold(text)) or names.get(fold(text.strip(_AROUND))) or names.get(fold(text.replace(".", "")))
    if found is None and (twice := _IN_BRACKETS.fullmatch(text.strip(_AROUND))):
        outside, inside = (names.get(fold(part)) for part in twice.groups())
        return outside if outside == inside else None
    return found


def _parts(text: str, term: Term) -> Iterator[tuple[str, str | None]]:
    """Yield the parts of a list as written, each with the choice that it names or None."""
    for part in _PARTED[0].split(text):
        if not part.strip(_AROUND):
            continue
        name = _named(part, term)
        if name is not None:
            yield part.strip(), name
            continue
        for piece in _PARTED[1].split(part):
            if piece.strip(_AROUND):
                yield piece.strip(), _named(piece, term)


@dataclass(frozen=True, slots=True)
class _NearestChoice:
    """What to write instead of words that are no choice of a term; found when it is asked for, since it takes long."""

    words: str
    term: Term

    def __call__(self) -> str:
        spellings = [spelling for choice in self.term.choices for spelling in (choice.name, *choice.also)]
        near = did_you_mean(" ".join(self.words.split()), spellings)
        known = ", ".join(choice.name for choice in self.term.choices)
        help = f"{near} ".lstrip()
        if len(known) <= 160 or not near:
            help += f"the values of `{self.term.name}` are: {known}"
        return help.strip()


def _unknown(text: str, part: str, term: Term) -> Misread:
    """Say that a part of a text is no value of the term, with the nearest one that is."""
    return _misread(text, part, f"{{}} is not a value of `{term.name}`", _NearestChoice(part, term))


def _misread(text: str, part: str, message: str, help: str | Callable[[], str]) -> Misread:
    """Return a Misread of a part of a text; `{}` in the message is filled with the part."""
    shown = " ".join(part.split())
    start = max(text.find(part.strip()), 0)
    return Misread(text, message.replace("{}", f"`{shown}`"), help, start, start + len(part.strip()))
