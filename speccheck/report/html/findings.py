"""Findings of the page, put together by clause: the wording once, then the lines, like ones together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from speccheck.english import first_of
from speccheck.judge.cell import Cell, told
from speccheck.judge.judgement import BareVerdict, Verdict
from speccheck.language.core import Clause
from speccheck.report.html.matrix import finding_id
from speccheck.report.line_words import brief, line_names, place_words
from speccheck.review.matrix import Matrix
from speccheck.schedule.lines import Line

NAMED = 3
"""How many lines a folded finding names."""


@dataclass(frozen=True, slots=True)
class LineFinding:
    """What one clause finds on one line: the line, the cell, its name in the page, the sentence that sums it up."""

    line: Line
    cell: Cell
    number: str
    reason: str
    anchor: str


@dataclass(frozen=True, slots=True)
class AlikeFinding:
    """What one clause finds alike on some lines; the script of the page finds them by what is said of them."""

    found: tuple[LineFinding, ...]

    @property
    def first(self) -> LineFinding:
        """The first of them, by which the finding is named in the page."""
        return self.found[0]

    @property
    def names(self) -> str:
        """The lines in a few words: "P-1", "P-1, P-4 and 7 more"."""
        return first_of([one.line.name for one in self.found], NAMED - 1)

    @property
    def brief(self) -> str:
        """What the lines are, where all are the same."""
        words = brief(self.first.line)
        return words if all(brief(one.line) == words for one in self.found) else ""

    @property
    def where(self) -> str:
        """Where the line stands, or the names of all the lines where the short form leaves some out."""
        if len(self.found) == 1:
            place = place_words(self.first.line.place)
            return f"In the schedule: {place}." if place else ""
        return f"Lines: {line_names(one.line for one in self.found)}." if len(self.found) > NAMED else ""


@dataclass(frozen=True, slots=True)
class ClauseFindings:
    """A clause with its number in the ruleset (from 0) and its findings in the order of the lines.

    `notes` are those that all of the findings share, to be told once.
    """

    clause: Clause
    number: int
    found: tuple[LineFinding, ...]
    notes: tuple[str, ...]

    @property
    def alike(self) -> tuple[AlikeFinding, ...]:
        """The findings of which the same is said together, in the order of their first lines."""
        together: dict[tuple[str, tuple[str, ...]], list[LineFinding]] = {}
        for one in self.found:
            together.setdefault((one.reason, one.cell.at), []).append(one)
        return tuple(AlikeFinding(tuple(found)) for found in together.values())


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
    matrix: Matrix, wanted: Callable[[BareVerdict], bool], sentence: Callable[[Cell], str]
) -> tuple[ClauseFindings, ...]:
    """Return the wanted cells by clause, each with its sentence."""
    groups = []
    for column, clause in enumerate(matrix.ruleset.clauses):
        rows = [index for index, row in enumerate(matrix.cells) if wanted(row[column])]
        cells = [told(matrix.cells[index][column]) for index in rows]
        found = tuple(
            LineFinding(
                matrix.schedule.lines[index], cell, f"{index}-{column}", sentence(cell), finding_id(index, column)
            )
            for index, cell in zip(rows, cells, strict=True)
        )
        if found:
            groups.append(ClauseFindings(clause, column, found, _shared_notes(found)))
    return tuple(groups)


def _shared_notes(found: tuple[LineFinding, ...]) -> tuple[str, ...]:
    """Return the notes of the first finding that all the others have as well."""
    first, *others = (one.cell.notes for one in found)
    return tuple(note for note in first if all(note in notes for notes in others))
