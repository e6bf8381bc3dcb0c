"""Water in cold insulation: against finite volumes, Bessel roots and a balance by hand; and as lines are told."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq
from scipy.special import j0, j1, y0, y1

from speccheck.physics import moisture
from speccheck.physics.calculations.all import work_out, work_out_lines
from speccheck.physics.psychrometrics import saturation_pressure, saturation_slope, vapor_pressure
from tests.physics.moisture_by_volumes import compare, deposit_by_volumes, random_systems

NANOGRAM = 1e-12
# A 4 in pipe of 5 °C in 27 °C and 80 %, 25 mm of an insulation of 1 ng/(s m Pa).
LINE: dict[str, float | str | None] = {
    "pipe outside diameter": 0.1143,
    "thickness": 0.025,
    "insulation": "polyisocyanurate",
    "conductivity": 0.028,
    "permeability": 1 * NANOGRAM,
    "operating temperature": 278.15,
    "ambient temperature": 300.15,
    "relative humidity": 0.8,
    "jacket emittance": 0.9,
    "service years": 10.0,
}


def test_random_pipes_agree_with_finite_volumes() -> None:
    """150 random pipes agree within 0.1 % with SciPy's volumes, in which saturated ones are held at saturation."""
    worst, gaining = compare(150)
    assert gaining > 100
    assert worst < 1e-3


def test_vapor_that_enters_is_vapor_that_stays() -> None:
    """The vapor balance closes: what is said to enter is what saturated volumes of SciPy take up, within 0.1 %."""
    systems = random_systems(120, seed=20261129)
    found = moisture.vapor_gain(**systems)
    gaining = np.flatnonzero((found > 0) & np.isfinite(systems["sheet_permeance"]))
    assert len(gaining) > 20
    for row in gaining:
        line = {name: float(values[row]) for name, values in systems.items()}
        assert deposit_by_volumes(line) == pytest.approx(float(found[row]), rel=1e-3)


def test_chord_to_the_cold_pipe_by_hand() -> None:
    """Under a tight sheet all vapor goes to the pipe: (pa - ps)/ΣZ, as EN 14114 adds resistances (from memory)."""
    pipe, outside, sheet = 0.1143, 0.1643, 1.15 * NANOGRAM
    vapor = 0.8 * 3567.0  # saturation at 27 °C: 3.567 kPa, any steam table
    layer = np.log(outside / pipe) / (2 * np.pi * 1 * NANOGRAM)
    by_hand = (vapor - 872.6) / (layer + 1 / (np.pi * outside * sheet))  # saturation at 5 °C: 0.8726 kPa
    air = vapor_pressure(300.15, 0.8)
    found = moisture.vapor_gain(pipe, outside, 1 * NANOGRAM, sheet, 278.15, 300.15, air, 0.028)
    assert float(found) == pytest.approx(by_hand, rel=1e-3)


@pytest.mark.parametrize(("pipe", "thickness"), [(0.0213, 0.1), (0.1143, 0.025), (0.6, 0.05), (20.0, 0.05)])
def test_spread_of_vapor_is_the_least_root_of_bessel_functions(pipe: float, thickness: float) -> None:
    """The root found by stepping through the layer is that of SciPy's Bessel functions; on flat walls 2t/π."""
    inner, outer = pipe / 2, pipe / 2 + thickness

    def balance(root: float) -> float:
        return float(j0(root * inner) * y1(root * outer) - y0(root * inner) * j1(root * outer))

    root = brentq(balance, 0.01 / thickness, 1.6 / thickness, xtol=1e-14)
    assert float(moisture.vapor_spread(pipe, pipe + 2 * thickness)) == pytest.approx(1 / root, rel=1e-6)
    assert float(moisture.vapor_spread(1e4, 1e4 + 2 * thickness)) == pytest.approx(2 * thickness / np.pi, rel=1e-4)


@given(st.floats(175.0, 470.0).filter(lambda kelvin: abs(kelvin - 273.16) > 0.01))
def test_slope_of_saturation_is_that_of_the_pressure(kelvin: float) -> None:
    """The derivative agrees with central differences."""
    step = 1e-3
    rise = saturation_pressure(kelvin + step) - saturation_pressure(kelvin - step)
    assert float(saturation_slope(kelvin)) == pytest.approx(float(rise) / (2 * step), rel=1e-5)


@given(st.lists(st.floats(-5.0, 5.0), min_size=1, max_size=12), st.integers(0, 40), st.floats(0.0, 0.99))
def test_water_after_years_is_what_going_through_every_month_gives(gains: list[float], years: int, part: float) -> None:
    """The short way over whole years gives what the sum month by month gives; nothing dries that is not there."""
    stored = 0.0
    for gain in gains * years:
        stored = max(stored + gain, 0.0)
    for number, gain in enumerate(gains):
        stored = max(stored + min(max(part * len(gains) - number, 0.0), 1.0) * gain, 0.0)
    found = float(moisture.water_after(np.array(gains), years + part))
    assert found == pytest.approx(stored, rel=1e-9, abs=1e-9)


