"""From a schedule and a ruleset to their compliance matrix: verdicts by the columns, reasons by the judge.

Which of the two judges is decided here, by what is going to be read. A page or a workbook shows a reason for every
cell, and reasons come from the judge, so that the columns before it would only add their start. A terminal shows the
reasons of findings alone: the columns give all verdicts, and the judge is asked for the cells that are told. Where the
outcome alone is wanted, the judge is not asked at all. The columns begin with an import of NumPy, some 65 ms; a few
thousand cells take the judge no longer.
"""

from __future__ import annotations

from enum import Enum, auto
from functools import cache

from speccheck.engine import Basis, Cell, Judge, Verdict, judge_lines
from speccheck.language.core import Ruleset
from speccheck.review.matrix import Matrix
from speccheck.submittal.lines import Schedule

# From so many cells on the columns are faster, their start included.
MANY_CELLS = 4_000

BASES = {
    Verdict.FAILS: Basis.NOT_MET,
    Verdict.CANNOT_TELL: Basis.NOT_KNOWN,
    Verdict.COMPLIES: Basis.MET,
    Verdict.NOT_APPLICABLE: Basis.OUT_OF_SCOPE,
}
"""The usual basis of each verdict, for cells without reasons."""

FINDINGS = (Verdict.FAILS, Verdict.CANNOT_TELL)


class Reasons(Enum):
    """Which cells somebody is going to read."""

    ALL = auto()
    FINDINGS = auto()
    NONE = auto()


def judge_schedule(schedule: Schedule, ruleset: Ruleset, *, reasons: Reasons = Reasons.ALL) -> Matrix:
    """Hold every line of the schedule against every clause of the ruleset.

    In a large schedule, cells that nobody is going to read have their verdicts, but neither reasons nor workings.
    """
    if reasons is Reasons.ALL or len(schedule.lines) * len(ruleset.clauses) < MANY_CELLS:
        return Matrix(schedule, ruleset, judge_lines(ruleset, schedule.lines))
    return Matrix(schedule, ruleset, _by_columns(schedule, ruleset, findings_told=reasons is Reasons.FINDINGS))


def _by_columns(schedule: Schedule, ruleset: Ruleset, *, findings_told: bool) -> tuple[tuple[Cell, ...], ...]:
    """Return cells with verdicts alone, but for findings where these are told."""
    from speccheck.engine.columns import columns_of, judge_columns

    found, judge = judge_columns(ruleset, columns_of(schedule.lines, ruleset)), Judge(ruleset)
    mandatory = [bool(clause.shall) for clause in ruleset.clauses]

    def cell(row: int, number: int) -> Cell:
        verdict, advice = found.verdict(row, number), found.advice_on(row, number)
        if findings_told and (verdict in FINDINGS or advice in FINDINGS):
            return judge.cell(number, schedule.lines[row])
        return _bare(verdict, advice, mandatory[number])

    clauses = range(len(ruleset.clauses))
    return tuple(tuple(cell(row, number) for number in clauses) for row in range(len(schedule.lines)))


@cache
def _bare(verdict: Verdict, advice: Verdict | None, mandatory: bool) -> Cell:
    """Return a cell without reasons, the same one for the same verdicts."""
    return Cell(verdict, BASES[verdict], "", advice=advice, mandatory=mandatory)
