"""The compliance matrix: every line against every clause, and what a review found beside it.

In: a schedule as it was understood and a ruleset. Out: a cell for each pair, and counts of what was found.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import TYPE_CHECKING

from speccheck.judge.cell import Cell, told
from speccheck.judge.judgement import BareVerdict, Verdict
from speccheck.language.core import Clause, Ruleset
from speccheck.schedule.lines import Line, Schedule

if TYPE_CHECKING:
    from speccheck.review.deviations import Register
    from speccheck.review.documents import DocumentFinding
    from speccheck.review.line_relations import RelationFinding
    from speccheck.review.observations import Observation
    from speccheck.review.rounds import RoundComparison


AGAINST_ADVICE = (Verdict.FAILS, Verdict.CANNOT_TELL)
"""The verdicts on advice of which a reader is told."""


@dataclass(frozen=True, slots=True)
class MatrixFinding:
    """A cell that needs somebody to act or to answer, with its line and its clause."""

    line: Line
    clause: Clause
    cell: Cell


@dataclass(frozen=True, repr=False)
class Matrix:
    """All cells: `cells[line][clause]`, in the order of `schedule.lines` and `ruleset.clauses`.

    Where nobody is going to read reasons, cells are bare verdicts; `told` are those that were judged for a reader.
    `register` has the accepted deviations, `observations` what the design list, the product data and
    the register brought up, `comparison` what became of the round before, `documents` how what the section asks to be
    submitted stands against what was received; all of these may be missing.
    """

    schedule: Schedule
    ruleset: Ruleset
    cells: tuple[tuple[BareVerdict, ...], ...]
    register: Register | None = None
    observations: tuple[Observation, ...] = ()
    comparison: RoundComparison | None = None
    documents: tuple[DocumentFinding, ...] = ()
    relations: tuple[RelationFinding, ...] = ()

    def __repr__(self) -> str:
        return f"<Matrix: {len(self.cells)} lines, {len(self.ruleset.clauses)} clauses>"

    @cached_property
    def told(self) -> tuple[tuple[Cell, ...], ...]:
        """All cells with the grounds of their verdicts."""
        return tuple(tuple(map(told, row)) for row in self.cells)

    def __iter__(self) -> Iterator[MatrixFinding]:
        """Go through all cells, line by line."""
        return self._found(lambda cell: True)

    def _found(self, wanted: Callable[[BareVerdict], bool]) -> Iterator[MatrixFinding]:
        for line, row in zip(self.schedule.lines, self.cells, strict=True):
            for clause, cell in zip(self.ruleset.clauses, row, strict=True):
                if wanted(cell):
                    yield MatrixFinding(line, clause, told(cell))

    @property
    def stands_alone(self) -> bool:
        """Whether nothing was checked against the schedule but the ruleset."""
        beside = (self.register, self.comparison, *self.observations, *self.documents, *self.relations)
        return all(one is None for one in beside)

    @cached_property
    def counts(self) -> Mapping[Verdict, int]:
        """How many cells of mandatory clauses have each verdict."""
        return Counter(cell.verdict for row in self.cells for cell in row if cell.mandatory)

    def findings(self, *verdicts: Verdict) -> tuple[MatrixFinding, ...]:
        """Return the mandatory cells with one of `verdicts`, in that order, then by line and clause."""
        order = {verdict: rank for rank, verdict in enumerate(verdicts)}
        chosen = self._found(lambda cell: cell.mandatory and cell.verdict in order)
        return tuple(sorted(chosen, key=lambda found: order[found.cell.verdict]))

    @cached_property
    def advice(self) -> tuple[MatrixFinding, ...]:
        """The cells in which advice is not followed or cannot be judged; they decide nothing."""
        return tuple(self._found(lambda cell: cell.advice in AGAINST_ADVICE))

    def line_verdict(self, index: int) -> Verdict:
        """Return the worst mandatory verdict of a line, in the order of `Verdict`; not applicable where it has none."""
        present = {cell.verdict for cell in self.cells[index] if cell.mandatory}
        return next((verdict for verdict in Verdict if verdict in present), Verdict.NOT_APPLICABLE)
