"""Layouts as contractors write them, each a few rows and the lines that a reviewer takes from them, stated by hand.

`as_written` has a file for each kind of layout, with several of that kind. What the words mean is common practice, no
source. Nothing is made up: each line has just the values that are listed, and all that is not read is listed too.
"""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from speccheck.language import load_vocabulary
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.language.vocabulary.values import NotGiven, write_value
from speccheck.schedule import Line, Schedule, read_schedule
from speccheck.shipped import shipped_folder
from tests.schedule.building import HERE, write_workbook

BESIDE = ("mark", "notes")  # names and remarks, which are no facts of a system
PERHAPS_INFERRED = "component"


@cache
def shipped() -> Vocabulary:
    """Return the shipped vocabulary."""
    found = load_vocabulary(Path(shipped_folder("rulesets")) / "mechanical-insulation.clauses").vocabulary
    assert found is not None
    return found


def layouts() -> list[Any]:
    """Return every layout of every file, by its kind and what it shows."""
    return [
        pytest.param(layout, id=f"{path.stem}: {layout['shows']}")
        for path in sorted((HERE / "as_written").glob("*.toml"))
        for layout in tomllib.loads(path.read_text(encoding="utf-8"))["layout"]
    ]


def facts(line: Line, wanted: str) -> str:
    """Write the facts of a line, as the files do; what component it is only where the file says it."""
    terms = shipped().terms
    return "; ".join(
        f"{name} {write_value(datum.value, terms[name])}"
        for name, datum in sorted(line.data.items())
        if name not in BESIDE
        and not isinstance(datum.value, NotGiven)
        and (name != PERHAPS_INFERRED or PERHAPS_INFERRED in wanted)
    )


def left(schedule: Schedule) -> list[str]:
    """Write what a person has to read: cells that were not read, and texts that belong to no line."""
    unread = {datum.text for line in schedule.lines for datum in line.data.values() if _is_left(datum.value)}
    return sorted(unread | {one.text for one in schedule.unread})


def _is_left(value: object) -> bool:
    return isinstance(value, NotGiven) and bool(value.text) and value.why != "a dash says nothing"


@pytest.mark.parametrize("layout", layouts())
def test_a_layout_is_read_as_a_reviewer_reads_it(layout: dict[str, Any], tmp_path: Path) -> None:
    """Each line states what the file lists, no more, and what is left to a person is listed."""
    path = tmp_path / "submittal.xlsx"
    write_workbook(path, [{"name": "Sheet1", **layout}])
    schedule = read_schedule(path, shipped(), units=layout.get("units", "inch-pound"))
    wanted = ["; ".join(sorted(part.strip() for part in line.split(";"))) for line in layout["lines"]]
    assert [facts(line, line_wanted) for line, line_wanted in zip(schedule.lines, wanted, strict=False)] == wanted
    assert len(schedule.lines) == len(wanted)
    assert left(schedule) == sorted(layout.get("left", []))
