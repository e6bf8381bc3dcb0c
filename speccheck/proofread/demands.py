"""Demands: what clauses accept with one value of a term and fail with another, all else on a line staying as it is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from speccheck.judge import Verdict
from speccheck.judge.evaluation import evaluate
from speccheck.judge.operations import bare
from speccheck.language.core import (
    Assignment,
    Comparison,
    Condition,
    DemandContrast,
    Literal,
    Relation,
    Ruleset,
    Statement,
    TermValue,
)
from speccheck.language.vocabulary.terms import Term, fold
from speccheck.language.vocabulary.values import NotGiven, Single
from speccheck.proofread.clause_regions import ClauseRegions, Eliminated, eliminate, read_together
from speccheck.proofread.decision_diagrams import EMPTY, Diagram
from speccheck.proofread.variables import OrderAxis
from speccheck.proofread.witnesses import Lines
from speccheck.schedule.lines import Datum, Line

# How many lines of a region are tried before the question is left open.
TRIES = 8
ACCEPTING = (Verdict.COMPLIES, Verdict.NOT_CHECKED, Verdict.NOT_APPLICABLE)
TOO_LARGE = "the clauses together part the systems in too many ways"
NO_LINE = "no line was found that speaks against it, and it was not shown that there is none"


@dataclass(frozen=True)
class ValueOfTerm:
    """One value of the term of a statement: its place on the axis of the term, and its words in a schedule."""

    atom: int
    value: Single
    text: str


@dataclass(frozen=True)
class Against:
    """A line without the term of the statement, and the clause that fails it with one value and not with the other."""

    clause: ClauseRegions
    example: tuple[Assignment, ...]


class Demands:
    """The clauses that a statement speaks of, compared with themselves for two values of its term.

    `certain` says whether every answer so far that there is no line was proved; `why` says what left one open.
    """

    def __init__(self, ruleset: Ruleset, statement: Statement, term: Term) -> None:
        self.term = term
        self.conditions = statement.conditions
        self.certain = True
        self.why = ""
        (self.reading,) = read_together([ruleset], [*statement.conditions, *_named(statement)])
        self.diagrams = self.reading.diagrams
        self.lines = Lines((self.reading,))
        subject = fold(statement.subject)
        self.clauses = [
            one for one in self.reading.clauses if one.mandatory and subject in ("", fold(one.clause.subject))
        ]

    @cached_property
    def _gone(self) -> frozenset[int]:
        """The axes that cannot be kept where the term takes two values: its own, and those that follow from it."""
        axes = self.reading.axes
        own = axes.of_term.get(self.term.name)
        orders = (
            index
            for index, axis in enumerate(axes.axes)
            if isinstance(axis, OrderAxis) and any(term.name == self.term.name for term in axis.terms)
        )
        return frozenset(() if own is None else (own, *orders))

    # ---- values --------------------------------------------------------------------------------------------------

    def _values(self) -> Iterator[ValueOfTerm]:
        if self.term.name in self.reading.axes.of_term:
            for index, atom in enumerate(self.reading.axes.term_axis(self.term).atoms):
                if not isinstance(atom.value, NotGiven):
                    yield ValueOfTerm(index, atom.value, atom.text)

    def value(self, value: Single) -> ValueOfTerm:
        """Return the place of one value on the axis of the term."""
        return next(one for one in self._values() if one.value == value)

    def rising_values(self) -> list[ValueOfTerm]:
        """Return values of the term in rising order, one for each run of neighbours that all clauses treat alike."""
        found: list[ValueOfTerm] = []
        last: tuple[Diagram, ...] = ()
        for one in sorted(self._values(), key=lambda value: bare(value.value)):
            meaning = tuple(self._with(diagram, one) for clause in self.clauses for diagram in _regions_of(clause))
            if len(self._gone) > 1 or not found or meaning != last:
                found.append(one)
            last = meaning
        return found

    def _with(self, diagram: Diagram, value: ValueOfTerm) -> Diagram:
        """Return the lines, the term left out, that lie in a region with a value of the term."""
        own = self.reading.axes.of_term[self.term.name]
        return self.diagrams.whatever(
            self.diagrams.both(diagram, self.diagrams.box({own: 1 << value.atom})), self._gone
        )

    # ---- lines ---------------------------------------------------------------------------------------------------

    def against(self, failed: ValueOfTerm, accepted: ValueOfTerm) -> Against | None:
        """Return a line that all clauses accept with one value of the term and one of them fails with the other."""
        where = self.reading.regions.every(self.conditions).holds
        meets = self.diagrams.both(self._with(where, failed), self._with(where, accepted))
        accepts = [self._with(one.accepts, accepted) for one in self.clauses]
        for clause in self.clauses:
            fails = self._with(self.diagrams.both(clause.fails, self.reading.complete([clause])), failed)
            example = self._line(clause, self.diagrams.both(fails, meets), accepts, failed, accepted)
            if example is not None:
                return Against(clause, example)
        return None

    def _line(
        self,
        clause: ClauseRegions,
        fails: Diagram,
        accepts: Sequence[Diagram],
        failed: ValueOfTerm,
        accepted: ValueOfTerm,
    ) -> tuple[Assignment, ...] | None:
        if fails == EMPTY:
            return None
        left = eliminate(self.diagrams, accepts, self.diagrams.axes(fails))
        if left is None:
            self.certain, self.why = False, TOO_LARGE
            return None
        region = self.diagrams.both(fails, left.region)
        if region == EMPTY:
            return None
        for point in self._points(region, left):
            line = self.lines.find(point, lambda line: self._shows(line, clause, failed, accepted))
            if isinstance(line, Line):
                return self.lines.example(line)
        self.certain, self.why = False, NO_LINE
        return None

    def _points(self, region: Diagram, left: Eliminated) -> Iterator[Diagram]:
        """Yield single systems of a region, each completed to one that all clauses accept."""
        for _ in range(TRIES):
            if region == EMPTY:
                return
            point = self.lines.point(region)
            yield left.completed(self.diagrams, point, self.lines.point)
            region = self.diagrams.without(region, point)

    def _shows(self, line: Line, clause: ClauseRegions, failed: ValueOfTerm, accepted: ValueOfTerm) -> bool:
        """Return whether the judge accepts a line with the one value of the term, and fails it with the other."""
        judge = self.reading.judge
        good, bad = self._stating(line, accepted), self._stating(line, failed)
        if judge.cell(clause.number, bad).verdict is not Verdict.FAILS:
            return False
        if not all(judge.cell(one.number, good).verdict in ACCEPTING for one in self.clauses):
            return False
        cases = ({name: datum.value for name, datum in one.data.items()} for one in (good, bad))
        return all(
            evaluate(condition, case, judge.rules).truth is True  # type: ignore[arg-type]
            for case in cases
            for condition in self.conditions
        )

    def _stating(self, line: Line, value: ValueOfTerm) -> Line:
        return Line(line.name, {**line.data, self.term.name: Datum(value.value, value.text)})


def _regions_of(clause: ClauseRegions) -> tuple[Diagram, Diagram]:
    return clause.accepts, clause.fails


def _named(statement: Statement) -> list[Condition]:
    """Return conditions that name the values that a statement is about, so that the axes have them."""
    if not isinstance(statement.claim, DemandContrast):
        return []
    term = statement.claim.term
    return [
        Comparison(TermValue(term), Relation.EQUAL, Literal(value, term.kind))
        for value in (statement.claim.first, statement.claim.second)
    ]
