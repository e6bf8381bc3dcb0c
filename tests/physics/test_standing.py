"""Standing fluid: how long it keeps its temperature and till it is ice, 10,000 random pipes against SciPy and CoolProp.

The resistance at the start is that of a bisection over CoolProp's air, the heat of the water is CoolProp's, and
`solve_ivp` cools all pipes at once, each over the time that was found: they end where they should.
"""

from __future__ import annotations

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from scipy.integrate import solve_ivp
from scipy.interpolate import CubicSpline

from speccheck.physics.calculations.all import work_out_lines
from speccheck.physics.numerics import Array
from tests.physics.test_runs import loss_at, random_runs

COUNT = 10_000
WITHIN = 1e-3
ZERO = 273.15
STEEL = 3.7e6
"""J/(m³ K), density times specific heat of carbon steel (from memory)."""

KELVINS = np.arange(274.0, 452.0, 2.0)
WATER = CubicSpline(
    KELVINS, [PropsSI("D", "T", t, "P", 2e6, "Water") * PropsSI("C", "T", t, "P", 2e6, "Water") for t in KELVINS]
)


def standing(seed: int) -> dict[str, Array | str]:
    """Draw steel pipes of water that stands in air from -25 to -2 °C."""
    generator = np.random.default_rng(seed)
    line = random_runs(COUNT)
    air = generator.uniform(248.0, 271.0, COUNT)
    return {
        **{name: value for name, value in line.items() if name not in ("fluid velocity", "run length")},
        "pipe material": "steel",
        "ambient temperature": air,
        "operating temperature": generator.uniform(276.0, 400.0, COUNT),
        "ice share": generator.uniform(0.02, 1.0, COUNT),
    }


def capacity_of(line: dict[str, Array | str]) -> Array:
    """Return the heat (J/(m K)) of a metre of water and steel."""
    bore, pipe = np.asarray(line["pipe inside diameter"]), np.asarray(line["pipe outside diameter"])
    water = WATER(np.asarray(line["operating temperature"])) * np.pi / 4 * bore**2
    return np.asarray(water + STEEL * np.pi / 4 * (pipe**2 - bore**2))


def cooled(line: dict[str, Array | str], seconds: Array) -> Array:
    """Return the temperature of each pipe after its time: C·dT/dt = -(T - ta)/R, with R of the start."""
    start, air = np.asarray(line["operating temperature"]), np.asarray(line["ambient temperature"])
    rate = seconds * loss_at(line, start) / (start - air) / capacity_of(line)
    through = solve_ivp(lambda _, kelvin: -rate * (kelvin - air), (0.0, 1.0), start, rtol=1e-9, atol=1e-9)
    return np.asarray(through.y[:, -1])


def off_by(ended: Array, wanted: Array, line: dict[str, Array | str]) -> Array:
    """Return by which share of its time each pipe missed the temperature wanted of it."""
    air, start = np.asarray(line["ambient temperature"]), np.asarray(line["operating temperature"])
    return np.abs(np.log((ended - air) / (wanted - air))) / np.log((start - air) / (wanted - air))


def test_ten_thousand_pipes_keep_their_temperature_as_long() -> None:
    """Holding times are, within 0.1 %, those after which solve_ivp finds the water at its limit."""
    line = standing(1)
    start, air = np.asarray(line["operating temperature"]), np.asarray(line["ambient temperature"])
    limit = air + (start - air) * np.random.default_rng(2).uniform(0.1, 0.9, COUNT)
    found = work_out_lines("holding time", {**line, "fluid temperature limit": limit}).values
    assert np.all(np.isfinite(found))
    assert np.max(off_by(cooled(line, found), limit, line)) < WITHIN


def test_ten_thousand_pipes_turn_to_ice_as_soon() -> None:
    """Less the heat of fusion at the rate of 0 °C, icing times are those after which the water is at 0 °C.

    Ice: 334 kJ/kg (ISO 12241, from memory); CRC and CoolProp have 333.4 to 333.6.
    """
    line = standing(3)
    found = work_out_lines("icing time", line).values
    start, air = np.asarray(line["operating temperature"]), np.asarray(line["ambient temperature"])
    resistance = (start - air) / loss_at(line, start)
    bore, share = np.asarray(line["pipe inside diameter"]), np.asarray(line["ice share"])
    ice = share * 334e3 * 1000 * np.pi / 4 * bore**2 * resistance / (ZERO - air)
    assert np.all(np.isfinite(found))
    whole = np.abs(np.log((cooled(line, found - ice) - air) / (ZERO - air))) * capacity_of(line) * resistance / found
    assert np.max(whole) < WITHIN


def test_ten_thousand_pipes_cool_to_freezing_as_soon() -> None:
    """The handbook's time to 0 °C, insulation alone and water of 4,200 kJ/(m³ K), is that of solve_ivp."""
    line = standing(5)
    start, air = np.asarray(line["operating temperature"]), np.asarray(line["ambient temperature"])
    bore, pipe = np.asarray(line["pipe inside diameter"]), np.asarray(line["pipe outside diameter"])
    found = work_out_lines("freezing time", {**line, "pipe bore": bore}).values
    layer = np.log(np.asarray(line["insulation outside diameter"]) / pipe) / (
        2 * np.pi * np.asarray(line["conductivity"])
    )
    rate = found / (layer * 4.2e6 * np.pi / 4 * bore**2)
    through = solve_ivp(lambda _, kelvin: -rate * (kelvin - air), (0.0, 1.0), start, rtol=1e-9, atol=1e-9)
    assert np.max(off_by(through.y[:, -1], np.full(COUNT, ZERO), line)) < WITHIN


@pytest.mark.parametrize("value", ["holding time", "icing time"])
def test_heat_that_leaves_is_heat_that_was_there(value: str) -> None:
    """The energy balance closes: what flows out in the time found is the heat of water, wall and ice, within 0.1 %."""
    line = standing(7)
    start, air = np.asarray(line["operating temperature"]), np.asarray(line["ambient temperature"])
    limit = np.full(COUNT, ZERO + 0.5)
    found = work_out_lines(value, {**line, "fluid temperature limit": limit}).values
    resistance, capacity = (start - air) / loss_at(line, start), capacity_of(line)
    end = limit if value == "holding time" else np.full(COUNT, ZERO)
    cooling = capacity * resistance * np.log((start - air) / (end - air))
    places, weights = np.polynomial.legendre.leggauss(40)
    moments = cooling / 2 * (1 + places[:, None])
    out = np.sum(weights[:, None] * (start - air) * np.exp(-moments / (capacity * resistance)) / resistance, axis=0)
    out = out * cooling / 2
    there = capacity * (start - end)
    if value == "icing time":
        bore = np.asarray(line["pipe inside diameter"])
        there += np.asarray(line["ice share"]) * 334e6 * np.pi / 4 * bore**2
        out += (found - cooling) * (ZERO - air) / resistance
    assert np.max(np.abs(out / there - 1)) < WITHIN
