"""Weather files: the hours of the invented year, what a ruleset of them assumes, and files that cannot be used."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language import load_ruleset, parse_ruleset
from speccheck.language.diagnostics import Diagnostic
from speccheck.report.html.page import render_page
from speccheck.report.json.report import render_json
from speccheck.review import judge_schedule
from speccheck.review.weather_file import WeatherFile, read_weather_file, ruleset_of
from speccheck.schedule import read_schedule

EXAMPLES = Path(__file__).parents[2] / "examples" / "weather"
FILE = EXAMPLES / "emberlow-hollow.epw"
EXPECTED = (Path(__file__).parent / "V801-weather.expected").read_text(encoding="utf-8").strip()


def year() -> list[str]:
    """Return the lines of the invented file."""
    return FILE.read_text(encoding="utf-8").splitlines()


def read(folder: Path, rows: list[str]) -> WeatherFile | Diagnostic:
    """Return what is read from rows in a file."""
    path = folder / "site.epw"
    path.write_text("\n".join(rows) + "\n", encoding="utf-8")
    return read_weather_file(path)


def test_every_hour_is_read() -> None:
    """The first hour of the file is -11.2 °C or so, as its row says, and there are 744 of January."""
    found = read_weather_file(FILE)
    assert isinstance(found, WeatherFile)
    assert found.place == "Emberlow Hollow, Nowhere, XXX"
    assert len(found.air) == 8760
    assert found.months.count(0) == 744
    first = year()[8].split(",")
    assert found.air[0] == pytest.approx(float(first[6]) + 273.15)
    assert found.dew[0] == pytest.approx(float(first[7]) + 273.15)


def test_ruleset_of_the_example_is_what_its_file_gives() -> None:
    """The shipped ruleset is the one that the command writes; it has no mistakes and assumes the weather."""
    found = read_weather_file(FILE)
    assert isinstance(found, WeatherFile)
    assert ruleset_of(found) == (EXAMPLES / "weather.clauses").read_text(encoding="utf-8")
    loaded = parse_ruleset(ruleset_of(found))
    assert loaded.diagnostics == ()
    assert loaded.ruleset is not None
    assert [one.term.name for one in loaded.ruleset.assumptions] == ["weather"]


def test_an_hour_without_dew_point_has_that_of_its_humidity(tmp_path: Path) -> None:
    """Where the dew point was not measured (99.9) the relative humidity stands; where neither was, the hour is out."""
    rows = year()
    cells = rows[8].split(",")
    rows[8] = ",".join([*cells[:6], "20.0", "99.9", "50", *cells[9:]])
    rows[9] = ",".join([*cells[:6], "20.0", "99.9", "999", *cells[9:]])
    found = read(tmp_path, rows)
    assert isinstance(found, WeatherFile)
    assert len(found.air) == 8759
    assert found.dew[0] - 273.15 == pytest.approx(9.27, abs=0.02)  # 20 °C and 50 %: psychrometric chart


def test_files_that_are_no_year_are_refused(tmp_path: Path) -> None:
    """A file of another kind, a line that is no hour, and half a year: each with its place and what to use."""
    found = [
        read(tmp_path, ["mark,thickness", "P-1,1 in"]),
        read(tmp_path, [*year()[:20], "1999,13,1,1,60,invented,20,10,50,98400"]),
        read(tmp_path, year()[:4000]),
        read_weather_file(tmp_path / "nowhere.epw"),
    ]
    assert "\n\n".join(map(str, found)) == EXPECTED


def test_reports_tell_a_year_in_short() -> None:
    """No report repeats the hours of a year: page, JSON and findings name the file and the place instead."""
    ruleset = load_ruleset(EXAMPLES / "project.clauses").ruleset
    assert ruleset is not None
    matrix = judge_schedule(read_schedule(EXAMPLES / "schedule.csv", ruleset.vocabulary), ruleset)
    for report in (render_json(matrix), render_page(matrix)):
        assert "8,760 hours of emberlow-hollow.epw, Emberlow Hollow, Nowhere, XXX" in report
        assert "dew point -13 C 25 h" not in report
