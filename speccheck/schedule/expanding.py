"""Expanding: the cases for which a line with ranges has to be judged.

A line that covers a range of sizes stands for every nominal size in it. A range of quantities stands for its ends,
for each breakpoint inside (a value at which a clause or a table could change its verdict) and for a value between
every two of these, so that open and closed ends of bands are both tried.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise, product

from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import NotGiven, Single, Value
from speccheck.quantities import Interval, NominalSize, Quantity, sizes_in
from speccheck.quantities.values import compare
from speccheck.schedule.lines import Line

CASES_LIMIT = 20_000
_STEP_KELVIN = 10.0
_TEMPERATURES = ("temperature", "temperature difference")


@dataclass(frozen=True, slots=True)
class Case:
    """One case of a line: a single value, or `NotGiven`, for each term, and which of these stand for a range."""

    values: Mapping[str, Single | NotGiven]
    varied: tuple[tuple[str, Single], ...] = ()


def cases_of(line: Line, terms: Iterable[Term], breakpoints: Mapping[str, Sequence[float]]) -> Iterator[Case] | None:
    """Return the cases of `line` over `terms`, or None where there are more than `CASES_LIMIT`.

    Only the ranges of `terms` are taken apart. `breakpoints` are in SI units, or plain numbers, by term name. A term
    that the line does not state is `NotGiven`. The cases come in a fixed order, rising in each term.
    """
    fixed: dict[str, Single | NotGiven] = {}
    ranges: dict[str, tuple[Single, ...]] = {}
    for term in terms:
        datum = line.data.get(term.name)
        value: Value | NotGiven = NotGiven() if datum is None else datum.value
        if not isinstance(value, Interval):
            fixed[term.name] = value
            continue
        points = values_in(value, breakpoints.get(term.name, ()), term)
        if points:
            ranges[term.name] = points
        else:
            fixed[term.name] = NotGiven(str(value), "no value that exists lies in the range")
    if math.prod(len(points) for points in ranges.values()) > CASES_LIMIT:
        return None
    return _product(fixed, ranges)


def _product(fixed: Mapping[str, Single | NotGiven], ranges: Mapping[str, Sequence[Single]]) -> Iterator[Case]:
    """Yield every combination of the values of the ranges."""
    names = tuple(ranges)
    for chosen in product(*ranges.values()):
        varied = tuple(zip(names, chosen, strict=True))
        yield Case({**fixed, **dict(varied)}, varied)


def values_in(
    interval: Interval[Quantity] | Interval[NominalSize] | Interval[float], breakpoints: Sequence[float], term: Term
) -> tuple[Single, ...]:
    """Return the values of a range that have to be tried, rising, in its unit; `breakpoints` are in SI units."""
    ends = (interval.low, interval.high)
    if term.kind.form is Form.SIZE:  # "all sizes" has no end by which to know it
        return sizes_in(interval)
    unit = next((end for end in ends if isinstance(end, Quantity)), None)
    low, high = (end.value if isinstance(end, Quantity) else end for end in ends)
    bounds = _Bounds(low, high, interval.low_closed, interval.high_closed)  # type: ignore[arg-type]
    if term.kind.form is Form.COUNT:
        return tuple(bounds.whole_numbers(breakpoints))
    points = bounds.points(breakpoints, _STEP_KELVIN if term.kind.dimension in _TEMPERATURES else 0.0)
    if unit is None:
        return tuple(points)
    return tuple(Quantity(point, unit.dimension, unit.unit) for point in points)


@dataclass(frozen=True, slots=True)
class _Bounds:
    """The ends of a range as plain numbers; None is no end."""

    low: float | None
    high: float | None
    low_closed: bool
    high_closed: bool

    def points(self, breakpoints: Sequence[float], step: float) -> list[float]:
        """Return the ends, the breakpoints inside, and a point between each two, rising.

        Where an end is missing, a point beyond all breakpoints stands for it, further by `step` or by a half. A
        breakpoint that differs from an end only by what converting units adds is that end, as -20 F is of "over -20 F".
        """
        known = [end for end in (self.low, self.high) if end is not None]
        outer = [point for point in breakpoints if math.isfinite(point)] + known
        low = self.low if self.low is not None else _beyond(min(outer), -step, 0.5)
        high = self.high if self.high is not None else _beyond(max(outer), step, 1.5)
        marks = sorted({low, high, *(point for point in breakpoints if compare(low, point) < 0 < compare(high, point))})
        between = [(first + second) / 2 for first, second in pairwise(marks)]
        return [point for point in sorted({*marks, *between}) if self._holds(point)]

    def whole_numbers(self, breakpoints: Sequence[float]) -> list[float]:
        """Return the whole numbers at the ends, and at and around the breakpoints, that lie in the range, rising."""
        around = [number for number in (self.low, self.high, *breakpoints) if number is not None]
        near = {float(math.floor(number) + shift) for number in around for shift in (-1, 0, 1, 2)}
        return [number for number in sorted(near) if number >= 0 and self._holds(number)]

    def _holds(self, point: float) -> bool:
        """Whether a point lies in the range."""
        above = self.low is None or point > self.low or (self.low_closed and point == self.low)
        return above and (self.high is None or point < self.high or (self.high_closed and point == self.high))


def _beyond(point: float, step: float, factor: float) -> float:
    """Return a point beyond another one: by a step where one is given, otherwise by a factor."""
    if step:
        return point + step
    return point * factor if point else (0.0 if factor < 1 else 1.0)
