"""Nominal metric sizes that stand for their inch sizes, on columns of lengths with their units."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from speccheck.engine.columns.column import INCHES, MILLIMETRES, OTHER_UNIT, Numbers
from speccheck.engine.comparing import NOMINAL_INCHES
from speccheck.language.values import Single
from speccheck.quantities import Quantity, convert

UNIT_CODES = {"mm": MILLIMETRES, "in": INCHES}

_STAND_INS = np.full(max(NOMINAL_INCHES) + 1, np.nan)
for _millimetres, _inches in NOMINAL_INCHES.items():
    _STAND_INS[_millimetres] = convert(float(_inches), "in", "m")

# How near a length must be to a whole number of millimetres to be that nominal size (as the judge has it).
_WHOLE = 1e-9


def unit_code(value: Single | None) -> int:
    """Return how the unit of a value is kept in a column."""
    return UNIT_CODES.get(value.unit, OTHER_UNIT) if isinstance(value, Quantity) else OTHER_UNIT


def standing_in(values: Numbers, units: NDArray[np.int8], beside: NDArray[np.int8]) -> Numbers:
    """Return lengths as they are compared with others: a nominal metric one, held against inches, in its inches.

    `units` are those of the lengths, `beside` those of what they are compared with.
    """
    millimetres = values / 0.001
    nearest = np.rint(millimetres)
    near = np.abs(millimetres - nearest) <= _WHOLE * np.maximum(np.abs(millimetres), np.abs(nearest))
    listed = near & (nearest >= 0) & (nearest < len(_STAND_INS)) & (units == MILLIMETRES) & (beside == INCHES)
    stand_ins = _STAND_INS[np.where(listed, nearest, 0).astype(np.intp)]
    return np.where(listed & ~np.isnan(stand_ins), stand_ins, values)
