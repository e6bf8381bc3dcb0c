"""`speccheck weather` as a person runs it: the sum of a year, the ruleset that it writes, and files it refuses."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner, Result

from speccheck.cli import speccheck

EXAMPLES = Path(__file__).parents[2] / "examples" / "weather"
FILE = EXAMPLES / "emberlow-hollow.epw"


def run(*words: str) -> Result:
    """Run a command in this process."""
    return CliRunner().invoke(speccheck, list(words), standalone_mode=False)


def dew_points() -> list[float]:
    """Return the dew points of the file, °C, read plainly."""
    rows = FILE.read_text(encoding="utf-8").splitlines()[8:]
    return [min(float(row.split(",")[7]), float(row.split(",")[6])) for row in rows]


def test_a_year_is_summed_up() -> None:
    """Hours over 65 F and the dew point of the 1 % are those counted plainly from the rows of the file."""
    found = run("weather", str(FILE))
    dews = sorted(dew_points(), reverse=True)
    assert found.return_value == 0
    assert f"dew point over 65 F: {sum(dew * 1.8 + 32 > 65 for dew in dews)} hours" in found.output
    level = round(dews[87] * 1.8 + 32, 1)
    assert f"exceeded 1.0% of the year: dew point {level:g} F" in found.output
    assert "most humid month: July" in found.output


def test_ruleset_is_written_and_lines_are_checked_by_it(tmp_path: Path) -> None:
    """The written ruleset is that of the example; by it the three lines outdoors do not comply."""
    into = tmp_path / "weather.clauses"
    assert run("weather", str(FILE), "--into", str(into)).return_value == 0
    assert into.read_bytes() == (EXAMPLES / "weather.clauses").read_bytes()
    checked = run("check", str(EXAMPLES / "schedule.csv"), "--against", str(EXAMPLES / "project.clauses"), "--full")
    assert checked.return_value == 1
    told = " ".join(checked.output.split())
    assert "dew point is 59.7 F" in told
    assert "sweating hours are" in told


def test_another_file_is_refused(tmp_path: Path) -> None:
    """A schedule is no weather file: status 3, with the diagnostic."""
    path = tmp_path / "schedule.csv"
    path.write_text("mark,thickness\nP-1,1 in\n", encoding="utf-8")
    found = CliRunner().invoke(speccheck, ["weather", str(path)])
    assert found.exit_code == 3
    assert "V801" in found.output
