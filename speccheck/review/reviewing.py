"""From a schedule and a ruleset to their whole review: verdicts, reasons, deviations, the design list, product data."""

from __future__ import annotations

import datetime
from collections import deque
from collections.abc import Iterable
from dataclasses import replace
from enum import Enum, auto
from functools import cache
from typing import TYPE_CHECKING

from speccheck.judge import BareVerdict, Judge, Verdict, judge_lines
from speccheck.language.core import Ruleset
from speccheck.review.documents import documents_of, unasked
from speccheck.review.line_relations import relations_of
from speccheck.review.matrix import Matrix
from speccheck.review.observations import Topic
from speccheck.review.yearly import yearly_observations
from speccheck.schedule.lines import Schedule

if TYPE_CHECKING:
    from speccheck.review.deviations import Register
    from speccheck.review.received import ReceivedRegister

# From so many cells on the columns are faster, their start included.
MANY_CELLS = 4_000

ON_ASSUMPTIONS = (Verdict.COMPLIES, Verdict.NOT_APPLICABLE)
"""The verdicts that are told where they stand on an assumption."""

FINDINGS = (Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.NOT_CHECKED)


class Reasons(Enum):
    """Which cells somebody is going to read."""

    ALL = auto()
    FINDINGS = auto()
    NONE = auto()


def judge_schedule(
    schedule: Schedule, ruleset: Ruleset, *, reasons: Reasons = Reasons.ALL, numbers: Iterable[int] | None = None
) -> Matrix:
    """Check every line of the schedule against every clause of the ruleset.

    In a large schedule, cells that nobody is going to read have their verdicts, but neither reasons nor workings.
    `numbers` are those of all clauses, for somebody who watches them being judged with all reasons. What was judged
    last is not judged once more.
    """
    told = Reasons.ALL if len(schedule.lines) * len(ruleset.clauses) < MANY_CELLS else reasons
    known = next((matrix for matrix, why in _last if _is_of(matrix, schedule, ruleset) and why is told), None)
    if known is None:
        known = _judge_schedule(schedule, ruleset, told, numbers)
        _last.appendleft((known, told))
    return known


_last: deque[tuple[Matrix, Reasons]] = deque(maxlen=2)


def _is_of(matrix: Matrix, schedule: Schedule, ruleset: Ruleset) -> bool:
    """Say whether a matrix is that of these very lines and this very ruleset."""
    return matrix.schedule is schedule and matrix.ruleset is ruleset


def _judge_schedule(schedule: Schedule, ruleset: Ruleset, reasons: Reasons, numbers: Iterable[int] | None) -> Matrix:
    asked = documents_of(ruleset, schedule.lines, None) if ruleset.documents else ()
    related = relations_of(ruleset, schedule.lines)
    cells: tuple[tuple[BareVerdict, ...], ...]
    if reasons is Reasons.ALL:
        cells = judge_lines(ruleset, schedule.lines, numbers)
    else:
        cells = _by_columns(schedule, ruleset, findings_told=reasons is Reasons.FINDINGS)
    return Matrix(schedule, ruleset, cells, documents=asked, relations=related)


def _by_columns(schedule: Schedule, ruleset: Ruleset, *, findings_told: bool) -> tuple[tuple[BareVerdict, ...], ...]:
    """Return cells with verdicts alone, but for findings where these are told."""
    from speccheck.judge.vectorized import columns_of, judge_columns

    lines, judge = schedule.lines, Judge(ruleset)
    found = judge_columns(ruleset, columns_of(lines, ruleset))

    def column(number: int) -> list[BareVerdict]:
        mandatory = bool(ruleset.clauses[number].shall)
        cells: list[BareVerdict] = [
            _bare(found.verdict(row, number), found.advice_on(row, number), mandatory) for row in range(len(lines))
        ]
        told = [findings_told and (cell.verdict in FINDINGS or cell.advice in FINDINGS) for cell in cells]
        open_yet = [
            row
            for row, cell in enumerate(cells)
            if told[row] or (cell.verdict in ON_ASSUMPTIONS and judge.may_assume(number, lines[row]))
        ]
        for row, whole in zip(open_yet, judge.column(number, [lines[row] for row in open_yet]), strict=True):
            if told[row] or whole.assumed:
                cells[row] = whole
        return cells

    columns = [column(number) for number in range(len(ruleset.clauses))]
    return tuple(tuple(column[row] for column in columns) for row in range(len(lines)))


@cache
def _bare(verdict: Verdict, advice: Verdict | None, mandatory: bool) -> BareVerdict:
    """Return verdicts without grounds, the same ones for all that are alike."""
    return BareVerdict(verdict, advice, mandatory)


def review_matrix(
    matrix: Matrix,
    *,
    design: Schedule | None = None,
    products: Schedule | None = None,
    register: Register | None = None,
    received: ReceivedRegister | None = None,
    on: datetime.date | None = None,
) -> Matrix:
    """Return a matrix with everything that was found by what it was checked against, `on` the day of the review.

    With a design list, lines that claim one system and disagree are found too. What lines cost a year is summed up
    here alone, when it is known which of them fail; a matrix that was reviewed before gets a new sum.
    """
    if on is not None:
        from speccheck.review.review_day import review_on

        matrix = review_on(matrix, on)
    if register is not None:
        from speccheck.review.accepting import accept_deviations

        matrix = accept_deviations(matrix, register, on)
    found = [one for one in matrix.observations if one.topic is not Topic.YEAR]
    if received is not None:
        matrix = replace(matrix, documents=documents_of(matrix.ruleset, matrix.schedule.lines, received, on))
        found += unasked(matrix.ruleset, matrix.schedule.lines, received)
    if design is not None:
        from speccheck.review.omissions import check_against_design, clashing_lines

        found += check_against_design(matrix.schedule, design, matrix.ruleset)
        found += clashing_lines(matrix.schedule, matrix.ruleset)
    if products is not None:
        from speccheck.review.evidence import check_against_products

        found += check_against_products(matrix, products, on)
    found += yearly_observations(matrix)
    return replace(matrix, observations=tuple(found))
