"""A year of a line: by hand, against a search of its own, and as lines are told of it."""

from __future__ import annotations

from math import log, pi

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.calculations.all import JUDGED, work_out, work_out_lines
from speccheck.physics.thickness import STOCKED_MILLIMETRES, STOCKED_THICKNESSES
from tests.physics.test_runs import loss_at, random_runs

ZERO = 273.15
# 100 m of 114.3 mm pipe at 82 °C in 22 °C, with a coefficient that can be checked by hand.
LINE: dict[str, float | str | None] = {
    "component": "pipe",
    "pipe outside diameter": 0.1143,
    "operating temperature": 82 + ZERO,
    "ambient temperature": 22 + ZERO,
    "insulation": "mineral wool",
    "thickness": 0.025,
    "insulation outside diameter": 0.1643,
    "conductivity": 0.0375,
    "surface coefficient method": "fixed coefficient",
    "fixed surface coefficient": 10.0,
    "run length": 100.0,
    "operating hours": 5000 * 3600.0,
    "energy efficiency": 0.8,
    "energy price": 0.08,
    "carbon factor": 0.2,
    "insulation price per cubic metre": 2000.0,
    "jacket price per square metre": 30.0,
    "economic life": 15.0,
}


def watts(outside: float, difference: float = 60.0) -> float:
    """Return W/m by ln(D2/D1)/(2πk) + 1/(hπD2), ISO 12241."""
    layer = log(outside / 0.1143) / (2 * pi * 0.0375)
    return difference / (layer + 1 / (10 * pi * outside))


def test_heat_energy_cost_and_carbon_by_hand() -> None:
    """kWh, fuel at 80 %, 0.08 a kWh and 0.2 kg a kWh; 15 % more where hangers are stated."""
    heat = watts(0.1643) * 100 * 5000 / 1000
    assert work_out("yearly heat", LINE, JUDGED).value == pytest.approx(heat, rel=1e-9)
    assert work_out("yearly energy", LINE, JUDGED).value == pytest.approx(heat / 0.8, rel=1e-9)
    assert work_out("yearly cost", LINE, JUDGED).value == pytest.approx(heat / 0.8 * 0.08, rel=1e-9)
    assert work_out("yearly carbon", LINE, JUDGED).value == pytest.approx(heat / 0.8 * 0.2, rel=1e-9)
    hung = work_out("yearly heat", {**LINE, "hanger loss share": 0.15}, JUDGED).value
    assert hung == pytest.approx(heat * 1.15, rel=1e-9)


def test_bare_and_required_cost_by_hand() -> None:
    """Bare the surface is the pipe; with 50 mm asked it is that much insulation, whatever is proposed."""
    bare = watts(0.1143) * 100 * 5 / 0.8 * 0.08
    assert work_out("bare yearly cost", LINE, JUDGED).value == pytest.approx(bare, rel=1e-9)
    asked = watts(0.2143) * 100 * 5 / 0.8 * 0.08
    found = work_out("required yearly cost", {**LINE, "required thickness": 0.05}).value
    assert found == pytest.approx(asked, rel=1e-9)
    carbon = {"bare yearly carbon": bare / 0.08 * 0.2, "required yearly carbon": asked / 0.08 * 0.2}
    for name, kilograms in carbon.items():
        assert work_out(name, {**LINE, "required thickness": 0.05}).value == pytest.approx(kilograms, rel=1e-9)


def test_steam_tip_of_the_department_of_energy_is_near() -> None:
    """US DOE steam tip sheet 2 (seen): 1 in bare line at 150 psig loses 285 MMBtu a year in 100 ft; within 10 %."""
    line = {
        "component": "pipe",
        "pipe outside diameter": 0.0334,
        "insulation": "none",
        "operating temperature": 185.6 + ZERO,
        "ambient temperature": 23.9 + ZERO,
        "greatest jacket emittance": 0.8,
        "run length": 30.48,
        "operating hours": 8760 * 3600.0,
    }
    found = work_out("yearly heat", line, JUDGED).value
    assert found is not None
    assert found / 293.07 == pytest.approx(285, rel=0.1)


