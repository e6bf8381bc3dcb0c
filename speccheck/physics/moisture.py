"""Moisture in the insulation of cold pipe: how much water vapor it takes up, what it conducts when wet, how far
vapor spreads from a breach.

Lengths in m, temperatures in K, vapor pressures in Pa, permeabilities in kg/(s m Pa), permeances in kg/(s m² Pa). The
method is that of EN 14114 and of Glaser (EN ISO 13788), both from memory: steady diffusion, the pipe itself lets no
vapor through, and where the vapor pressure would exceed saturation the water stays and the rest is held at
saturation. Left out are the latent heat, water that runs or wicks, what a wet layer no longer hinders, and air that
blows through open joints; all but the last are small until the insulation is far beyond use.
"""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import NDArray

from speccheck.physics.numerics import Array, Numbers, as_array, find_roots
from speccheck.physics.psychrometrics import TRIPLE_POINT, saturation_pressure, saturation_slope
from speccheck.physics.published import number, table
from speccheck.physics.systems import cylinder_resistance, surface_resistance

YEAR = 365 * 86400.0
"""Seconds in a year, without leap days."""

WATER_DENSITY = 1000.0
"""kg/m³."""

OPEN_PERMEANCE = 2.5e-8
"""Permeance (kg/(s m² Pa)) of what joints and punctures leave open: that of the still air before it, 7e-9 times a
convective coefficient of 3.5 W/(m² K) by the Lewis relation (from memory of EN 15026)."""

LEAST_COEFFICIENT = 5.0
"""Surface coefficient (W/(m² K)) taken for the outer face: low, so that no layer is taken to be warmer than it is."""


def sheet_with_openings(permeance: Numbers, open_share: Numbers) -> Array:
    """Return the permeance of a sheet of which a share is open at joints and punctures: shares side by side.

    Vapor is taken to spread freely behind the sheet, which is the wetter limit.
    """
    share = as_array(open_share)
    return (1 - share) * as_array(permeance) + share * OPEN_PERMEANCE


def vapor_gain(
    pipe_diameter: Numbers,
    outside_diameter: Numbers,
    permeability: Numbers,
    sheet_permeance: Numbers,
    inside_temperature: Numbers,
    air_temperature: Numbers,
    air_vapor_pressure: Numbers,
    conductivity: Numbers,
) -> Array:
    """Return the water (kg/s for each metre of pipe) that stays in the insulation; below zero where it dries.

    `sheet_permeance` is that of facing, retarder and jacket together on the outer face, infinite for none. Vapor comes
    in as fast as the steepest straight line from the air to the saturation curve in the insulation, along the vapor
    resistance: the tangent of Glaser's construction, or the chord to the cold pipe. It leaves from the pipe, the
    longest way out. At the outer face the vapor is at most saturated: what condenses there drips off.
    """
    pipe, outside = as_array(pipe_diameter), as_array(outside_diameter)
    inside, air = as_array(inside_temperature), as_array(air_temperature)
    layer = cylinder_resistance(pipe, outside, permeability)
    with np.errstate(divide="ignore", invalid="ignore"):
        whole = layer + 1 / (np.pi * outside * as_array(sheet_permeance))
        warmth = cylinder_resistance(pipe, outside, conductivity)
        out = surface_resistance(LEAST_COEFFICIENT, np.pi * outside)
        rise = (air - inside) * warmth / (warmth + out)
        vapor = np.minimum(as_array(air_vapor_pressure), saturation_pressure(inside + rise))
        chord = (vapor - saturation_pressure(inside)) / whole
        return np.where((rise > 0) & (chord > 0), _steepest(inside, rise, vapor, layer, whole), chord)


def _steepest(inside: Array, rise: Array, vapor: Array, layer: Array, whole: Array) -> Array:
    """Return the greatest slope from the vapor outside to saturation in the layer, on either side of freezing.

    Saturation is convex along the resistance but for a kink at the triple point, so each side has one greatest slope.
    """

    def warmed(place: Array) -> Array:
        return inside + rise * place / layer

    def excess(place: Array) -> Array:
        left = whole - place
        return vapor - saturation_pressure(warmed(place)) - saturation_slope(warmed(place)) * rise / layer * left

    inside, rise, vapor, layer, whole = np.broadcast_arrays(inside, rise, vapor, layer, whole)
    freezing = np.clip((TRIPLE_POINT - inside) / rise, 0.0, 1.0) * layer
    steepest = np.full(layer.shape, -np.inf)
    just_above = freezing + 1e-12 * layer  # far enough for the rounding of temperatures
    for low, high in ((np.zeros(layer.shape), freezing), (just_above, layer)):
        warm_enough = low <= layer
        high = np.maximum(low, high)
        found = find_roots(excess, low, high).value
        place = np.where(excess(low) <= 0, low, np.where(excess(high) >= 0, high, found))
        left = whole - place
        straight = (vapor - saturation_pressure(warmed(place))) / left
        limit = saturation_slope(warmed(place)) * rise / layer
        slope = np.where(left > 1e-9 * whole, straight, limit)
        steepest = np.fmax(steepest, np.where(warm_enough, slope, -np.inf))
    return np.where(np.isfinite(steepest), steepest, np.nan)


