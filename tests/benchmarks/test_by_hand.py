"""What the columns are timed beside does the same work."""

from __future__ import annotations

from importlib.util import find_spec

import numpy as np
import pytest
from benchmarks import by_numpy, by_polars
from benchmarks.plain_columns import Plain, as_columns, plain_columns
from benchmarks.workload import ruleset_text

from speccheck.judge.vectorized import ColumnJudge
from speccheck.judge.vectorized.conditions import CANNOT_TELL, COMPLIES, FAILS, NOT_APPLICABLE
from speccheck.language import parse_ruleset

CLAUSES = 40


@pytest.fixture(scope="module")
def plain() -> Plain:
    """A thousand random rows of the workload."""
    return plain_columns(1_000)


@pytest.fixture(scope="module")
def expected(plain: Plain) -> np.ndarray:
    """The codes that the columns give, a row for each clause."""
    ruleset = parse_ruleset(ruleset_text(CLAUSES)).ruleset
    assert ruleset is not None
    return ColumnJudge(ruleset).judge(as_columns(plain, ruleset)).codes.T


def test_the_workload_has_every_verdict(expected: np.ndarray) -> None:
    """Otherwise agreement would show little."""
    assert set(np.unique(expected)) == {FAILS, CANNOT_TELL, COMPLIES, NOT_APPLICABLE}


def test_the_clauses_by_hand_in_numpy_give_the_verdicts_of_the_columns(plain: Plain, expected: np.ndarray) -> None:
    """In every cell, what cannot be determined among them."""
    assert np.array_equal(by_numpy.verdicts(plain, CLAUSES), expected)


def test_the_clauses_by_hand_in_polars_give_the_verdicts_of_the_columns(plain: Plain, expected: np.ndarray) -> None:
    """In every cell, by a logic of nulls that is not ours."""
    assert np.array_equal(by_polars.verdicts(by_polars.frame_of(plain), CLAUSES).to_numpy().T, expected)


@pytest.mark.skipif(
    not all(map(find_spec, ("duckdb", "numexpr", "cel"))), reason="the extra `benchmarks` is not installed"
)
def test_the_other_libraries_give_the_verdicts_of_the_columns(plain: Plain, expected: np.ndarray) -> None:
    """In every cell, by a database, an evaluator of expressions over arrays and a compiled language row by row."""
    from benchmarks.columns import other_libraries

    ways = other_libraries(plain, by_polars.frame_of(plain))
    agree = {name: np.array_equal(np.array(codes(call())), expected) for name, (call, codes) in ways.items()}
    assert agree == {"DuckDB": True, "numexpr": True, "CEL": True}
