"""Spans: ranges of plain numbers with open or closed ends, joined and taken from one another exactly.

An end is a cut between numbers: just before a value or just after it. A closed low end cuts before its value, an open
one after it, so that every span is everything from one cut to the next and no case of open and closed is left.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from speccheck.judge.operations import bare
from speccheck.quantities import TOLERANCE, Interval, NominalSize, Quantity

Cut = tuple[float, int]
_BEFORE, _AFTER = 0, 1
# Finer differences come from converting units. Relative, for SI numbers of all sizes: permeabilities are about 1e-11.
_SIGNIFICANT_DIGITS = round(-math.log10(TOLERANCE))


@dataclass(frozen=True, slots=True, order=True)
class NumberSpan:
    """All numbers from the cut `start` to the cut `end`, which lies beyond it."""

    start: Cut
    end: Cut

    def contains(self, number: float) -> bool:
        """Tell whether a number, in SI units, lies in the span."""
        return self.start <= (number, _BEFORE) and (number, _AFTER) <= self.end


EVERYTHING = NumberSpan((-math.inf, _BEFORE), (math.inf, _AFTER))


def span_of(value: Quantity | float | Interval[Quantity] | Interval[float] | Interval[NominalSize]) -> NumberSpan:
    """Return the span that a value or a range covers, in SI units."""
    if not isinstance(value, Interval):
        number = _rounded(value)
        return NumberSpan((number, _BEFORE), (number, _AFTER))
    start, end = EVERYTHING.start, EVERYTHING.end
    if value.low is not None:
        start = (_rounded(value.low), _BEFORE if value.low_closed else _AFTER)
    if value.high is not None:
        end = (_rounded(value.high), _AFTER if value.high_closed else _BEFORE)
    return NumberSpan(start, end)


def _rounded(value: Quantity | NominalSize | float) -> float:
    return float(f"{bare(value):.{_SIGNIFICANT_DIGITS}g}")


def overlap(first: NumberSpan, second: NumberSpan) -> NumberSpan | None:
    """Return what two spans share, None where they share nothing."""
    start, end = max(first.start, second.start), min(first.end, second.end)
    return NumberSpan(start, end) if start < end else None


def left_of(whole: NumberSpan, taken: Iterable[NumberSpan]) -> tuple[NumberSpan, ...]:
    """Return what is left of a span when others are taken from it, rising."""
    left: list[NumberSpan] = []
    start = whole.start
    for span in sorted(taken):
        if span.start > start:
            left += [NumberSpan(start, min(span.start, whole.end))] if start < whole.end else []
        start = max(start, span.end)
    if start < whole.end:
        left.append(NumberSpan(start, whole.end))
    return tuple(left)


def span_text(span: NumberSpan, unit: str, dimension: str) -> str:
    """Return a span in words, its ends in `unit`: "42 F", "over 44 F to 48 F", "under 40 F"."""
    (low, low_side), (high, high_side) = span.start, span.end
    if low == high:
        return str(Quantity(low, dimension, unit))
    first, last = (None if math.isinf(end) else Quantity(end, dimension, unit) for end in (low, high))
    return str(Interval(first, last, low_side == _BEFORE, high_side == _AFTER))
