"""Tallies: the verdicts of one schedule by clause and line, and those of all schedules of a portfolio summed up."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from heapq import heappush, heapreplace
from itertools import groupby

import numpy as np
from numpy.typing import NDArray

from speccheck.judge.judgement import Verdict
from speccheck.language.core import Clause, Ruleset
from speccheck.language.diagnostics import Severity
from speccheck.review.documents import DocumentStanding
from speccheck.review.outcome import MOST_NAMED, STATUS, Outcome, Standing
from speccheck.review.portfolio.store import MARKS, ScheduleResult
from speccheck.schedule.lines import CellCount, UnreadKind

VERDICTS = tuple(MARKS)
"""The order of the columns of counts; the gravest verdict first."""

Counts = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class MarkLayout:
    """Where the marks of a line belong: first a mark for each clause, then one for each clause that advises."""

    ruleset: Ruleset

    @property
    def clauses(self) -> tuple[Clause, ...]:
        """The clauses, in the order of their marks."""
        return self.ruleset.clauses

    @property
    def mandatory(self) -> list[int]:
        """The positions of the marks that decide."""
        return [number for number, clause in enumerate(self.clauses) if clause.shall]

    @property
    def advised(self) -> list[int]:
        """The positions of the clauses that advise; their marks on advice follow those of all clauses."""
        return [number for number, clause in enumerate(self.clauses) if clause.should]


@dataclass(frozen=True, slots=True)
class Tally:
    """A schedule counted.

    `counts` has a row for each mark of a line and a column for each of `VERDICTS`; `lines` counts lines by their
    worst verdict by mandatory clauses. `outcome` is the same as a check of the schedule alone has.
    """

    name: str
    counts: Counts
    lines: Mapping[Verdict, int]
    outcome: Outcome

    @property
    def line_count(self) -> int:
        """How many lines it has."""
        return sum(self.lines.values())

    @property
    def requirements(self) -> Mapping[Verdict, int]:
        """How many requirements have each verdict: lines times mandatory clauses."""
        return self.outcome.requirements


def tallies(files: Iterable[tuple[str, Iterator[ScheduleResult]]], ruleset: Ruleset) -> Iterator[Tally]:
    """Yield the tally of each schedule; parts of one schedule that follow one another are counted together."""
    layout = MarkLayout(ruleset)
    for file, results in files:
        for name, parts in groupby(results, key=lambda result: result.name):
            yield _tally(f"{file}: {name}" if name else file, parts, layout)


def _tally(name: str, parts: Iterable[ScheduleResult], layout: MarkLayout) -> Tally:
    counting = _Counting(layout)
    for part in parts:
        counting.add(part)
    return counting.tally(name)


class _Counting:
    """The parts of one schedule, counted together."""

    def __init__(self, layout: MarkLayout) -> None:
        self.layout = layout
        self.mandatory = layout.mandatory
        self.counts = np.zeros((len(layout.clauses) + len(layout.advised), len(VERDICTS)), np.int64)
        self.lines: Counter[Verdict] = Counter()
        self.worst = np.zeros(len(VERDICTS), np.int64)
        self.unjudged: list[str] = []
        self.unread: Counter[UnreadKind] = Counter()
        self.cells: CellCount | None = None
        self.warnings, self.assumed, self.problem = 0, 0, ""
        self.relations: Counter[Verdict] | None = Counter()

    def add(self, part: ScheduleResult) -> None:
        """Count a part."""
        marks = _marks(part, len(self.counts))
        for number, verdict in enumerate(VERDICTS):
            found = marks == ord(MARKS[verdict])
            self.counts[:, number] += np.count_nonzero(found, axis=0)
            self.lines[verdict] += int(np.count_nonzero(found[:, self.mandatory].any(axis=1)))
        worst = _worst(marks[:, self.mandatory])
        self.worst += np.array([np.count_nonzero(worst == number) for number in range(len(VERDICTS))])
        idle = np.flatnonzero(worst == VERDICTS.index(Verdict.NOT_APPLICABLE))
        self.unjudged += [part.lines[row].name for row in idle[: MOST_NAMED - len(self.unjudged)]]
        self.unread.update(part.unread)
        self.assumed += part.assumed
        if part.relations is None:
            self.relations = None
        elif self.relations is not None:
            self.relations.update(part.relations)
        if part.cells is not None:
            before = self.cells or CellCount(0, 0)
            self.cells = CellCount(before.filled + part.cells.filled, before.accounted + part.cells.accounted)
        self.warnings += sum(found.severity is Severity.WARNING for found in part.diagnostics)
        errors = (found.message for found in part.diagnostics if found.severity is Severity.ERROR)
        self.problem = self.problem or next(errors, "")

    def tally(self, name: str) -> Tally:
        """Return what was counted."""
        lines = dict(zip(VERDICTS, map(int, self.worst), strict=True))
        requirements = dict(zip(VERDICTS, map(int, self.counts[self.layout.mandatory].sum(axis=0)), strict=True))
        return Tally(name, self.counts, lines, self._outcome(lines, Counter(requirements)))

    def _outcome(self, lines: Mapping[Verdict, int], requirements: Mapping[Verdict, int]) -> Outcome:
        against = [VERDICTS.index(Verdict.FAILS), VERDICTS.index(Verdict.CANNOT_TELL)]
        return Outcome(
            line_count=sum(lines.values()),
            requirements=requirements,
            lines=self.lines,
            unjudged=lines[Verdict.NOT_APPLICABLE] if self.layout.clauses else 0,
            unjudged_names=tuple(self.unjudged) if self.layout.clauses else (),
            recommendations=int(self.counts[len(self.layout.clauses) :, against].sum()),
            unread=self.unread,
            cells=self.cells,
            warnings=self.warnings,
            assumed=self.assumed,
            documents=_not_looked_for(self.layout.ruleset),
            relations=_not_compared(self.layout.ruleset) if self.relations is None else self.relations,
            problem=self.problem,
        )


def _not_compared(ruleset: Ruleset) -> Mapping[Verdict, int]:
    """Return the relations that a ruleset asks for of a schedule of which the lines are kept in several parts."""
    return {Verdict.CANNOT_TELL: len(ruleset.relations)} if ruleset.relations else {}


def _not_looked_for(ruleset: Ruleset) -> Mapping[DocumentStanding, int]:
    """Return the documents that a ruleset asks for, which a portfolio has no register of."""
    return {DocumentStanding.CANNOT_TELL: len(ruleset.documents)} if ruleset.documents else {}


def _marks(part: ScheduleResult, width: int) -> NDArray[np.uint8]:
    text = "".join(line.marks for line in part.lines)
    return np.frombuffer(text.encode("ascii"), np.uint8).reshape(len(part.lines), width)


def _worst(marks: NDArray[np.uint8]) -> NDArray[np.int64]:
    """Return the worst verdict of each line, as a position; not applicable where no clause decides anything."""
    worst = np.full(len(marks), VERDICTS.index(Verdict.NOT_APPLICABLE))
    for number, verdict in reversed(list(enumerate(VERDICTS))):
        worst[(marks == ord(MARKS[verdict])).any(axis=1)] = number
    return worst


MOST_SHOWN = 50
"""How many schedules are named: of those with most findings, and of those not read. All of them stand in the JSON."""


@dataclass(frozen=True, slots=True)
class ClauseTotal:
    """A clause over the whole portfolio: how many lines have each verdict, and in how many schedules some line fails.

    For a clause that also advises there are two, the second with `mandatory` False.
    """

    clause: Clause
    mandatory: bool
    counts: Mapping[Verdict, int]
    failing_schedules: int


@dataclass
class Totals:
    """A portfolio counted, schedule by schedule, in the memory of one schedule and of those that are shown."""

    ruleset: Ruleset
    schedules: Counter[Standing] = field(default_factory=Counter)
    lines: Counter[Verdict] = field(default_factory=Counter)
    requirements: Counter[Verdict] = field(default_factory=Counter)
    warnings: int = 0
    not_read: list[Tally] = field(default_factory=list)
    _counts: Counts | None = None
    _failing: Counts | None = None
    _worst: list[tuple[tuple[int, int, int], Tally]] = field(default_factory=list)

    def add(self, tally: Tally) -> None:
        """Count a schedule."""
        self.schedules[tally.outcome.standing] += 1
        self.lines.update(tally.lines)
        self.requirements.update(tally.requirements)
        self.warnings += tally.outcome.warnings
        fails = VERDICTS.index(Verdict.FAILS)
        self._counts = tally.counts if self._counts is None else self._counts + tally.counts
        failing = (tally.counts[:, fails] > 0).astype(np.int64)
        self._failing = failing if self._failing is None else self._failing + failing
        if tally.outcome.standing is Standing.NOT_READ and len(self.not_read) < MOST_SHOWN:
            self.not_read.append(tally)
        self._keep_worst(tally)

    def _keep_worst(self, tally: Tally) -> None:
        """Keep a schedule while it is among those with most findings; of equals, those that come first."""
        found = tally.requirements
        weight = (found[Verdict.FAILS], found[Verdict.CANNOT_TELL], -sum(self.schedules.values()))
        if not any(weight[:2]):
            return
        if len(self._worst) < MOST_SHOWN:
            heappush(self._worst, (weight, tally))
        elif self._worst[0][0] < weight:
            heapreplace(self._worst, (weight, tally))

    @property
    def worst(self) -> list[Tally]:
        """The schedules with most findings, at most `MOST_SHOWN`, most first."""
        return [tally for _, tally in sorted(self._worst, key=lambda one: one[0], reverse=True)]

    @property
    def clauses(self) -> list[ClauseTotal]:
        """The clauses in the order of the ruleset, each requirement before its advice."""
        if self._counts is None or self._failing is None:
            return []
        layout = MarkLayout(self.ruleset)
        rows = [(number, number, True) for number in layout.mandatory]
        rows += [(number, len(layout.clauses) + place, False) for place, number in enumerate(layout.advised)]
        return [
            ClauseTotal(
                layout.clauses[number],
                mandatory,
                dict(zip(VERDICTS, map(int, self._counts[row]), strict=True)),
                int(self._failing[row]),
            )
            for number, row, mandatory in sorted(rows, key=lambda one: (one[0], not one[2]))
        ]

    @property
    def standing(self) -> Standing:
        """Where the whole portfolio stands: as the schedule of the gravest standing, nothing where there is none.

        A schedule to which no clause applies takes nothing from the others.
        """
        return next((one for one in Standing if self.schedules[one] and one is not Standing.NOTHING), Standing.NOTHING)

    @property
    def status(self) -> int:
        """The exit status: 3 where a schedule could not be used or nothing was judged, else as for one schedule."""
        return STATUS[self.standing]


def sum_up(tallied: Iterable[Tally], ruleset: Ruleset) -> Totals:
    """Return the totals of schedules."""
    totals = Totals(ruleset)
    for tally in tallied:
        totals.add(tally)
    return totals
