"""Thickness of another material for the same performance.

Any one unit of length will do, as long as it is the same throughout; conductivities likewise.
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from speccheck.physics.numerics import Array, Numbers, as_array

RangeEnd = Literal["upper", "lower"]
"""Which end of the standard's conductivity range stands in the formula: upper in ASHRAE 90.1 and ICC, lower in
California's Title 24."""


def equivalent_thickness(
    outside_radius: Numbers, thickness: Numbers, conductivity: Numbers, standard_conductivity: Numbers
) -> Array:
    """Return T = r·[(1 + t/r)^(K/k) - 1], the thickness at conductivity K that equals t at conductivity k.

    `outside_radius` is the pipe's actual outside radius, not its diameter and not its nominal size; infinite for a
    flat surface, where T = t·K/k. NaN for what is not physical. Source: ASHRAE 90.1, note to Table 6.8.3-1, and the
    energy codes after it.
    """
    radius, thickness = as_array(outside_radius), as_array(thickness)
    ratio = as_array(conductivity) / as_array(standard_conductivity)
    sound = (radius > 0) & (thickness >= 0) & (ratio > 0) & np.isfinite(ratio)
    with np.errstate(all="ignore"):
        curved = radius * np.expm1(ratio * np.log1p(thickness / radius))
        return np.where(sound, np.where(np.isinf(radius), thickness * ratio, curved), np.nan)


def required_thickness(
    outside_radius: Numbers,
    thickness: Numbers,
    conductivity: Numbers,
    least: Numbers,
    greatest: Numbers,
    end: RangeEnd,
) -> Array:
    """Return the thickness that a code's table asks for at a conductivity inside or outside its range.

    Inside the range (ends included) the table's thickness stands. Outside, the formula holds with the upper or the
    lower end of the range, as the standard at hand says. It is a trap to take the other one: for K 0.46 on ¾ in.
    copper, 0.29 gives 4.2 in. and 0.25 gives 6.3 in.
    """
    given, low, high = as_array(conductivity), as_array(least), as_array(greatest)
    inside = (given >= low * (1 - 1e-9)) & (given <= high * (1 + 1e-9))
    outside = equivalent_thickness(outside_radius, thickness, given, high if end == "upper" else low)
    return np.where(inside & np.isfinite(outside), as_array(thickness), outside)
