"""Runs of pipe and duct against SciPy over CoolProp's air, against printed examples, and as lines are told of them.

Run `python -m tests.physics.test_runs 10000` to compare that many random runs; the tests compare fewer.
"""

from __future__ import annotations

import sys
from math import log, pi

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from speccheck.physics import runs
from speccheck.physics.calculations.all import JUDGED, work_out, work_out_lines
from speccheck.physics.numerics import Array
from tests.physics.test_independent_solution import flow_from_surface

ZERO = 273.15
LINE: dict[str, float | str | None] = {
    "component": "pipe",
    "pipe outside diameter": 0.1143,
    "pipe inside diameter": 0.1023,
    "pipe material": "steel",
    "service": "heating hot water",
    "operating temperature": 82 + ZERO,
    "ambient temperature": -7 + ZERO,
    "insulation": "mineral wool",
    "thickness": 0.05,
    "conductivity": 0.0375,
    "jacket emittance": 0.9,
    "run length": 100.0,
    "fluid velocity": 0.03,
    "bare fittings": 0.0,
    "bare length": 0.0,
}
FIXED = {"surface coefficient method": "fixed coefficient", "fixed surface coefficient": 10.0}


def random_runs(count: int) -> dict[str, Array | str]:
    """Draw runs of water as the trade has them, that cool by 2 to 60 % of the difference to the air."""
    generator = np.random.default_rng(20260304)

    def draw(low: float, high: float) -> Array:
        return generator.uniform(low, high, count)

    pipe = np.exp(draw(log(0.0213), log(0.3)))
    thickness, conductivity = draw(0.01, 0.1), draw(0.02, 0.06)
    bore = pipe * draw(0.75, 0.95)
    about = 2 * pi * conductivity / np.log(1 + 2 * thickness / pipe)
    velocity = about * 100 / (draw(0.02, 0.9) * 4.1e6 * pi / 4 * bore**2)
    return {
        "component": "pipe",
        "service": "process water",
        "pipe outside diameter": pipe,
        "insulation outside diameter": pipe + 2 * thickness,
        "thickness": thickness,
        "conductivity": conductivity,
        "pipe inside diameter": bore,
        "operating temperature": draw(315, 430),
        "ambient temperature": draw(263, 303),
        "greatest jacket emittance": draw(0.05, 0.95),
        "run length": np.full(count, 100.0),
        "fluid velocity": velocity,
    }


def loss_at(line: dict[str, Array | str], fluid: Array) -> Array:
    """Return W/m at fluid temperatures by plain bisection over ht's correlation and CoolProp's air."""
    pipe, diameter = np.asarray(line["pipe outside diameter"]), np.asarray(line["insulation outside diameter"])
    air, emittance = np.asarray(line["ambient temperature"]), np.asarray(line["greatest jacket emittance"])
    resistance = np.log(diameter / pipe) / (2 * pi * np.asarray(line["conductivity"]))
    low, high = np.broadcast_to(air, fluid.shape).copy(), fluid.copy()
    for _ in range(40):
        middle = (low + high) / 2
        too_little = flow_from_surface(middle, air, diameter, emittance) < (fluid - middle) / resistance
        low, high = np.where(too_little, middle, low), np.where(too_little, high, middle)
    return (fluid - (low + high) / 2) / resistance


def compare(count: int) -> float:
    """Return by how much, at most, the length differs in which random runs cool to the temperature that was found.

    x = -ṁ·c·∫ dT/q'(T), by Gauss and Legendre over the logarithm of the difference to the air.
    """
    line = random_runs(count)
    outlet = work_out_lines("outlet temperature", line).values
    inlet, air = np.asarray(line["operating temperature"]), np.asarray(line["ambient temperature"])
    flow = runs.water_heat_capacity(inlet) * pi / 4 * np.asarray(line["pipe inside diameter"]) ** 2
    flow = flow * np.asarray(line["fluid velocity"])
    places, weights = np.polynomial.legendre.leggauss(8)
    start, end = np.log(inlet - air), np.log(outlet - air)
    length = np.zeros(count)
    for place, weight in zip(places, weights, strict=True):
        difference = np.exp((start + end) / 2 + (start - end) / 2 * place)
        length += weight * (start - end) / 2 * flow * difference / loss_at(line, air + difference)
    return float(np.max(np.abs(length / np.asarray(line["run length"]) - 1)))


