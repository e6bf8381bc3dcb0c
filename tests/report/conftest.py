"""The matrices that the tests of reports share."""

from __future__ import annotations

import pytest

from speccheck.review.matrix import Matrix
from tests.report.small_matrix import large_matrix, matrix_of


@pytest.fixture(scope="session")
def plant() -> Matrix:
    """Four lines of an invented plant against four clauses, with one finding of each sort."""
    return matrix_of("plant")


@pytest.fixture(scope="session")
def hostile() -> Matrix:
    """A schedule and a ruleset whose text tries to be a formula, markup or a control code."""
    return matrix_of("hostile")


@pytest.fixture(scope="session")
def large() -> Matrix:
    """A matrix of 200 lines by 40 clauses."""
    return large_matrix(200, 40)
