"""What a heat flow does to the fluid along a run of pipe or duct."""

from __future__ import annotations

from speccheck.physics.numerics import Array, Numbers, as_array

AIR_DENSITY = 1.20
"""kg/m³, standard air."""

AIR_HEAT = 1006.0
"""Specific heat of air, J/(kg K)."""


def temperature_drop(
    heat_flow: Numbers,
    length: Numbers,
    volume_flow: Numbers,
    density: Numbers = AIR_DENSITY,
    specific_heat: Numbers = AIR_HEAT,
) -> Array:
    """Return how much (K) a fluid cools along a run: q'·L/(V·ρ·c), for a heat flow (W/m) that hardly changes.

    `volume_flow` in m³/s; air unless density and specific heat are given. Source: 2021 ASHRAE Handbook - Fundamentals,
    chapter 23, duct examples.
    """
    capacity = as_array(volume_flow) * as_array(density) * as_array(specific_heat)
    return as_array(heat_flow) * as_array(length) / capacity
