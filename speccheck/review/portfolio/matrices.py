"""Lines judged by the columns, in the form that is kept: one mark a verdict."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

import numpy as np

from speccheck.judge import Judge, Verdict
from speccheck.judge.vectorized import VerdictMatrix, columns_of
from speccheck.judge.vectorized.conditions import CODES
from speccheck.language.core import Ruleset
from speccheck.language.diagnostics import Severity
from speccheck.review.line_relations import relations_of
from speccheck.review.outcome import unread_of
from speccheck.review.portfolio.request import LoadedRules
from speccheck.review.portfolio.store import FINDINGS, MARKS, NO_MARK, LineResult, ScheduleResult
from speccheck.review.review_day import with_day
from speccheck.schedule import Line, Schedule

# The mark of each verdict by its code, taken as a byte; what is no code of a verdict stands for no verdict.
_LETTERS = np.full(256, ord(NO_MARK), np.uint8)
for _verdict, _code in CODES.items():
    _LETTERS[_code % 256] = ord(MARKS[_verdict])


def judged_schedule(schedule: Schedule, rules: LoadedRules) -> ScheduleResult:
    """Return the result of a schedule that was read; one that cannot be used has no lines and an error."""
    schedule = schedule if rules.on is None else with_day(schedule, rules.on)
    told = tuple(found for found in schedule.diagnostics if found.severity is not Severity.NOTE)
    if not schedule.lines:
        return ScheduleResult((), told)
    marks = marks_of(rules.judge.judge(columns_of(schedule.lines, rules.ruleset)))
    lines = tuple(
        LineResult(line.name, line.place.sheet, line.place.cell, mark)
        for line, mark in zip(schedule.lines, marks, strict=True)
    )
    reasons = _reasons(schedule.lines, marks, rules.ruleset) if rules.reasons else {}
    return ScheduleResult(
        lines,
        told,
        reasons=reasons,
        unread=unread_of(schedule),
        cells=schedule.cells,
        assumed=_on_assumptions(schedule.lines, marks, rules.ruleset),
        relations=Counter(one.verdict for one in relations_of(rules.ruleset, schedule.lines)),
    )


def marks_of(matrix: VerdictMatrix) -> list[str]:
    """Return the marks of each line."""
    codes = np.hstack([matrix.codes, matrix.advice])
    letters = _LETTERS[codes.astype(np.uint8)]
    return [row.tobytes().decode("ascii") for row in letters]


def _on_assumptions(lines: Sequence[Line], marks: Sequence[str], ruleset: Ruleset) -> int:
    """Return how many requirements are met on an assumption."""
    judge, complies = Judge(ruleset), MARKS[Verdict.COMPLIES]
    mandatory = [number for number, clause in enumerate(ruleset.clauses) if clause.shall]
    return sum(
        bool(judge.cell(number, line).assumed)
        for line, mark in zip(lines, marks, strict=True)
        for number in mandatory
        if mark[number] == complies and judge.may_assume(number, line)
    )


def _reasons(lines: Sequence[Line], marks: Sequence[str], ruleset: Ruleset) -> dict[tuple[int, int], str]:
    """Return the judge's sentence on each verdict that is a finding, by the position of line and clause."""
    judge, wanted = Judge(ruleset), {MARKS[verdict] for verdict in FINDINGS}
    return {
        (row, number): judge.cell(number, line).reason
        for row, (line, mark) in enumerate(zip(lines, marks, strict=True))
        for number in range(len(ruleset.clauses))
        if mark[number] in wanted
    }
