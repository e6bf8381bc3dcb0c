"""The brewery, all metric: the program finds what a reviewer wrote down by hand, and nothing else."""

from __future__ import annotations

import importlib.util
import io
import tomllib
from functools import cache
from pathlib import Path

import pytest
from openpyxl import load_workbook
from rich.console import Console

from speccheck.judge.examples import rehearse
from speccheck.judge.judgement import Verdict
from speccheck.language import load_ruleset
from speccheck.language.core import Ruleset
from speccheck.report.html.page import render_page
from speccheck.report.terminal.report import print_matrix
from speccheck.report.workbook.blank import render_blank
from speccheck.report.workbook.report import render_workbook
from speccheck.review import Matrix, judge_schedule
from speccheck.schedule import read_schedule
from tests.some import some

BREWERY = Path(__file__).parents[2] / "examples" / "brewery"
WORDS = {Verdict.FAILS: "does not comply", Verdict.CANNOT_TELL: "cannot be determined"}


@cache
def ruleset() -> Ruleset:
    """Return the specification of the brewery."""
    loaded = load_ruleset(BREWERY / "project.clauses")
    assert loaded.diagnostics == ()
    assert loaded.ruleset is not None
    return loaded.ruleset


@cache
def matrix() -> Matrix:
    """Return the matrix of the workbook, read without a mapping file."""
    return judge_schedule(read_schedule(BREWERY / "schedule.xlsx", ruleset().vocabulary), ruleset())


def reports() -> dict[str, str]:
    """Return what the page, the workbook and a terminal of 80 columns show of the brewery."""
    written = io.StringIO()
    print_matrix(matrix(), Console(file=written, width=80), width=80)
    book = load_workbook(io.BytesIO(render_workbook(matrix())))
    cells = " ".join(
        str(cell.value) for sheet in book for row in sheet.iter_rows() for cell in row if cell.value is not None
    )
    return {"terminal": written.getvalue(), "page": render_page(matrix()), "workbook": cells}


def test_every_finding_was_expected_and_every_expectation_is_found() -> None:
    """Lines that do not comply or cannot be determined, by clause, are those worked out by hand."""
    expected = tomllib.loads((BREWERY / "expected.toml").read_text(encoding="utf-8"))["line"]
    found = {(one.line.name, one.clause.name, WORDS[one.cell.verdict]) for one in matrix() if one.cell.verdict in WORDS}
    assert found == {(one["mark"], one["clause"], one["verdict"]) for one in expected}
    assert all(one["why"] for one in some(expected))


def test_bilingual_headers_and_decimal_commas_are_read_whole() -> None:
    """All 25 lines are read, no header and no cell is left over: `Dämmdicke / Thickness [mm]`, `0,035`, `DN 50`."""
    schedule = read_schedule(BREWERY / "schedule.xlsx", ruleset().vocabulary)
    assert len(schedule.lines) == 25
    assert schedule.unread == ()
    assert schedule.cells is not None
    assert schedule.cells.accounted == schedule.cells.filled


def test_own_clauses_have_examples_that_come_out() -> None:
    """The brewery's own clauses and tables are tried as shipped ones are."""
    assert rehearse(ruleset()).diagnostics == ()


def test_the_workbook_is_the_text() -> None:
    """The workbook has the cells of schedule.txt, below its title."""
    spec = importlib.util.spec_from_file_location("make_brewery_schedule", BREWERY / "make_schedule.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    rows = list(load_workbook(BREWERY / "schedule.xlsx").worksheets[0].iter_rows(min_row=3, values_only=True))
    told = [[cell or "" for cell in row] for row in rows]
    assert told == [[cell.strip() for cell in line.split("|")] for line in module._lines()]


@pytest.mark.parametrize("report", ["terminal", "page", "workbook"])
def test_reports_are_metric(report: str) -> None:
    """Thicknesses stand in mm and conductivities in W/(m.K); no inch and no Fahrenheit stands in any report."""
    shown = reports()[report]
    assert "54.5 mm" in shown
    assert "Btu" not in shown
    assert "the sources disagree" in shown
    assert not any(f"{number} in (" in shown or f"{number} F" in shown for number in (1, 2, 70, 60))


def test_blank_workbook_is_metric_and_asks_for_what_the_inside_diameter_comes_from() -> None:
    """Units of the header are metric; material, standard and wall of the pipe have columns, and so has the diameter."""
    sheet = load_workbook(io.BytesIO(render_blank(ruleset(), ruleset().units))).worksheets[0]
    heads = [str(cell.value) for cell in sheet[1]]
    assert {"pipe size (DN)", "thickness (mm)", "conductivity (W/(m.K))", "conductivity mean temperature (C)"} <= {
        *heads
    }
    assert {"pipe material", "pipe schedule", "pipe wall thickness (mm)", "pipe inside diameter (mm)"} <= {*heads}
