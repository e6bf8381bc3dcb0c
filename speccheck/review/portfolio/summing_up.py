"""Summing up: the verdicts of all schedules of a portfolio, counted by schedule, clause and verdict."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from heapq import heappush, heapreplace

import numpy as np

from speccheck.engine.judgement import Verdict
from speccheck.language.core import Clause, Ruleset
from speccheck.review.outcome import STATUS, Standing
from speccheck.review.portfolio.tallies import VERDICTS, Counts, Layout, Tally

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
        layout = Layout(self.ruleset)
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
