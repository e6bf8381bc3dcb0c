"""Running a sweep: every value of each term with every value of all others, judged by the columns and counted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import prod

import numpy as np
from numpy.typing import NDArray

from speccheck.english import nearest
from speccheck.judge.judgement import Verdict
from speccheck.judge.vectorized import CellTexts, ColumnJudge, VerdictMatrix, columns_of_texts
from speccheck.judge.vectorized.conditions import CODES
from speccheck.language.clause_names import clauses_by_name
from speccheck.language.core import Clause, Ruleset
from speccheck.language.core.walking import conditions_of, terms_of
from speccheck.language.diagnostics import NOWHERE, Diagnostic
from speccheck.language.vocabulary.terms import fold
from speccheck.review.sweep.messages import (
    NO_CLAUSE_TO_COUNT,
    NO_TERM_OF_SWEEP,
    ONE_TERM_FOR_BOTH_AXES,
    TOO_MANY_CELLS,
    TOO_MANY_COMBINATIONS,
)
from speccheck.review.sweep.values import SweptTerm

BLOCK = 131_072
"""Combinations in a block: a dozen columns of them take some megabytes."""


@dataclass(frozen=True, slots=True)
class Combinations:
    """Some combinations: for each term, the position of its value in each of them."""

    terms: tuple[SweptTerm, ...]
    positions: tuple[NDArray[np.intp], ...]

    def cells(self) -> dict[str, CellTexts]:
        """Return the combinations as columns of cell texts."""
        pairs = zip(self.terms, self.positions, strict=True)
        return {swept.term.name: CellTexts(swept.texts, positions) for swept, positions in pairs}

    def words(self, row: int) -> tuple[str, ...]:
        """Return a combination in words: the terms that take several values, each with its value."""
        pairs = zip(self.terms, self.positions, strict=True)
        return tuple(f"{swept.term.name} {swept.texts[at[row]]}" for swept, at in pairs if len(swept.texts) > 1)


def count_of(terms: Sequence[SweptTerm]) -> int:
    """Return how many combinations there are."""
    return prod(len(swept.texts) for swept in terms)


def blocks_of(terms: Sequence[SweptTerm]) -> Iterator[Combinations]:
    """Yield all combinations in their order: the values of the last term change fastest."""
    shape, total = tuple(len(swept.texts) for swept in terms), count_of(terms)
    for start in range(0, total, BLOCK):
        numbers = np.arange(start, min(start + BLOCK, total))
        yield Combinations(tuple(terms), tuple(np.unravel_index(numbers, shape)))


VERDICTS = tuple(sorted(CODES, key=lambda verdict: CODES[verdict]))
"""The order of the verdicts in counts: the gravest first."""

MOST_COMBINATIONS = 100_000_000
MOST_CELLS = 20_000
_LEAST = min(CODES.values())

Counts = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Axes:
    """The two terms over which the picture is drawn, by position; `across` is None for a picture of one column."""

    down: int
    across: int | None


@dataclass(frozen=True, slots=True)
class ClauseCount:
    """A clause over all combinations: how many have each verdict, and the first that fails, in words, if any."""

    clause: Clause
    counts: Mapping[Verdict, int]
    first_fail: tuple[str, ...] | None


@dataclass(frozen=True, slots=True)
class Sweep:
    """All combinations, judged and counted.

    `outcomes` counts them by their worst verdict over the mandatory clauses, or by the verdict of the one clause that
    was asked for; `by_value` does so for each value of each term (rows are values, columns `VERDICTS`), and `grid` for
    each pair of values of the two `axes` (down, across, `VERDICTS`).
    """

    ruleset: Ruleset
    terms: tuple[SweptTerm, ...]
    axes: Axes
    clause: Clause | None
    clauses: tuple[ClauseCount, ...]
    outcomes: Mapping[Verdict, int]
    by_value: tuple[Counts, ...]
    grid: Counts

    @property
    def count(self) -> int:
        """How many combinations there are."""
        return count_of(self.terms)

    @property
    def not_stated(self) -> tuple[str, ...]:
        """The terms that the sweep leaves out, of clauses that cannot be determined, those of most clauses first."""
        stated = {swept.term.name for swept in self.terms}
        deciding = [one for one in self.clauses if one.clause.shall or one.clause is self.clause]
        unclear = [one.clause for one in deciding if one.counts[Verdict.CANNOT_TELL]]
        if self.clause is not None:
            unclear = [clause for clause in unclear if clause is self.clause]
        names = Counter(term.name for clause in unclear for term in terms_of(conditions_of(clause)))
        return tuple(name for name, _ in names.most_common() if name not in stated)


def axes_of(terms: Sequence[SweptTerm], down: str = "", across: str = "") -> Axes | Diagnostic:
    """Return the axes with these names; where none is named, the terms with several values come first, as written."""
    if count_of(terms) > MOST_COMBINATIONS:
        return TOO_MANY_COMBINATIONS.at(NOWHERE, number=count_of(terms), most=MOST_COMBINATIONS)
    names = [fold(swept.term.name) for swept in terms]
    for name in filter(None, (down, across)):
        if fold(name) not in names:
            return NO_TERM_OF_SWEEP.at(NOWHERE, near=nearest(name, names), words=name, terms=", ".join(names))
    chosen = [names.index(fold(name)) if name else None for name in (down, across)]
    rest = sorted((len(swept.texts) == 1, place) for place, swept in enumerate(terms) if place not in chosen)
    free = iter([place for _, place in rest])
    first, second = (place if place is not None else next(free, None) for place in chosen)
    if first is None or first == second:
        return ONE_TERM_FOR_BOTH_AXES.at(NOWHERE, term=across)
    cells = len(terms[first].texts) * (len(terms[second].texts) if second is not None else 1)
    if cells > MOST_CELLS:
        return TOO_MANY_CELLS.at(NOWHERE, number=cells, most=MOST_CELLS)
    return Axes(first, second)


def clause_named(label: str, ruleset: Ruleset) -> Clause | Diagnostic:
    """Return the clause with this label."""
    labels = clauses_by_name(ruleset.clauses)
    if label in labels:
        return labels[label]
    return NO_CLAUSE_TO_COUNT.at(NOWHERE, near=nearest(label, labels), clause=label, clauses=", ".join(labels))


def sweep(ruleset: Ruleset, terms: Sequence[SweptTerm], axes: Axes, clause: Clause | None = None) -> Sweep:
    """Judge every combination by all clauses, and count; with `clause`, outcomes are the verdicts of that one."""
    judge, counting = ColumnJudge(ruleset), _Counting(ruleset, tuple(terms), axes, clause)
    for block in blocks_of(terms):
        counting.add(block, judge.judge(columns_of_texts(block.cells(), ruleset, ruleset.units)))
    return counting.finished()


class _Counting:
    """The counts of a sweep, as blocks are added."""

    def __init__(self, ruleset: Ruleset, terms: tuple[SweptTerm, ...], axes: Axes, clause: Clause | None) -> None:
        self.ruleset, self.terms, self.axes, self.clause = ruleset, terms, axes, clause
        deciding = [number for number, one in enumerate(ruleset.clauses) if one.shall]
        self._deciding = tuple(deciding if clause is None else [ruleset.clauses.index(clause)])
        self._clauses = np.zeros((len(ruleset.clauses), len(VERDICTS)), np.int64)
        self._first: dict[int, tuple[str, ...]] = {}
        self._by_value = [np.zeros((len(swept.texts), len(VERDICTS)), np.int64) for swept in terms]
        across = 1 if axes.across is None else len(terms[axes.across].texts)
        self._grid = np.zeros((len(terms[axes.down].texts), across, len(VERDICTS)), np.int64)

    def add(self, block: Combinations, matrix: VerdictMatrix) -> None:
        """Count the verdicts of a block."""
        counts = matrix.counts()
        self._clauses += np.stack([counts[verdict] for verdict in VERDICTS], axis=1)
        self._keep_first_fails(block, matrix)
        worst = matrix.line_codes(self._deciding).astype(np.intp) - _LEAST
        for table, positions in zip(self._by_value, block.positions, strict=True):
            table += _counted(positions, worst, len(table))
        down, across = block.positions[self.axes.down], self.axes.across
        places = down if across is None else down * self._grid.shape[1] + block.positions[across]
        self._grid += _counted(places, worst, self._grid.shape[0] * self._grid.shape[1]).reshape(self._grid.shape)

    def _keep_first_fails(self, block: Combinations, matrix: VerdictMatrix) -> None:
        for number in range(len(self.ruleset.clauses)):
            if number not in self._first:
                failing = matrix.codes[:, number] == CODES[Verdict.FAILS]
                row = int(failing.argmax())
                if failing[row]:
                    self._first[number] = block.words(row)

    def finished(self) -> Sweep:
        """Return what was counted."""
        clauses = tuple(
            ClauseCount(clause, _named(self._clauses[number]), self._first.get(number))
            for number, clause in enumerate(self.ruleset.clauses)
        )
        outcomes = _named(self._by_value[0].sum(axis=0))
        tables = tuple(self._by_value)
        return Sweep(self.ruleset, self.terms, self.axes, self.clause, clauses, outcomes, tables, self._grid)


def _counted(places: NDArray[np.intp], verdicts: NDArray[np.intp], count: int) -> Counts:
    """Return how often each verdict stands at each place."""
    width = len(VERDICTS)
    found: Counts = np.bincount(places * width + verdicts, minlength=count * width).reshape(count, width)
    return found


def _named(counts: Counts) -> Mapping[Verdict, int]:
    return dict(zip(VERDICTS, map(int, counts), strict=True))
