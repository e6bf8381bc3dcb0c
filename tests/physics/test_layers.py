"""Several layers, conductivity by mean temperature, film and wall inside: by hand, by SciPy and in schedules."""

from __future__ import annotations

from math import log, pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from speccheck.judge import Verdict
from speccheck.language import load_ruleset
from speccheck.physics.calculations.all import JUDGED, work_out, work_out_lines
from speccheck.physics.calculations.layers import read_curve
from speccheck.review import judge_schedule
from speccheck.schedule import read_schedule

ZERO = 273.15
LINE: dict[str, float | str] = {
    "component": "pipe",
    "pipe outside diameter": 0.1143,
    "pipe inside diameter": 0.1023,
    "insulation": "mineral wool",
    "operating temperature": 200 + ZERO,
    "ambient temperature": 20 + ZERO,
    "thickness": 0.1,
    "insulation outside diameter": 0.3143,
    "conductivity": 0.05,
    "surface coefficient method": "fixed coefficient",
    "fixed surface coefficient": 10.0,
}
CURVE = "0.04 W/(m.K) at 10 C / 0.045 W/(m.K) at 50 C / 0.06 W/(m.K) at 150 C"
SURFACE = 1 / (10 * pi * 0.3143)


def ring(outer: float, inner: float, conductivity: float) -> float:
    """Return m K/W of a cylinder, ln(D2/D1)/(2πk): ISO 12241."""
    return log(outer / inner) / (2 * pi * conductivity)


def test_layers_film_and_wall_by_hand() -> None:
    """Five resistances in series: film 1/(π·di·h), wall, three layers of 60, 30 and 10 mm; and the surface."""
    stated = {
        "second layer thickness": 0.03, "second layer conductivity": 0.035,
        "third layer thickness": 0.01, "third layer conductivity": 0.2,
        "inside film coefficient": 50.0, "pipe wall conductivity": 15.0,
    }  # fmt: skip
    inner = 1 / (50 * pi * 0.1023) + ring(0.1143, 0.1023, 15.0)
    first = ring(0.2343, 0.1143, 0.05)
    second, third = ring(0.2943, 0.2343, 0.035), ring(0.3143, 0.2943, 0.2)
    flow = 180 / (inner + first + second + third + SURFACE)
    found = work_out("heat flow", {**LINE, **stated}, JUDGED)
    assert found.value == pytest.approx(flow, rel=1e-9)
    steps = {step.name: step.value for step in found.steps}
    assert steps["thickness of the first layer"] == pytest.approx(0.06, rel=1e-9)
    assert steps["temperature under layer 2"] == pytest.approx(200 + ZERO - flow * (inner + first), rel=1e-9)
    assert steps["temperature under layer 3"] == pytest.approx(200 + ZERO - flow * (inner + first + second), rel=1e-9)


def test_film_inside_a_duct_and_a_tank_by_hand() -> None:
    """The film counts on the inner surface: 2(w + h) of a duct, π·D of a tank; faces by themselves have 1/h."""
    duct = {
        **{name: LINE[name] for name in ("operating temperature", "ambient temperature", "conductivity")},
        "component": "duct", "duct width": 0.6, "duct height": 0.3, "thickness": 0.025, "inside film coefficient": 12.0,
        "surface coefficient method": "fixed coefficient", "fixed surface coefficient": 10.0,
    }  # fmt: skip
    flow = 180 / (1 / (12 * 1.8) + 2 * 0.025 / (0.05 * (2 * 1.8 + 8 * 0.025)) + 1 / (10 * (1.8 + 8 * 0.025)))
    assert work_out("heat flow", duct, JUDGED).value == pytest.approx(flow, rel=1e-9)
    tank = {
        **duct, "component": "tank", "duct width": float("nan"), "duct height": float("nan"), "tank diameter": 1.5,
    }  # fmt: skip
    flow = 180 / (1 / (12 * pi * 1.5) + ring(1.55, 1.5, 0.05) + 1 / (10 * pi * 1.55))
    assert work_out("heat flow", tank, JUDGED).value == pytest.approx(flow, rel=1e-9)


