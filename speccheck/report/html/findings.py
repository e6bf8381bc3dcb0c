"""Findings of the page, put together by clause: the wording once, then each line that it concerns."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from speccheck.judge.judgement import Cell, Verdict
from speccheck.language.core import Clause
from speccheck.report.html.matrix import finding_id
from speccheck.review.matrix import Matrix
from speccheck.schedule.lines import Line


@dataclass(frozen=True, slots=True)
class LineFinding:
    """What one clause finds on one line: the line, the cell, its name in the page, the sentence that sums it up."""

    line: Line
    cell: Cell
    number: str
    reason: str
    anchor: str


@dataclass(frozen=True, slots=True)
class ClauseFindings:
    """A clause with its number in the ruleset (from 0) and its findings in the order of the lines.

    `notes` are those that all of the findings share, to be told once.
    """

    clause: Clause
    number: int
    found: tuple[LineFinding, ...]
    notes: tuple[str, ...]


def findings_by_clause(matrix: Matrix, verdict: Verdict) -> tuple[ClauseFindings, ...]:
    """Return the mandatory cells with `verdict`, by clause."""
    return _by_clause(matrix, lambda cell: cell.mandatory and cell.verdict is verdict, _reason)


def advice_by_clause(matrix: Matrix) -> tuple[ClauseFindings, ...]:
    """Return the cells in which advice is not followed or cannot be determined, by clause."""
    return _by_clause(matrix, lambda cell: cell.advice in (Verdict.FAILS, Verdict.CANNOT_TELL), _advice_reason)


def _reason(cell: Cell) -> str:
    return cell.reason


def _advice_reason(cell: Cell) -> str:
    return cell.advice_reason or cell.reason


def _by_clause(
    matrix: Matrix, wanted: Callable[[Cell], bool], told: Callable[[Cell], str]
) -> tuple[ClauseFindings, ...]:
    """Return the wanted cells by clause, each with the sentence that `told` gives."""
    groups = []
    for column, clause in enumerate(matrix.ruleset.clauses):
        found = tuple(
            LineFinding(line, row[column], f"{index}-{column}", told(row[column]), finding_id(index, column))
            for index, (line, row) in enumerate(zip(matrix.schedule.lines, matrix.cells, strict=True))
            if wanted(row[column])
        )
        if found:
            groups.append(ClauseFindings(clause, column, found, _shared_notes(found)))
    return tuple(groups)


def _shared_notes(found: tuple[LineFinding, ...]) -> tuple[str, ...]:
    """Return the notes of the first finding that all the others have as well."""
    first, *others = (one.cell.notes for one in found)
    return tuple(note for note in first if all(note in notes for notes in others))
