"""The cache of parser tables: it is filled, used, and done without where it cannot be written or is damaged."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import platformdirs
import pytest

from speccheck import disk_cache, parsers


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """Put the cache into a new folder for one test."""
    place = tmp_path / "cache"
    monkeypatch.delenv("SPECCHECK_CACHE", raising=False)
    monkeypatch.setattr(platformdirs, "user_cache_dir", lambda _name: str(place))
    disk_cache.cache_folder.cache_clear()
    yield place
    disk_cache.cache_folder.cache_clear()


def test_tables_are_left_for_the_next_start(folder: Path) -> None:
    """The first start leaves one file, and nothing half written; the second reads it and parses the same."""
    first = parsers.load_parser("quantity")
    (tables,) = folder.glob("*/*")
    before = tables.stat().st_mtime_ns
    second = parsers.load_parser("quantity")
    assert tables.stat().st_mtime_ns == before
    assert first.parse("2 in to 4 in") == second.parse("2 in to 4 in")


def test_damaged_tables_are_built_again(folder: Path) -> None:
    """A cache file that somebody cut short or wrote over does not stop the program."""
    parsers.load_parser("quantity")
    (tables,) = folder.glob("*/*")
    for damage in (tables.read_bytes()[:100], b"", b"nonsense"):
        tables.write_bytes(damage)
        assert parsers.load_parser("quantity").parse("2 in").data == "alone"


def test_a_folder_that_cannot_be_made_is_done_without(folder: Path) -> None:
    """Where a file stands in the place of the cache folder, the parser is built all the same."""
    folder.write_text("in the way", encoding="utf-8")
    assert parsers.load_parser("quantity").parse("2 in").data == "alone"


def test_a_change_of_the_start_rule_is_another_parser(folder: Path) -> None:
    """Tables are kept apart by the options that they were built with."""
    assert parsers.load_parser("quantity", start="amount").parse("2 in").data == "plain"
    assert parsers.load_parser("quantity").parse("2 in").data == "alone"
    assert len(list(folder.glob("*/*"))) == 2
