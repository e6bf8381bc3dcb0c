"""Extents: which systems of the building a line stands for, in the terms that tell systems apart.

In: a line of a schedule or of a design list. Out: its `Extent`, and how two extents stand to one another.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from speccheck.engine import kleene
from speccheck.language.values import NotGiven, Value
from speccheck.language.vocabulary import fold
from speccheck.quantities import Interval, NominalSize, Quantity, sizes_in
from speccheck.review.spans import EVERYTHING, Span, overlap, span_of
from speccheck.review.system_terms import COMPONENT, PARTS_OF_PIPING, PIPE, SIZE, TELLING_APART, TEMPERATURE
from speccheck.submittal.lines import Line

Word = str | bool | frozenset[str]


@dataclass(frozen=True)
class Extent:
    """The systems that a line stands for.

    `words` has the single values of terms that tell systems apart; `open` names the terms in whose place the line has
    something that is no value, such as TBD. `sizes` and `span` (temperatures, kelvin) are None where the line does not
    speak of them: it then stands for every one.
    """

    line: Line
    words: Mapping[str, Word]
    open: frozenset[str]
    sizes: tuple[NominalSize, ...] | None
    span: Span | None

    @property
    def parts_of_piping(self) -> bool:
        """Whether the line is for fittings, valves or flanges of a pipe."""
        return self.words.get(COMPONENT) in PARTS_OF_PIPING


def extent_of(line: Line) -> Extent:
    """Return the systems that a line stands for."""
    given = {name: datum.value for name, datum in line.data.items() if name in (*TELLING_APART, SIZE, TEMPERATURE)}
    words = {name: _word(value) for name, value in given.items() if isinstance(value, str | bool | frozenset)}
    missing = frozenset(name for name, value in given.items() if isinstance(value, NotGiven))
    return Extent(line, words, missing, _sizes(given.get(SIZE)), _span(given.get(TEMPERATURE)))


def _word(value: Word) -> Word:
    return fold(value) if isinstance(value, str) else value


def _sizes(value: Value | NotGiven | None) -> tuple[NominalSize, ...] | None:
    if isinstance(value, NominalSize):
        return (value,)
    return sizes_in(value) if isinstance(value, Interval) else None


def _span(value: Value | NotGiven | None) -> Span | None:
    return span_of(value) if isinstance(value, Quantity | Interval) else None


def differing(one: Extent, other: Extent, *, as_piping: bool = False) -> Iterator[str]:
    """Yield the terms, single values only, that both state and that differ: the two stand for no system in common.

    With `as_piping` a fitting, a valve or a flange belongs to pipe.
    """
    for name, word in one.words.items():
        if name in other.words and other.words[name] != word:
            pair = {word, other.words[name]}
            belongs = as_piping and name == COMPONENT and PIPE in pair and pair & set(PARTS_OF_PIPING)
            if not belongs:
                yield name


def ranges_apart(one: Extent, other: Extent) -> Iterator[str]:
    """Yield the terms, of size and temperature, of which two lines share no value at all."""
    if one.sizes is not None and other.sizes is not None and not set(one.sizes) & set(other.sizes):
        yield SIZE
    if one.span is not None and other.span is not None and overlap(one.span, other.span) is None:
        yield TEMPERATURE


def claims(design: Extent, line: Extent) -> kleene.Truth:
    """Return whether a line claims the system of a design line, sizes and temperatures apart.

    Not known where the line leaves open what the design states, such as its location. A line for fittings, valves or
    flanges claims only a system that the design names as such, never the pipe that they are in.
    """
    if any(differing(design, line)) or (line.parts_of_piping and COMPONENT not in design.words):
        return False
    return None if any(name in line.open for name in design.words) else True


def claims_size(size: NominalSize | None, line: Extent) -> kleene.Truth:
    """Return whether a line covers one nominal size of the design; a design without sizes is covered by any line."""
    if size is None:
        return True
    if line.sizes is None:
        return None if SIZE in line.open else True
    return size in line.sizes


def temperatures_of(line: Extent) -> Span | None:
    """Return the temperatures that a line covers for certain; None where it leaves them open."""
    if line.span is None:
        return None if TEMPERATURE in line.open else EVERYTHING
    return line.span


def shared(one: Extent, other: Extent) -> tuple[tuple[NominalSize, ...] | None, Span | None] | None:
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
    ranges = {SIZE: extent.sizes, TEMPERATURE: extent.span}
    return frozenset((*extent.words, *(name for name, value in ranges.items() if value is not None)))


def _shared_sizes(
    one: tuple[NominalSize, ...] | None, other: tuple[NominalSize, ...] | None
) -> tuple[NominalSize, ...] | None:
    if one is None or other is None:
        return one if other is None else other
    return tuple(size for size in one if size in other)
