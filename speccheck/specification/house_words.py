"""The words in which `speccheck prose` writes rules, turned back into the clause language, word for word.

Prose says "jacket shall be aluminum or PVC" where the language says `jacket be one of aluminum, PVC`, and "the line is
“cold run”" for `"cold run"`. Each such form has one counterpart. Whether the outcome means anything, the language
decides.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

from speccheck.language.format.words import name_text
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary

_PLAIN = (
    (r"“([^”]+)”", r'"\1"'),
    (r"\bthe line is not (\"[^\"]+\")", r"not \1"),
    (r"\bthe line (?:is|shall be|should be) (\"[^\"]+\")", r"\1"),
    (r"\bthe line (?:shall|should) not be (\"[^\"]+\")", r"not \1"),
    (r"\bit (?:is not|shall not be|should not be) so that ", "not "),
    (r"\bthe (larger|smaller) of ", r"\1 of "),
    (r", carried over from (.+?) to (.+?) on pipe of ", r" adjusted from \1 to \2 around "),
    (r"; and ", " and "),
    (r", or ", " or "),
    (r"\b[Ee]ither ", ""),
    (r" where ", " and "),
    (r"\b(?:shall|should) not include\b|\bdo not include\b", "exclude"),
    (r"\b(?:shall|should) include\b", "include"),
    (r"\binclude at least one of\b", "include any of"),
    (r"\b(?:is|shall be|should be) (not )?stated\b", r"is \1given"),
    (r"\b(?:shall|should) not be\b", "is not"),
    (r"\b(?:shall|should) be\b", "is"),
)


def conditions_of_house(text: str, vocabulary: Vocabulary) -> str:
    """Return conditions or requirements in prose as a condition of the language."""
    unless = re.fullmatch(r"(?P<asks>.+), unless (?P<where>.+)", text)
    if unless is not None:
        asks, where = (conditions_of_house(unless[part], vocabulary) for part in ("asks", "where"))
        return f"({asks}) or ({where})"
    words = _words(vocabulary)
    text = words.tables(text)
    for pattern, written in _PLAIN:
        text = re.sub(pattern, written, text)
    return words.names(words.lists(words.answers(text)))


class _Words:
    """The names of a vocabulary, ready to be found in prose."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        terms = vocabulary.terms.values()
        choices = {choice.name for term in terms for choice in term.choices}
        answers = [term.name for term in terms if term.kind.form is Form.YES_NO]
        value = rf"(?:{_any(choices)}|[-\d][\w./°-]*(?: [A-Za-z%°][\w./()°%-]*)?|NPS [\d/-]+)"
        # Values of one list; behind it goes no further word, which would make the last of them part of another name.
        ends = r"(?![\w-])(?! (?!and\b|or\b|where\b)[a-z])"
        joined = rf"{value}(?:, {value})*"
        self._lists = (
            re.compile(rf"(?P<verb>\bis not|\bis|\binclude any of|\bexclude) (?P<values>{joined} or {value}){ends}"),
            re.compile(rf"(?P<verb>\binclude) (?P<values>{joined} and {value}){ends}"),
        )
        self._value = re.compile(value)
        self._answer = re.compile(rf"(?<![\w-])(?P<term>{_any(answers)}) is (?P<said>confirmed|ruled out)")
        odd = {name for name in (*choices, *vocabulary.terms) if name_text(name) != name}
        self._odd = re.compile(rf"(?<![\w\"-])(?:{_any(odd)})(?![\w\"-])") if odd else None

    def tables(self, text: str) -> str:
        """Turn "the hot water thickness scheduled" into the name of the table."""
        return re.sub(r"\bthe ((?:(?!\bthe \b).)+?) scheduled\b", r'"\1"', text)

    def answers(self, text: str) -> str:
        """Turn what is confirmed or ruled out into the yes-or-no term, or its opposite."""
        return self._answer.sub(lambda found: ("not " if found["said"] == "ruled out" else "") + found["term"], text)

    def lists(self, text: str) -> str:
        """Turn lists of values into those of the language: "is A, B or C" into `is one of A, B, C`."""

        def listed(found: re.Match[str]) -> str:
            values = ", ".join(self._value.findall(found["values"]))
            verb = f"{found['verb']} one of" if found["verb"].startswith("is") else found["verb"]
            return f"{verb} {values}"

        for pattern in self._lists:
            text = pattern.sub(listed, text)
        return text

    def names(self, text: str) -> str:
        """Set in quotation marks the names that hold a word of the language."""
        return text if self._odd is None else self._odd.sub(lambda found: f'"{found[0]}"', text)


def _any(names: Iterable[str]) -> str:
    """Return a pattern for any of the names, the longest first."""
    return "|".join(re.escape(name) for name in sorted(names, key=lambda one: (-len(one), one)))


@lru_cache(maxsize=4)
def _of_terms(terms: tuple[tuple[str, Term], ...]) -> _Words:
    return _Words(Vocabulary("", dict(terms)))


def _words(vocabulary: Vocabulary) -> _Words:
    """Return the names of a vocabulary, made once."""
    return _of_terms(tuple(vocabulary.terms.items()))
