"""Readings that are kept are those of reading the file, and none outlives what it was read from or by."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from speccheck import disk_cache
from speccheck.language import load_vocabulary
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.schedule import ScheduleMapping, kept_readings, read_mapping, read_schedule
from speccheck.schedule.kept_readings import read_once
from speccheck.schedule.what_was_read import what_was_read

EXAMPLES = Path(__file__).parents[2] / "examples"
TABLE = "Mark,Service,Size,Insulation,Thickness\nCHW-1,chilled water,2 in,fiberglass,{thickness}\n"


@pytest.fixture(scope="module")
def vocabulary() -> Vocabulary:
    """Return the shipped vocabulary."""
    found = load_vocabulary("mechanical insulation").vocabulary
    assert found is not None
    return found


@pytest.fixture(autouse=True)
def _nothing_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """Put the cache into a new folder for each test, and let the process forget what it has read."""
    monkeypatch.setenv("SPECCHECK_CACHE", str(tmp_path / "cache"))
    disk_cache.cache_folder.cache_clear()
    kept_readings._remembered.clear()
    yield
    disk_cache.cache_folder.cache_clear()
    kept_readings._remembered.clear()


def kept_files() -> list[Path]:
    """Return the readings in the cache folder."""
    folder = disk_cache.cache_folder()
    return sorted(folder.glob("reading-*")) if folder is not None else []


def thickness(path: Path, vocabulary: Vocabulary, units: str = "") -> str:
    """Return the thickness of the only line of a file, as it is read once."""
    (line,) = read_once(path, vocabulary, ScheduleMapping(units=units)).lines
    return str(line.data["thickness"].value)


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*/schedule.xlsx")), ids=lambda path: path.parent.name)
def test_a_reading_comes_back_as_it_was(path: Path, vocabulary: Vocabulary) -> None:
    """The schedules of the examples come back equal from the cache folder: every kind of value may stand in a file."""
    first = read_once(path, vocabulary, ScheduleMapping())
    assert first == read_schedule(path, vocabulary)
    kept_readings._remembered.clear()
    assert len(kept_files()) == 1
    assert read_once(path, vocabulary, ScheduleMapping()) == first


def test_a_file_is_read_once(tmp_path: Path, vocabulary: Vocabulary, monkeypatch: pytest.MonkeyPatch) -> None:
    """A second reading, in this process or in one that finds the first in the cache folder, opens no schedule."""
    path = tmp_path / "schedule.csv"
    path.write_text(TABLE.format(thickness="1 in"))
    first = read_once(path, vocabulary, ScheduleMapping())
    monkeypatch.setattr(kept_readings, "_read", None)
    assert read_once(path, vocabulary, ScheduleMapping()) is first
    kept_readings._remembered.clear()
    assert read_once(path, vocabulary, ScheduleMapping()) == first


@pytest.mark.parametrize("path", sorted(EXAMPLES.glob("*/schedule.xlsx")), ids=lambda path: path.parent.name)
def test_what_was_read_is_the_same_of_a_reading_that_is_kept(path: Path, vocabulary: Vocabulary) -> None:
    """Tables, columns and sheets of a file that was read before are those of reading it, however it is known."""
    first = what_was_read(path, vocabulary)
    assert first.schedule == read_schedule(path, vocabulary)
    assert any(grid.cells for grid in first.grids)
    assert what_was_read(path, vocabulary) == first
    kept_readings._remembered.clear()
    assert len(kept_files()) == 1
    assert what_was_read(path, vocabulary) == first


def test_what_was_read_of_a_file_that_is_known_opens_it_alone(
    tmp_path: Path, vocabulary: Vocabulary, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The sheets are opened again, for the screen that shows them, and no schedule is looked for on them."""
    path = tmp_path / "schedule.csv"
    path.write_text(TABLE.format(thickness="1 in"))
    first = what_was_read(path, vocabulary)
    monkeypatch.setattr(kept_readings, "_read", None)
    assert what_was_read(path, vocabulary) == first


def test_what_changed_is_read_again(tmp_path: Path, vocabulary: Vocabulary) -> None:
    """Another content of the file, other units and another mapping each give a reading of their own."""
    path = tmp_path / "schedule.csv"
    path.write_text(TABLE.format(thickness="1 in"))
    assert thickness(path, vocabulary) == "1 in"
    path.write_text(TABLE.format(thickness="50"))
    assert thickness(path, vocabulary, units="metric") == "50 mm"
    assert "50 in is not sensible" in thickness(path, vocabulary, units="inch-pound")
    mapping_file = tmp_path / "mapping.toml"
    mapping_file.write_text('[values.thickness]\n"50" = "2 in"\n')
    mapping, _ = read_mapping(mapping_file, vocabulary)
    assert isinstance(mapping, ScheduleMapping)
    (line,) = read_once(path, vocabulary, mapping).lines
    assert str(line.data["thickness"].value) == "2 in"


def test_another_vocabulary_reads_otherwise(tmp_path: Path, vocabulary: Vocabulary) -> None:
    """A vocabulary that lacks a term does not take over a reading in which a cell was read as that term."""
    path = tmp_path / "schedule.csv"
    path.write_text(TABLE.format(thickness="1 in"))
    assert thickness(path, vocabulary) == "1 in"
    terms = {name: term for name, term in vocabulary.terms.items() if name != "insulation"}
    (line,) = read_once(path, Vocabulary(vocabulary.name, terms), ScheduleMapping()).lines
    assert "insulation" not in line.data


@pytest.mark.parametrize("name", ["schedule.xls", "schedule.csv"])
def test_what_libraries_read_and_what_cannot_be_read_is_not_kept_between_runs(
    tmp_path: Path, vocabulary: Vocabulary, name: str
) -> None:
    """A file of an old workbook's first bytes, and one without any line, are read anew by the next run."""
    path = tmp_path / name
    path.write_bytes(b"\xd0\xcf\x11\xe0 nothing" if name.endswith("xls") else b"nothing")
    assert not read_once(path, vocabulary, ScheduleMapping()).lines
    assert not kept_files()


def test_a_file_that_is_not_there_is_told_as_before(tmp_path: Path, vocabulary: Vocabulary) -> None:
    """What is wrong with a path is said by reading it."""
    path = tmp_path / "missing.csv"
    assert read_once(path, vocabulary, ScheduleMapping()) == read_schedule(path, vocabulary)
