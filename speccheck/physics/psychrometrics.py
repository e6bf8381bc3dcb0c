"""Moist air: saturation pressure over water and ice, dew point, wet bulb, humidity ratio, pressure at altitude.

Temperatures in kelvins, pressures in pascals, relative humidity as a fraction from 0 to 1. Relative humidity below the
triple point is taken over ice, as the ASHRAE and BS 5422 tables do, so the dew point there is a frost point; ask for
`over="water"` for the meteorologist's dew point over supercooled water. Outside a formula's range the answer is NaN.

Formulas: ASHRAE Handbook - Fundamentals, chapter 1, Psychrometrics (Hyland and Wexler for saturation pressure).
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from speccheck.physics.numerics import Array, Numbers, as_array, find_roots

Over = Literal["ice below freezing", "water", "ice"]
"""What saturates the air: ice below the triple point and water above it, or one of them throughout."""

ZERO_CELSIUS = 273.15
TRIPLE_POINT = 273.16
STANDARD_PRESSURE = 101325.0
"""Pressure of the standard atmosphere at sea level, Pa."""

COLDEST, HOTTEST = 173.15, 473.15
"""Range of the saturation-pressure formulas, K."""

MASS_RATIO = 0.621945
"""Molar mass of water over that of dry air."""

_ICE = (-5.6745359e3, 6.3925247, -9.677843e-3, 6.2215701e-7, 2.0747825e-9, -9.484024e-13, 4.1635019)
_WATER = (-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 0.0, 6.5459673)


def _log_pressure(temperature: Array, constants: tuple[float, ...]) -> Array:
    """Return the logarithm of the saturation pressure by one of the two formulas."""
    inverse, *powers, logarithm = constants
    total = inverse / temperature + logarithm * np.log(temperature)
    return total + np.polynomial.polynomial.polyval(temperature, powers)


def _log_saturation(temperature: Array, over: Over) -> Array:
    """Return the logarithm of the saturation pressure over ice, water, or whichever is stable."""
    if over == "water":
        return _log_pressure(temperature, _WATER)
    if over == "ice":
        return _log_pressure(temperature, _ICE)
    ice = temperature <= TRIPLE_POINT
    return np.where(ice, _log_pressure(temperature, _ICE), _log_pressure(temperature, _WATER))


def saturation_pressure(temperature: Numbers, over: Over = "ice below freezing") -> Array:
    """Return the saturation pressure (Pa) of water vapor, 173.15 K to 473.15 K (ice to the triple point only)."""
    temperature = as_array(temperature)
    highest = TRIPLE_POINT if over == "ice" else HOTTEST
    inside = (temperature >= COLDEST) & (temperature <= highest)
    safe = np.where(inside, temperature, TRIPLE_POINT)
    return np.where(inside, np.exp(_log_saturation(safe, over)), np.nan)


def saturation_slope(temperature: Numbers) -> Array:
    """Return by how much the saturation pressure rises with temperature (Pa/K), over ice below the triple point.

    The derivative of the same formulas; it steps down at the triple point, where ice gives way to water.
    """
    temperature = as_array(temperature)
    ice = temperature <= TRIPLE_POINT
    slope = np.where(ice, _log_slope(temperature, _ICE), _log_slope(temperature, _WATER))
    return slope * saturation_pressure(temperature)


def _log_slope(temperature: Array, constants: tuple[float, ...]) -> Array:
    """Return the derivative of the logarithm of the saturation pressure by one of the two formulas."""
    inverse, *powers, logarithm = constants
    rising = np.polynomial.polynomial.polyval(temperature, np.polynomial.polynomial.polyder(powers))
    return np.asarray(rising - inverse / temperature**2 + logarithm / temperature)


def vapor_pressure(temperature: Numbers, relative_humidity: Numbers, over: Over = "ice below freezing") -> Array:
    """Return the partial pressure (Pa) of water vapor in air; NaN unless the humidity lies in 0 to 1."""
    humidity = as_array(relative_humidity)
    humidity = np.where((humidity >= 0) & (humidity <= 1), humidity, np.nan)
    return humidity * saturation_pressure(temperature, over)


def saturation_temperature(pressure: Numbers, over: Over = "ice below freezing") -> Array:
    """Return the temperature (K) at which a vapor pressure (Pa) saturates; NaN outside the range of the formulas."""
    pressure = as_array(pressure)
    highest = TRIPLE_POINT if over == "ice" else HOTTEST
    bounds = np.exp(_log_saturation(np.array([COLDEST, highest]), over))
    inside = (pressure >= bounds[0]) & (pressure <= bounds[1])
    wanted = np.log(np.where(inside, pressure, bounds[0]))
    low, high = np.full(pressure.shape, COLDEST), np.full(pressure.shape, highest)
    found = find_roots(lambda t: _log_saturation(t, over) - wanted, low, high, near_enough=1e-13)
    return np.where(inside, found.value, np.nan)


def dew_point(temperature: Numbers, relative_humidity: Numbers, over: Over = "ice below freezing") -> Array:
    """Return the dew point (K) of air; below the triple point this is the frost point unless `over` is "water".

    The dew point depends on the vapor pressure alone, so no total pressure is asked for (the enhancement factor,
    below 0.02 K from -20 °C to 50 °C, is left out as ASHRAE leaves it out).
    """
    return saturation_temperature(vapor_pressure(temperature, relative_humidity, over), over)


def humidity_ratio(vapor: Numbers, pressure: Numbers = STANDARD_PRESSURE) -> Array:
    """Return kilograms of water per kilogram of dry air from vapor and total pressure (Pa)."""
    vapor, pressure = as_array(vapor), as_array(pressure)
    with np.errstate(divide="ignore", invalid="ignore"):
        return np.where(vapor < pressure, MASS_RATIO * vapor / (pressure - vapor), np.nan)


def ratio_at_wet_bulb(temperature: Numbers, wet_bulb_temperature: Numbers, pressure: Numbers) -> Array:
    """Return the humidity ratio from dry and wet bulb (K), ASHRAE chapter 1, equations 33 (water) and 35 (ice)."""
    dry, wet = as_array(temperature) - ZERO_CELSIUS, as_array(wet_bulb_temperature) - ZERO_CELSIUS
    full = humidity_ratio(saturation_pressure(wet_bulb_temperature), pressure)
    water = ((2501 - 2.326 * wet) * full - 1.006 * (dry - wet)) / (2501 + 1.86 * dry - 4.186 * wet)
    ice = ((2830 - 0.24 * wet) * full - 1.006 * (dry - wet)) / (2830 + 1.86 * dry - 2.1 * wet)
    return np.where(wet >= 0, water, ice)


def wet_bulb(temperature: Numbers, relative_humidity: Numbers, pressure: Numbers = STANDARD_PRESSURE) -> Array:
    """Return the thermodynamic wet-bulb temperature (K) of air at a total pressure (Pa).

    It lies between the dew point and the dry bulb. Where the formulas for water and ice part at 0 °C and no wet bulb
    fits either, the answer is 0 °C.
    """
    dry, humidity, total = np.broadcast_arrays(as_array(temperature), as_array(relative_humidity), as_array(pressure))
    ratio = humidity_ratio(vapor_pressure(dry, humidity), total)
    low = np.fmax(dew_point(dry, humidity) - 0.1, COLDEST)
    low = np.where(np.isfinite(ratio) & np.isnan(low), COLDEST, low)
    found = find_roots(lambda wet: ratio_at_wet_bulb(dry, wet, total) - ratio, low, dry + 1e-9, near_enough=1e-15)
    return np.where(np.isfinite(ratio), np.minimum(found.value, dry), np.nan)


def pressure_at_altitude(altitude: Numbers) -> Array:
    """Return the pressure (Pa) of the standard atmosphere at an altitude (m), -5000 m to 11000 m, ASHRAE chapter 1."""
    altitude = as_array(altitude)
    inside = (altitude >= -5000) & (altitude <= 11000)
    return np.where(inside, STANDARD_PRESSURE * (1 - 2.25577e-5 * np.where(inside, altitude, 0.0)) ** 5.2559, np.nan)
