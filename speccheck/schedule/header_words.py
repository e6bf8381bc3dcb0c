"""The words of one column header: the term that they name, the unit of its bare numbers, and what else they say."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple

from speccheck.language.vocabulary.terms import Form, Term, Vocabulary, fold
from speccheck.language.vocabulary.values import Value, read_value
from speccheck.phrases import read_header
from speccheck.phrases.kept import kept_by_vocabulary
from speccheck.quantities import Quantity, listed_unit
from speccheck.quantities.marks import plain
from speccheck.quantities.units import RUN_TOGETHER, SPELLINGS
from speccheck.schedule.header_spellings import NamesByWord, in_full, is_not_proposed, spellings_in_full
from speccheck.schedule.mapping import SIZE_UNITS, unit_of
from speccheck.schedule.sections import HeadingReader

LONGEST_HEADER = 120
MARK_TERMS = ("mark", "line mark")
MARKS = frozenset(
    """
    mark|item|line|tag|no|#|item no|line no|mark no|tag no|item number|line number|system mark|line mark|ref|id|item #
    line #|sl no|sr no|seq|sequence
    """.replace("\n", "|")
    .replace("  ", "")
    .split("|")
) - {""}

_NEUTRAL_GROUP_WORDS = frozenset({"insulation", "insul", "proposed", "submitted", "product", "data", "properties"})
_OPEN_UNIT = ("/", "·", "*")  # right before a bracket: it is part of a unit, as in W/(m·K)
_KIND_WORDS = frozenset({"type", "kind"})
_LIMITS = frozenset({"min", "min.", "max", "max."})  # of a quantity, and no minutes
_RAISED_AT_END = re.compile(r"(?<=[^\W\d]|[)\]])[*†‡¹⁴-⁹]+$|(?<=[)\]])[²³]+$")
_DEGREES_BY_LETTER = re.compile(r"(?<![^\W\d_])[oº]\s?([CF])\b")
_PERCENT_FIRST = re.compile(r"^%\s+(\S.*)$")
_UNIT_WORD = re.compile(r"[^\W\d_]+|°|%|\"|''|'")
_UNIT_MARKS = re.compile(r"[\s./()\[\]*^23-]")
_FIGURE_FIRST = re.compile(r"(?:^|[\s/(\[])\d")
_SAME_SIZES = ({"NPS", "in"}, {"DN", "mm"})
_AMOUNT = re.compile(r"\d\s*[\"″'′°%]")
_IN_A_UNIT = re.compile(r",?\s+(?:(?:all|given|stated|expressed|measured)\s+)?(?:in|en)\s+(?=[^\s(\[])", re.IGNORECASE)
_MEAN = re.compile(r"\b(?:mean|avg\.?|average)\b(?:\s+temp(?:erature)?\.?)?", re.IGNORECASE)
_STATED_AT = re.compile(r"(?P<name>.*?\S)\s*(?:@|\b(?:at|bei|à|a)\b)\s*(?P<at>\d.*)", re.IGNORECASE)
_PARTED = re.compile(r"\s*[,:;/]\s*|\s+[-–—]\s+|\s+")

folded = lru_cache(maxsize=65536)(fold)


class Match(NamedTuple):
    """What a header names: the term (None where it only names the lines), the unit, and what was left over.

    `unit` is canonical or "", and `other_unit` a second one where the header names two; `misfit` is a unit that does
    not measure the term; `rest` is any other words; `by_cells` that its cells tell what the column is.
    """

    term: Term | None
    unit: str = ""
    rest: str = ""
    misfit: str = ""
    other_unit: str = ""
    by_cells: bool = False

    @property
    def name(self) -> str:
        """The name of the term; "#" where the column only names the lines."""
        return self.term.name if self.term is not None else "#"


class HeaderReader:
    """Reads headers against one vocabulary; each text is read once."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.vocabulary = vocabulary
        self._words = frozenset(word for spelling in vocabulary.spellings for word in spelling.split())
        self.headings = HeadingReader(vocabulary)
        self.match = lru_cache(maxsize=4096)(self._match)
        self.match_parts = lru_cache(maxsize=4096)(self._match_parts)

    def may_name(self, *texts: str) -> bool:
        """Whether texts may name a term together, told by an index of names: few words of data are words of a name."""
        return _all_names(self.vocabulary).may_be_in(*texts)

    def names_term(self, text: str) -> bool:
        """Whether a text by itself names a term, and so stands over values rather than among them."""
        match = self.match(text)
        return match is not None and match.term is not None

    def _match(self, text: str) -> Match | None:
        """Return what the text of a header of one part names, or None."""
        text = " ".join(text.split()).strip(" *:†‡")
        if not text or len(text) > LONGEST_HEADER or not self.may_name(text):
            return None
        text = in_degrees(_RAISED_AT_END.sub("", text))
        percent = _PERCENT_FIRST.fullmatch(text)
        text = f"{percent[1]} %" if percent and self._named(split_brackets(percent[1])[0]) is not None else text
        text = _with_unit_in_brackets(text)
        bare, brackets = split_brackets(text)
        bare = _RAISED_AT_END.sub("", bare)
        found = self._named(text)
        if found is not None:
            return _with_brackets(self._with_own_unit(found, bare), brackets, known=True)
        found = self._with_whole_unit(text)
        if found is not None:
            return found
        found = self._qualified(bare, brackets) or self._named(bare)
        if found is not None:
            return _of_what_is_proposed(_with_brackets(self._with_own_unit(found, bare), brackets))
        for name, unit in _endings(bare):
            found = self._named(name) if looks_like_unit(unit) else None
            if found is not None and _is_measured(found.term):
                return _of_what_is_proposed(_with_brackets(found, (unit, *brackets)))
        stated_at = _STATED_AT.fullmatch(bare)
        found = self._named(stated_at["name"]) if stated_at is not None else None
        if found is not None and stated_at is not None:
            return _with_brackets(found, (f"@ {stated_at['at']}", *brackets))
        return self._in_phrase(bare, brackets)

    def _in_phrase(self, bare: str, brackets: Sequence[str]) -> Match | None:
        """Return what a header names among other words, or first of several: "Recommended minimum thickness, mm"."""
        if _AMOUNT.search(bare):
            return None  # no words around a name account for an amount, and most cells are no headers
        for name, unit in ((bare, ""), *_endings(bare)):
            if unit and not looks_like_unit(unit):
                continue
            phrase = read_header(name, self.vocabulary)
            if phrase.terms and not phrase.stated and (not unit or _is_measured(phrase.terms[0])):
                found = _with_brackets(Match(phrase.terms[0]), (unit, *brackets) if unit else brackets)
                return _of_what_is_proposed(found)
        return None

    def _with_whole_unit(self, text: str) -> Match | None:
        """Return the term before a unit that has brackets of its own: "Conductivity, W/(m.K)"."""
        for name, unit in _endings(text) if "(" in text else ():
            found = self._named(name) if "(" in unit and not split_brackets(unit)[1] else None
            if found is not None and found.term is not None and (stated := header_unit(unit, found.term)):
                return found._replace(unit=stated)
        return None

    def _qualified(self, bare: str, brackets: Sequence[str]) -> Match | None:
        """Return what a name and one word in brackets name together: "Temperature (ambient)", "Thickness (jacket)"."""
        for bracket in brackets:
            if looks_like_unit(bracket) and bracket.casefold() not in _LIMITS:
                continue
            found = self._named(f"{bracket} {bare}")
            if found is not None and found.term is not None:
                return found
        return None

    def _with_own_unit(self, found: Match, bare: str) -> Match:
        """Return a match with the unit that is part of its name: "RH %", "NPS", "Perm-in"."""
        if found.unit or found.term is None or not _is_measured(found.term):
            return found
        unit = header_unit(bare, found.term)
        for name, ending in _endings(bare):
            if not unit and self.vocabulary.find(name) is found.term:
                unit = header_unit(ending, found.term)
        return found._replace(unit=unit)

    def _named(self, name: str) -> Match | None:
        """Return the term, or the column of line names, that a text names exactly."""
        term = self.vocabulary.find(name) if name else None
        if term is None and any(character.isalpha() for character in name) and fold(name) not in MARKS:
            term = self.vocabulary.terms.get(spellings_in_full(self.vocabulary).get(in_full(name), ""))
        if term is not None:
            return Match(term)
        return Match(None) if fold(name) in MARKS else None

    def _match_parts(self, parts: tuple[str, ...]) -> Match | None:
        """Return what a header of several rows names; `parts` run from the top row down.

        The parts together come first ("Jacket" over "Thickness"). The lowest part alone counts only where the group
        above it does not turn it into another term.
        """
        if len(parts) < 2:
            return self.match(parts[0]) if parts else None
        whole = self.match(" ".join(parts))
        if whole is not None and whole.misfit == "":
            return whole
        *groups, lowest = parts
        turned = self.match(f"{lowest} {groups[-1]}") if len(parts) == 2 else None
        if turned is not None and turned.term is not None and not turned.misfit and not turned.rest:
            return turned
        above = self.match_parts(tuple(groups))
        if above is not None and above.term is not None and header_unit(lowest.strip(" ()[]{}"), above.term):
            return _with_brackets(above, (lowest.strip(" ()[]{}"),))
        if fold(lowest) in _KIND_WORDS:
            return above if above is not None and above.term is not None and above.term.of_choices else None
        alone = self.match(lowest)
        if alone is not None and alone.term is not None and self._belongs(groups, alone.term):
            return alone
        return None

    def _belongs(self, groups: Sequence[str], term: Term) -> bool:
        """Whether a term may stand under group headings: they are part of its names, or words of no term at all.

        A heading "Jacket" over "Density" must not give the density of the insulation, nor one "Specified" what is
        proposed. One that only says that this is the insulation changes nothing, since a schedule of insulation speaks
        of it where it names nothing else.
        """
        if any(map(is_not_proposed, groups)):
            return False
        words = {word for group in groups for word in fold(group).split()} - _NEUTRAL_GROUP_WORDS
        own = {word for spelling in (term.name, *term.also) for word in fold(spelling).split()}
        return words <= own or not words & self._words


