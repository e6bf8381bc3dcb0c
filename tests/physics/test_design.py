"""Declared to design conductivity: the factors by hand, by their limits, and what is asked for where one is missing."""

from __future__ import annotations

from math import exp

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.calculations.all import JUDGED, work_out

ZERO = 273.15
LINE: dict[str, float | str] = {
    "component": "pipe",
    "pipe outside diameter": 0.1143,
    "insulation outside diameter": 0.2143,
    "insulation": "mineral wool",
    "thickness": 0.05,
    "operating temperature": 278.15,
    "ambient temperature": 300.15,
    "conductivity": 0.035,
    "conductivity mean temperature": 10 + ZERO,
    "design mean temperature": 25 + ZERO,
    "design moisture content": 0.02,
    "aging factor": 1.2,
    "joint factor": 1.05,
    "surface coefficient method": "fixed coefficient",
    "fixed surface coefficient": 9.0,
}
CURVE = "0.035 W/(m.K) at 10 C / 0.042 W/(m.K) at 60 C"


def design_of(change: dict[str, float | str]) -> float:
    """Return the design conductivity of the line with a change."""
    found = work_out("design conductivity", {**LINE, **change}, JUDGED).value
    assert found is not None
    return found


def test_factors_are_multiplied() -> None:
    """ISO 10456 (from memory): mineral wool 0.0069 a K at most and 4 for water; 15 K warmer, 2 % water, by hand."""
    found = work_out("design conductivity", LINE, JUDGED)
    assert found.value == pytest.approx(0.035 * exp(0.0069 * 15) * exp(4 * 0.02) * 1.2 * 1.05, rel=1e-12)
    steps = {step.name: step.value for step in found.steps}
    assert steps["factor for temperature"] == pytest.approx(exp(0.0069 * 15))
    assert steps["factor for moisture"] == pytest.approx(exp(0.08))
    assert (steps["factor for aging"], steps["factor for joints"]) == (1.2, 1.05)
    assert found.source == "ISO 10456:2007 and ISO 23993 (from memory); factors as stated"


def test_colder_than_declared_nothing_is_credited() -> None:
    """Without a curve or a stated coefficient insulation that is colder than declared conducts what is declared."""
    dry: dict[str, float | str] = {"design moisture content": 0.0, "aging factor": 1.0, "joint factor": 1.0}
    colder: dict[str, float | str] = {
        **dry,
        "conductivity mean temperature": 25 + ZERO,
        "design mean temperature": 278.15,
    }
    assert design_of(colder) == 0.035
    stated = design_of({**colder, "temperature conversion coefficient": 0.004})
    assert stated == pytest.approx(0.035 * exp(0.004 * -20), rel=1e-12)
    assert design_of({**dry, "design mean temperature": 10 + ZERO}) == 0.035


def test_a_curve_and_a_stated_coefficient_come_before_the_printed_one() -> None:
    """By a curve the value is that of the line between its points; a stated coefficient holds at any temperature."""
    plain: dict[str, float | str] = {"design moisture content": 0.0, "aging factor": 1.0, "joint factor": 1.0}
    assert design_of({**plain, "conductivity curve": CURVE}) == pytest.approx(0.035 + 0.007 * 15 / 50, rel=1e-12)
    stated = {**plain, "temperature conversion coefficient": 0.004, "design mean temperature": 150 + ZERO}
    assert design_of(stated) == pytest.approx(0.035 * exp(0.004 * 140), rel=1e-12)


def test_mean_temperature_and_surface_are_worked_out() -> None:
    """Where no design mean is stated it is that of fluid and surface; the design surface is the colder one."""
    mean = work_out("design mean temperature", LINE, JUDGED).value
    surface = work_out("surface temperature", LINE, JUDGED).value
    assert mean is not None
    assert surface is not None
    assert mean == pytest.approx((278.15 + surface) / 2, rel=1e-12)
    design = work_out("design surface temperature", LINE, JUDGED).value
    by_hand = work_out("surface temperature", {**LINE, "conductivity": design_of({})}, JUDGED).value
    assert design == pytest.approx(by_hand, rel=1e-12)
    assert design is not None
    assert design < surface
    flow = work_out("design heat flow", LINE, JUDGED).value
    declared = work_out("heat flow", LINE, JUDGED).value
    assert flow is not None
    assert declared is not None
    assert flow > declared


@pytest.mark.parametrize(
    ("change", "missing", "cannot"),
    [
        ({"aging factor": float("nan")}, ("aging factor",), ""),
        ({"joint factor": float("nan")}, ("joint factor",), ""),
        ({"design moisture content": float("nan")}, ("design moisture content",), ""),
        ({"conductivity mean temperature": float("nan")}, ("conductivity mean temperature",), ""),
        ({"conductivity": float("nan")}, ("conductivity",), ""),
        ({"insulation": ""}, ("insulation",), ""),
        ({"aging factor": 0.9}, (), "aging factor lies outside the range of the formula"),
        ({"joint factor": 0.9}, (), "joint factor lies outside the range of the formula"),
        (
            {"insulation": "calcium silicate", "design moisture content": 0.0},
            (),
            "no temperature conversion coefficient is published here for this insulation, and none is stated",
        ),
        (
            {"insulation": "calcium silicate", "temperature conversion coefficient": 0.001},
            (),
            "no moisture conversion coefficient is published here for this insulation, and none is stated",
        ),
        (
            {"design mean temperature": 60 + ZERO},
            (),
            "the temperature conversion coefficients of ISO 10456 hold for mean temperatures from 0 to 30 °C: state "
            "the temperature conversion coefficient or a conductivity curve",
        ),
        (
            {"conductivity curve": CURVE, "design mean temperature": 80 + ZERO},
            (),
            "the design mean temperature lies outside the conductivity curve",
        ),
    ],
)
def test_no_factor_is_known_here(change: dict[str, float | str], missing: tuple[str, ...], cannot: str) -> None:
    """Aging, joints and water are stated or asked for, and nothing is taken beyond where a coefficient holds."""
    found = work_out("design conductivity", {**LINE, **change}, JUDGED)
    assert (found.value, found.missing, found.cannot) == (None, missing, cannot)


@given(st.floats(0.0, 0.1), st.floats(1.0, 2.0), st.floats(1.0, 2.0), st.floats(0.0, 14.0))
def test_no_factor_ever_flatters(water: float, aging: float, joints: float, warmer: float) -> None:
    """Water, age, joints and warmth only add; what is declared is the least."""
    found = design_of(
        {
            "design moisture content": water,
            "aging factor": aging,
            "joint factor": joints,
            "design mean temperature": 10 + ZERO + warmer,
        }
    )
    assert found >= 0.035 * (1 - 1e-12)
    assert design_of(
        {"design moisture content": water / 2, "aging factor": aging, "joint factor": joints}
    ) <= design_of({"design moisture content": water, "aging factor": aging, "joint factor": joints}) * (1 + 1e-12)
