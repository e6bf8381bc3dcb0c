"""The columns held against the judge: on random clauses and lines they give the same verdicts."""

from __future__ import annotations

from hypothesis import HealthCheck, given, settings

from speccheck.engine import Judge
from speccheck.engine.columns import columns_of, judge_columns
from speccheck.language.core import Ruleset
from speccheck.submittal.lines import Line
from tests.strategies.rulesets import judged

CALM = settings(max_examples=200, deadline=None, suppress_health_check=list(HealthCheck))


def assert_agree(ruleset: Ruleset, lines: list[Line]) -> None:
    """Hold the columns against the judge on every cell of some lines."""
    matrix = judge_columns(ruleset, columns_of(lines, ruleset))
    judge = Judge(ruleset)
    for row, line in enumerate(lines):
        for number, cell in enumerate(judge.row(line)):
            found = (matrix.verdict(row, number), matrix.advice_on(row, number))
            assert found == (cell.verdict, cell.advice), (ruleset.clauses[number], cell.reason)


@CALM
@given(judged())
def test_agree_on_random_clauses(case: tuple[Ruleset, Line]) -> None:
    """Judge and columns agree on clauses of every kind of node and lines with data missing in any column."""
    assert_agree(case[0], [case[1]])


@CALM
@given(judged(ranges=True))
def test_agree_on_lines_with_ranges(case: tuple[Ruleset, Line]) -> None:
    """Judge and columns agree where a line covers ranges of sizes, temperatures, lengths or counts."""
    assert_agree(case[0], [case[1]])
