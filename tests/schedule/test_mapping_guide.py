"""The guide to mapping files: its worked example comes out as it says, and every key that it names is one."""

from __future__ import annotations

import re
from dataclasses import fields
from functools import cache
from pathlib import Path

import pytest
from click.testing import CliRunner

from speccheck.cli import speccheck
from speccheck.language import load_vocabulary
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.schedule import Schedule, ScheduleMapping, read_mapping, read_schedule

TOP = Path(__file__).parents[2]
FOLDER = TOP / "examples" / "mapping"
GUIDE = (FOLDER / "README.md").read_text(encoding="utf-8")


@cache
def vocabulary() -> Vocabulary:
    """Return the shipped vocabulary, whose terms the guide uses."""
    found = load_vocabulary("mechanical insulation").vocabulary
    assert found is not None
    return found


def read(name: str) -> Schedule:
    """Read a submittal of the example with its mapping."""
    mapping, problems = read_mapping(FOLDER / "mapping.toml", vocabulary())
    assert problems == ()
    return read_schedule(FOLDER / name, vocabulary(), mapping)


@pytest.mark.parametrize("which", ["first", "second"])
def test_the_readings_of_the_guide(which: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The commands of the guide print what it says."""
    monkeypatch.chdir(TOP)
    block = GUIDE.split(f"<!-- {which} reading -->")[1]
    command, shown = re.findall(r"```\w+\n(.*?)```", block, re.DOTALL)[:2]
    found = CliRunner().invoke(speccheck, command.split()[1:], standalone_mode=False)
    assert found.output == shown


@pytest.mark.parametrize("name", ["first-submittal.csv", "second-submittal.csv"])
def test_one_mapping_serves_the_first_form_and_its_revision(name: str) -> None:
    """Each line of both rounds says what the contractor meant, whatever the order of the columns."""
    schedule = read(name)
    assert [found for found in schedule.diagnostics if found.severity != "note"] == []
    assert schedule.unread == ()
    assert schedule.cells is not None
    assert schedule.cells.filled == schedule.cells.accounted
    by_size = {
        str(line.data["service"].value) + " " + str(line.data["pipe size"].value): {
            term: str(datum.value) for term, datum in line.data.items()
        }
        for line in schedule.lines
    }
    chilled = by_size["chilled water NPS 6"]
    assert (chilled["insulation"], chilled["facing"]) == ("fiberglass", "all-service jacket")
    assert (chilled["location"], chilled["jacket"], chilled["component"]) == ("plenum", "laminated membrane", "pipe")
    buried = by_size["domestic hot water NPS 2"]
    assert (buried["location"], buried["insulation"]) == ("buried", "elastomeric foam")


def test_what_the_mapping_file_settles_says_so() -> None:
    """Evidence names the mapping file: for words, for what they say beside it, and for constants."""
    line = read("first-submittal.csv").lines[4]
    assert line.data["service"].note == "read as `domestic hot water` by the mapping file"
    assert (line.data["location"].note, line.data["location"].inferred) == (
        "read as `buried` by the mapping file",
        True,
    )
    assert (line.data["component"].note, line.data["component"].place.file, line.data["component"].inferred) == (
        "from `constants` in the mapping file",
        "mapping.toml",
        True,
    )


def test_the_guide_shows_every_key(tmp_path: Path) -> None:
    """The example of all keys is a mapping file that can be used, and sets every field that a mapping has."""
    (tmp_path / "all.toml").write_text(re.findall(r"```toml\n(.*?)```", GUIDE, re.DOTALL)[-1], encoding="utf-8")
    mapping, problems = read_mapping(tmp_path / "all.toml", vocabulary())
    assert problems == ()
    assert mapping is not None
    nothing = ScheduleMapping()
    unset = [one.name for one in fields(mapping) if getattr(mapping, one.name) == getattr(nothing, one.name)]
    assert unset == ["units_of", "legend_places", "legend_rows", "letters", "note_marks"]  # which no file says
