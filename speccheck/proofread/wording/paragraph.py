"""A paragraph of a specification: the wording that clauses share, read beside the rules of all of them.

Numbers that it spells in words, as "three inches", are read as digits.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cached_property

from speccheck.english import NUMBER_WORDS
from speccheck.language.core import Clause, Ruleset
from speccheck.language.core.walking import terms_of
from speccheck.language.diagnostic_rules import Wording
from speccheck.language.vocabulary.values import Single
from speccheck.proofread.findings import Finding
from speccheck.proofread.wording.choices import Listed, NamedChoice, listed_in, mentions, singular
from speccheck.proofread.wording.limits import RuleLimit, limits_of
from speccheck.proofread.wording.numbers import numbers_of_wording
from speccheck.quantities import NominalSize

_UNITS = (
    "inch|inches|foot|feet|mil|mils|percent|degrees?|hours?|layers?|coats?|sections?|millimet(?:er|re)s?|met(?:er|re)s?"
)
_WHOLE = {"zero": 0} | {word: number for word, number in NUMBER_WORDS.items() if "-" not in word}
_ONES = [word for word, number in _WHOLE.items() if 0 < number < 10]
_TENS = [word for word, number in _WHOLE.items() if number >= 20]
_PARTS = {
    "half": "1/2",
    "one-half": "1/2",
    "a half": "1/2",
    "one half": "1/2",
    "quarter": "1/4",
    "one-quarter": "1/4",
    "one-fourth": "1/4",
    "three-quarter": "3/4",
    "three-quarters": "3/4",
    "three quarters": "3/4",
    "three-fourths": "3/4",
    "one-eighth": "1/8",
    "three-eighths": "3/8",
}
_whole = "|".join(sorted(_WHOLE, key=len, reverse=True))
_part = "|".join(sorted((re.escape(part) for part in _PARTS), key=len, reverse=True))
_HALF_AN_INCH = re.compile(rf"\b({_part})\s+(?:of\s+)?an?\s+(inch|foot)\b", re.IGNORECASE)
_MIXED = re.compile(rf"\b({_whole}|\d+)[ -]and[ -](?:an?\s)?({_part})(?=[ -](?:in\b|{_UNITS}))", re.IGNORECASE)
_PART = re.compile(rf"\b({_part})(?=[ -](?:{_UNITS})\b)", re.IGNORECASE)
_COMPOUND = re.compile(rf"\b({'|'.join(_TENS)})[ -]({'|'.join(_ONES)})\b", re.IGNORECASE)
_NUMBER = re.compile(rf"\b({_whole})\b", re.IGNORECASE)
_SAID_TWICE = re.compile(r"(\d+(?:-\d+/\d+)?)\s*\(\s*\1\s*\)")
_DEGREES = re.compile(r"\bdeg(?:rees?|\.)?\s*(F|C|Fahrenheit|Celsius)\b", re.IGNORECASE)


def with_digits(text: str) -> str:
    """Return a text with its number words as digits and its degrees as `F` and `C`, on one line."""
    text = " ".join(text.split())
    text = _HALF_AN_INCH.sub(lambda found: f"{_PARTS[found[1].lower()]} {found[2]}", text)
    text = _MIXED.sub(lambda found: f"{_digits(found[1])}-{_PARTS[found[2].lower()]}", text)
    text = _PART.sub(lambda found: _PARTS[found[1].lower()], text)
    text = _COMPOUND.sub(lambda found: str(_WHOLE[found[1].lower()] + _WHOLE[found[2].lower()]), text)
    text = _NUMBER.sub(lambda found: _digits(found[1]), text)
    text = _SAID_TWICE.sub(r"\1", text)
    text = _DEGREES.sub(lambda found: found[1][0].upper(), text)
    return re.sub(r"(?<=\d)\s+percent\b", " %", text, flags=re.IGNORECASE)


def _digits(word: str) -> str:
    return word if word.isdigit() else str(_WHOLE[word.lower()])


@dataclass(frozen=True)
class SharedParagraph:
    """A clause with its wording, and the clauses that share it."""

    clause: Clause
    sharing: tuple[Clause, ...]
    ruleset: Ruleset

    @cached_property
    def text(self) -> str:
        """The wording with digits for its number words."""
        return with_digits(self.clause.wording)

    @cached_property
    def remarks(self) -> str:
        """The notes of the clauses, which may say what their wording leaves out."""
        return with_digits(". ".join(note for one in self.sharing for note in one.notes))

    @cached_property
    def referred(self) -> tuple[Clause, ...]:
        """The clauses that the wording names by their numbers: what it says of them is not its own."""
        wording = self.clause.wording
        measured = {number.start for number in numbers_of_wording(wording)}
        found = re.finditer(r"(?<![\w.])\w+(?:\.\w+)+", wording)
        numbers = {one[0] for one in found if one.start() not in measured}
        return tuple(one for one in self.ruleset.clauses if one.name in numbers)

    @cached_property
    def limits(self) -> tuple[RuleLimit, ...]:
        """The values that the rules compare anything with."""
        return tuple(limit for one in self.sharing for limit in limits_of(one))

    @cached_property
    def listed(self) -> tuple[Listed, ...]:
        """What the rules list."""
        return tuple(listed_in(one, self.ruleset) for one in self.sharing)

    @cached_property
    def terms(self) -> frozenset[str]:
        """The names of the terms that the rules draw on."""
        return frozenset[str]().union(*(listed.terms for listed in self.listed))

    @cached_property
    def named(self) -> frozenset[tuple[str, str]]:
        """The choices that the rules name."""
        return frozenset[tuple[str, str]]().union(*(listed.named for listed in self.listed))

    @cached_property
    def conditions(self) -> frozenset[str]:
        """The names of the terms by which clauses of the ruleset say where they apply."""
        own = (clause for clause in self.ruleset.clauses if clause.ruleset == self.ruleset.name)
        return frozenset(term.name for clause in own for term in terms_of(clause.scope))

    @cached_property
    def mentions(self) -> tuple[NamedChoice, ...]:
        """The choices that the wording names."""
        return mentions(self.text, self.ruleset.vocabulary)

    @cached_property
    def unexplained(self) -> tuple[NamedChoice, ...]:
        """The choices that the wording names and that nothing in the rules goes by."""
        choices = {choice for _, choice in self.named}
        words = frozenset[str]().union(*(listed.words for listed in self.listed))
        return tuple(
            one
            for one in self.mentions
            if not any(choice in choices for _, choice in one.named)
            and not set(words_of(one.text)) <= words
            and not self._is_part(one)
        )

    def _is_part(self, mention: NamedChoice) -> bool:
        """Say whether a mention is a part of the name of a choice of another term that the rules name."""
        words, own = set(words_of(mention.text)), {term for term, _ in mention.by_name}
        return any(words <= set(words_of(choice)) for term, choice in self.named if term not in own)

    def are_listed(self, one: NamedChoice, other: NamedChoice) -> bool:
        """Say whether two mentions stand in one list: between them are commas, `and`, `or`, and other mentions."""
        first, last = sorted((one, other), key=lambda mention: mention.start)
        between = self.text[first.end : last.start]
        for inner in self.mentions:
            if first.end <= inner.start and inner.end <= last.start:
                between = between.replace(self.text[inner.start : inner.end], "")
        return re.fullmatch(r"(?:\s|,|/|and|or|in|on)*", between) is not None

    def written(self, value: Single) -> str:
        """Return a value as the ruleset writes it: a size by its DN in a metric one."""
        metric = self.ruleset.units == "metric"
        return value.written("metric") if metric and isinstance(value, NominalSize) else str(value)

    def finding(self, said: Wording, **facts: object) -> Finding:
        """Return what is said of the wording of the clause."""
        label = self.clause.label
        return Finding(said.at(self.clause.place, near=None, clause=label, **facts), (label,))


def words_of(text: str) -> list[str]:
    """Return the words of a text in lower case, each without the ending of many."""
    return [singular(word) for word in re.split(r"[\s-]+", text)]


def sentence_at(text: str, at: int) -> str:
    """Return the sentence of a text that holds a place."""
    start = max(text.rfind(". ", 0, at), text.rfind("; ", 0, at)) + 1
    ends = [end for end in (text.find(". ", at), text.find("; ", at)) if end >= 0]
    return text[start : min(ends, default=len(text))]