@kept_by_vocabulary
def _all_names(vocabulary: Vocabulary) -> NamesByWord:
    """Return the names of all terms, and what columns that only name lines are called."""
    return NamesByWord((*vocabulary.spellings, *MARKS))


def condition_of(found: Match, vocabulary: Vocabulary) -> tuple[Term, Value, str] | None:
    """Return the value at which a header says that its term is stated, the 75 F of "k @ 75F mean"; None without one."""
    at = vocabulary.terms.get(found.term.stated_at) if found.term is not None and found.rest.startswith("@") else None
    words = _MEAN.sub("", found.rest.lstrip("@ ")).strip(" ,;") if at is not None else ""
    value = read_value(words, at) if at is not None else None
    return (at, value, found.rest) if at is not None and isinstance(value, Quantity) else None


def _of_what_is_proposed(found: Match) -> Match | None:
    """Return a match, or None where its other words say that the column is of something else: "Thickness (spec)"."""
    return None if found.rest and is_not_proposed(found.rest) else found


def _with_unit_in_brackets(text: str) -> str:
    """Return a header with the unit that ends it between brackets: "Thickness in mm" as "Thickness (mm)"."""
    for found in _IN_A_UNIT.finditer(text):
        if looks_like_unit(text[found.end() :]):
            return f"{text[: found.start()]} ({text[found.end() :]})"
    return text