def test_conductivity_by_mean_temperature_agrees_with_scipy() -> None:
    """Two layers, each at the mean of its faces by straight lines between the stated points: brentq finds the same."""
    line = {
        **LINE,
        "conductivity curve": CURVE,
        "second layer thickness": 0.04,
        "second layer conductivity curve": CURVE,
    }

    def at(mean: float) -> float:
        return float(np.interp(mean - ZERO, [10, 50, 150], [0.04, 0.045, 0.06]))

    def flow_of(surface: float) -> float:
        flow = (surface - 20 - ZERO) / SURFACE
        middle = brentq(
            lambda t: (t - surface) / ring(0.3143, 0.2343, at((t + surface) / 2)) - flow, surface, 1500 + ZERO
        )
        inside = 200 + ZERO
        return float((inside - middle) / ring(0.2343, 0.1143, at((inside + middle) / 2)) - flow)

    surface = brentq(flow_of, 20.001 + ZERO, 40 + ZERO)
    assert work_out("surface temperature", line, JUDGED).value == pytest.approx(surface, rel=1e-7)


def test_a_curve_holds_between_its_ends() -> None:
    """A layer whose mean temperature lies beyond the stated points has no conductivity, and its line no surface."""
    hot = {**LINE, "operating temperature": 400 + ZERO, "conductivity curve": CURVE}
    found = work_out("surface temperature", hot, JUDGED)
    assert found.value is None
    assert found.cannot == "the mean temperature of a layer lies outside the range of its conductivity"


@pytest.mark.parametrize(
    "text",
    [
        "0.04",
        "0.04 W/(m.K) at 10 C",
        "0.04 W/(m.K) at 50 C / 0.05 W/(m.K) at 10 C",
        "0.04 W/(m.K) at 10 C / 0 W/(m.K) at 50 C",
        "0.04 at 10 C / 0.05 at 50 C",
        "0.25 Btu.in/(h.ft2.F) at 75 F / 0.29",
    ],
)
def test_what_is_no_curve_is_told(text: str) -> None:
    """One point, falling temperatures, nothing conducted, no unit: how a curve is written is said, none is guessed."""
    assert read_curve(text) is None
    found = work_out("surface temperature", {**LINE, "conductivity curve": text}, JUDGED)
    assert found.value is None
    assert found.cannot == (
        "the conductivity curve is not written as entries such as `0.25 Btu.in/(h.ft2.F) at 75 F`, parted by slashes, "
        "with rising temperatures"
    )


def test_curves_mean_the_same_in_both_units() -> None:
    """1 Btu.in/(h.ft2.F) is 0.14423 W/(m K) (ASTM E2309, from memory): 0.2774 at 50 F is 0.04 at 10 C."""
    inch, metric = read_curve("0.2774 Btu.in/(h.ft2.F) at 50 F / 0.416 Btu.in/(h.ft2.F) at 302 F"), read_curve(CURVE)
    assert inch is not None
    assert metric is not None
    assert float(inch.at(10 + ZERO)) == pytest.approx(0.04, rel=1e-3)
    assert float(inch.at(150 + ZERO)) == pytest.approx(0.06, rel=1e-3)


@pytest.mark.parametrize(
    ("given", "missing"),
    [
        ({"second layer thickness": 0.03}, ("second layer conductivity",)),
        ({"second layer conductivity": 0.03}, ("second layer thickness",)),
        ({"third layer thickness": 0.03}, ("third layer conductivity",)),
        ({"inside film coefficient": 50.0, "pipe inside diameter": float("nan")}, ("pipe inside diameter",)),
        ({"pipe wall conductivity": 50.0, "pipe inside diameter": float("nan")}, ("pipe inside diameter",)),
    ],
)
def test_half_of_a_layer_is_asked_for(given: dict[str, float | str], missing: tuple[str, ...]) -> None:
    """A layer without its conductivity, or without its thickness, is asked for and not passed over."""
    found = work_out("surface temperature", {**LINE, **given})
    assert found.value is None
    assert set(missing) & set(found.missing) or "pipe size" in found.missing


@pytest.mark.parametrize(
    "value", ["touch thickness", "freezing time", "buried heat flow", "yearly moisture gain", "economic thickness"]
)
def test_what_knows_one_material_says_so(value: str) -> None:
    """A minimum thickness, water, and the thickness that pays are of one material; a second one is not passed over."""
    more: dict[str, float | str] = {
        "second layer thickness": 0.03, "second layer conductivity": 0.03, "surface temperature limit": 333.15,
        "ground temperature": 283.15, "burial depth": 1.0, "soil conductivity": 1.5, "run length": 100.0,
        "operating hours": 5000 * 3600.0, "energy efficiency": 0.8, "energy price": 0.08, "economic life": 15.0,
        "insulation price per cubic metre": 2000.0, "jacket price per square metre": 30.0, "pipe bore": 0.1023,
        "relative humidity": 0.5, "permeability": 1e-12, "greatest jacket emittance": 0.9,
    }  # fmt: skip
    found = work_out(value, {**LINE, **more}, JUDGED)
    assert found.value is None
    assert found.cannot == "it is worked out for insulation of one material, and the line states a second layer"


