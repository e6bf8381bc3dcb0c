"""Leaving out: clauses that make more of a line which says less, because they ask whether a datum is given.

Only a condition that asks whether a term is given can hold without the term and not with it. So the systems that a
clause fails with the term stated are compared with those that it lets pass, or is not for, with the term left out; the
judge sees the line both ways. Of no use is an omission after which another clause judges the line without a pass.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from speccheck.judge import Judge, Verdict
from speccheck.judge.cell import Cell
from speccheck.language.core import Given
from speccheck.language.vocabulary.terms import Term
from speccheck.proofread.amount_regions import NOT_GIVEN
from speccheck.proofread.clause_regions import ClauseRegions, Reading
from speccheck.proofread.decision_diagrams import EMPTY, Diagram
from speccheck.proofread.findings import Finding
from speccheck.proofread.messages.redundancy import MET_BY_WHAT_LEAVES_OUT, NOT_FOR_WHAT_LEAVES_OUT
from speccheck.proofread.witnesses import Lines
from speccheck.schedule.lines import Line

_PASSING = (Verdict.COMPLIES, Verdict.NOT_APPLICABLE)


def omissions_that_help(reading: Reading, lines: Lines) -> Iterator[Finding]:
    """Yield the clauses of the ruleset itself that a line does not fail once it leaves a term out, each term once."""
    verifying = Judge(reading.ruleset)
    for clause in reading.clauses:
        if clause.mandatory and clause.clause.ruleset == reading.ruleset.name:
            for asked in _asked(clause):
                omission = _Omission(reading, clause, asked.term, verifying)
                line = lines.find(region, omission.shown_by) if (region := omission.region) != EMPTY else None
                if isinstance(line, Line):
                    yield _finding(omission, asked, lines, line)


def _asked(clause: ClauseRegions) -> Iterator[Given]:
    """Yield the conditions that ask whether a term is given, one a term, that `judged only where` does not answer."""
    answered = {one.term.name for one in clause.clause.judged_only}
    found: dict[str, Given] = {}
    for node in clause.asked_if_given:
        if not node.term.computed and node.term.name not in answered:
            found.setdefault(node.term.name, node)
    yield from found.values()


@dataclass(frozen=True)
class _Omission:
    """One term left out of the lines that one clause judges.

    `verifying` works out what a line states of a computed term, for which it may need the very term left out.
    """

    reading: Reading
    clause: ClauseRegions
    term: Term
    verifying: Judge

    @property
    def region(self) -> Diagram:
        """The systems that state the term and fail the clause, and of which it lets pass what leaves the term out."""
        diagrams = self.reading.diagrams
        stated = diagrams.box({self._index: diagrams.whole[self._index] & ~NOT_GIVEN})
        helped = diagrams.every((self._without(self.clause.accepts), self.clause.fails, stated))
        if helped == EMPTY:
            return EMPTY
        helped = self.reading.sensible(diagrams.both(helped, self.reading.complete((self.clause,))))
        for other in self._others:
            if helped != EMPTY:
                helped = diagrams.without(helped, self._without(diagrams.negation(other.accepts)))
        return helped

    @property
    def _index(self) -> int:
        return self.reading.axes.of_term[self.term.name]

    def _without(self, region: Diagram) -> Diagram:
        """Return the systems that lie in a region once they leave the term out."""
        diagrams = self.reading.diagrams
        return diagrams.whatever(diagrams.both(region, diagrams.box({self._index: NOT_GIVEN})), (self._index,))

    @cached_property
    def _others(self) -> tuple[ClauseRegions, ...]:
        """The other clauses that ask for the same: where one of them does not let the line pass, nothing is won."""
        clauses = (one for one in self.reading.clauses if one.mandatory and one is not self.clause)
        return tuple(one for one in clauses if one.demanded & self.clause.demanded)

    def cells(self, line: Line) -> tuple[Cell, Cell]:
        """Return the cell of a line as it is, and that without the term."""
        number = self.clause.number
        return self.reading.judge.cell(number, line), self.verifying.cell(number, self.less(line))

    def less(self, line: Line) -> Line:
        """Return a line without the term."""
        return Line(line.name, {name: datum for name, datum in line.data.items() if name != self.term.name})

    def shown_by(self, line: Line) -> bool:
        """Whether a line fails the clause, and would not without the term, nor by another clause in its place."""
        whole, less = self.cells(line)
        if self.term.name not in line.data or whole.verdict is not Verdict.FAILS or less.verdict not in _PASSING:
            return False
        if any(value.term == self.term.name for value in less.assumed):
            return False
        others = (self.verifying.cell(one.number, self.less(line)).verdict for one in self._others)
        return all(verdict in (*_PASSING, Verdict.NOT_CHECKED) for verdict in others)


def _finding(omission: _Omission, asked: Given, lines: Lines, line: Line) -> Finding:
    term, label = omission.term.name, omission.clause.label
    _, less = omission.cells(line)
    said = NOT_FOR_WHAT_LEAVES_OUT if less.verdict is Verdict.NOT_APPLICABLE else MET_BY_WHAT_LEAVES_OUT
    place = asked.place if asked.place.line else omission.clause.clause.place
    return Finding(said.at(place, clause=label, term=term), (label,), lines.example(line))
