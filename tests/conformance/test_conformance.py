"""The judge held against the conformance cases."""

from __future__ import annotations

from collections import Counter

import pytest

from speccheck.judge import Judge
from speccheck.language.core import Clause
from speccheck.language.diagnostics import Severity
from tests.conformance.cases import ConformanceCase, conformance_cases, line_of, load

CASES = conformance_cases()
JUDGED = [case for case in CASES if case.refused is None]
REFUSED = [case for case in CASES if case.refused is not None]


@pytest.mark.parametrize("case", JUDGED, ids=lambda case: case.name)
def test_judge_says_what_the_statement_says(case: ConformanceCase) -> None:
    """The judge gives the verdict, the whole reason and all remarks that the statement asks for."""
    loaded = load(case.ruleset)
    assert loaded.ruleset is not None
    assert loaded.usable, [str(found) for found in loaded.diagnostics]
    number = [clause.label for clause in loaded.ruleset.clauses].index(case.clause)
    cell = Judge(loaded.ruleset).cell(number, line_of(case, loaded.ruleset))
    assert (str(cell.verdict), cell.reason) == (case.verdict, case.reason)
    assert (cell.missing, cell.at, cell.notes) == (case.missing, case.at, case.notes)
    assert (str(cell.advice or ""), cell.advice_reason) == (case.advice, case.advice_reason)
    assert cell.mandatory is case.mandatory
    assert not case.basis or cell.basis.name == case.basis
    _assert_provenance(case, loaded.ruleset.clauses[number])


def _assert_provenance(case: ConformanceCase, clause: Clause) -> None:
    """Hold what a clause carries beside its conditions against what the case states of it."""
    assert not case.sources or tuple(map(str, clause.sources)) == case.sources
    assert not case.wording or clause.wording == case.wording
    assert not case.because or clause.reason == case.because


@pytest.mark.parametrize("case", REFUSED, ids=lambda case: case.name)
def test_ruleset_is_refused_before_any_schedule_is_read(case: ConformanceCase) -> None:
    """What does not fit is an error with the offending text underlined and, where one is near, the known name."""
    assert case.refused is not None
    loaded = load(case.ruleset)
    assert not loaded.usable
    errors = [found for found in loaded.diagnostics if found.severity is Severity.ERROR]
    told = [(found.code, _underlined(found.excerpt, found.place.column, found.place.length)) for found in errors]
    assert (case.refused.code, case.refused.underlined) in told
    error = errors[told.index((case.refused.code, case.refused.underlined))]
    assert error.place.file == "case.clauses"
    assert case.ruleset.splitlines()[error.place.line - 1] == error.excerpt
    if case.refused.suggests:
        assert f"`{case.refused.suggests}`" in error.help


def _underlined(excerpt: str, column: int, length: int) -> str:
    return excerpt[column - 1 : column - 1 + length]


def test_cases_are_many_and_named_once() -> None:
    """There are 300 cases or more, no two of one name, and each of the ten statements has some."""
    names = Counter(case.name for case in CASES)
    assert len(CASES) >= 300
    assert [name for name, count in names.items() if count > 1] == []
    assert {name.partition(".")[0] for name in names} == {str(number) for number in range(1, 11)}
