"""The columns checked against the conformance cases, and against the judge on the demo's schedules."""

from __future__ import annotations

import pytest

from speccheck.judge.vectorized import columns_of, judge_columns
from tests.conformance.cases import ConformanceCase, conformance_cases, line_of, load

JUDGED = [case for case in conformance_cases() if case.refused is None]


@pytest.mark.parametrize("case", JUDGED, ids=lambda case: case.name)
def test_columns_give_the_verdict_of_the_statement(case: ConformanceCase) -> None:
    """The columns give the verdict, and the verdict on advice, that the statement asks for."""
    ruleset = load(case.ruleset).ruleset
    assert ruleset is not None
    number = [clause.label for clause in ruleset.clauses].index(case.clause)
    matrix = judge_columns(ruleset, columns_of([line_of(case, ruleset)], ruleset))
    assert str(matrix.verdict(0, number)) == case.verdict
    assert str(matrix.advice_on(0, number) or "") == case.advice
