"""Properties of dry air at film temperature and pressure.

The polynomials and the volume formula are in `tables/dry_air.csv` with their source and measured error: fitted to the
published equation of state and transport formulas of dry air at 101 325 Pa. Viscosity, conductivity and specific heat
hardly depend on pressure below an atmosphere; density does, by the volume formula. Thermal expansion is the ideal
gas's 1/T, as the correlations and ASTM C680 take it; the real gas's is 0.3 % greater at room temperature.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from speccheck.physics.numerics import Array, Flags, Numbers, as_array
from speccheck.physics.psychrometrics import STANDARD_PRESSURE
from speccheck.physics.published import table

COLDEST, HOTTEST = 193.15, 1000.0
"""Range of the fit, K."""

GAS_CONSTANT = 287.04913
"""Gas constant of dry air, J/(kg K), as the equation of state takes it."""


@dataclass(frozen=True)
class Air:
    """Properties of dry air, SI: W/(m K), m²/s, m²/s, 1/K; the Prandtl number has no unit."""

    conductivity: Array
    kinematic_viscosity: Array
    thermal_diffusivity: Array
    expansion: Array
    prandtl: Array


@cache
def _constants() -> tuple[tuple[float, ...], ...]:
    """Return the constants of viscosity, conductivity, specific heat and volume, lowest power first."""
    fits = table("dry_air")
    rows = zip(*(fits.column(f"c{power}").tolist() for power in range(8)), strict=True)
    return tuple(tuple(np.trim_zeros(row, "b")) for row in rows)


def _polynomial(x: Array, constants: tuple[float, ...]) -> Array:
    """Return the polynomial by Horner's rule, in one array that is written over: this is the inner loop."""
    *rest, last = constants
    total = np.full(x.shape, last)
    for constant in reversed(rest):
        total *= x
        total += constant
    return total


def air_properties(temperature: Numbers, pressure: Numbers = STANDARD_PRESSURE) -> Air:
    """Return the properties of dry air at temperatures (K) and pressures (Pa).

    Good from 193.15 K to 1000 K; outside, the values at the nearer end come back, for a solver that passes by, and
    `in_range` says so.
    """
    temperature, pressure = as_array(temperature), as_array(pressure)
    kelvins = np.minimum(np.maximum(temperature, COLDEST), HOTTEST)
    viscosity, conductivity, heat, (b0, b1, b2) = _constants()
    x = kelvins / 500.0
    over = 300.0 / kelvins
    volume = (GAS_CONSTANT / pressure) * kelvins + (b0 - (b1 + b2 * over) * over)
    mu, k, cp = _polynomial(x, viscosity), _polynomial(x, conductivity), _polynomial(x, heat)
    return Air(k, mu * volume, k * volume / cp, 1 / kelvins, mu * cp / k)


def in_range(temperature: Numbers) -> Flags:
    """Return where a film temperature (K) lies in the range of the air properties."""
    temperature = as_array(temperature)
    return np.asarray((temperature >= COLDEST) & (temperature <= HOTTEST))


def film_temperature(surface: Numbers, air: Numbers) -> Array:
    """Return the mean of surface and air temperature (K), at which the correlations take the air's properties."""
    return 0.5 * (as_array(surface) + as_array(air))