@given(
    st.floats(0.01, 1.0),
    st.floats(100.0, 20000.0),
    st.floats(0.0, 200.0),
    st.floats(1.0, 40.0),
    st.sampled_from([STOCKED_THICKNESSES, STOCKED_MILLIMETRES, (0.035, 0.045)]),
)
def test_economic_thickness_is_the_cheapest_of_all_stocked(
    price: float, insulation: float, jacket: float, life: float, stocked: tuple[float, ...]
) -> None:
    """A plain search over no insulation and every stocked thickness, with costs by hand, finds the same."""

    def cost(thickness: float) -> float:
        outside = 0.1143 + 2 * thickness
        covered = insulation * pi / 4 * (outside**2 - 0.1143**2) + (jacket * pi * outside if thickness else 0.0)
        return 100 * (life * watts(outside) * 5 / 0.8 * price + covered)

    prices = {
        "energy price": price,
        "insulation price per cubic metre": insulation,
        "jacket price per square metre": jacket,
    }
    line = {**LINE, **prices, "economic life": life}
    found = work_out("economic thickness", line, JUDGED, stocked).value
    assert found in (0.0, *stocked)
    assert cost(found) <= min(cost(each) for each in (0.0, *stocked)) * (1 + 1e-9)


def test_ten_thousand_years_agree_with_bisection_over_coolprop() -> None:
    """Heat, cost and carbon of 10,000 random runs are, within 0.1 %, those of a bisection over CoolProp's air."""
    generator = np.random.default_rng(11)
    drawn = {
        name: generator.uniform(low, high, 10_000)
        for name, low, high in (
            ("operating hours", 100 * 3600.0, 8760 * 3600.0),
            ("energy efficiency", 0.3, 4.0),
            ("energy price", 0.01, 0.5),
            ("carbon factor", 0.0, 1.0),
            ("hanger loss share", 0.0, 0.3),
            ("run length", 1.0, 500.0),
        )
    }
    line = {**random_runs(10_000), **drawn}
    loss = loss_at(line, np.asarray(line["operating temperature"]))
    heat = loss * (1 + drawn["hanger loss share"]) * drawn["run length"] * drawn["operating hours"] / 3.6e6
    energy = heat / drawn["energy efficiency"]
    expected = {
        "yearly heat": heat,
        "yearly energy": energy,
        "yearly cost": energy * drawn["energy price"],
        "yearly carbon": energy * drawn["carbon factor"],
    }
    for name, values in expected.items():
        assert work_out_lines(name, line, JUDGED).values == pytest.approx(values, rel=1e-3)


def test_weather_gives_the_mean_of_its_hours() -> None:
    """Half a year at 22 °C and half at 2 °C lose what 70 K lose in the mean; the ambient temperature is not asked."""
    weather = "January 2 C 80 % 4380 h / July 22 C 60 % 4380 h"
    line = {**LINE, "ambient temperature": None, "weather": weather}
    found = work_out("yearly heat", line, JUDGED)
    assert found.value == pytest.approx(watts(0.1643, 70.0) * 100 * 5, rel=1e-9)
    many = work_out_lines("yearly heat", {**LINE, "weather": [weather, "22 C 50 % 8760 h", ""]}, JUDGED).values
    assert many == pytest.approx(np.array([found.value, *[watts(0.1643) * 500] * 2]), rel=1e-9)


@given(st.floats(0.005, 0.1), st.floats(1.0, 3.0), st.floats(0.1, 1.0))
def test_cost_falls_with_thickness_and_with_efficiency(thickness: float, times: float, efficiency: float) -> None:
    """More insulation and a better plant never cost more, and insulation never more than none on this pipe."""
    thin, thick = thickness, thickness * times
    lines = {
        **LINE,
        "insulation outside diameter": None,
        "thickness": [thin, thick, thin],
        "energy efficiency": [efficiency, efficiency, min(1.0, efficiency * times)],
    }
    first, second, third = work_out_lines("yearly cost", lines, JUDGED).values  # type: ignore[arg-type]
    assert second <= first * (1 + 1e-9)
    assert third <= first * (1 + 1e-9)


@pytest.mark.parametrize(
    ("name", "change", "missing", "cannot"),
    [
        ("yearly heat", {"operating hours": None}, ("operating hours",), ""),
        ("yearly heat", {"ambient temperature": None}, ("ambient temperature",), ""),
        ("yearly cost", {"energy price": None}, ("energy price",), ""),
        ("yearly carbon", {"carbon factor": None}, ("carbon factor",), ""),
        ("economic thickness", {"economic life": None}, ("economic life",), ""),
        ("yearly heat", {"weather": "5 C 80 % 8 h"}, (), "the hours of the weather do not make up a year"),
    ],
)
def test_no_price_hours_or_factor_is_known_here(
    name: str, change: dict[str, float | str | None], missing: tuple[str, ...], cannot: str
) -> None:
    """What nobody states is asked for, and nothing is assumed."""
    working = work_out(name, {**LINE, **change}, JUDGED)
    assert (working.value, working.missing, working.cannot) == (None, missing, cannot)
