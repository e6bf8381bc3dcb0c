"""What the whole comes to, and the words that the reports share."""

from __future__ import annotations

import hashlib
import os
import subprocess
import sys
from dataclasses import replace

import pytest

from speccheck.judge.cell import Cell, Explanation
from speccheck.judge.judgement import Basis, Verdict
from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.report.line_words import line_names
from speccheck.report.requests import requests, requests_by_term
from speccheck.report.wording import mark
from speccheck.review.matrix import Matrix
from speccheck.review.outcome import STATUS_MEANINGS, outcome_of, unjudged_lines
from speccheck.schedule.lines import Line
from tests.report.small_matrix import explained
from tests.some import some

F, C, OK, NA = Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.COMPLIES, Verdict.NOT_APPLICABLE


def cell(verdict: Verdict, mandatory: bool = True, advice: Verdict | None = None) -> Cell:
    """Return a cell with a verdict and nothing else to tell."""
    return explained(verdict, Basis.MET, Explanation("because"), mandatory=mandatory, advice=advice)


@pytest.mark.parametrize(
    ("row", "status", "heading"),
    [
        ([OK, OK, NA, NA], 0, "The schedule complies with every clause that applies."),
        ([OK, C, F, NA], 1, "The schedule does not comply."),
        ([OK, C, NA, NA], 2, "It cannot be determined whether the schedule complies."),
        ([NA, NA, NA, NA], 3, "Nothing was judged: no mandatory clause applies to any line. This is not a pass."),
    ],
)
def test_outcome(plant: Matrix, row: list[Verdict], status: int, heading: str) -> None:
    """0 all comply, 1 something does not, 2 something cannot be determined; nothing judged is no pass."""
    found = outcome_of(replace(plant, cells=(tuple(map(cell, row)), *((cell(NA),) * 4,) * 3)))
    assert (found.status, found.heading) == (status, heading)
    assert found.meaning == f"{STATUS_MEANINGS[status].capitalize()}."


def test_advice_alone_decides_nothing(plant: Matrix) -> None:
    """A clause of advice that is not followed changes neither the status nor the counts."""
    advice = cell(F, mandatory=False, advice=F)
    found = outcome_of(replace(plant, cells=((cell(OK), advice, advice, advice), *((cell(NA),) * 4,) * 3)))
    assert found.status == 0
    assert found.details == (
        "1 requirement complies, on 1 of 4 lines.",
        "3 recommendations are not followed or cannot be determined.",
        "No mandatory clause applies to lines CHW-2, HHW-1 and HHW-2.",
        "1 warning on how the schedule was read.",
    )


def test_a_schedule_with_hidden_rows_is_not_told_to_comply(plant: Matrix) -> None:
    """Where lines may have been left out, nothing can be told of the whole schedule, whatever was read complies."""
    hidden = Diagnostic("S210", Severity.WARNING, "row 9 is hidden, and not read", Place("schedule.xlsx"))
    complying = replace(plant, cells=((cell(OK),) * 4,) * 4)
    assert outcome_of(complying).status == 0
    found = outcome_of(replace(complying, schedule=replace(plant.schedule, diagnostics=(hidden,))))
    assert found.status == 2
    assert found.heading == "It cannot be determined whether the schedule complies: part of it was not read."
    assert found.details[-1] == "1 warning on how the schedule was read."


def test_lines_that_no_clause_speaks_of_are_named(plant: Matrix) -> None:
    """A line without a clause is no pass, so the reviewer is told which lines these are."""
    assert unjudged_lines(plant) == ()
    cells = (*plant.cells[:3], (cell(NA), cell(NA), cell(NA), cell(OK, mandatory=False)))
    assert unjudged_lines(replace(plant, cells=cells)) == ("HHW-2",)


@pytest.mark.parametrize(
    ("given", "expected"),
    [
        (cell(F), "FAIL"),
        (cell(C), "info"),
        (cell(OK), "ok"),
        (cell(NA), "–"),
        (cell(OK, advice=F), "ok*"),
        (cell(OK, advice=OK), "ok"),
        (cell(F, advice=C), "FAIL*"),
        (cell(F, mandatory=False), "(fail)"),
        (cell(NA, mandatory=False), "–"),
    ],
)
def test_marks_read_without_colour(given: Cell, expected: str) -> None:
    """Each verdict has its own letters; brackets and stars tell advice from requirements."""
    assert mark(given) == expected


def test_requests_name_each_datum_once_a_line(plant: Matrix) -> None:
    """Two clauses that wait for one datum of a line make one request; by term, the most wanted comes first."""
    waiting = replace(cell(C), missing=("jacket", "thickness"))
    cells = ((waiting, waiting, cell(OK), cell(OK)), (replace(cell(C), missing=("thickness",)), *((cell(OK),) * 3)))
    asked = requests(replace(plant, cells=(*cells, *((cell(OK),) * 4,) * 2)))
    assert [(one.line.name, one.term, one.says, [clause.name for clause in one.clauses]) for one in asked] == [
        ("CHW-1", "jacket", "not stated", ["2.1.A", "3.4.C"]),
        ("CHW-1", "thickness", "1 in", ["2.1.A", "3.4.C"]),
        ("CHW-2", "thickness", "1-1/2 in", ["2.1.A"]),
    ]
    by_term = requests_by_term(asked)
    assert [(one.term, line_names(one.lines)) for one in by_term] == [
        ("thickness", "CHW-1, CHW-2"),
        ("jacket", "CHW-1"),
    ]


@pytest.mark.parametrize(
    ("names", "expected"),
    [
        ("P-1 P-2 P-3", "P-1 through P-3"),
        ("P-1 P-2", "P-1, P-2"),
        ("9 10 11 13", "9 through 11, 13"),
        ("P-1 Q-2 Q-3 Q-4", "P-1, Q-2 through Q-4"),
        ("A A B", "A, A, B"),
    ],
)
def test_names_that_count_up_are_drawn_together(names: str, expected: str) -> None:
    """Three or more lines with one name and numbers that follow one another are told as a range."""
    assert line_names(Line(name, {}) for name in names.split()) == expected


SCRIPT = """
import hashlib
from speccheck.report.comma_separated import render_comma_separated
from speccheck.report.json.report import render_json
from speccheck.report.markdown.report import render_markdown
from speccheck.report.html.page import render_page
from speccheck.report.workbook.report import render_workbook
from tests.report.small_matrix import large_matrix, matrix_of
for matrix in (matrix_of("plant"), large_matrix(12, 8)):
    for render in (render_page, render_json, render_markdown, render_comma_separated, render_workbook):
        content = render(matrix)
        print(hashlib.sha256(content if isinstance(content, bytes) else content.encode()).hexdigest())
"""


def test_reports_are_the_same_to_the_byte_in_another_process() -> None:
    """Two interpreters with different hash seeds, with nothing kept between them, write the same bytes."""
    runs = [
        subprocess.run(
            [sys.executable, "-c", SCRIPT],
            env={**os.environ, "PYTHONHASHSEED": seed, "SPECCHECK_CACHE": ""},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    ]
    assert runs[0] == runs[1]
    assert len(set(runs[0].split())) == 10
    assert all(len(line) == len(hashlib.sha256().hexdigest()) for line in some(runs[0].split()))