def in_degrees(text: str) -> str:
    """Return a text with degrees as they are read where a letter o stands for the raised circle: "15 oC"."""
    return _DEGREES_BY_LETTER.sub(r"°\1", text)


def split_brackets(text: str) -> tuple[str, tuple[str, ...]]:
    """Return the text without its bracketed parts, and those parts, without the brackets, outermost only."""
    outside, parts, depth, start, within_unit = "", [], 0, 0, 0
    for index, character in enumerate(text):
        if not depth and (within_unit or (character == "(" and text[:index].endswith(_OPEN_UNIT))):
            within_unit += {"(": 1, ")": -1}.get(character, 0)
            outside += character
        elif character in "([{":
            depth, start = depth + 1, start if depth else index + 1
        elif character in ")]}" and depth:
            depth -= 1
            if not depth:
                parts.append(text[start:index].strip())
        elif not depth:
            outside += character
    if depth:
        return text, ()
    return " ".join(outside.split()), tuple(part for part in parts if part)


def _endings(text: str) -> Iterator[tuple[str, str]]:
    """Yield the ways to part a text into a name and an ending, the shortest ending last."""
    for found in _PARTED.finditer(text):
        if found.end() < len(text):
            yield text[: found.start()], text[found.end() :]


def _with_brackets(found: Match, brackets: Sequence[str], known: bool = False) -> Match:
    """Return a match with the units and other words of its brackets; in a `known` spelling all words are its own."""
    unit, misfit, rest, other = found.unit, found.misfit, [found.rest] if found.rest else [], found.other_unit
    for bracket in _with_units_apart(brackets, found.term):
        its_unit = header_unit(bracket, found.term) if found.term is not None else ""
        if its_unit:
            same = {unit, its_unit} in _SAME_SIZES
            other = its_unit if unit and its_unit != unit and not same else other
            unit = its_unit if same else unit or its_unit
        elif known or (found.term is not None and _names(bracket, found.term)):
            continue
        elif bracket.casefold() not in _LIMITS and _is_measured(found.term) and _is_unit(bracket):
            misfit = bracket
        else:
            rest.append(bracket)
    return Match(found.term, unit, "; ".join(rest), misfit, other)


