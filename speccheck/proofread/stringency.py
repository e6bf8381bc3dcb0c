"""Stringency: is every line that a specification accepts also accepted by the code that it must meet?

Clause by clause of the code. The specification is *looser* where it accepts a line (no clause of it fails, and each
complies or does not apply) that the clause of the code fails; it is *stricter* where a line complies with the clause of
the code and fails a clause of the specification that demands something of the same terms. Both: not comparable.
Neither: the same. Where the specification declares with `scope` what it governs on the subject of a clause, it is
looser only on those systems; the line told is the one that falls short of the code by most.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property

from speccheck.judge import Verdict
from speccheck.language.core import Assignment, Ruleset
from speccheck.language.core.walking import terms_of
from speccheck.language.diagnostics import NOWHERE, Place
from speccheck.language.vocabulary.terms import fold
from speccheck.proofread.clause_regions import ClauseRegions, Eliminated, Reading, eliminate, read_together
from speccheck.proofread.conflicts import Hulls, bits
from speccheck.proofread.decision_diagrams import EMPTY, FULL, Diagram
from speccheck.proofread.findings import Finding
from speccheck.proofread.messages.comparing import LOOSER, NOT_ASKED_FOR
from speccheck.proofread.shortfalls import Shortfall, largest_shortfall
from speccheck.proofread.variables import OrderAxis
from speccheck.proofread.witnesses import Lines, NoWitness, Shows, shortened
from speccheck.schedule.lines import Line

# How many parts of a region are looked into for a line.
TRIES = 8
ACCEPTING = (Verdict.COMPLIES, Verdict.NOT_CHECKED, Verdict.NOT_APPLICABLE)


@dataclass(frozen=True)
class AcceptedLines:
    """Looks for lines that the mandatory clauses of a specification accept; the readings share their axes."""

    specification: Reading
    mandatory: Sequence[ClauseRegions]
    code: Reading
    lines: Lines

    def line(
        self, clause: ClauseRegions, matched: Sequence[ClauseRegions]
    ) -> tuple[Line | NoWitness, Shortfall | None]:
        """Return a line that the specification accepts and a clause of the code fails, and by how much it does.

        It falls short by most of all that the specification accepts, where the clause has limits, and states no more
        than it takes for the `matched` clauses to accept it and for the others not to fail it.
        """
        diagrams = self.code.diagrams
        failing = diagrams.every((clause.fails, self.code.complete([clause]), self._declared(clause)))
        fails = self.code.sensible(failing)
        own = diagrams.axes(fails)
        for kept in (own, own | self._compared):
            left = eliminate(diagrams, self._accepts, kept)
            if left is None:
                return NoWitness.UNDECIDED, None
            region = diagrams.both(fails, left.region)
            if kept != own:
                region = self.lines.left_open(region)
            if region == EMPTY:
                return NoWitness.NONE, None
            most = largest_shortfall(self.code, clause, region)
            for far in (most, None) if most is not None else (None,):
                line = self._line_in(far.region if far is not None else region, left, fails, clause)
                if line is not None:
                    line = shortened(line, self._shows(clause, matched))
                    return line, far.shown_by(line) if far is not None and far.term.name in line.data else None
        return NoWitness.UNDECIDED, None

    def _line_in(self, region: Diagram, left: Eliminated, fails: Diagram, clause: ClauseRegions) -> Line | None:
        for part in self._parts(region, left):
            line = self.lines.find(self.code.diagrams.both(part, fails), self._shows(clause, self.mandatory))
            if isinstance(line, Line):
                return line
        return None

    def _declared(self, clause: ClauseRegions) -> Diagram:
        """Return the systems that the specification declares to govern on the subject of a clause; all without."""
        regions, diagrams = self.specification.regions, self.code.diagrams
        scopes = self.specification.ruleset.scopes
        named = [clause.clause.subject] if clause.clause.subject else [t.name for t in terms_of(clause.clause.shall)]
        own = [scope for scope in scopes if fold(scope.subject) in map(fold, named)]
        if not own:
            return FULL
        excepted = (regions.some(part.condition for part in scope.exceptions).fails for scope in own)
        inside = (regions.every(scope.conditions).holds for scope in own)
        return diagrams.some(diagrams.both(*both) for both in zip(inside, excepted, strict=True))

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
        return self.specification.verdict(clause, line)


class Stringency(StrEnum):
    """How a specification stands to one clause of the code."""

    STRICTER = "stricter"
    SAME = "same"
    LOOSER = "looser"
    NOT_COMPARABLE = "stricter and looser"
    UNDECIDED = "not decided"


@dataclass(frozen=True, slots=True)
class ClauseStringency:
    """How the specification stands to one clause of the code, with the lines that show it.

    `matched` are the labels of the clauses of the specification that demand something of the same terms; where there
    are none, the specification does not ask for it. `looser` is a line that the specification accepts and the code does
    not, `stricter` one that complies with the code and fails the clause `stricter_by`; empty where there is none.
    `shortfall` is how far the line `looser` falls short of a limit of the clause: no other line does by more.
    """

    label: str
    title: str
    stringency: Stringency
    matched: tuple[str, ...]
    looser: tuple[Assignment, ...] = ()
    stricter: tuple[Assignment, ...] = ()
    stricter_by: str = ""
    place: Place = NOWHERE
    shortfall: Shortfall | None = None

    def finding(self, code: str) -> Finding | None:
        """Return the finding that the specification is looser than a clause of the code named `code`."""
        if not self.looser:
            return None
        said = LOOSER if self.matched else NOT_ASKED_FOR
        shortfall = "" if self.shortfall is None else f": {self.shortfall.text}"
        told = said.at(self.place, clause=self.label, code=code, shortfall=shortfall)
        return Finding(told, (self.label,), self.looser)


def compare_stringency(specification: Ruleset, code: Ruleset) -> tuple[ClauseStringency, ...]:
    """Return how a specification stands to each mandatory clause of a code, in the order of the code."""
    readings = read_together((specification, code))
    comparing = _Comparing(readings[0], readings[1], Lines(readings))
    return tuple(comparing.clause(clause) for clause in readings[1].clauses if clause.mandatory)


@dataclass(frozen=True)
class _Comparing:
    specification: Reading
    code: Reading
    lines: Lines

    @cached_property
    def _mandatory(self) -> tuple[ClauseRegions, ...]:
        return tuple(clause for clause in self.specification.clauses if clause.mandatory)

    @cached_property
    def _hulls(self) -> Hulls:
        """The smallest boxes around the systems to which the clauses of the specification apply."""
        return Hulls(self.code.diagrams, [one.applies for one in self._mandatory])

    @cached_property
    def _looser(self) -> AcceptedLines:
        return AcceptedLines(self.specification, self._mandatory, self.code, self.lines)

    def clause(self, clause: ClauseRegions) -> ClauseStringency:
        """Return how the specification stands to one clause of the code."""
        matched = [one for one in self._mandatory if one.demanded & clause.demanded]
        looser, shortfall = self._looser.line(clause, matched)
        stricter, by = self._stricter(clause, matched)
        return ClauseStringency(
            clause.label,
            clause.clause.title,
            _stringency(looser, stricter),
            tuple(one.label for one in matched),
            self.lines.example(looser) if isinstance(looser, Line) else (),
            self.lines.example(stricter) if isinstance(stricter, Line) else (),
            by,
            clause.clause.place,
            shortfall,
        )

    # ---- stricter --------------------------------------------------------------------------------

    def _stricter(self, clause: ClauseRegions, matched: Sequence[ClauseRegions]) -> tuple[Line | NoWitness, str]:
        """Return a line that complies with the clause and fails one of the specification, and the label of that one."""
        diagrams, open_question = self.code.diagrams, False
        near = self._hulls.near(diagrams.hull(clause.applies)) if clause.applies != EMPTY else 0
        met = {self._mandatory[at].number for at in bits(near)}
        for one in matched:
            if one.number not in met:
                continue
            both = diagrams.both(diagrams.both(clause.applies, one.fails), clause.shall.holds)
            if both == EMPTY:
                continue
            region = self.code.sensible(diagrams.both(both, self.code.complete((clause, one))))
            line = self.lines.find(region, self._shows_stricter(clause, one))
            if isinstance(line, Line):
                return line, one.label
            open_question = open_question or line is NoWitness.UNDECIDED
        return (NoWitness.UNDECIDED if open_question else NoWitness.NONE), ""

    def _shows_stricter(self, clause: ClauseRegions, stricter: ClauseRegions) -> Shows:
        def shows(line: Line) -> bool:
            complies = self.code.judge.cell(clause.number, line).verdict is Verdict.COMPLIES
            return complies and self.specification.judge.cell(stricter.number, line).verdict is Verdict.FAILS

        return shows


def _stringency(looser: Line | NoWitness, stricter: Line | NoWitness) -> Stringency:
    if isinstance(looser, Line):
        return Stringency.NOT_COMPARABLE if isinstance(stricter, Line) else Stringency.LOOSER
    if looser is NoWitness.UNDECIDED or stricter is NoWitness.UNDECIDED:
        return Stringency.UNDECIDED
    return Stringency.STRICTER if isinstance(stricter, Line) else Stringency.SAME
