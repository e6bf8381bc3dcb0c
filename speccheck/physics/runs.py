"""Runs of pipe and duct: how fluid that flows cools along them, how long fluid that stands keeps its temperature.

Lengths in m, temperatures in K, heat flow per length in W/m, times in s. What is said of cooling holds for warming.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from speccheck.physics.freezing import FREEZING, FUSION_HEAT, WATER_DENSITY
from speccheck.physics.numerics import Array, Numbers, as_array
from speccheck.physics.published import table

STEPS = 4
"""Steps along a run; with eight the answer changes by less than 1e-5 of the difference to the air."""

LEAST_DIFFERENCE = 0.5
"""Least difference to the air (K) at which the loss is asked for; nearer to the air it goes on in proportion."""

AIR_HEAT = 1006.0
"""Specific heat of air, J/(kg K), as the handbook's examples of ducts take it."""


def outlet_temperature(
    loss: Callable[[Array], Array], inlet: Numbers, air: Numbers, length: Numbers, capacity_flow: Numbers
) -> Array:
    """Return the temperature (K) of a fluid at the end of a run in air.

    `loss` gives what a metre of the run loses (W/m) at a fluid temperature, `capacity_flow` is mass flow times specific
    heat (W/K). Solves ṁ·c·dT/dx = -q'(T) as d ln(T - ta)/dx = -U'/(ṁ·c) by Runge and Kutta in `STEPS` steps; with a
    constant U' that is the exponential of ISO 12241 and of 2021 ASHRAE Handbook - Fundamentals, chapter 23.
    """
    air, rate = as_array(air), as_array(length) / as_array(capacity_flow) / STEPS
    start = as_array(inlet) - air
    sign = np.where(start < 0, -1.0, 1.0)

    def slope(logarithm: Array) -> Array:
        difference = sign * np.fmax(np.exp(logarithm), LEAST_DIFFERENCE)
        return np.asarray(-rate * loss(air + difference) / difference)

    with np.errstate(divide="ignore", invalid="ignore"):
        logarithm = np.log(np.abs(start))
        for _ in range(STEPS):
            first = slope(logarithm)
            second = slope(logarithm + first / 2)
            third = slope(logarithm + second / 2)
            logarithm = logarithm + (first + 2 * second + 2 * third + slope(logarithm + third)) / 6
        return np.where(start == 0, air, air + sign * np.exp(logarithm))


def holding_time(resistance: Numbers, capacity: Numbers, initial: Numbers, air: Numbers, limit: Numbers) -> Array:
    """Return how long (s) standing fluid keeps on its side of a limit: C·R·ln((ti - ta)/(tl - ta)).

    `resistance` from fluid to air, m K/W; `capacity` of a metre of fluid and pipe, J/(m K). Infinite where the air
    itself keeps the limit, zero where the fluid starts beyond it. ISO 12241 (from memory); the formula of Table 6 of
    2021 ASHRAE Handbook - Fundamentals, chapter 23.
    """
    initial, air, limit = as_array(initial), as_array(air), as_array(limit)
    with np.errstate(divide="ignore", invalid="ignore"):
        left = (initial - air) / (limit - air)
        decay = np.where(left > 1, np.log(left), 0.0)
        never = ((limit - air) * (initial - air) <= 0) & (initial != air)
        found = as_array(capacity) * as_array(resistance) * np.where(never, np.inf, decay)
        return np.where(np.isnan(initial + air + limit), np.nan, found)


def time_to_ice(
    bore: Numbers,
    resistance: Numbers,
    pipe_heat: Numbers,
    water_heat: Numbers,
    initial: Numbers,
    air: Numbers,
    share: Numbers,
) -> Array:
    """Return how long (s) standing water takes to cool to 0 °C and until a share of it is ice.

    Then the heat of fusion leaves at the steady rate (0 °C - ta)/R, as ISO 12241 reckons it (from memory). `pipe_heat`
    is that of a metre of pipe wall, J/(m K), `water_heat` that of the water, J/(m³ K).
    """
    area = np.pi / 4 * as_array(bore) ** 2
    cools = holding_time(resistance, area * as_array(water_heat) + as_array(pipe_heat), initial, air, FREEZING)
    below = FREEZING - as_array(air)
    with np.errstate(divide="ignore", invalid="ignore"):
        freezes = as_array(share) * FUSION_HEAT * WATER_DENSITY * area * as_array(resistance) / below
        return np.where(below > 0, np.where(as_array(initial) <= FREEZING, 0.0, cools) + freezes, np.inf)


def water_heat_capacity(temperature: Numbers) -> Array:
    """Return the heat capacity of water (J/(m³ K)), 0 °C to 180 °C, at 20 bar; NaN outside."""
    printed = table("water_heat")
    return np.asarray(
        np.interp(
            as_array(temperature),
            printed.column("temperature_K"),
            printed.column("heat_capacity_J_per_m3_K"),
            left=np.nan,
            right=np.nan,
        )
    )


def air_heat_capacity(temperature: Numbers, pressure: Numbers) -> Array:
    """Return the heat capacity of air (J/(m³ K)) at a pressure (Pa): that of an ideal gas of 287.05 J/(kg K)."""
    return AIR_HEAT * as_array(pressure) / (287.05 * as_array(temperature))
