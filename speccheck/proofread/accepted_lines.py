"""Accepted lines: a line that the whole of a specification accepts and that a clause of the code fails.

No clause of the specification may fail it, and each has to comply or not to apply. The product of all those clauses is
never made: first each is reduced to the axes of the clause of the code, then a part of what is left is settled on all
axes but those of amounts that are compared with one another, and values are found for these. That there is no such
line is said where the reduced region is empty, or where it is proved of each of its parts.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from speccheck.engine import Verdict
from speccheck.proofread.axes import OrderAxis
from speccheck.proofread.clause_regions import ClauseRegions, Reading
from speccheck.proofread.diagrams import EMPTY, Diagram
from speccheck.proofread.eliminating import Eliminated, eliminate
from speccheck.proofread.lines import Absent, Lines, Shows, shortened
from speccheck.submittal.lines import Line

# How many parts of a region are looked into for a line.
TRIES = 8
ACCEPTING = (Verdict.COMPLIES, Verdict.NOT_APPLICABLE)


@dataclass(frozen=True)
class AcceptedLines:
    """Looks for lines that the mandatory clauses of a specification accept; the readings share their axes."""

    specification: Reading
    mandatory: Sequence[ClauseRegions]
    code: Reading
    lines: Lines

    def line(self, clause: ClauseRegions, matched: Sequence[ClauseRegions]) -> Line | Absent:
        """Return a line that the specification accepts and a clause of the code fails.

        It states no more than it takes for the `matched` clauses to accept it and for the others not to fail it.
        """
        diagrams = self.code.diagrams
        fails = diagrams.both(clause.fails, self.code.complete([clause]))
        own = diagrams.axes(fails)
        for kept in (own, own | self._compared):
            left = eliminate(diagrams, self._accepts, kept)
            if left is None:
                return Absent.UNDECIDED
            region = diagrams.both(fails, left.region)
            if kept != own:
                region = self.lines.left_open(region)
            if region == EMPTY:
                return Absent.NONE
            for part in self._parts(region, left):
                line = self.lines.find(diagrams.both(part, fails), self._shows(clause, self.mandatory))
                if isinstance(line, Line):
                    return shortened(line, self._shows(clause, matched))
        return Absent.UNDECIDED

    @cached_property
    def _accepts(self) -> tuple[Diagram, ...]:
        """The regions that the clauses of the specification accept."""
        return tuple(one.accepts for one in self.mandatory)

    @cached_property
    def _compared(self) -> frozenset[int]:
        """The axes of amounts that are compared with one another, and of the terms in them."""
        axes = self.code.axes
        orders = {index: axis for index, axis in enumerate(axes.axes) if isinstance(axis, OrderAxis)}
        terms = {axes.of_term[term.name] for axis in orders.values() for term in axis.terms}
        return frozenset((*orders, *terms))

    def _parts(self, region: Diagram, left: Eliminated) -> Iterator[Diagram]:
        """Yield parts of a region that the whole specification accepts, each with all but what is compared settled."""
        diagrams = self.code.diagrams
        for _ in range(TRIES):
            if region == EMPTY:
                return
            point = self.lines.point(region)
            whole = left.completed(diagrams, point, self.lines.point)
            settled = {axis: mask for axis, mask in diagrams.hull(whole).items() if axis not in self._compared}
            pinned = diagrams.box(settled)
            yield diagrams.every([diagrams.both(pinned, one) for one in self._accepts])
            tried = {axis: mask for axis, mask in settled.items() if axis in diagrams.axes(point)}
            region = diagrams.without(region, diagrams.box(tried) if tried else point)

    def _shows(self, clause: ClauseRegions, accepting: Sequence[ClauseRegions]) -> Shows:
        """Return whether a line fails the clause and some clauses of the specification accept it, and none fails it."""

        def shows(line: Line) -> bool:
            if self.code.judge.cell(clause.number, line).verdict is not Verdict.FAILS:
                return False
            if any(self._verdict(one, line) not in ACCEPTING for one in accepting):
                return False
            return all(self._verdict(one, line) is not Verdict.FAILS for one in self.mandatory)

        return shows

    def _verdict(self, clause: ClauseRegions, line: Line) -> Verdict:
        return self.specification.judge.cell(clause.number, line).verdict