@given(st.floats(0.0, 0.5), st.floats(0.0, 0.5), st.floats(0.4, 1.0), st.floats(1.0, 5.0))
def test_more_openings_vapor_and_permeability_bring_more_water(
    share: float, more: float, humidity: float, times: float
) -> None:
    """Water grows with the open share, with the humidity and with the permeability."""
    base = {**LINE, "relative humidity": humidity, "retarder permeance": 1.15 * NANOGRAM, "retarder open share": share}
    wetter = [
        base,
        {**base, "retarder open share": share + more},
        {**base, "permeability": times * NANOGRAM},
        {**base, "relative humidity": min(1.0, humidity * times)},
    ]
    columns = {name: [line[name] for line in wetter] for name in base}
    found = work_out_lines("water content", columns).values  # type: ignore[arg-type]
    assert np.all(found[1:] >= found[0] * (1 - 1e-9))


def test_a_year_of_months_is_the_sum_of_its_months() -> None:
    """Twelve equal months are one year of their air; a winter that dries takes away what the summer brought."""
    steady = work_out("yearly moisture gain", LINE).value
    months = " / ".join(f"{27} C {80} % {8760 / 12} h" for _ in range(12))
    same = work_out("yearly moisture gain", {**LINE, "weather": months})
    assert same.value == pytest.approx(steady)
    summer_alone = work_out("water content", {**LINE, "weather": "July 27 C 80 % 4380 h / January 27 C 10 % 4380 h"})
    assert summer_alone.value is not None
    assert steady is not None
    assert summer_alone.value < 10 * steady / 2


@pytest.mark.parametrize(
    ("name", "change", "missing", "cannot"),
    [
        ("water content", {"permeability": None}, ("permeability",), ""),
        ("water content", {"retarder permeance": 1.15 * NANOGRAM}, ("retarder open share",), ""),
        ("water content", {"relative humidity": None}, ("relative humidity",), ""),
        ("water content", {"service years": None}, ("service years",), ""),
        ("water content", {"weather": "27 C 80 % 100 h"}, (), "the hours of the weather do not make up a year"),
        (
            "water content",
            {"weather": "warm"},
            (),
            "the weather is not written as entries such as `January 34 F 80 % 744 h` or `21 C dew point 18 C 96 h`, "
            "parted by slashes",
        ),
        (
            "wet conductivity",
            {"insulation": "elastomeric foam", "retarder permeance": None},
            (),
            "no moisture conversion coefficient is published here for this insulation, and none is stated",
        ),
        (
            "wet conductivity",
            {"permeability": 50 * NANOGRAM},
            (),
            "there is more water than the moisture conversion coefficient holds for",
        ),
        ("length at risk", {"run length": 30.0}, ("vapor stop spacing",), ""),
        ("length at risk", {"vapor stop spacing": np.inf}, ("run length",), ""),
    ],
)
def test_what_is_missing_or_outside_is_named(
    name: str, change: dict[str, float | str | None], missing: tuple[str, ...], cannot: str
) -> None:
    """A value that lacks an input or lies outside its formula says so; a sheet without a stated share is not tight."""
    working = work_out(name, {**LINE, **change})
    assert working.value is None
    assert (working.missing, working.cannot) == (missing, cannot)


def test_wet_insulation_conducts_more_and_its_surface_is_colder() -> None:
    """ISO 10456: exp(6·ψ) for polyisocyanurate (from memory); on a cold line the wet surface is the colder one."""
    line = {**LINE, "permeability": 0.05 * NANOGRAM}
    water, wet = work_out("water content", line).value, work_out("wet conductivity", line).value
    assert water is not None
    assert wet == pytest.approx(0.028 * np.exp(6 * water))
    dry_surface, wet_surface = (
        work_out(name, line).value for name in ("surface temperature", "wet surface temperature")
    )
    assert dry_surface is not None
    assert wet_surface is not None
    assert wet_surface < dry_surface


def test_vapor_stops_hold_the_water_of_a_breach() -> None:
    """From one stop to the next, and no more than the run; without stops the whole run."""
    stopped = {"vapor stop spacing": 6.0, "run length": 30.0}
    assert work_out("length at risk", stopped).value == 6.0
    assert work_out("length at risk", {**stopped, "vapor stop spacing": np.inf}).value == 30.0
    assert work_out("length at risk", {**stopped, "run length": 4.0}).value == 4.0


def test_many_lines_are_those_of_each_alone() -> None:
    """A column of lines, with weather and without, gives what each line gives by itself."""
    lines = [LINE, {**LINE, "weather": "27 C 80 % 8760 h"}, {**LINE, "weather": "20 C dew point 2 C 8760 h"}]
    columns = {name: [line.get(name, "") for line in lines] for name in (*LINE, "weather")}
    found = work_out_lines("water content", columns).values  # type: ignore[arg-type]
    alone = [work_out("water content", line).value for line in lines]
    assert found == pytest.approx(np.array(alone, dtype=float))
    assert found[2] == 0.0
