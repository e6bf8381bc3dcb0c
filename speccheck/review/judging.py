"""From a schedule and a ruleset to their compliance matrix."""

from __future__ import annotations

from speccheck.engine import judge_lines
from speccheck.language.core import Ruleset
from speccheck.review.matrix import Matrix
from speccheck.submittal.lines import Schedule


def judge_schedule(schedule: Schedule, ruleset: Ruleset) -> Matrix:
    """Hold every line of the schedule against every clause of the ruleset."""
    return Matrix(schedule, ruleset, judge_lines(ruleset, schedule.lines))
