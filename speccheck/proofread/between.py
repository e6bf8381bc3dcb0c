"""Between: numbers that lie between two others and that a person would write, such as 140.5 between 140 and 141."""

from __future__ import annotations

import math
from collections.abc import Iterator

# A number that stands for all between two ends keeps this part of their distance away from either.
MARGIN = 0.05
# Temperatures have no zero to stop at: what stands for all beyond an end lies so many degrees beyond it.
BEYOND_DEGREES = 10.0
# What stands for all numbers where no end is known.
ANYWHERE = (1.0, 70.0, 0.5)
_INCHES = ("in", "ft")
_DENOMINATORS = (1, 2, 4, 8, 16, 32, 64)


def numbers_between(low: float | None, high: float | None, unit: str = "", *, signed: bool = False) -> Iterator[float]:
    """Yield numbers between two others, the shortest to write first; None is no end.

    Inches and feet are cut in halves, quarters and so on. `signed` numbers may lie below zero.
    """
    if low is None and high is None:
        yield from ANYWHERE
        return
    low, high = _closed(low, high, signed)
    middle, margin = (low + high) / 2, (high - low) * MARGIN
    fractions = (round(middle * parts) / parts for parts in _DENOMINATORS) if unit in _INCHES else ()
    decimals = (round(middle, digits) for digits in range(-4, 12))
    for number in (*fractions, *decimals, middle):
        if low + margin <= number <= high - margin:
            yield float(number)


def whole_numbers_between(low: float | None, high: float | None) -> Iterator[float]:
    """Yield a whole number of 0 or more between two others, if there is one; None is no end."""
    first = 0 if low is None else max(math.floor(low) + 1, 0)
    last = first if high is None else math.ceil(high) - 1
    if first <= last:
        yield float((first + last) // 2)


def _closed(low: float | None, high: float | None, signed: bool) -> tuple[float, float]:
    """Return two ends, with one put in where there is none."""
    if low is None:
        assert high is not None
        return (high - 2 * BEYOND_DEGREES if signed or high <= 0 else 0.0), high
    if high is None:
        return low, (low + 2 * BEYOND_DEGREES if signed or low <= 0 else 2 * low)
    return low, high
