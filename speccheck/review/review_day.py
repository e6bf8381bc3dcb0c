"""The day of the review, stated on every line where a clause asks how old something is: no clock is ever asked."""

from __future__ import annotations

import datetime
from dataclasses import replace

from speccheck.judge.completing import needs_of
from speccheck.language.core import Ruleset
from speccheck.language.core.review_days import DAY_OF_REVIEW
from speccheck.language.core.walking import conditions_of
from speccheck.quantities import Day
from speccheck.review.matrix import Matrix
from speccheck.review.reviewing import judge_schedule
from speccheck.schedule import Schedule
from speccheck.schedule.lines import Datum


def review_on(matrix: Matrix, on: datetime.date | None) -> Matrix:
    """Return a schedule judged anew on a day, where a clause counts from it; the matrix itself where none does."""
    if on is None or not counts_from_review(matrix.ruleset):
        return matrix
    judged = judge_schedule(with_day(matrix.schedule, on), matrix.ruleset)
    return replace(matrix, schedule=judged.schedule, cells=judged.cells)


def with_day(schedule: Schedule, on: datetime.date) -> Schedule:
    """Return a schedule with the day of the review stated on every line."""
    stated = {DAY_OF_REVIEW.name: Datum(Day.of(on), on.isoformat())}
    return replace(schedule, lines=tuple(replace(line, data={**line.data, **stated}) for line in schedule.lines))


def counts_from_review(ruleset: Ruleset) -> bool:
    """Whether a clause draws on the day of the review."""
    conditions = [condition for clause in ruleset.clauses for condition in conditions_of(clause)]
    return any(term.name == DAY_OF_REVIEW.name for term in needs_of(conditions, ruleset).terms)
