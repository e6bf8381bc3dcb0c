"""Water vapor through layers, and the spacing that a count implies.

Permeability in kg/(s m Pa), permeance in kg/(s m² Pa). 1 perm is 57.2 ng/(s m² Pa), 1 perm inch is 1.453 ng/(s m Pa).
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from speccheck.physics.numerics import Array, Numbers, as_array

NANOGRAM = 1e-12
"""Kilograms in a nanogram."""

PERM = 57.2 * NANOGRAM
PERM_INCH = 1.453 * NANOGRAM

Ends = Literal["between the ends", "at one end", "at both ends"]
"""Where the counted things stand in a run: all between its ends, or one at one end, or one at each end."""

ENDS: tuple[Ends, ...] = ("between the ends", "at one end", "at both ends")

_GAPS: dict[Ends, int] = {"between the ends": 1, "at one end": 0, "at both ends": -1}


def layer_permeance(permeability: Numbers, thickness: Numbers) -> Array:
    """Return the permeance (kg/(s m² Pa)) of a flat layer: permeability over thickness; NaN at no thickness."""
    thickness = as_array(thickness)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(thickness > 0, as_array(permeability) / thickness, np.nan)


def pipe_layer_permeance(permeability: Numbers, inner_diameter: Numbers, outer_diameter: Numbers) -> Array:
    """Return the permeance (kg/(s m² Pa)) of a cylindrical layer by its outside area: permeability over r2·ln(r2/r1).

    Diameters in m; NaN where the layer has no thickness. By integrating Fick's law over the radius.
    """
    inner, outer = as_array(inner_diameter), as_array(outer_diameter)
    with np.errstate(divide="ignore", invalid="ignore"):
        path = outer / 2 * np.log(outer / inner)
        return np.where(path > 0, as_array(permeability) / path, np.nan)


def permeance_in_series(*permeances: Numbers) -> Array:
    """Return the permeance (kg/(s m² Pa)) of layers one behind the other: 1/Σ(1/W). One tight layer makes all tight.

    ASHRAE Handbook - Fundamentals, chapter 25, vapor resistances in series (from memory).
    """
    with np.errstate(divide="ignore"):
        resistances = [1 / as_array(each) for each in permeances]
        return 1 / sum(resistances, start=np.zeros(()))


def vapor_flux(permeance: Numbers, warm_side: Numbers, cold_side: Numbers) -> Array:
    """Return the vapor (kg/(s m²)) that passes between two vapor pressures (Pa)."""
    return as_array(permeance) * (as_array(warm_side) - as_array(cold_side))


def implied_spacing(length: Numbers, count: Numbers, ends: Ends) -> Array:
    """Return the even spacing (m) that a count of vapor stops, fasteners or bands in a run implies.

    The ends must be said, for they change the answer: 3 in 12 m are 3 m apart between the ends, 4 m with one at one
    end, 6 m with one at each end. NaN where the count makes no gap.
    """
    gaps = as_array(count) + _GAPS[ends]
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where((gaps > 0) & (as_array(count) >= 0), as_array(length) / gaps, np.nan)


def least_count(length: Numbers, greatest_spacing: Numbers, ends: Ends) -> Array:
    """Return the least count whose even spacing in a run is at most the greatest allowed; NaN for no spacing."""
    spacing = as_array(greatest_spacing)
    with np.errstate(divide="ignore", invalid="ignore"):
        gaps = np.maximum(np.ceil(as_array(length) / spacing - 1e-9), 1)
        return np.where(spacing > 0, np.maximum(gaps - _GAPS[ends], 0), np.nan)
