"""A sheet of the demo as papers of every kind: the same lines and verdicts as its workbook gives."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache, partial
from pathlib import Path
from typing import Any

import pytest

from speccheck.judge import Verdict
from speccheck.language import load_ruleset
from speccheck.language.core import Ruleset
from speccheck.review import judge_schedule
from speccheck.schedule import read_schedule
from speccheck.schedule.formats.opening import open_schedule
from speccheck.schedule.grid import Grid
from tests.schedule.formats.papers import (
    write_docx,
    write_html,
    write_ods,
    write_separated,
    write_xlsx,
)

DEMO = Path(__file__).parents[2] / "examples" / "dairy"
SHEET = "Ductwork & equipment"
Found = list[tuple[str, dict[str, object], list[Verdict]]]


def _ruled(path: Path, rows: list[list[str]]) -> None:
    """Write a ruled PDF on paper that is wide enough."""
    from reportlab.lib import colors
    from reportlab.platypus import SimpleDocTemplate, Table

    table = Table(rows)
    table.setStyle([("GRID", (0, 0), (-1, -1), 0.5, colors.black), ("FONTSIZE", (0, 0), (-1, -1), 8)])
    SimpleDocTemplate(str(path), pagesize=(9000, 1600), invariant=1).build([table])


WRITERS: dict[str, Callable[[Path, Any], object]] = {
    "s.csv": partial(write_separated, separator=","),
    "s.xlsx": write_xlsx,
    "s.docx": write_docx,
    "s.ods": write_ods,
    "s.xls": write_html,
    "s.pdf": _ruled,
}


@cache
def _ruleset() -> Ruleset:
    ruleset = load_ruleset(DEMO / "project.clauses").ruleset
    assert ruleset is not None
    return ruleset


def _rows(grid: Grid) -> list[list[str]]:
    """Return a sheet as plain rows."""
    rows, columns = (max(at[axis] for at in grid.cells) + 1 for axis in (0, 1))
    return [[grid.text(row, column) for column in range(columns)] for row in range(rows)]


@cache
def _found(path: Path, sheet: str = "") -> Found:
    """Return each line by name, with what was understood and the verdicts."""
    schedule = read_schedule(path, _ruleset().vocabulary, units=_ruleset().units, sheet=sheet)
    matrix = judge_schedule(schedule, _ruleset())
    return [
        (line.name, {name: datum.value for name, datum in line.data.items()}, [cell.verdict for cell in cells])
        for line, cells in zip(schedule.lines, matrix.cells, strict=True)
    ]


@pytest.mark.parametrize("name", WRITERS)
def test_the_demo_is_the_same_on_every_paper(name: str, tmp_path: Path) -> None:
    """Separated text, workbooks, Word, a page of HTML called .xls and a ruled PDF give what the demo gives."""
    grid = next(grid for grid in open_schedule(DEMO / "schedule.xlsx")[0] if grid.sheet == SHEET)
    path = tmp_path / name
    WRITERS[name](path, _rows(grid))
    assert _found(path) == _found(DEMO / "schedule.xlsx", SHEET)
