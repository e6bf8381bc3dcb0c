"""From declared to design conductivity: factors for temperature, moisture, aging and joints, each a number of its own.

λ = λD · FT · Fm · Fa · Fj, FT = exp(fT·(T2 - T1)), Fm = exp(fψ·ψ): ISO 10456:2007 and, for building equipment, ISO
23993 (both from memory).
"""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import NDArray

from speccheck.physics.numerics import Array, Flags, Numbers, as_array
from speccheck.physics.psychrometrics import ZERO_CELSIUS
from speccheck.physics.published import number, table

LEAST_MEAN, GREATEST_MEAN = ZERO_CELSIUS, ZERO_CELSIUS + 30.0
"""Mean temperatures, K, between which the printed coefficients hold (from memory)."""


@cache
def _printed() -> dict[str, float]:
    """Return the greatest coefficient of each insulation of the table."""
    return {row["insulation"]: number(row["greatest"]) for row in table("temperature_conversion").rows}


def temperature_coefficient(insulation: NDArray[np.str_], warmer: Flags) -> Array:
    """Return the temperature conversion coefficient (1/K) of each line: the greatest of its range where it is warmer.

    Where it is no warmer than declared nothing is credited, 0; NaN where none is published here. ISO 10456:2007, annex
    A (from memory).
    """
    words, places = np.unique(np.asarray(insulation), return_inverse=True)
    greatest = np.array([_printed().get(str(word), np.nan) for word in words])[places.reshape(np.shape(insulation))]
    return as_array(np.where(warmer, greatest, 0.0))


def temperature_factor(coefficient: Numbers, declared: Numbers, design: Numbers) -> Array:
    """Return FT, a ratio, for a coefficient (1/K) between two mean temperatures (K): ISO 10456 (from memory)."""
    return as_array(np.exp(as_array(coefficient) * (as_array(design) - as_array(declared))))


def coefficient_holds(declared: Numbers, design: Numbers) -> Flags:
    """Return where both mean temperatures (K) lie where the printed coefficients hold."""
    low, high = np.fmin(as_array(declared), as_array(design)), np.fmax(as_array(declared), as_array(design))
    return np.asarray((low >= LEAST_MEAN - 1e-9) & (high <= GREATEST_MEAN + 1e-9))
