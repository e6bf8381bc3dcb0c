"""Running: from a ruleset and columns to the matrix of verdicts."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from speccheck.judge.completing import Needs, needs_of
from speccheck.judge.vectorized.column import Columns
from speccheck.judge.vectorized.conditions import VerdictMatrix
from speccheck.judge.vectorized.planning import advised_clauses, plan
from speccheck.judge.vectorized.program import Program
from speccheck.judge.vectorized.ranges import RangeJudge, size_cases
from speccheck.language.core import Ruleset
from speccheck.language.core.walking import conditions_of

Codes = NDArray[np.int8]


def judge_columns(ruleset: Ruleset, columns: Columns) -> VerdictMatrix:
    """Return the verdicts of all clauses of a ruleset on all lines; what was planned for it last serves again."""
    judge = next((one for one in _last if one.ruleset is ruleset), None)
    if judge is None:
        judge = ColumnJudge(ruleset)
        _last.appendleft(judge)
    return judge.judge(columns)


@dataclass(frozen=True)
class ColumnJudge:
    """Judges columns of lines by the clauses of one ruleset; what was planned for one judging serves the next."""

    ruleset: Ruleset
    _programs: dict[tuple[int, ...], Program] = field(default_factory=dict)

    def judge(self, columns: Columns) -> VerdictMatrix:
        """Return the verdicts of all clauses on all lines.

        All rows are judged first as if they covered no ranges; then lines with ranges are judged case by case, and
        the worst verdict of the cases takes the place of the first one.
        """
        every = tuple(range(len(self.ruleset.clauses)))
        codes, advice = self._run(every, columns)
        for numbers, sized in self._by_sizes(columns).items():
            self._judge_sizes(numbers, sized, columns, codes, advice)
        for number in every if columns.ranged else ():
            found = RangeJudge(self.ruleset, number, self.needs[number]).judge(columns)
            codes[number, found.rows] = found.codes
            if number in self.advised:
                advice[self.advised.index(number), found.rows] = found.advice
        return VerdictMatrix(codes.T, advice.T, self.advised)

    @cached_property
    def advised(self) -> tuple[int, ...]:
        """The numbers of the clauses that advise something."""
        return advised_clauses(self.ruleset.clauses)

    @cached_property
    def needs(self) -> tuple[Needs, ...]:
        """What each clause needs of a line."""
        return tuple(needs_of(conditions_of(clause), self.ruleset) for clause in self.ruleset.clauses)

    def _run(self, numbers: tuple[int, ...], columns: Columns) -> tuple[Codes, Codes]:
        """Return the verdicts of some clauses, and those on their advice, a row for each clause."""
        if numbers not in self._programs:
            self._programs[numbers] = plan(self.ruleset, [self.ruleset.clauses[number] for number in numbers])
        return self._programs[numbers].verdicts(columns, len(numbers), len(self._advised_among(numbers)))

    def _advised_among(self, numbers: Iterable[int]) -> list[int]:
        return [self.advised.index(number) for number in numbers if number in self.advised]

    def _by_sizes(self, columns: Columns) -> Mapping[tuple[int, ...], tuple[str, ...]]:
        """Return the clauses that draw on terms with ranges of sizes, together with others that draw on the same."""
        groups: dict[tuple[str, ...], list[int]] = {}
        for number, needs in enumerate(self.needs):
            sized = tuple(sorted(term.name for term in needs.terms if term.name in columns.sizes))
            if sized:
                groups.setdefault(sized, []).append(number)
        return {tuple(numbers): sized for sized, numbers in groups.items()}

    def _judge_sizes(
        self, numbers: tuple[int, ...], sized: tuple[str, ...], columns: Columns, codes: Codes, advice: Codes
    ) -> None:
        drawn_on = {term.name for number in numbers for term in self.needs[number].terms}
        for cases in size_cases(columns, sized, drawn_on):
            found, advised = self._run(numbers, cases.columns)
            for number, row in zip(numbers, found, strict=True):
                codes[number, cases.rows] = np.minimum.reduceat(row, cases.starts)
            for place, row in zip(self._advised_among(numbers), advised, strict=True):
                advice[place, cases.rows] = np.minimum.reduceat(row, cases.starts)


_last: deque[ColumnJudge] = deque(maxlen=2)
