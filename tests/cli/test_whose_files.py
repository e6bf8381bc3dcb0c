"""What is written stays whose it is: rulesets in the house style, folders of reports, weather files."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.test_outputs import run

RULES = """ruleset "Small"
  speaks mechanical insulation
  units  inch-pound

clause 1.1 "Thickness"
  where   service is chilled water
  shall   thickness be at least 1 in
"""
WEATHER = Path(__file__).parents[2] / "examples" / "weather" / "emberlow-hollow.epw"


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Stand in a folder with a ruleset, a schedule of one line, and a section of one sentence."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "small.clauses").write_text(RULES, encoding="utf-8")
    (tmp_path / "schedule.csv").write_text("Mark,Service,Thk (in)\nA,CHW,1/2\n", encoding="utf-8")
    (tmp_path / "section.txt").write_text("A. Flame spread shall be not more than 25.\n", encoding="utf-8")
    return tmp_path


def test_a_ruleset_put_in_the_house_style_stays_its_writers(folder: Path) -> None:
    """Formatting says that it wrote the file; a report of that name is refused afterwards as it was before."""
    untidy = 'ruleset "T"\n  speaks mechanical insulation\nclause 1 "A"\n  shall service be steam\n'
    (folder / "theirs.clauses").write_text(untidy, encoding="utf-8")
    told = run("format", "theirs.clauses")
    assert (told.return_value, told.output) == (0, "wrote theirs.clauses\n")
    kept = (folder / "theirs.clauses").read_bytes()
    assert kept != untidy.encode()
    refused = run("draft", "section.txt", "--into", "theirs.clauses")
    assert (refused.return_value, "R107" in refused.output) == (3, True)
    assert (folder / "theirs.clauses").read_bytes() == kept


def test_a_portfolio_says_what_it_wrote(folder: Path) -> None:
    """The reports of a whole folder are told at the end, as those of every other command are."""
    (folder / "all").mkdir()
    (folder / "schedule.csv").rename(folder / "all" / "schedule.csv")
    call = ("portfolio", "all", "--against", "small.clauses", "--into", "judged", "--workers", "1", "--quiet")
    told = run(*call).output.splitlines()
    names = [line.removeprefix("wrote ") for line in told if line.startswith("wrote ")]
    assert [Path(name).name for name in names[:2]] == ["summary.json", "summary.html"]
    assert len(names) == 3
    assert {name for name in names if not (folder / name).is_file()} == set()


def test_a_weather_file_is_not_written_over(folder: Path) -> None:
    """Its hours may have taken a station a year: not even `--replace` puts a ruleset in their place."""
    (folder / "year.epw").write_bytes(WEATHER.read_bytes())
    found = run("weather", "year.epw", "--into", "year.epw", "--replace")
    assert found.return_value == 3 or isinstance(found.exception, SystemExit)
    assert "R102" in found.output
    assert (folder / "year.epw").read_bytes() == WEATHER.read_bytes()
