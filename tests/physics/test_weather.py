"""The weather of a year: how it is written down, hours that sweat against every hour by itself, and what few exceed."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import psychrolib
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.physics.calculations.all import work_out, work_out_lines
from speccheck.physics.weather import MONTHS, exceeded_dew_point, read_weather, weather_text
from speccheck.physics.weather_words import named_weather, told_in_short
from speccheck.review.weather_file import WeatherFile, read_weather_file

psychrolib.SetUnitSystem(psychrolib.SI)
ZERO = 273.15
FILE = Path(__file__).parents[2] / "examples" / "weather" / "emberlow-hollow.epw"
LINE: dict[str, float | str | None] = {
    "pipe outside diameter": 0.1143,
    "thickness": 0.015,
    "insulation": "elastomeric foam",
    "conductivity": 0.036,
    "operating temperature": 278.15,
    "jacket emittance": 0.9,
}


@pytest.fixture(scope="module")
def year() -> WeatherFile:
    """The hours of the invented year."""
    found = read_weather_file(FILE)
    assert isinstance(found, WeatherFile)
    return found


def text_of(year: WeatherFile) -> str:
    """Return the year as it is written down."""
    return weather_text(year.months, np.array(year.air), np.array(year.dew))


def test_a_year_has_a_name_and_is_told_by_it() -> None:
    """A name before the first entry changes no hour; a long year is told by its hours and name, a short one whole."""
    entries = " / ".join(f"{month} 27 C 80 % 730 h" for month in MONTHS)
    named = named_weather("site.epw, Emberlow/Hollow: Nowhere", entries)
    with_name, without = read_weather(named), read_weather(entries)
    assert with_name is not None
    assert without is not None
    assert with_name.hours.tolist() == without.hours.tolist() == [730.0] * 12
    assert told_in_short(named) == "8,760 hours of site.epw, Emberlow Hollow Nowhere"
    assert told_in_short(entries) == "8,760 hours of weather in 12 entries"
    assert told_in_short("July 27 C 80 % 4380 h / 50 F dew point 41 F 4380 h") == (
        "July 27 C 80 % 4380 h / 50 F dew point 41 F 4380 h"
    )
    assert told_in_short("a long remark of a schedule / that speaks of hours " * 9).startswith("a long remark")


def test_entries_are_air_humidity_and_hours() -> None:
    """Humidity or dew point, Celsius or Fahrenheit, with the month or without; vapor pressure by psychrolib."""
    found = read_weather("July 27 C 80 % 4380 h / 50 F dew point 41 F 4380 h")
    assert found is not None
    assert found.months == (6, -1)
    assert found.air - ZERO == pytest.approx([27.0, 10.0])
    vapor = [psychrolib.GetVapPresFromRelHum(27.0, 0.8), psychrolib.GetSatVapPres(5.0)]
    assert found.vapor == pytest.approx(vapor, rel=1e-6)
    assert found.whole_year


@pytest.mark.parametrize(
    "text",
    [
        "",
        "warm",
        "27 C 80 %",
        "27 C 101 % 8760 h",
        "27 C dew point 28 C 8760 h",
        "July 27 K 80 % 1 h",
        "27 C 80 % -1 h",
    ],
)
def test_what_is_no_weather_is_not_read(text: str) -> None:
    """Words without a number, air that cannot hold so much, other units and hours below zero are refused."""
    assert read_weather(text) is None


def test_a_year_that_is_put_together_keeps_its_hours_and_its_vapor(year: WeatherFile) -> None:
    """All 8760 hours are there, and mean temperature and mean vapor pressure are those of the hours, within 0.1 %."""
    found = read_weather(text_of(year))
    assert found is not None
    assert np.sum(found.hours) == 8760
    mean = float(np.average(found.air, weights=found.hours))
    assert mean == pytest.approx(float(np.mean(year.air)), abs=0.01)
    vapor = np.mean([psychrolib.GetSatVapPres(dew - ZERO) for dew in year.dew])
    assert float(np.average(found.vapor, weights=found.hours)) == pytest.approx(float(vapor), rel=1e-3)


@pytest.mark.parametrize("thickness", [0.008, 0.012, 0.02])
def test_sweating_hours_are_those_counted_hour_by_hour(year: WeatherFile, thickness: float) -> None:
    """Every hour of the year solved by itself and compared with psychrolib's dew point: within 1 % of the year."""
    line = {**LINE, "thickness": thickness}
    surface = work_out_lines("surface temperature", {**line, "ambient temperature": np.array(year.air)}).values
    counted = int(np.sum(surface < np.array(year.dew)))
    found = work_out("sweating hours", {**line, "weather": text_of(year)})
    assert found.value is not None
    assert found.value / 3600 == pytest.approx(counted, abs=88)
    wet = np.bincount(np.array(year.months)[surface < np.array(year.dew)], minlength=12)
    named = {step.name: step.value for step in found.steps}["month with most of them"]
    assert wet[MONTHS.index(str(named))] > wet.max() - 30


@given(st.floats(0.005, 0.03), st.floats(1.0, 3.0))
@settings(max_examples=15)
def test_more_insulation_never_sweats_longer(thickness: float, times: float) -> None:
    """Hours fall with thickness, and lie between none and a year."""
    weather = "July 27 C 80 % 2000 h / 25 C 95 % 760 h / 10 C 70 % 6000 h"
    column = work_out_lines("sweating hours", {**LINE, "thickness": [thickness, thickness * times], "weather": weather})
    thin, thick = column.values / 3600
    assert 0 <= thick <= thin <= 8760


@given(st.lists(st.floats(-10.0, 30.0), min_size=2, max_size=20), st.floats(0.0, 1.0))
def test_exceeded_dew_point_is_the_least_that_few_hours_exceed(dews: list[float], share: float) -> None:
    """No more than the share of equal hours lies above it, and of every lower dew point that occurs more does."""
    hours = 8760 / len(dews)
    weather = read_weather(" / ".join(f"40 C dew point {dew:.3f} C {hours:.6f} h" for dew in dews))
    assert weather is not None
    level = exceeded_dew_point(weather, share) - ZERO
    rounded = np.array([float(f"{dew:.3f}") for dew in dews])
    assert np.mean(rounded > level + 1e-6) <= share + 1e-9
    lower = rounded[rounded < level - 1e-6]
    assert lower.size == 0 or np.mean(rounded > lower.max() + 1e-6) > share - 1e-9


@pytest.mark.parametrize(
    ("name", "change", "missing", "cannot"),
    [
        ("sweating hours", {"weather": None}, ("weather",), ""),
        ("sweating hours", {"conductivity": None, "insulation": "mineral wool"}, ("conductivity",), ""),
        ("sweating hours", {"weather": "27 C 80 % 100 h"}, (), "the hours of the weather do not make up a year"),
        ("exceeded dew point", {}, ("exceedance",), ""),
    ],
)
def test_what_is_missing_is_named(
    name: str, change: dict[str, float | str | None], missing: tuple[str, ...], cannot: str
) -> None:
    """Without weather, without an input of the surface, or with half a year there is no number."""
    from speccheck.physics.calculations.all import JUDGED

    working = work_out(name, {**LINE, "weather": "27 C 80 % 8760 h", **change}, JUDGED)
    assert (working.value, working.missing, working.cannot) == (None, missing, cannot)