def share_of_volume(mass: Numbers, pipe_diameter: Numbers, outside_diameter: Numbers) -> Array:
    """Return what share of the insulation's volume a mass of water (kg for each metre of pipe) fills."""
    volume = np.pi / 4 * (as_array(outside_diameter) ** 2 - as_array(pipe_diameter) ** 2)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(volume > 0, as_array(mass) / (WATER_DENSITY * volume), np.nan)


def water_after(gains: Array, years: Numbers) -> Array:
    """Return the water (in the unit of `gains`) left after whole years and the part of one that follows.

    `gains` has what each part of a year brings along its last axis, below zero where it dries; nothing dries that is
    not there. Each year goes as the one before, so that what has settled after the second one repeats itself.
    """
    years = as_array(years)
    parts = gains.shape[-1]
    whole = np.floor(years)
    first = _through(gains, np.zeros(gains.shape[:-1]))
    second = _through(gains, first)
    start = np.where(whole >= 1, first + np.maximum(whole - 1, 0) * (second - first), 0.0)
    stored, rest = start, years - whole
    for part in range(parts):
        share = np.clip(rest * parts - part, 0.0, 1.0)
        stored = np.maximum(stored + share * gains[..., part], 0.0)
    return np.where(np.isnan(years) | (years < 0), np.nan, stored)


def _through(gains: Array, stored: Array) -> Array:
    """Return what is stored at the end of a year that begins with `stored`."""
    for part in range(gains.shape[-1]):
        stored = np.maximum(stored + gains[..., part], 0.0)
    return stored


@cache
def _conversion() -> dict[str, tuple[float, float]]:
    """Return the moisture conversion coefficient of each insulation, and the greatest share that it holds for."""
    rows = table("moisture_conversion").rows
    return {row["insulation"]: (number(row["coefficient"]), number(row["greatest_share"])) for row in rows}


def conversion_coefficient(insulation: NDArray[np.str_]) -> tuple[Array, Array]:
    """Return the moisture conversion coefficient of each insulation and the greatest share of water that it holds for.

    ISO 10456, Table 4 (from memory); NaN where none is published here.
    """
    words, places = np.unique(np.asarray(insulation), return_inverse=True)
    found = np.array([_conversion().get(str(word), (np.nan, np.nan)) for word in words])
    coefficient, greatest = found[places.reshape(np.shape(insulation))].T
    return coefficient, greatest


def wet_conductivity(conductivity: Numbers, share: Numbers, coefficient: Numbers) -> Array:
    """Return what insulation conducts with a share of its volume of water: λ·exp(f·ψ), ISO 10456 (from memory)."""
    return as_array(conductivity) * np.exp(as_array(coefficient) * as_array(share))


SPREAD_STEPS = 400
"""Steps through the layer in which the spread of vapor is worked out; halving them changes it by less than 1e-6."""


def vapor_spread(pipe_diameter: Numbers, outside_diameter: Numbers) -> Array:
    """Return the length (m) along the pipe in which the vapor from a breach falls to 1/e, by diffusion alone.

    In an even layer under a tight retarder on a pipe that takes up all vapor, the slowest part of the vapor falls as
    exp(-λz), with λ the least root of J0(λr1)·Y1(λr2) = Y0(λr1)·J1(λr2); on a flat surface 1/λ = 2t/π. Water that runs
    between pipe and insulation goes farther: only a vapor stop holds it.
    """
    pipe, outside = np.broadcast_arrays(as_array(pipe_diameter) / 2, as_array(outside_diameter) / 2)
    thickness = outside - pipe

    def slope_outside(decay: Array) -> Array:
        """Return dR/dr at the outer face of the solution that is zero at the pipe; `decay` is λ times thickness."""
        span = np.log(outside / pipe) / SPREAD_STEPS
        value, slope, radius = np.zeros(decay.shape), np.ones(decay.shape), pipe
        middle = np.exp(span / 2)
        for _ in range(SPREAD_STEPS):  # d²R/dx² = -(λr)²·R with x = ln r, by Runge and Kutta
            pulls = [-((decay / thickness * at) ** 2) for at in (radius, radius * middle, radius * middle**2)]
            k1, l1 = slope, pulls[0] * value
            k2, l2 = slope + span / 2 * l1, pulls[1] * (value + span / 2 * k1)
            k3, l3 = slope + span / 2 * l2, pulls[1] * (value + span / 2 * k2)
            k4, l4 = slope + span * l3, pulls[2] * (value + span * k3)
            value = value + span / 6 * (k1 + 2 * k2 + 2 * k3 + k4)
            slope = slope + span / 6 * (l1 + 2 * l2 + 2 * l3 + l4)
            radius = radius * middle**2
        return slope

    with np.errstate(divide="ignore", invalid="ignore"):
        found = find_roots(slope_outside, np.full(thickness.shape, 1e-3), np.full(thickness.shape, np.pi / 2 + 1e-9))
        return np.where(thickness > 0, thickness / found.value, np.nan)
