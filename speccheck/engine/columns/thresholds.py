"""Thresholds: the exact numbers between which a value is equal to another within a tolerance.

"At least 1-1/2 in" with a tolerance is a single comparison with the smallest number that still counts as 1-1/2 in.
That number is found by halving among all numbers that the machine has, with the very test that the judge uses.
"""

from __future__ import annotations

import math
import struct
from collections.abc import Callable

# Up to this tolerance the numbers equal to another one are all those between two thresholds, to the last digit.
WIDEST = 0.1

_TOP = 0x7FF0000000000000


def smallest_equal(value: float, equal: Callable[[float, float], bool]) -> float:
    """Return the smallest number that is equal to `value`."""
    return _least(lambda number: number >= value or equal(number, value))


def greatest_equal(value: float, equal: Callable[[float, float], bool]) -> float:
    """Return the greatest number that is equal to `value`."""
    return -_least(lambda number: -number <= value or equal(-number, value))


def within(tolerance: float) -> Callable[[float, float], bool]:
    """Return the test of equality to a relative tolerance."""
    return lambda first, second: math.isclose(first, second, rel_tol=tolerance)


def _least(holds: Callable[[float], bool]) -> float:
    """Return the least number for which a test holds that holds for all greater ones."""
    low, high = -_TOP - 1, _TOP
    while high - low > 1:
        middle = (low + high) // 2
        if holds(_number(middle)):
            high = middle
        else:
            low = middle
    return _number(high)


def _number(rank: int) -> float:
    """Return the number with a place among all numbers: 0 is zero, 1 the smallest above it, -1 the one below it."""
    magnitude: float = struct.unpack("<d", struct.pack("<q", abs(rank)))[0]
    return -magnitude if rank < 0 else magnitude