def test_outer_layers_fit_into_the_whole() -> None:
    """Outer layers of more than the whole thickness leave nothing for the first one."""
    found = work_out(
        "surface temperature", {**LINE, "second layer thickness": 0.2, "second layer conductivity": 0.03}, JUDGED
    )
    assert (found.value, found.cannot) == (None, "the outer layers are thicker than the insulation in all")


@given(st.floats(0.005, 0.09), st.floats(0.02, 0.2), st.floats(1.05, 3.0), st.floats(5.0, 5000.0))
def test_a_better_layer_and_a_film_keep_more(thickness: float, conductivity: float, times: float, film: float) -> None:
    """Less heat flows the less a layer conducts, and where a film inside counts; two layers of one material are one."""
    layer = {**LINE, "second layer thickness": thickness, "second layer conductivity": conductivity}
    lines = [
        layer,
        {**layer, "second layer conductivity": conductivity * times},
        {**layer, "inside film coefficient": film},
        {**layer, "second layer conductivity": 0.05},
        LINE,
    ]
    flow = [work_out("heat flow", line).value or 0.0 for line in lines]
    assert 0 < flow[2] < flow[0] < flow[1]
    assert flow[3] == pytest.approx(flow[4], rel=1e-9)


def test_lines_of_many_kinds_at_once_are_those_of_each_alone() -> None:
    """Curves, layers and plain lines in one column: each has the surface that it has by itself."""
    extras: list[dict[str, float | str]] = [
        {},
        {"conductivity curve": CURVE},
        {"second layer thickness": 0.03, "second layer conductivity": 0.03},
        {"second layer thickness": 0.03, "second layer conductivity curve": CURVE},
        {"inside film coefficient": 20.0},
    ]
    names = sorted({name for extra in extras for name in extra})
    texts = [name for name in names if name.endswith("curve")]
    columns = {name: [extra.get(name, "" if name in texts else np.nan) for extra in extras] for name in names}
    found = work_out_lines("surface temperature", {**LINE, **columns}).values  # type: ignore[dict-item]
    alone = [work_out("surface temperature", {**LINE, **extra}).value for extra in extras]
    assert found.tolist() == pytest.approx(alone, rel=1e-12)


SCHEDULE = (
    "mark,component,pipe outside diameter (in),operating temperature (F),ambient temperature (F),relative humidity,"
    "insulation,thickness (in),outer layer thickness (in),conductivity [Btu.in/(h.ft2.F)],outer layer conductivity "
    "[Btu.in/(h.ft2.F)],conductivity curve,jacket emittance\n"
)


@pytest.mark.parametrize(
    ("row", "verdict"),
    [
        ("P-1,pipe,4.5,41,80.6,80 %,elastomeric foam,2 x 1 in,,0.25,,,0.9", Verdict.COMPLIES),
        ("P-2,pipe,4.5,41,80.6,80 %,elastomeric foam,1/2,,0.25,,,0.9", Verdict.FAILS),
        ("P-3,pipe,4.5,41,80.6,80 %,elastomeric foam,2 x 1/2 in,1/2,0.25,0.25,,0.9", Verdict.COMPLIES),
        ("P-4,pipe,4.5,41,80.6,80 %,elastomeric foam,1,1/2,0.25,0.9,,0.9", Verdict.FAILS),
        ("P-5,pipe,4.5,41,80.6,80 %,elastomeric foam,1,1/2,0.25,,,0.9", Verdict.CANNOT_TELL),
        (
            "P-6,pipe,4.5,41,80.6,80 %,elastomeric foam,1,,,,"
            "0.24 Btu.in/(h.ft2.F) at 50 F / 0.25 Btu.in/(h.ft2.F) at 75 F,0.9",
            Verdict.COMPLIES,
        ),
    ],
)
def test_schedules_state_layers_in_columns(row: str, verdict: Verdict, tmp_path) -> None:  # type: ignore[no-untyped-def]
    """`2 x 1 in`, a column of the outer layer and one of a curve are read, and the clause on cold pipe judges by them.

    0.742 in of 0.25 is the least under a dull jacket (`ht`, CoolProp): an outer half inch of 0.9 is not enough.
    """
    path = tmp_path / "layers.csv"
    path.write_text(SCHEDULE + row + "\n", encoding="utf-8")
    ruleset = load_ruleset("condensation").ruleset
    assert ruleset is not None
    matrix = judge_schedule(read_schedule(path, ruleset.vocabulary), ruleset)
    assert matrix.schedule.unread == ()
    assert matrix.cells[0][0].verdict is verdict
