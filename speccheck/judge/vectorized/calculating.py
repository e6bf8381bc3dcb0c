"""Calculating: arithmetic on columns, with the same results as on single values, to the last digit."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping

import numpy as np

from speccheck.judge.operations import ROUNDING, TOO_LARGE
from speccheck.judge.vectorized.column import NOT_GIVEN, Integers, Numbers
from speccheck.language.core import Operation


def _workable(values: Numbers) -> Numbers:
    """Return values with NaN for those that are too large to be worked with."""
    return np.where(np.abs(values) < TOO_LARGE, values, np.nan)


def _sum(total: Numbers, left: Numbers, right: Numbers) -> Numbers:
    """Return a sum, 0 where it is nothing but a rounding of what went into it."""
    negligible = np.abs(total) <= ROUNDING * np.maximum(np.abs(left), np.abs(right))
    return _workable(np.where(negligible & np.isfinite(total), 0.0, total))


def _divide(left: Numbers, right: Numbers) -> Numbers:
    return _workable(np.where(right == 0, np.nan, left / right))


CALCULATIONS: Mapping[Operation, Callable[[Numbers, Numbers], Numbers]] = {
    Operation.PLUS: lambda left, right: _sum(left + right, left, right),
    Operation.MINUS: lambda left, right: _sum(left - right, left, right),
    Operation.TIMES: lambda left, right: _workable(left * right),
    Operation.DIVIDED_BY: _divide,
    Operation.LARGER: np.maximum,
    Operation.SMALLER: np.minimum,
}
"""Each operation on two columns of numbers; NaN where one of them, or the result, is not known."""


def larger_size(left: Integers, right: Integers) -> Integers:
    """Return the codes of the larger sizes."""
    return np.where((left < 0) | (right < 0), NOT_GIVEN, np.maximum(left, right))


def smaller_size(left: Integers, right: Integers) -> Integers:
    """Return the codes of the smaller sizes; -1, not given, is the smallest code."""
    return np.minimum(left, right)


def adjusted(thickness: Numbers, stated: Numbers, proposed: Numbers, diameter: Numbers) -> Numbers:
    """Return thicknesses adjusted from the stated conductivity to the proposed one, NaN where that cannot be done.

    T = r [(1 + t/r)^(K/k) - 1], see `speccheck.judge.operations.adjust`. The logarithm and the exponential are
    those of the judge, number by number: NumPy's may differ from them in the last digit.
    """
    radius = diameter / 2
    ratio = np.where(stated == 0, np.nan, proposed / stated)
    sound = (radius > 0) & np.isfinite(radius) & (ratio > 0) & np.isfinite(ratio) & ~np.isnan(thickness)
    found = np.full(len(radius), np.nan)
    rows = np.flatnonzero(sound)
    columns = (thickness[rows].tolist(), radius[rows].tolist(), ratio[rows].tolist())
    found[rows] = [_adjusted_one(*values) for values in zip(*columns, strict=True)]
    return _workable(found)


def _adjusted_one(thickness: float, radius: float, ratio: float) -> float:
    try:
        return radius * math.expm1(ratio * math.log1p(thickness / radius))
    except (OverflowError, ValueError):
        return math.inf
