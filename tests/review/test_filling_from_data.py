"""What a schedule leaves out is judged by product data only where that is asked for, and each finding says so."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from speccheck.cli import speccheck
from speccheck.judge import Verdict
from speccheck.language import load_ruleset
from speccheck.review import Matrix, judge_schedule
from speccheck.review.filling_from_data import fill_from_data
from speccheck.review.outcome import outcome_of
from speccheck.schedule import read_schedule
from speccheck.schedule.data_sheets import read_data_sheet

PAPERS = Path(__file__).parents[2] / "examples" / "papers"


def _filled(schedule: Path) -> tuple[Matrix, Matrix]:
    """Return the matrix of a schedule as it stands, and with what the data sheet of the example shows."""
    ruleset = load_ruleset(PAPERS / "project.clauses").ruleset
    assert ruleset is not None
    matrix = judge_schedule(read_schedule(schedule, ruleset.vocabulary), ruleset)
    sheet = read_data_sheet(PAPERS / "tansyfoam.docx", ruleset.vocabulary, ["Tansyfoam A10"])
    return matrix, fill_from_data(matrix, sheet)


def test_a_value_is_taken_at_the_condition_that_the_line_states() -> None:
    """P-2 leaves conductivity out: the data sheet has 0.27 at the 75 F that P-2 states, and the cell says so."""
    before, after = _filled(PAPERS / "schedule.csv")
    assert [row[0].verdict for row in before.cells] == [Verdict.COMPLIES, Verdict.CANNOT_TELL]
    assert [row[0].verdict for row in after.cells] == [Verdict.COMPLIES, Verdict.COMPLIES]
    note = (
        "conductivity 0.27 Btu·in/(h·ft²·°F) from the product data of Tansyfoam A10 (tansyfoam.docx table 1 B2); "
        "the schedule does not state it"
    )
    assert after.cells[1][0].notes[-1] == note
    assert [(one.term, one.by) for one in after.cells[1][0].assumed] == [("conductivity", "Tansyfoam A10")]
    stated = [[cell.said for cell in matrix.told[0]] for matrix in (before, after)]
    assert stated[0] == stated[1]  # what a line states is never replaced
    assert "1 requirement is met on an assumption." in outcome_of(after).details


def test_a_value_that_is_shown_at_several_conditions_is_not_chosen(tmp_path: Path) -> None:
    """A line that states no mean temperature gets none of two conductivities, and stays open."""
    schedule = tmp_path / "schedule.csv"
    schedule.write_text((PAPERS / "schedule.csv").read_text().replace(",,75 F,", ",,,"))
    _, after = _filled(schedule)
    assert after.cells[1][0].verdict is Verdict.CANNOT_TELL


@pytest.mark.parametrize(("asked", "status"), [((), 2), (("--fill-from-data",), 2)])
def test_the_command_fills_only_where_it_is_asked(
    asked: tuple[str, ...], status: int, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """P-1 states another conductivity than the data sheet shows, so that either way the whole stays open."""
    for path in PAPERS.iterdir():
        shutil.copy(path, tmp_path)
    monkeypatch.chdir(tmp_path)
    call = ["check", "schedule.csv", "--against", "project.clauses", "--products", "tansyfoam.docx", "--full", *asked]
    result = CliRunner().invoke(speccheck, call, standalone_mode=False)
    words = " ".join(result.output.split())
    assert result.return_value == status
    assert "line `P-1` states conductivity 0.25 Btu.in/(h.ft2.F), and the product data of `Tansyfoam A10` 0.27" in words
    assert ("1 requirement is met on an assumption" in words) is bool(asked)
    assert ("conductivity is not given" in words) is not bool(asked)


def test_filling_needs_product_data() -> None:
    """The option alone is a mistake of the call, and the message says what it needs."""
    call = ["check", str(PAPERS / "schedule.csv"), "--against", str(PAPERS / "project.clauses"), "--fill-from-data"]
    result = CliRunner().invoke(speccheck, call)
    assert "--fill-from-data needs --products FILE to fill from" in result.output
