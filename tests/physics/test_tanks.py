"""Whole tanks: shell and ends, against faces that SciPy solves over CoolProp's air, and by their limits."""

from __future__ import annotations

from math import log, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from speccheck.physics.calculations.all import JUDGED, work_out
from tests.physics.test_faces import face_by_brentq
from tests.physics.test_independent_solution import flow_from_surface

TANK: dict[str, float | str] = {
    "component": "tank",
    "tank diameter": 1.5,
    "tank height": 2.0,
    "thickness": 0.05,
    "conductivity": 0.04,
    "jacket emittance": 0.9,
    "greatest jacket emittance": 0.9,
    "operating temperature": 278.15,
    "ambient temperature": 300.15,
}


def steps_of(tank: dict[str, float | str]) -> dict[str, float]:
    """Return the steps of the heat flow of a tank."""
    found = work_out("tank heat flow", tank, JUDGED)
    assert found.value is not None
    return {step.name: step.value for step in found.steps if isinstance(step.value, float)} | {"whole": found.value}


def flat_flow(form: str, length: float) -> float:
    """Return W/m² through a face, from the surface that brentq finds."""
    surface = face_by_brentq(278.15, 300.15, 0.05 / 0.04, 0.9, length, form)
    return abs(278.15 - surface) / (0.05 / 0.04)


def test_a_lying_tank_is_its_shell_and_two_ends() -> None:
    """Shell as a lying pipe, ends as upright faces of laminar flow (Incropera et al., 9.34 and 9.27), by SciPy."""
    steps = steps_of(TANK)
    resistance = log(1.6 / 1.5) / (2 * pi * 0.04)
    surface = brentq(
        lambda t: float(flow_from_surface(t, 300.15, 1.6, 0.9)) - (278.15 - t) / resistance,
        278.16,
        300.14,  # type: ignore[arg-type]
    )
    shell = abs(278.15 - surface) / resistance * 2.0
    assert steps["heat flow of the shell"] == pytest.approx(shell, rel=1e-3)
    ends = 2 * flat_flow("side", 1.6) * pi / 4 * 1.6**2
    assert steps["heat flow of the tank ends"] == pytest.approx(ends, rel=0.02)  # Ra 2e9 begins to be turbulent
    assert steps["whole"] == pytest.approx(
        steps["heat flow of the shell"] + steps["heat flow of the tank ends"], rel=1e-9
    )


def test_a_standing_tank_is_its_shell_its_roof_and_its_bottom() -> None:
    """Of a cold tank the roof is cooled and faces up, the bottom is cooled and faces down (9.30 to 9.32), by SciPy."""
    steps = steps_of({**TANK, "orientation": "vertical"})
    area, length = pi / 4 * 1.6**2, 1.6 / 4
    assert steps["heat flow of the tank roof"] == pytest.approx(flat_flow("stable", length) * area, rel=1e-3)
    assert steps["heat flow of the tank bottom"] == pytest.approx(flat_flow("unstable", length) * area, rel=1e-3)
    parts = ("heat flow of the shell", "heat flow of the tank roof", "heat flow of the tank bottom")
    assert steps["whole"] == pytest.approx(sum(steps[name] for name in parts), rel=1e-9)


@given(st.floats(0.0, 0.2), st.floats(1.1, 4.0), st.sampled_from(["horizontal", "vertical"]))
def test_a_tank_loses_more_the_thinner_and_the_taller(thickness: float, times: float, orientation: str) -> None:
    """Of two tanks the one with less insulation, or with more shell, loses more; ends are as they were."""
    tank = {**TANK, "orientation": orientation, "thickness": thickness + 0.005, "operating temperature": 340.0}
    thin, thick = steps_of(tank), steps_of({**tank, "thickness": (thickness + 0.005) * times})
    assert thick["whole"] < thin["whole"]
    tall = steps_of({**tank, "tank height": 2.0 * times})
    assert tall["whole"] > thin["whole"]


@pytest.mark.parametrize(
    ("change", "missing", "cannot"),
    [
        ({"tank height": float("nan")}, ("tank height",), ""),
        ({"tank diameter": float("nan")}, ("tank diameter",), ""),
        ({"location": "outdoor"}, ("wind speed",), ""),
        (
            {"surface coefficient method": "fixed coefficient", "fixed surface coefficient": 8.0},
            (),
            "the ends of tanks are reckoned by film correlations alone",
        ),
    ],
)
def test_what_is_missing_is_asked_for(change: dict[str, float | str], missing: tuple[str, ...], cannot: str) -> None:
    """Sizes, and outdoors the wind, are asked for; a fixed coefficient says nothing of roofs."""
    found = work_out("tank heat flow", {**TANK, **change}, JUDGED)
    assert (found.value, found.missing, found.cannot) == (None, missing, cannot)
