"""What clauses make of systems, as regions: to which a clause applies, which meet it, which fail it, which lie in
many.

The regions follow the judge's rules (see `speccheck.judge.judging`): out of scope or excepted, a clause makes nothing
of a system; otherwise the requirement decides, and what is not known stays open.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from speccheck.judge import Judge, Verdict
from speccheck.judge.aggregate import worst_of
from speccheck.judge.examples import example_line
from speccheck.judge.operations import Rules
from speccheck.language.core import Clause, Condition, Given, Ruleset, Table
from speccheck.language.core.walking import Node, atoms, conditions_of, tables_of, terms_of
from speccheck.proofread.decision_diagrams import EMPTY, FULL, Diagram, Diagrams
from speccheck.proofread.regions import Region, Regions
from speccheck.proofread.sensible_systems import SensibleSystems
from speccheck.proofread.variables import Axis, ChoiceAxis, OrderAxis, TermAxis, Variables, axes_of
from speccheck.schedule.lines import Line

# How many diagrams may be made on the way before the question is left open.
LIMIT = 400_000


@dataclass(frozen=True)
class Eliminated:
    """What is left on the axes that were kept, and the regions that were met on the way, first ones first."""

    region: Diagram
    met: tuple[Diagram, ...]

    def completed(self, diagrams: Diagrams, point: Diagram, choose: Callable[[Diagram], Diagram]) -> Diagram:
        """Return a system of the region completed on the axes let go; `choose` picks a system out of a region."""
        for region in reversed(self.met):
            point = choose(diagrams.both(point, region))
        return point


def eliminate(diagrams: Diagrams, regions: Iterable[Diagram], kept: frozenset[int]) -> Eliminated | None:
    """Return what all regions together leave of the systems on the axes kept; None where it would take too much."""
    left = [region for region in dict.fromkeys(regions) if region != FULL]
    met: list[Diagram] = []
    start = diagrams.count
    while (gone := _next(diagrams, left, kept)) is not None:
        joined = diagrams.every(region for region in left if gone in diagrams.axes(region))
        left = [region for region in left if gone not in diagrams.axes(region)]
        met.append(joined)
        left.append(diagrams.whatever(joined, [gone]))
        if diagrams.count - start > LIMIT:
            return None
    return Eliminated(diagrams.every(left), tuple(met))


def _next(diagrams: Diagrams, regions: list[Diagram], kept: frozenset[int]) -> int | None:
    """Return the axis whose elimination asks for the fewest others at once."""
    together: dict[int, set[int]] = {}
    for region in regions:
        for axis in diagrams.axes(region) - kept:
            together.setdefault(axis, set()).update(diagrams.axes(region))
    return min(together, key=lambda axis: (len(together[axis]), axis), default=None)


@dataclass(frozen=True, eq=False)
class ClauseRegions:
    """One clause, its number in its ruleset, and its regions.

    `applies` holds the systems to which the clause surely applies, `out` those of which it surely makes nothing.
    `asked_if_given` are the conditions that ask whether a term is given, and `may_be_missing` the axes of those terms:
    that they are not is a thing that a complete line can say.
    """

    number: int
    clause: Clause
    scope: Region
    exceptions: tuple[Region, ...]
    shall: Region
    should: Region
    applies: Diagram
    out: Diagram
    asked_if_given: tuple[Given, ...]
    may_be_missing: frozenset[int]
    axes: Variables
    diagrams: Diagrams

    @property
    def label(self) -> str:
        """The name by which reports call the clause."""
        return self.clause.label

    @property
    def mandatory(self) -> bool:
        """Whether the clause requires anything, beside what it advises."""
        return bool(self.clause.shall)

    @cached_property
    def tables(self) -> tuple[Table, ...]:
        """The tables that the requirement looks up."""
        return tables_of(self.clause.shall)

    @cached_property
    def read_by(self) -> frozenset[int]:
        """The axes of the terms that the tables of the requirement are read by."""
        return frozenset(self.axes.of_term[axis.term.name] for table in self.tables for axis in table.axes)

    @cached_property
    def demanded(self) -> frozenset[int]:
        """The axes of what the clause demands: a choice on them can meet or fail it."""
        names = {term.name for term in terms_of(self.clause.shall)}
        terms = frozenset(self.axes.of_term[name] for name in names) - self.read_by
        names -= {axis.term.name for table in self.tables for axis in table.axes}
        return terms.union(
            index
            for index, axis in enumerate(self.axes.axes)
            if (isinstance(axis, ChoiceAxis) and axis.term.name in names)
            or (isinstance(axis, OrderAxis) and any(term.name in names for term in axis.terms))
        )

    @cached_property
    def chosen(self) -> frozenset[int]:
        """The axes of what the clause demands that the contractor chooses: what the vocabulary marks as proposed.

        What is worked out follows from choices. A vocabulary without the mark leaves everything to choose from.
        """
        axes = self.axes.axes
        marked = any(isinstance(axis, TermAxis) and axis.term.proposed for axis in axes)
        return frozenset(index for index in self.demanded if not marked or _is_chosen(axes[index]))

    @cached_property
    def fails(self) -> Diagram:
        """The systems that surely do not meet the requirement."""
        return self.diagrams.both(self.applies, self.shall.fails)

    @cached_property
    def accepts(self) -> Diagram:
        """The systems that surely meet the requirement, or of which the clause makes nothing."""
        return self.diagrams.either(self.out, self.shall.holds)

    @cached_property
    def against_advice(self) -> Diagram:
        """The systems that surely do not follow the advice."""
        return self.diagrams.both(self.applies, self.should.fails)


def _is_chosen(axis: Axis) -> bool:
    terms = axis.terms if isinstance(axis, OrderAxis) else (axis.term,)
    return any(term.proposed or term.computed for term in terms)


@dataclass(frozen=True)
class Reading:
    """One ruleset read for proofreading: its regions, those of its clauses, and the judge who has the last word."""

    ruleset: Ruleset
    regions: Regions
    _completes: dict[int, Diagram] = field(default_factory=dict, init=False, repr=False, compare=False)

    @property
    def diagrams(self) -> Diagrams:
        """The diagrams in which the regions are kept."""
        return self.regions.diagrams

    @property
    def axes(self) -> Variables:
        """The axes of the systems."""
        return self.regions.axes

    @cached_property
    def _sensible(self) -> SensibleSystems:
        return SensibleSystems(self.axes, self.diagrams)

    def sensible(self, region: Diagram) -> Diagram:
        """Return the systems of a region whose values go together by what the vocabulary says."""
        return self._sensible.of(region)

    def sensible_part(self, region: Diagram) -> Diagram:
        """Return the sensible systems of a region, or all of it where none is: for an example that looks sensible."""
        part = self.sensible(region)
        return region if part == EMPTY else part

    @cached_property
    def judge(self) -> Judge:
        """The judge of the ruleset; of a computed term it takes what a line states, for any value could come about."""
        return Judge(self.ruleset, as_stated=True)

    def verdict(self, clause: ClauseRegions, line: Line) -> Verdict:
        """Return the judge's verdict on a line by a clause, without the reasons that a cell has."""
        judgements = self.judge.judgements(clause.clause, line)
        return worst_of(one.verdict for one in judgements) or Verdict.CANNOT_TELL

    def is_out(self, clause: ClauseRegions, line: Line) -> bool:
        """Say whether the judge makes nothing of a line by a clause."""
        return self.verdict(clause, line) is Verdict.NOT_APPLICABLE

    def is_met_by_an_example(self, *clauses: ClauseRegions) -> bool:
        """Say whether an example of any clause meets all of some clauses, which decides what no region does."""
        examples = (example for clause in self.ruleset.clauses for example in clause.examples)
        lines = (example_line(example, self.ruleset.units) for example in examples)
        return any(
            all(self.judge.cell(one.number, line).verdict is Verdict.COMPLIES for one in clauses) for line in lines
        )

    @cached_property
    def clauses(self) -> tuple[ClauseRegions, ...]:
        """The clauses with their regions, in the order of the ruleset."""
        return tuple(self._clause(number, clause) for number, clause in enumerate(self.ruleset.clauses))

    def _clause(self, number: int, clause: Clause) -> ClauseRegions:
        scope = self.regions.every((*clause.scope, *clause.judged_only))
        exceptions = tuple(self.regions.of(part.condition) for part in clause.exceptions)
        excepted = self.diagrams.some(part.holds for part in exceptions)
        kept = self.diagrams.every(part.fails for part in exceptions)
        given = tuple(atom for atom in atoms(conditions_of(clause)) if isinstance(atom, Given))
        return ClauseRegions(
            number,
            clause,
            scope,
            exceptions,
            self.regions.every(clause.shall),
            self.regions.every(clause.should),
            self.diagrams.both(scope.holds, kept),
            self.diagrams.either(scope.fails, excepted),
            given,
            self._may_be_missing(given),
            self.axes,
            self.diagrams,
        )

    def asked_whether_given(self, nodes: Iterable[Node]) -> frozenset[int]:
        """Return the axes of the terms of which some nodes ask whether they are given."""
        return self._may_be_missing(atom for atom in atoms(nodes) if isinstance(atom, Given))

    def _may_be_missing(self, asked: Iterable[Given]) -> frozenset[int]:
        assumed = {assumption.term.name for assumption in self.ruleset.assumptions}
        return frozenset(self.axes.of_term[one.term.name] for one in asked if one.term.name not in assumed)

    def complete(self, clauses: Iterable[ClauseRegions], *more: Diagram) -> Diagram:
        """Return the systems that state all that some clauses, and more regions, ask for."""
        chosen = tuple(clauses)
        if len(chosen) == 1 and not more:  # asked for a clause by most questions
            (clause,) = chosen
            if clause.number not in self._completes:
                self._completes[clause.number] = self._complete(chosen)
            return self._completes[clause.number]
        return self._complete(chosen, *more)

    def _complete(self, chosen: Sequence[ClauseRegions], *more: Diagram) -> Diagram:
        asked = (diagram for one in chosen for diagram in (*one.scope, one.applies, one.out, *one.shall, *one.should))
        missing = frozenset[int]().union(*(one.may_be_missing for one in chosen))
        return self.regions.stated((*asked, *more), missing)

    def is_exact(self, *diagrams: Diagram) -> bool:
        """Say whether regions rest on single terms alone, so that every system in them can be stated."""
        return not any(
            isinstance(self.axes.axes[index], OrderAxis)
            for diagram in diagrams
            for index in self.diagrams.axes(diagram)
        )


def read_together(rulesets: Sequence[Ruleset], more: Iterable[Condition] = ()) -> tuple[Reading, ...]:
    """Return readings of rulesets over the same axes; `more` are conditions that will be asked for besides."""
    axes = axes_of(rulesets, more)
    diagrams = Diagrams([axis.width for axis in axes.axes])
    return tuple(Reading(one, Regions(axes, diagrams, Rules.of(one))) for one in rulesets)