def _with_units_apart(brackets: Sequence[str], term: Term | None) -> Iterator[str]:
    """Yield what brackets hold, two units of one term each by itself: "(mm/in)", "(°C or °F)"."""
    for bracket in brackets:
        parts = [part.strip() for part in re.split(r"\s*/\s*|\s+or\s+", bracket)]
        units = term is not None and len(parts) == 2 and all(header_unit(part, term) for part in parts)
        yield from parts if units else [bracket]


def _names(words: str, term: Term) -> bool:
    """Whether words in brackets are part of a name of the term: "ambient" of "ambient temperature"."""
    own = {word for spelling in (term.name, *term.also) for word in in_full(spelling).split()}
    return set(in_full(words).split()) <= own


def header_unit(text: str, term: Term) -> str:
    """Return the canonical unit that words of a header state for `term`; "" where they state none.

    Only units of the shipped table count here; a rarer one is stated in a mapping file.
    """
    if term.kind.form is Form.SIZE and text.strip() in SIZE_UNITS:
        return SIZE_UNITS[text.strip()]
    if not _is_measured(term) or not looks_like_unit(text):
        return ""
    return unit_of(text, term) if text in SIZE_UNITS or listed_unit(plain(text)) is not None else ""


def _is_measured(term: Term | None) -> bool:
    """Whether values of a term carry units."""
    return term is not None and term.kind.form in (Form.QUANTITY, Form.SIZE)


def looks_like_unit(text: str) -> bool:
    """Whether every word of a text is a word of a unit. Keeps other words away from the large library of units."""
    squeezed = re.sub(r"[\s.*()^]", "", text).casefold()
    if squeezed in RUN_TOGETHER or text.strip() in SIZE_UNITS:
        return True
    text = plain(text).casefold()
    words = _UNIT_WORD.findall(text)
    between = _UNIT_WORD.sub("", text)
    if _FIGURE_FIRST.search(text):
        return False  # `2"` in a header is a size or a value, and never a unit
    return bool(words) and all(word in SPELLINGS for word in words) and not _UNIT_MARKS.sub("", between)


def _is_unit(text: str) -> bool:
    """Whether words of a header are a unit of anything."""
    return looks_like_unit(text) and (text.strip() in SIZE_UNITS or listed_unit(plain(text)) is not None)
