"""Vapor in pipe insulation by finite volumes with SciPy: an independent solution for the moisture that stays.

Run `python -m tests.physics.moisture_by_volumes 10000` to compare that many random systems; the tests run fewer.
"""

from __future__ import annotations

import sys

import numpy as np
import psychrolib
from scipy.linalg import solve_banded

from speccheck.physics.moisture import LEAST_COEFFICIENT, vapor_gain
from speccheck.physics.numerics import Array

psychrolib.SetUnitSystem(psychrolib.SI)
CELLS = 800
CELSIUS = np.round(np.arange(-90, 150, 0.01), 2)  # the triple point, 0.01 °C, is one of them
SATURATION = np.array([psychrolib.GetSatVapPres(celsius) for celsius in CELSIUS])


def saturation(celsius: Array) -> Array:
    """Return psychrolib's saturation pressure, read from a table every 0.01 K: exact to 1e-7."""
    return np.exp(np.interp(celsius, CELSIUS, np.log(SATURATION)))


def random_systems(count: int, seed: int = 20260304) -> dict[str, Array]:
    """Draw cold pipes as the trade has them, half of them with a sheet that is tight or leaks."""
    generator = np.random.default_rng(seed)

    def draw(low: float, high: float) -> Array:
        return generator.uniform(low, high, count)

    pipe = np.exp(draw(np.log(0.0213), np.log(0.9)))
    air = draw(278, 308)
    return {
        "pipe_diameter": pipe,
        "outside_diameter": pipe + 2 * draw(0.01, 0.1),
        "permeability": np.exp(draw(np.log(1e-13), np.log(1.8e-10))),
        "sheet_permeance": np.where(draw(0, 1) < 0.5, np.inf, np.exp(draw(np.log(1e-12), np.log(1e-9)))),
        "inside_temperature": draw(233, 290),
        "air_temperature": air,
        "air_vapor_pressure": draw(0.3, 0.99) * saturation(air - 273.15),
        "conductivity": draw(0.02, 0.06),
    }


def gain_by_volumes(line: dict[str, float]) -> float:
    """Return the vapor (kg/(s m)) that enters one system through its outside."""
    return _settled(line)[0]


def deposit_by_volumes(line: dict[str, float]) -> float:
    """Return the vapor (kg/(s m)) that the saturated volumes of one system take up, each by its own balance."""
    return _settled(line)[1]


def _settled(line: dict[str, float]) -> tuple[float, float]:
    """Return what enters and what stays: volumes along ln r, saturated ones held at saturation."""
    inner, outer = line["pipe_diameter"] / 2, line["outside_diameter"] / 2
    thermal = np.log(outer / inner) / line["conductivity"]
    warmth = (
        (line["air_temperature"] - line["inside_temperature"]) * thermal / (thermal + 1 / (LEAST_COEFFICIENT * outer))
    )
    celsius = line["inside_temperature"] - 273.15 + warmth * np.linspace(0, 1, CELLS + 1)
    full = saturation(celsius)
    outside = min(line["air_vapor_pressure"], full[-1])
    between = 2 * np.pi * line["permeability"] * CELLS / np.log(outer / inner)
    sheet = 2 * np.pi * outer * line["sheet_permeance"]
    held = np.zeros(CELLS + 1, dtype=bool)
    held[0] = True
    if np.isinf(sheet):
        full[-1], held[-1] = outside, True
    fixed = held.copy()
    for _ in range(200):
        pressure = _pressures(full, held, between, sheet, outside)
        supply = np.zeros(CELLS + 1)
        supply[1:] += between * (pressure[:-1] - pressure[1:])
        supply[:-1] += between * (pressure[1:] - pressure[:-1])
        if not np.isinf(sheet):
            supply[-1] += sheet * (outside - pressure[-1])
        wet = fixed | np.where(held, supply > -1e-12 * between, pressure > full * (1 + 1e-13))
        if np.array_equal(wet, held):
            break
        held = wet
    if np.isinf(sheet):
        enters = float(between * (3 * pressure[-1] - 4 * pressure[-2] + pressure[-3]) / 2)
        return enters, float(np.sum(supply[:-1][held[:-1]]))
    return float(sheet * (outside - pressure[-1])), float(np.sum(supply[held]))


def _pressures(full: Array, held: Array, between: float, sheet: float, outside: float) -> Array:
    """Solve the balances of the volumes that are not held."""
    bands = np.zeros((3, full.size))
    right = np.zeros(full.size)
    bands[1, 1:-1] = 2.0
    if np.isinf(sheet):
        bands[1, -1] = 1.0
    else:
        bands[1, -1], right[-1] = 1.0 + sheet / between, sheet / between * outside
    places = np.flatnonzero(held)
    bands[1, places], right[places] = 1.0, full[places]
    # The row of a held volume names no neighbours; theirs still name it.
    bands[0, 1:] = np.where(held[:-1], 0.0, -1.0)
    bands[2, :-1] = np.where(held[1:], 0.0, -1.0)
    return np.asarray(solve_banded((1, 1), bands, right))


def compare(count: int) -> tuple[float, int]:
    """Return the greatest relative difference of random systems that gain vapor, and how many those are."""
    systems = random_systems(count)
    found = vapor_gain(**systems)
    worst, gaining = 0.0, 0
    for row in range(count):
        if found[row] > 0:
            line = {name: float(values[row]) for name, values in systems.items()}
            worst, gaining = max(worst, abs(gain_by_volumes(line) / float(found[row]) - 1)), gaining + 1
    return worst, gaining


if __name__ == "__main__":
    print(compare(int(sys.argv[1])))
