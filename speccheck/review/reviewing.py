"""The whole review of a matrix: deviations, the design list, product data."""

from __future__ import annotations

import datetime
from dataclasses import replace

from speccheck.review.accepting import accept_deviations
from speccheck.review.clashes import clashing_lines
from speccheck.review.deviations import Register
from speccheck.review.evidence import hold_against_products
from speccheck.review.matrix import Matrix
from speccheck.review.omissions import hold_against_design
from speccheck.submittal.lines import Schedule


def review_matrix(
    matrix: Matrix,
    *,
    design: Schedule | None = None,
    products: Schedule | None = None,
    register: Register | None = None,
    on: datetime.date | None = None,
) -> Matrix:
    """Return a matrix with everything that was found by what it was held against, `on` the day of the review.

    With a design list, lines that claim one system and disagree are found too.
    """
    if register is not None:
        matrix = accept_deviations(matrix, register, on)
    found = list(matrix.observations)
    if design is not None:
        found += hold_against_design(matrix.schedule, design, matrix.ruleset)
        found += clashing_lines(matrix.schedule, matrix.ruleset)
    if products is not None:
        found += hold_against_products(matrix, products, on)
    return replace(matrix, observations=tuple(found))
