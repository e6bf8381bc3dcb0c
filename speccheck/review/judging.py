"""From a schedule and a ruleset to their compliance matrix, by the judge or, where nobody reads reasons, by columns.

Which of the two judges is decided here. A report shows a reason for every cell that it holds, and reasons come from
the judge, so that whatever is reported is judged by it alone: the columns before it would only add their start. Where
the outcome alone is wanted, the columns give it in a fraction of the time, but they begin with an import of NumPy, some
65 ms. Whole `check --quiet` commands of 40 clauses, from cold, on two cores, by the judge and by the columns: 100 lines
0.31 s and 0.30 s, 200 lines 0.42 s and 0.30 s, 400 lines 0.57 s and 0.32 s, 5,000 lines 4.3 s and 1.3 s, most of it
reading the workbook.
"""

from __future__ import annotations

from speccheck.engine import Basis, Cell, Verdict, judge_lines
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


def judge_schedule(schedule: Schedule, ruleset: Ruleset, *, reasons: bool = True) -> Matrix:
    """Hold every line of the schedule against every clause of the ruleset.

    Without `reasons` the cells of a large schedule have their verdicts, but neither reasons nor workings.
    """
    if reasons or len(schedule.lines) * len(ruleset.clauses) < MANY_CELLS:
        return Matrix(schedule, ruleset, judge_lines(ruleset, schedule.lines))
    return Matrix(schedule, ruleset, _bare_cells(schedule, ruleset))


def _bare_cells(schedule: Schedule, ruleset: Ruleset) -> tuple[tuple[Cell, ...], ...]:
    """Return cells with verdicts alone."""
    from speccheck.engine.columns import columns_of, judge_columns

    found = judge_columns(ruleset, columns_of(schedule.lines, ruleset))
    mandatory = [bool(clause.shall) for clause in ruleset.clauses]
    known: dict[tuple[Verdict, Verdict | None, bool], Cell] = {}

    def cell(line: int, clause: int) -> Cell:
        verdict, advice = found.verdict(line, clause), found.advice_on(line, clause)
        key = (verdict, advice, mandatory[clause])
        if key not in known:
            known[key] = Cell(verdict, BASES[verdict], "", advice=advice, mandatory=mandatory[clause])
        return known[key]

    clauses = range(len(ruleset.clauses))
    return tuple(tuple(cell(line, clause) for clause in clauses) for line in range(len(schedule.lines)))
