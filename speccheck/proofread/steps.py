"""One step of a value, up or down, and the limits and ends of table bands moved by one.

Two tables that differ in their bands alone can still say the same: where a limit parts two bands with equal cells.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

from speccheck.judge.lookup import band_of
from speccheck.language.core import Axis, Band, Table
from speccheck.language.core.wording import value_text
from speccheck.language.diagnostics import Place
from speccheck.language.resolve.literals import amount_of
from speccheck.language.vocabulary.values import Single
from speccheck.quantities import NOMINAL_SIZES, Interval, NominalSize, Quantity, sizes_in
from speccheck.quantities.conversion import conversions, to_si
from speccheck.quantities.writing import write_number

# Dimensions whose values can lie below zero.
SIGNED = frozenset({"temperature", "temperature difference", "heat flow", "heat flow per length", "heat flow per area"})
_FRACTIONS = (2, 4, 8, 16)
# Insulation is made in half inches up to about this thickness; longer pieces differ in whole inches.
_WHOLE_INCHES_FROM = 6.0


def one_step(value: Single) -> tuple[Single, ...]:
    """Return the values one step below and one step above; fewer where there is none, none for words and sets."""
    if isinstance(value, bool | str | frozenset):
        return ()
    if isinstance(value, NominalSize):
        below = [size for size in NOMINAL_SIZES if size < value]
        above = [size for size in NOMINAL_SIZES if size > value]
        return (*below[-1:], *above[:1])
    if isinstance(value, Quantity):
        return _quantity_steps(value)
    step = _last_digit(value)
    return tuple(_rounded(number) for number in (value - step, value + step) if number >= 0)


def _quantity_steps(value: Quantity) -> tuple[Quantity, ...]:
    if math.isinf(value.value):
        return ()
    number = _rounded(value.in_unit(value.unit))
    step = _step_of(number, value)
    found = (_with_number(_rounded(one), value) for one in (number - step, number + step))
    least = -math.inf if value.dimension in SIGNED else 0.0
    return tuple(one for one in found if one.value >= least)


def _step_of(number: float, value: Quantity) -> float:
    if value.dimension in ("temperature", "temperature difference"):
        return 1.0
    if value.unit == "in":
        part = next((part for part in _FRACTIONS if (number * part).is_integer()), None)
        if part == _FRACTIONS[0] and number >= _WHOLE_INCHES_FROM and number.is_integer():
            return 1.0
        if part is not None and number:
            return 1 / part
    return _last_digit(number)


def _last_digit(number: float) -> float:
    """Return one in the last decimal of a number as it is written, of two digits at least; 1 for a whole number."""
    if number.is_integer():
        return 1.0
    decimals = len(write_number(abs(number)).partition(".")[2])
    second_digit = 1 - math.floor(math.log10(abs(number)))
    return float(10 ** -max(decimals, second_digit))


def _with_number(number: float, like: Quantity) -> Quantity:
    """Return the quantity that a number of the unit of another one is."""
    return Quantity(to_si(number, conversions(like.unit)[like.dimension]), like.dimension, like.unit)


def _rounded(number: float) -> float:
    """Return a number without the last digits that conversions leave behind."""
    return float(f"{number:.10g}")


@dataclass(frozen=True)
class MovedLimit:
    """A table with one limit of its bands moved: what was written, what is instead, and where."""

    was: str
    becomes: str
    place: Place
    table: Table


def moved_limits(table: Table, system: str) -> Iterator[MovedLimit]:
    """Yield the table with each limit of its bands one step off, and with each limit in the neighbouring band."""
    for number, axis in enumerate(table.axes):
        for value in _limits(axis):
            place = next(band.place for band in axis.bands if value in _ends(band))
            was = value_text(value, system)
            for other in one_step(value):
                bands = _moved(axis, value, other)
                if bands is not None:
                    words = f"{table.name} by {axis.term.name}: limit {was}"
                    yield MovedLimit(words, value_text(other, system), place, _with_bands(table, number, bands))
            bands = _swapped(axis, value)
            if bands is not None:
                words = f"{table.name} by {axis.term.name}: {was} in the band that has it"
                yield MovedLimit(words, "in the other", place, _with_bands(table, number, bands))


def _limits(axis: Axis) -> list[Any]:
    """Return the distinct ends of the bands of an axis, in the order in which they are written."""
    return list(dict.fromkeys(end for band in axis.bands for end in _ends(band)))


def _ends(band: Band) -> list[Any]:
    if band.interval is None:
        return []
    return [end for end in (band.interval.low, band.interval.high) if end is not None]


def _moved(axis: Axis, value: Any, other: Any) -> tuple[Band, ...] | None:
    """Return the bands with `other` wherever `value` is an end, or None where that leaves a band without values."""
    bands = []
    for band in axis.bands:
        span: Any = band.interval
        if span is not None and value in (span.low, span.high):
            low, high = (other if end == value else end for end in (span.low, span.high))
            span = Interval(low, high, span.low_closed, span.high_closed)
        bands.append(replace(band, interval=span))
    return tuple(bands) if _sound(bands) else None


def _swapped(axis: Axis, value: Any) -> tuple[Band, ...] | None:
    """Return the bands with `value` in those that did not have it and out of those that had it."""
    bands = []
    for band in axis.bands:
        span: Any = band.interval
        if span is not None and value in (span.low, span.high) and span.low != span.high:
            low_closed = span.low_closed is not (span.low == value)
            high_closed = span.high_closed is not (span.high == value)
            span = Interval(span.low, span.high, low_closed, high_closed)
        bands.append(replace(band, interval=span))
    return tuple(bands) if _sound(bands) and tuple(bands) != axis.bands else None


def _sound(bands: list[Band]) -> bool:
    """Say whether each band has values and no two bands share one, as the language asks of tables."""
    spans = [band.interval for band in bands if band.interval is not None]
    if any(_empty(span) for span in spans):
        return False
    ordered = sorted(spans, key=lambda span: (span.low is not None, 0.0 if span.low is None else amount_of(span.low)))
    return not any(_overlap(first, second) for first, second in pairwise(ordered))


def _empty(span: Interval[Any]) -> bool:
    if isinstance(span.low or span.high, NominalSize):
        return not sizes_in(span)
    if span.low is None or span.high is None:
        return False
    low, high = amount_of(span.low), amount_of(span.high)
    return low > high or (low == high and not (span.low_closed and span.high_closed))


def _overlap(first: Interval[Any], second: Interval[Any]) -> bool:
    if first.high is None or second.low is None:
        return True
    high, low = amount_of(first.high), amount_of(second.low)
    return high > low or (high == low and first.high_closed and second.low_closed)


def _with_bands(table: Table, number: int, bands: tuple[Band, ...]) -> Table:
    axes = (*table.axes[:number], replace(table.axes[number], bands=bands), *table.axes[number + 1 :])
    return replace(table, axes=axes)


def same_cells(first: Table, second: Table) -> bool:
    """Say whether two tables with the same cells in the same places, and other bands, give the same for all values."""
    if first.cells != second.cells:
        return False
    for number, (one, other) in enumerate(zip(first.axes, second.axes, strict=True)):
        limits = [*_limits(one), *_limits(other)]
        for value in _probes(limits) if limits else _choices((one, other)):
            places = [band_of(value, axis.bands) for axis in (one, other)]
            if places[0] != places[1] and _strip(first, number, places[0]) != _strip(first, number, places[1]):
                return False
    return True


def _strip(table: Table, number: int, place: int | None) -> Any:
    """Return the values of the cells to which a band of one axis leads, None for none."""
    if place is None:
        return None
    found = {}
    for row, column, cell in table.filled():
        places = table.positions(row, column)
        if places[number] == place:
            found[(*places[:number], *places[number + 1 :])] = cell.value
    return found


def _choices(axes: Iterable[Axis]) -> list[str]:
    """Return all that the bands of axes list, where these are lists of choices."""
    return sorted({choice for axis in axes for band in axis.bands for choice in band.choices})


def _probes(limits: list[Any]) -> list[Any]:
    """Return a value at each limit, and one on each side of it that no other limit lies between."""
    if any(isinstance(limit, NominalSize) for limit in limits):
        return list(NOMINAL_SIZES)
    bare = sorted({amount_of(limit) for limit in limits})
    marks = [bare[0] - 1, *bare, bare[-1] + 1]
    found = sorted({*bare, *marks, *((low + high) / 2 for low, high in pairwise(marks))})
    like = limits[0]
    return [replace(like, value=value) if isinstance(like, Quantity) else value for value in found]
