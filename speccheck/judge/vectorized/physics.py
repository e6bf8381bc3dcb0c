"""Physics: computed terms on a block of rows, by the vectorised calculations of the floor `physics`."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from speccheck.judge.computing import stocked_by
from speccheck.judge.operations import Rules
from speccheck.judge.vectorized.column import Numbers
from speccheck.judge.vectorized.operand import codes_of
from speccheck.judge.vectorized.program import RowBlock
from speccheck.language.core.documents import Age
from speccheck.language.core.review_days import DAY_OF_REVIEW, age_of
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.quantities import ALL_SIZES, Day

_INCHES = np.array([float(size.inches) for size in ALL_SIZES] + [np.nan])


def worked_out(term: Term, given: Mapping[str, tuple[Term, NDArray[Any]]], block: RowBlock, rules: Rules) -> Numbers:
    """Return what is worked out for a computed term from the columns of other terms, SI; NaN where it cannot be had."""
    from speccheck.physics.calculations.all import JUDGED, work_out_lines

    age = age_of(term.name)
    if age is not None:
        return np.broadcast_to(_counted_back(age, given[DAY_OF_REVIEW.name][1]), (block.count,))
    columns = {name: plain(one, values, block) for name, (one, values) in given.items() if _usable(one)}
    return np.broadcast_to(work_out_lines(term.name, columns, JUDGED, stocked_by(rules)).values, (block.count,))


def is_worked_out(term: Term) -> bool:
    """Say whether this program works a computed term out; one that it does not is never given."""
    from speccheck.physics.calculations.all import JUDGED

    return term.name in JUDGED or age_of(term.name) is not None


def _counted_back(age: Age, days: NDArray[Any]) -> NDArray[Any]:
    """Return the day that lies so long before each of some days of review."""
    found = np.full(days.shape, np.nan)
    for day in np.unique(days[~np.isnan(days)]):
        found[days == day] = Day.of(age.earliest(Day(day).date))
    return found


def _usable(term: Term) -> bool:
    return term.kind.form is not Form.SET


def plain(term: Term, values: NDArray[Any], block: RowBlock) -> NDArray[Any]:
    """Return a column as `physics` takes it: numbers in SI units, sizes in inches, or words; see the judge."""
    match term.kind.form:
        case Form.SIZE:
            listed: NDArray[Any] = _INCHES
        case Form.CHOICE:
            listed = np.array([*codes_of(term), ""])
        case Form.YES_NO:
            listed = np.array(["no", "yes", ""])
        case Form.TEXT:
            listed = np.array([*block.columns.texts, ""])
        case _:
            return values
    found: NDArray[Any] = listed[values]
    return found
