"""Thresholds: the exact numbers between which values are equal within a tolerance, nominal metric sizes included."""

from __future__ import annotations

import math
import struct
from collections.abc import Callable
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from speccheck.judge.operations import METRIC_LENGTHS, NOMINAL_INCHES, SAME_LENGTH
from speccheck.judge.vectorized.column import INCHES, METRIC, OTHER_UNIT, Numbers
from speccheck.language.vocabulary.values import Single
from speccheck.quantities import Quantity, convert

# Up to this tolerance the numbers equal to another one are all those between two thresholds, to the last digit.
WIDEST = 0.1

_TOP = 0x7FF0000000000000


def smallest_equal(value: float, equal: Callable[[float, float], bool]) -> float:
    """Return the smallest number that is equal to `value`, in its unit."""
    return _least(lambda number: number >= value or equal(number, value))


def greatest_equal(value: float, equal: Callable[[float, float], bool]) -> float:
    """Return the greatest number that is equal to `value`, in its unit."""
    return -_least(lambda number: -number <= value or equal(-number, value))


@lru_cache(maxsize=4096)
def smallest_within(value: float, tolerance: float) -> float:
    """Return the smallest number that is equal to `value` to a relative tolerance, a share of the greater number."""
    return smallest_equal(value, lambda first, second: math.isclose(first, second, rel_tol=tolerance))


@lru_cache(maxsize=4096)
def greatest_within(value: float, tolerance: float) -> float:
    """Return the greatest number that is equal to `value` to a relative tolerance, a share of the greater number."""
    return greatest_equal(value, lambda first, second: math.isclose(first, second, rel_tol=tolerance))


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


UNIT_CODES = {"in": INCHES} | dict.fromkeys(METRIC_LENGTHS, METRIC)

_STAND_INS = np.full(max(NOMINAL_INCHES) + 1, np.nan)
for _millimetres, _inches in NOMINAL_INCHES.items():
    _STAND_INS[_millimetres] = convert(float(_inches), "in", "m")

# How near a length must be to a whole number of millimetres to be that nominal size (as the judge has it).
_WHOLE = 1e-9


def unit_code(value: Single | None) -> int:
    """Return how the unit of a value is kept in a column."""
    return UNIT_CODES.get(value.unit, OTHER_UNIT) if isinstance(value, Quantity) else OTHER_UNIT


def standing_in(values: Numbers, units: NDArray[np.int8], others: Numbers, beside: NDArray[np.int8]) -> Numbers:
    """Return lengths as they are compared with others: a nominal metric one beside the inches it stands for in these.

    `units` are those of the lengths, `beside` those of the `others` that they are compared with.
    """
    millimetres = values / 0.001
    nearest = np.rint(millimetres)
    near = np.abs(millimetres - nearest) <= _WHOLE * np.maximum(np.abs(millimetres), np.abs(nearest))
    listed = near & (nearest >= 0) & (nearest < len(_STAND_INS)) & (units == METRIC) & (beside == INCHES)
    stand_ins = _STAND_INS[np.where(listed, nearest, 0).astype(np.intp)]
    stood_for = np.abs(stand_ins - others) <= SAME_LENGTH * np.maximum(np.abs(stand_ins), np.abs(others))
    return np.where(listed & stood_for, others, values)
