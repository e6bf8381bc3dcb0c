"""A schedule judged with all reasons, with those of findings, and without any."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from speccheck.judge import Cell
from speccheck.language import load_ruleset
from speccheck.language.core import Ruleset
from speccheck.report.terminal.report import print_matrix
from speccheck.review import reviewing as judging
from speccheck.review.outcome import outcome_of
from speccheck.review.reviewing import Reasons, judge_schedule
from speccheck.schedule import Schedule, read_mapping, read_schedule
from tests.some import some

DAIRY = Path(__file__).parents[2] / "examples" / "dairy"


Judged = tuple[Schedule, Ruleset]


@pytest.fixture(scope="module")
def dairy() -> Judged:
    """Return the schedule of the demo, read with its mapping file, and its ruleset."""
    ruleset = load_ruleset(DAIRY / "project.clauses").ruleset
    assert ruleset is not None
    mapping, _ = read_mapping(DAIRY / "mapping.toml", ruleset.vocabulary)
    return read_schedule(DAIRY / "schedule.xlsx", ruleset.vocabulary, mapping), ruleset


def test_verdicts_without_reasons_are_those_of_the_judge(dairy: Judged, monkeypatch: pytest.MonkeyPatch) -> None:
    """On the dairy, with ranges, assumptions and computed terms, both ways give the same verdicts and outcome.

    What is met on an assumption keeps its reason, because the outcome counts it.
    """
    schedule, ruleset = dairy
    explained = judge_schedule(schedule, ruleset)
    monkeypatch.setattr(judging, "MANY_CELLS", 0)
    bare = judge_schedule(schedule, ruleset, reasons=Reasons.NONE)
    for line, row, other in zip(schedule.lines, explained.cells, bare.cells, strict=True):
        for clause, one, same in zip(ruleset.clauses, row, other, strict=True):
            found = (same.verdict, same.advice, same.mandatory)
            assert found == (one.verdict, one.advice, one.mandatory), (line.name, clause.label, one.reason)
    assert outcome_of(bare) == outcome_of(explained)
    kept = [cell for row in bare.cells for cell in row if isinstance(cell, Cell)]
    assert all(some(bool(cell.assumed) for cell in kept))


def test_few_cells_keep_their_reasons(dairy: Judged, monkeypatch: pytest.MonkeyPatch) -> None:
    """A schedule with few cells is judged with reasons even where none are asked for: that is no slower."""
    schedule, ruleset = dairy
    monkeypatch.setattr(judging, "MANY_CELLS", 1_000_000)
    bare, whole = (judge_schedule(schedule, ruleset, reasons=one).told for one in (Reasons.NONE, Reasons.ALL))
    assert [[cell.said for cell in row] for row in bare] == [[cell.said for cell in row] for row in whole]


def test_the_terminal_shows_the_same_whether_columns_or_the_judge_gave_the_verdicts(
    dairy: Judged, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """With the judge asked for findings alone, the report in a terminal is the same to the byte; the rest is bare."""
    schedule, ruleset = dairy
    print_matrix(judge_schedule(schedule, ruleset))
    explained = capsys.readouterr().out
    monkeypatch.setattr(judging, "MANY_CELLS", 0)
    matrix = judge_schedule(schedule, ruleset, reasons=Reasons.FINDINGS)
    print_matrix(matrix)
    assert capsys.readouterr().out == explained
    told = {cell.verdict for row in matrix.cells for cell in row if isinstance(cell, Cell) and cell.reason}
    assert "does not comply" in told
    assert not all(isinstance(cell, Cell) for row in matrix.cells for cell in row)


def test_the_same_lines_are_judged_once(dairy: Judged) -> None:
    """The same schedule and ruleset give the matrix that is known; another ruleset, or other lines, give their own."""
    schedule, ruleset = dairy
    known = judge_schedule(schedule, ruleset)
    assert judge_schedule(schedule, ruleset) is known
    fewer = replace(ruleset, clauses=ruleset.clauses[:3])
    assert [len(row) for row in judge_schedule(schedule, fewer).cells] == [3] * len(schedule.lines)
    assert len(judge_schedule(replace(schedule, lines=schedule.lines[:2]), ruleset).cells) == 2
