"""Extents: which systems of the building a line stands for, in the terms that the vocabulary marks to tell systems
apart.

In: a line of a schedule or of a design list. Out: its `Extent`, and how two extents stand to one another.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from speccheck.judge import logic
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary, fold
from speccheck.language.vocabulary.values import NotGiven, Value
from speccheck.quantities import Interval, NominalSize, Quantity, sizes_in
from speccheck.review.intervals import EVERYTHING, NumberSpan, overlap, span_of
from speccheck.schedule.lines import Line


@dataclass(frozen=True)
class SystemTerms:
    """The terms of a vocabulary by which systems are known, in its order.

    Those of `single` have one value a line; `size` and `temperature` are ranges, "" where the vocabulary marks none.
    `wholes` has, by term, the values that are parts of others, as a valve is of its pipe, folded. `never_compared`
    are names and remarks, in which two lines that are the same may differ.
    """

    single: tuple[str, ...]
    size: str
    temperature: str
    wholes: Mapping[str, Mapping[str, str]]
    never_compared: frozenset[str]

    @classmethod
    def of(cls, vocabulary: Vocabulary) -> SystemTerms:
        """Return what a vocabulary marks."""
        marked = [term for term in vocabulary.terms.values() if term.tells_apart]
        size = next((term.name for term in marked if term.kind.form is Form.SIZE), "")
        temperature = next((term.name for term in marked if term.kind.form is Form.QUANTITY), "")
        single = tuple(term.name for term in marked if term.name not in (size, temperature))
        never = frozenset(term.name for term in vocabulary.terms.values() if term.never_compared)
        return cls(single, size, temperature, {term.name: _wholes(term) for term in marked}, never)

    @property
    def names(self) -> tuple[str, ...]:
        """All of them: single values first, then size and temperature."""
        return (*self.single, *filter(None, (self.size, self.temperature)))

    def is_compared(self, name: str) -> bool:
        """Say whether two lines for one system disagree where they state a term differently."""
        return name not in self.names and name not in self.never_compared


def _wholes(term: Term) -> Mapping[str, str]:
    return {fold(choice.name): fold(choice.part_of) for choice in term.choices if choice.part_of}


Word = str | bool | frozenset[str]


@dataclass(frozen=True)
class Extent:
    """The systems that a line stands for.

    `words` has the single values of terms that tell systems apart; `open` names the terms in whose place the line has
    something that is no value, such as TBD. `sizes` and `span` (temperatures, kelvin) are None where the line does not
    speak of them: it then stands for every one. `terms` says which terms these are.
    """

    line: Line
    terms: SystemTerms
    words: Mapping[str, Word]
    open: frozenset[str]
    sizes: tuple[NominalSize, ...] | None
    span: NumberSpan | None

    @property
    def parts(self) -> frozenset[str]:
        """The terms in which the line names a part of something, such as a valve of a pipe."""
        return frozenset(name for name, word in self.words.items() if word in self.terms.wholes.get(name, ()))


def extent_of(line: Line, terms: SystemTerms) -> Extent:
    """Return the systems that a line stands for."""
    given = {name: datum.value for name, datum in line.data.items() if name in terms.names}
    words = {name: _word(value) for name, value in given.items() if isinstance(value, str | bool | frozenset)}
    missing = frozenset(name for name, value in given.items() if isinstance(value, NotGiven))
    return Extent(line, terms, words, missing, _sizes(given.get(terms.size)), _span(given.get(terms.temperature)))


def _word(value: Word) -> Word:
    return fold(value) if isinstance(value, str) else value


def _sizes(value: Value | NotGiven | None) -> tuple[NominalSize, ...] | None:
    if isinstance(value, NominalSize):
        return (value,)
    return sizes_in(value) if isinstance(value, Interval) else None


def _span(value: Value | NotGiven | None) -> NumberSpan | None:
    return span_of(value) if isinstance(value, Quantity | Interval) else None


def differing(one: Extent, other: Extent, *, with_parts: bool = False) -> Iterator[str]:
    """Yield the terms, single values only, that both state and that differ: the two stand for no system in common.

    With `with_parts` a part belongs to what it is a part of: a fitting, a valve or a flange to pipe.
    """
    for name, word in one.words.items():
        if name in other.words and other.words[name] != word:
            belongs = with_parts and _belong(word, other.words[name], one.terms.wholes.get(name, {}))
            if not belongs:
                yield name


def _belong(one: Word, other: Word, wholes: Mapping[str, str]) -> bool:
    """Say whether one of two words is a part of the other."""
    return isinstance(one, str) and isinstance(other, str) and (wholes.get(one) == other or wholes.get(other) == one)


def ranges_apart(one: Extent, other: Extent) -> Iterator[str]:
    """Yield the terms, of size and temperature, of which two lines share no value at all."""
    if one.sizes is not None and other.sizes is not None and not set(one.sizes) & set(other.sizes):
        yield one.terms.size
    if one.span is not None and other.span is not None and overlap(one.span, other.span) is None:
        yield one.terms.temperature


def claims(design: Extent, line: Extent) -> logic.Truth:
    """Return whether a line claims the system of a design line, sizes and temperatures apart.

    Not known where the line leaves open what the design states, such as its location. A line for fittings, valves or
    flanges claims only a system that the design names as such, never the pipe that they are in.
    """
    if any(differing(design, line)) or any(name not in design.words for name in line.parts):
        return False
    return None if any(name in line.open for name in design.words) else True


def claims_size(size: NominalSize | None, line: Extent) -> logic.Truth:
    """Return whether a line covers one nominal size of the design; a design without sizes is covered by any line."""
    if size is None:
        return True
    if line.sizes is None:
        return None if line.terms.size in line.open else True
    return size in line.sizes


def temperatures_of(line: Extent) -> NumberSpan | None:
    """Return the temperatures that a line covers for certain; None where it leaves them open."""
    if line.span is None:
        return None if line.terms.temperature in line.open else EVERYTHING
    return line.span


def shared(one: Extent, other: Extent) -> tuple[tuple[NominalSize, ...] | None, NumberSpan | None] | None:
    """Return the sizes and temperatures that two lines both stand for, or None where they have no system in common.

    What one of them leaves open is not known to be shared, so that the two have nothing in common for certain.
    """
    if any(differing(one, other)) or _one_is_open(one, other):
        return None
    sizes = _shared_sizes(one.sizes, other.sizes)
    if sizes == ():
        return None
    if one.span is None or other.span is None:
        return sizes, one.span or other.span
    span = overlap(one.span, other.span)
    return None if span is None else (sizes, span)


def _one_is_open(one: Extent, other: Extent) -> bool:
    stated = [_stated(extent) for extent in (one, other)]
    return bool(one.open & stated[1] or other.open & stated[0])


def _stated(extent: Extent) -> frozenset[str]:
    ranges = {extent.terms.size: extent.sizes, extent.terms.temperature: extent.span}
    return frozenset((*extent.words, *(name for name, value in ranges.items() if value is not None)))


def _shared_sizes(
    one: tuple[NominalSize, ...] | None, other: tuple[NominalSize, ...] | None
) -> tuple[NominalSize, ...] | None:
    if one is None or other is None:
        return one if other is None else other
    return tuple(size for size in one if size in other)