def test_random_runs_cool_as_an_independent_integration_says() -> None:
    """400 random runs have, within 0.1 %, the length that a quadrature over CoolProp's air needs for their outlet."""
    assert compare(400) < 1e-3


@pytest.mark.parametrize(("flux", "printed"), [(444.0, 2.7), (44.7, 0.27)])
def test_ducts_of_the_handbook(flux: float, printed: float) -> None:
    """2021 ASHRAE Handbook - Fundamentals, chapter 23, duct examples 1 and 2 (seen): 2.7 K and 0.27 K in 20 m."""
    flow = 1.20 * 8.1 * 1006
    end = 50 + ZERO
    inlet = end + flux * 3 * 20 / flow
    found = runs.outlet_temperature(lambda fluid: 0 * fluid + flux * 3, inlet, 20 + ZERO, 20.0, flow)
    assert float(inlet - found) == pytest.approx(printed, rel=0.02)


@given(st.floats(0.5, 50.0), st.floats(10.0, 5000.0), st.floats(-60.0, 60.0).filter(lambda value: abs(value) > 1))
def test_a_constant_loss_for_each_kelvin_is_the_exponential(each: float, flow: float, difference: float) -> None:
    """T - ta falls as exp(-U'·L/(ṁ·c)), warming and cooling alike; what is lost is what the fluid gives."""
    air, length = 290.0, min(20.0, 3 * flow / each)
    found = runs.outlet_temperature(lambda fluid: each * (fluid - air), air + difference, air, length, flow)
    assert float(found) - air == pytest.approx(difference * np.exp(-each * length / flow), rel=1e-9)


def test_ice_agrees_with_an_integration_of_the_heat_balance() -> None:
    """Water and wall cooled by solve_ivp, then a quarter of the heat of fusion at the rate of 0 °C: within 0.1 %."""
    bore, resistance, wall, heat, initial, air = 0.1, 2.5, 9000.0, 4.2e6, 280.0, 258.0
    area = pi / 4 * bore**2
    capacity = area * heat + wall

    def reaches(_: float, kelvin: Array) -> float:
        return float(kelvin[0]) - 273.15

    reaches.terminal = True  # type: ignore[attr-defined]
    cooled = solve_ivp(
        lambda _, kelvin: -(kelvin - air) / (resistance * capacity),
        (0, 1e7),
        [initial],
        events=reaches,
        rtol=1e-9,
        atol=1e-9,
    )
    frozen = 0.25 * 334e3 * 1000 * area * resistance / (273.15 - air)
    expected = float(cooled.t_events[0][0]) + frozen
    found = runs.time_to_ice(bore, resistance, wall, heat, initial, air, 0.25)
    assert float(found) == pytest.approx(expected, rel=1e-3)


@pytest.mark.parametrize("celsius", [0.5, 15, 45, 70, 95, 130, 175])
def test_heat_of_water_and_air(celsius: float) -> None:
    """A cubic metre holds what CoolProp says: water at 20 bar within 0.1 %, air within 2 % to 175 °C."""
    kelvin = celsius + ZERO
    water = PropsSI("D", "T", kelvin, "P", 2e6, "Water") * PropsSI("C", "T", kelvin, "P", 2e6, "Water")
    assert float(runs.water_heat_capacity(kelvin)) == pytest.approx(water, rel=1e-3)
    air = PropsSI("D", "T", kelvin, "P", 101325, "Air") * PropsSI("C", "T", kelvin, "P", 101325, "Air")
    assert float(runs.air_heat_capacity(kelvin, 101325)) == pytest.approx(air, rel=0.02)


def test_still_water_of_the_handbook_cools_in_its_hours() -> None:
    """Table 6 of chapter 23 (seen): NPS 100 with 50 mm keeps above 0 °C for 4.1 h in -28 °C, pipe and film apart."""
    line = {
        **LINE,
        "service": "domestic cold water",
        "pipe material": "PVC",
        "operating temperature": 5.5 + ZERO,
        "ambient temperature": -28 + ZERO,
        "insulation outside diameter": 0.219,
        "conductivity": 0.0432,
        "fluid temperature limit": ZERO,
        "surface coefficient method": "fixed coefficient",
        "fixed surface coefficient": 1e6,
    }
    found = work_out("holding time", line, JUDGED)
    assert found.value is not None
    assert found.value / 3600 == pytest.approx(4.1, rel=0.02)


