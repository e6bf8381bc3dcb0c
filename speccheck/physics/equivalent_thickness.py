"""Thickness of another material for the same performance, and thickness from a fixed surface coefficient.

Any one unit of length will do, as long as it is the same throughout; conductivities likewise.
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from speccheck.physics.numerics import Array, Numbers, as_array, find_roots

RangeEnd = Literal["upper", "lower"]
"""Which end of the standard's conductivity range stands in the formula: upper in ASHRAE 90.1 and ICC, lower in
California's Title 24."""

CONDUCTIVITY_STEP = 0.01 * 0.1442279
"""0.01 Btu in/(h ft² °F) in W/(m K), the step to which California rounds."""


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


def rounded_conductivity(conductivity: Numbers) -> Array:
    """Return a conductivity (W/(m K)) at the nearest 0.01 Btu in/(h ft² °F), as California's Title 24 takes it."""
    return np.round(as_array(conductivity) / CONDUCTIVITY_STEP) * CONDUCTIVITY_STEP


def flat_thickness_for_surface(
    conductivity: Numbers, coefficient: Numbers, inside: Numbers, surface: Numbers, air: Numbers
) -> Array:
    """Return X = (k/h)·(T_in - T_s)/(T_s - T_a): the flat thickness that gives a surface temperature.

    On a pipe X is the equivalent thickness r2·ln(r2/r1). 2021 ASHRAE Handbook - Fundamentals, chapter 23,
    equation 14. NaN where the surface temperature does not lie between inside and air.
    """
    inside, surface, air = as_array(inside), as_array(surface), as_array(air)
    with np.errstate(all="ignore"):
        thickness = as_array(conductivity) / as_array(coefficient) * (inside - surface) / (surface - air)
    return np.where(np.isfinite(thickness) & (thickness >= 0), thickness, np.nan)


def pipe_thickness_of_equivalent(flat_thickness: Numbers, outside_radius: Numbers) -> Array:
    """Return t with (r + t)·ln((r + t)/r) = X: the thickness on a pipe of an equivalent (flat) thickness X.

    `outside_radius` is the pipe's outside radius: half its diameter. A published example that takes the diameter for
    the radius comes out nearly 2 mm too thick.
    """
    flat, radius = np.broadcast_arrays(as_array(flat_thickness), as_array(outside_radius))
    sound = (flat >= 0) & (radius > 0) & np.isfinite(flat)
    wanted, start = np.where(sound, flat, 0.0), np.where(sound, radius, 1.0)
    found = find_roots(lambda t: (start + t) * np.log1p(t / start) - wanted, 0.0 * wanted, wanted)
    return np.where(sound, found.value, np.nan)
