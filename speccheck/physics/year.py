"""A year of a line: heat, energy, cost and carbon from its heat flow, and the thickness that costs least over its life.

Heat flow in W, hours of a year in h, energies in kWh. Prices, efficiencies, hours and factors come from who asks; none
is known here.
"""

from __future__ import annotations

import numpy as np

from speccheck.physics.numerics import Array, Numbers, as_array

WATTS_OF_A_KILOWATT = 1000.0


def yearly_heat(flow: Numbers, hours: Numbers) -> Array:
    """Return the heat (kWh) that a flow (W) comes to in the hours of a year that it lasts."""
    return as_array(flow) * as_array(hours) / WATTS_OF_A_KILOWATT


def yearly_energy(heat: Numbers, efficiency: Numbers) -> Array:
    """Return the fuel or electricity (kWh) for a heat in kWh, or for the cold that makes up for it.

    `efficiency` is a ratio; the answer is NaN where it is 0 or less.
    """
    efficiency = as_array(efficiency)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(efficiency > 0, as_array(heat) / efficiency, np.nan)


def life_cost(
    yearly: Numbers, years: Numbers, volume: Numbers, area: Numbers, price: Numbers, jacket: Numbers
) -> Array:
    """Return what insulation costs over its life: its yearly cost by the years, its volume (m3) and its jacket (m2).

    All costs are plain numbers in the currency of the project, prices those of a cubic and a square metre.

    Without interest: a project that reckons with it states the years that stand for it (present worth factor).
    """
    return as_array(yearly) * as_array(years) + as_array(volume) * as_array(price) + as_array(area) * as_array(jacket)


def cheapest(costs: Array) -> Array:
    """Return the index of the least cost along the last axis, -1 where one of them is not known."""
    known = np.isfinite(costs).all(axis=-1)
    return np.where(known, np.argmin(np.where(np.isfinite(costs), costs, np.inf), axis=-1), -1)
