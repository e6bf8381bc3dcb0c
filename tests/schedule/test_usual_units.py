"""Bare numbers take the units of the ruleset where nothing else states any."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.schedule import ScheduleMapping, read_schedule
from tests.schedule.building import small_vocabulary


@pytest.mark.parametrize(
    ("asked", "mapped", "usual", "value", "note"),
    [
        ("", "", "inch-pound", "1 in", "unit of the inch-pound ruleset"),
        ("", "", "metric", "1 mm", "unit of the metric ruleset"),
        ("", "metric", "inch-pound", "1 mm", "unit of the metric schedule"),
        ("inch-pound", "metric", "metric", "1 in", "unit of the inch-pound schedule"),
    ],
)
def test_who_says_what_bare_numbers_are_in(
    tmp_path: Path, asked: str, mapped: str, usual: str, value: str, note: str
) -> None:
    """The call comes first, then the mapping file, then the ruleset; the evidence says which it was."""
    path = tmp_path / "lines.csv"
    path.write_text("Mark,Thk\nA,1\n", encoding="utf-8")
    mapping = ScheduleMapping(units=mapped)
    schedule = read_schedule(path, small_vocabulary(), mapping, units=asked, usual_units=usual)
    datum = schedule.lines[0].data["thickness"]
    assert (str(datum.value), datum.note) == (value, note)
