"""Where a text speaks of a property by one of its names, and the quantities of its kind that stand beside it."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.language.vocabulary.values import NO_UNITS, BareUnits, NotGiven, Value, read_value
from speccheck.phrases.words import Word, key_of
from speccheck.quantities import Interval, Misread, Quantity

_SHORTEST = 5
_MOST_WORDS = 18
_BEGINS = re.compile(r"[-−+]?\.?\d")
_OR_LESS = re.compile(r"\s+or\s+(?:less|lower|under|better|below)\b", re.IGNORECASE)
_ENDS = (("lowest ", "highest "), ("minimum ", "maximum "))
_RANGES = ("", " range", " limit", " limits")
_READABLE = (Form.QUANTITY, Form.NUMBER)


@dataclass(frozen=True, slots=True)
class Mention:
    """A name of terms in a text: from and up to which word. Several terms are the two ends of a range."""

    first: int
    last: int
    terms: tuple[Term, ...]


@dataclass(frozen=True, slots=True)
class MentionedQuantity:
    """A quantity in a text: from and up to which word, its value and its words."""

    first: int
    last: int
    value: Value
    text: str


class SheetNames:
    """The names by which data sheets call the terms of a vocabulary that have numbers."""

    def __init__(self, vocabulary: Vocabulary) -> None:
        self.vocabulary = vocabulary

    @cached_property
    def properties(self) -> tuple[Term, ...]:
        """The terms that product data have to show, and that are numbers or quantities."""
        terms = self.vocabulary.terms.values()
        return tuple(term for term in terms if term.needs_evidence and term.kind.form in _READABLE)

    @cached_property
    def _spelled(self) -> Mapping[tuple[str, ...], tuple[Term, ...]]:
        found: dict[tuple[str, ...], tuple[Term, ...]] = {}
        for term in self.vocabulary.terms.values():
            if term.kind.form in _READABLE and not term.computed:
                for spelling in (term.name, *term.also):
                    found.setdefault(key_of(spelling), (term,))
        for name, ends in self._ranges.items():
            for ending in _RANGES:
                found[key_of(name + ending)] = ends
        return {key: terms for key, terms in found.items() if key}

    @cached_property
    def _ranges(self) -> Mapping[str, tuple[Term, Term]]:
        """What has a lowest and a highest value, by its names: "service temperature", "use temperature"."""
        terms = self.vocabulary.terms
        spelled = {spelling: term for term in terms.values() for spelling in (*term.also, term.name)}
        pairs = {
            spelling.removeprefix(low): (term, spelled[spelling.replace(low, high, 1)])
            for spelling, term in spelled.items()
            for low, high in _ENDS
            if spelling.startswith(low) and spelling.replace(low, high, 1) in spelled
        }
        short = {
            other: ends
            for name, ends in pairs.items()
            for word in ("use", "operating", "application", "")
            if (other := f"{word} {name.partition(' ')[2]}".strip()) not in terms and word
        }
        return {**short, **pairs}

    def second_of_pair(self, term: Term) -> Term | None:
        """Return the one term whose number is written behind that of another: 25/50 for flame spread and smoke."""
        if term.kind.form is not Form.NUMBER:
            return None
        others = [one for one in self.properties if term.name in one.beside and one.kind.form is Form.NUMBER]
        return others[0] if len(others) == 1 else None

    def whole(self, text: str) -> tuple[Term, ...]:
        """Return the terms that a whole text names, also by a short name such as "k"."""
        return self._spelled.get(key_of(text.strip(" :*†‡")), ())

    def within(self, words: Sequence[Word]) -> list[Mention]:
        """Return the names among words, the longest at each place; a short word alone is none."""
        found, place = [], 0
        while place < len(words):
            for length in range(min(6, len(words) - place), 0, -1):
                key = tuple(word.folded for word in words[place : place + length])
                terms = self._spelled.get(key)
                if terms and (length > 1 or len(key[0]) >= _SHORTEST):
                    found.append(Mention(place, place + length, terms))
                    place += length - 1
                    break
            place += 1
        return found


def quantities_in(text: str, words: Sequence[Word], term: Term, bare: BareUnits = NO_UNITS) -> list[MentionedQuantity]:
    """Return the values of a term in a text, the longest at each place."""
    found, place = [], 0
    while place < len(words):
        one = _quantity_at(text, words, place, term, bare)
        if one is not None:
            found.append(one)
            place = one.last
        else:
            place += 1
    return found


def _quantity_at(text: str, words: Sequence[Word], place: int, term: Term, bare: BareUnits) -> MentionedQuantity | None:
    start = words[place].start
    if start and text[start - 1] in "-−+" and not text[max(start - 2, 0) : start - 1].strip(" (:¦"):
        start -= 1
    if not _BEGINS.match(text[start:]) or (start and (text[start - 1].isalnum() or text[start - 1] in ".-/")):
        return None
    for length in range(min(_MOST_WORDS, len(words) - place), 0, -1):
        part = text[start : words[place + length - 1].end].strip(" ,;")
        if "¦" in part or len(part) > 60:
            continue
        value = read_value(_OR_LESS.sub("", part), term, bare)
        if not isinstance(value, Misread | NotGiven):
            return MentionedQuantity(place, place + length, value, part)
    return None


def number_behind(text: str, end: int) -> tuple[float, str] | None:
    """Return the plain number that stands behind a slash at a place of a text, and its words: the 50 of "25/50"."""
    found = re.match(r"\s*/\s*(\d+)(?![\d/.])", text[end:])
    return (float(found[1]), found[1]) if found else None


def ends_of(value: Value, terms: Sequence[Term]) -> Iterable[tuple[Term, Value]]:
    """Yield the terms that a value is one of: a range has a lowest and a highest end where two terms are named.

    A value that is only bounded ("25 or less") is the bound, for that is what a data sheet promises.
    """
    if len(terms) == 2:
        if isinstance(value, Interval):
            ends = ((terms[0], value.low), (terms[1], value.high))
            yield from ((term, end) for term, end in ends if end is not None)
        return
    if isinstance(value, Interval):
        if value.low is None and value.high is not None:
            yield terms[0], value.high
        elif value.high is None and value.low is not None:
            yield terms[0], value.low
        else:
            yield terms[0], value
    elif isinstance(value, Quantity | float | int):
        yield terms[0], value
