"""How long still water in an insulated pipe takes to cool and to freeze, and the thickness that gives it longer.

Insulation delays freezing; it does not prevent it. Temperatures in K, lengths in m, times in s.
"""

from __future__ import annotations

import numpy as np

from speccheck.physics.numerics import Array, Numbers, as_array, find_roots
from speccheck.physics.systems import cylinder_resistance, surface_resistance

FREEZING = 273.15
WATER_DENSITY = 1000.0
"""kg/m³, as the handbook table takes it."""

WATER_HEAT = 4200.0
"""Specific heat of water, J/(kg K), as the handbook table takes it."""

FUSION_HEAT = 334e3
"""Heat of fusion of ice, J/kg (from memory of ISO 12241)."""

GREATEST_THICKNESS = 1.0


def resistance_to_air(
    pipe_diameter: Numbers, insulation_diameter: Numbers, conductivity: Numbers, coefficient: Numbers = np.inf
) -> Array:
    """Return the resistance (m K/W) from pipe to air; without a surface coefficient, of the insulation alone."""
    layer = cylinder_resistance(pipe_diameter, insulation_diameter, conductivity)
    return layer + surface_resistance(coefficient, np.pi * as_array(insulation_diameter))


def cooling_time(
    bore: Numbers,
    resistance: Numbers,
    initial: Numbers,
    air: Numbers,
    final: Numbers = FREEZING,
    pipe_heat: Numbers = 0.0,
) -> Array:
    """Return how long (s) still water takes to cool from `initial` to `final`: C·R·ln((ti - ta)/(tf - ta)).

    `resistance` is that of a metre from water to air; `pipe_heat` is the heat capacity of a metre of pipe, J/(m K).
    Infinite where the air is not colder than `final`, zero where the water starts no warmer. Source: 2021 ASHRAE
    Handbook - Fundamentals, chapter 23, Table 6 (actual insulation diameters, no surface resistance).
    """
    initial, air, final = as_array(initial), as_array(air), as_array(final)
    capacity = WATER_DENSITY * WATER_HEAT * np.pi / 4 * as_array(bore) ** 2 + as_array(pipe_heat)
    with np.errstate(divide="ignore", invalid="ignore"):
        decay = np.log((initial - air) / (final - air))
        decay = np.where(final > air, np.where(initial > final, decay, 0.0), np.where(initial > final, np.inf, 0.0))
        unknown = np.isnan(initial) | np.isnan(air) | np.isnan(final)
        return np.where(unknown, np.nan, capacity * as_array(resistance) * decay)


def freezing_time(bore: Numbers, resistance: Numbers, air: Numbers, share: Numbers = 1.0) -> Array:
    """Return how long (s) a share of the water at 0 °C takes to freeze; infinite where the air is not below 0 °C.

    The heat of fusion leaves at the steady rate (0 °C - ta)/R, as ISO 12241 reckons it (from memory).
    """
    heat = as_array(share) * FUSION_HEAT * WATER_DENSITY * np.pi / 4 * as_array(bore) ** 2
    below = FREEZING - as_array(air)
    with np.errstate(divide="ignore"):
        return np.where(below <= 0, np.inf, heat * as_array(resistance) / below)


def least_thickness_against_freezing(
    time: Numbers,
    bore: Numbers,
    pipe_diameter: Numbers,
    conductivity: Numbers,
    initial: Numbers,
    air: Numbers,
    coefficient: Numbers = np.inf,
    final: Numbers = FREEZING,
) -> Array:
    """Return the minimum thickness (m) with which still water takes at least `time` (s) to cool to `final`.

    Zero where none is needed, NaN where 1 m is not enough or an input is missing.
    """
    time, pipe = as_array(time), as_array(pipe_diameter)

    def spare(thickness: Array) -> Array:
        resistance = resistance_to_air(pipe, pipe + 2 * thickness, conductivity, coefficient)
        return cooling_time(bore, resistance, initial, air, final) - time

    extent = np.broadcast_shapes(*map(np.shape, (time, bore, pipe, conductivity, initial, air, coefficient, final)))
    low, high = np.zeros(extent), np.full(extent, GREATEST_THICKNESS)
    found = find_roots(spare, low, high)
    with np.errstate(invalid="ignore"):
        return np.where(spare(low) >= 0, 0.0, np.where(spare(high) >= 0, found.value, np.nan))