def test_hangers_bare_length_and_fittings_add_up() -> None:
    """By hand with a fixed coefficient: ln(D2/D1)/(2πk) and 1/(hπD2); 15 % for hangers, 5 m more, 2 m bare."""
    line = {**LINE, **FIXED, "hanger loss share": 0.15, "added equivalent length": 5.0, "bare length": 2.0}
    covered = 89 / (log(0.2143 / 0.1143) / (2 * pi * 0.0375) + 1 / (10 * pi * 0.2143))
    bare = 89 * 10 * pi * 0.1143
    found = work_out("run heat flow", {**line, "insulation outside diameter": 0.2143}, JUDGED).value
    assert found == pytest.approx(covered * (1.15 * 98 + 5) + bare * 2, rel=1e-9)


def test_tracing_gives_what_is_lost_at_the_maintained_temperature() -> None:
    """The load is the heat flow of the same line at that temperature, and none where the air is warmer."""
    line = {**LINE, "maintained temperature": 10 + ZERO}
    load = work_out("heat trace load", line, JUDGED).value
    assert load == pytest.approx(work_out("heat flow", {**LINE, "operating temperature": 10 + ZERO}, JUDGED).value)
    assert work_out("heat trace load", {**line, "ambient temperature": 20 + ZERO}, JUDGED).value == 0.0


@pytest.mark.parametrize(
    ("name", "change", "missing", "cannot"),
    [
        ("outlet temperature", {"fluid velocity": None}, ("fluid velocity",), ""),
        ("outlet temperature", {"pipe inside diameter": None}, ("pipe size",), ""),
        ("outlet temperature", {"service": None}, ("service",), ""),
        (
            "outlet temperature",
            {"service": "glycol"},
            (),
            "the heat capacity of this fluid is not known here: state the fluid heat capacity",
        ),
        ("outlet temperature", {"location": "outdoor"}, ("wind speed",), ""),
        (
            "holding time",
            {"fluid temperature limit": -10 + ZERO},
            (),
            "the surrounding air itself keeps the limit",
        ),
        (
            "icing time",
            {"ice share": 0.2, "ambient temperature": 5 + ZERO},
            (),
            "the surrounding air is not below 0 °C, so the water does not freeze",
        ),
        ("icing time", {"ice share": 0.2, "service": "glycol"}, (), "what the line carries is not counted as water"),
        (
            "run heat flow",
            {"hanger loss share": 0.15, "bare fittings": 2.0},
            (),
            "no coefficient for bare fittings is published here: state the added equivalent length",
        ),
        ("run heat flow", {}, ("hanger loss share",), ""),
        ("run heat flow", {"hanger loss share": 0.15, "bare fittings": None}, ("bare fittings",), ""),
        ("heat trace load", {}, ("maintained temperature",), ""),
    ],
)
def test_what_is_missing_or_outside_is_named(
    name: str, change: dict[str, float | str | None], missing: tuple[str, ...], cannot: str
) -> None:
    """A value that lacks an input or lies outside its formula says so, and nothing that flatters stands in."""
    working = work_out(name, {**LINE, **change}, JUDGED)
    assert working.value is None
    assert working.missing[-1:] == missing
    assert working.cannot == cannot


@given(st.floats(0.01, 0.1), st.floats(1.0, 3.0))
def test_more_insulation_keeps_fluid_longer(thickness: float, times: float) -> None:
    """Outlet, holding time and icing time grow with thickness; the loss of the run falls."""
    thick = [thickness, thickness * times]
    line = {**LINE, "thickness": thick, "fluid temperature limit": 300.0, "ice share": 0.25, "hanger loss share": 0.15}
    for name in ("outlet temperature", "holding time", "icing time"):
        less, more = work_out_lines(name, line).values  # type: ignore[arg-type]
        assert more >= less * (1 - 1e-9)
    less, more = work_out_lines("run heat flow", line).values  # type: ignore[arg-type]
    assert more <= less * (1 + 1e-9)


if __name__ == "__main__":
    print(compare(int(sys.argv[1])))
