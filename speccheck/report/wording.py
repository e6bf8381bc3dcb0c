"""The words that all reports share: the short mark of a cell, counts, the cautions of a ruleset."""

from __future__ import annotations

from collections.abc import Mapping

from speccheck.english import count
from speccheck.judge.judgement import BareVerdict, Verdict
from speccheck.language.core import Clause, Ruleset
from speccheck.report.cautions import STANDING_CAUTIONS
from speccheck.review.matrix import Matrix

MARKS: Mapping[Verdict, str] = {
    Verdict.FAILS: "FAIL",
    Verdict.CANNOT_TELL: "info",
    Verdict.ACCEPTED: "dev",
    Verdict.COMPLIES: "ok",
    Verdict.NOT_CHECKED: "n.s.",
    Verdict.NOT_APPLICABLE: "–",
}

LEGEND: tuple[tuple[str, str], ...] = (
    (MARKS[Verdict.FAILS], "does not comply"),
    (MARKS[Verdict.CANNOT_TELL], "cannot be determined: information needed"),
    (MARKS[Verdict.ACCEPTED], "does not comply, accepted as a deviation"),
    (MARKS[Verdict.COMPLIES], "complies"),
    (MARKS[Verdict.NOT_CHECKED], "not checked: what the clause is judged by is not stated"),
    (MARKS[Verdict.NOT_APPLICABLE], "not applicable"),
    ("( )", "in brackets: a recommendation alone (non-mandatory)"),
    ("*", "a recommendation in the same clause is not followed or cannot be determined"),
)


def mark(cell: BareVerdict) -> str:
    """Return the short mark of a cell, which reads without colour; `LEGEND` says what the marks mean."""
    short = MARKS[cell.verdict]
    if not cell.mandatory:
        return short if cell.verdict in (Verdict.NOT_CHECKED, Verdict.NOT_APPLICABLE) else f"({short.lower()})"
    return f"{short}*" if cell.advice in (Verdict.FAILS, Verdict.CANNOT_TELL) else short


def clause_label(clause: Clause) -> str:
    """Return the name by which reports call a clause."""
    return clause.label or clause.name


def ruleset_heading(ruleset: Ruleset) -> str:
    """Return the ruleset's name with its edition."""
    return f"{ruleset.name}, {ruleset.edition}" if ruleset.edition else ruleset.name


def extent(matrix: Matrix) -> str:
    """Return how large a matrix is: "43 lines, 31 clauses"."""
    return f"{count(len(matrix.schedule.lines), 'line')}, {count(len(matrix.ruleset.clauses), 'clause')}"


def cautions(ruleset: Ruleset) -> tuple[str, ...]:
    """Return the standing cautions, then those of the ruleset and its vocabulary, each once."""
    return tuple(dict.fromkeys((*STANDING_CAUTIONS, *ruleset.cautions, *ruleset.vocabulary.cautions)))
