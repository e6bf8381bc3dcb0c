"""Lines that cover ranges of amounts or of nominal sizes, taken apart into the very cases that the judge tries."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from speccheck.judge.breakpoints import breakpoints
from speccheck.judge.completing import Needs, needs_of
from speccheck.judge.operations import Rules
from speccheck.judge.vectorized.column import CodeColumn, Column, Columns, NumberColumn
from speccheck.judge.vectorized.conditions import CANNOT_TELL, NOT_APPLICABLE
from speccheck.judge.vectorized.operand import PIPE_CODES
from speccheck.judge.vectorized.planning import plan
from speccheck.judge.vectorized.values import column_of
from speccheck.language.core import Clause, Condition, Ruleset
from speccheck.language.core.walking import conditions_of
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import NotGiven, Single, Value
from speccheck.quantities import Interval, NominalSize, Quantity, sizes_in
from speccheck.schedule.expanding import CASES_LIMIT, cases_of
from speccheck.schedule.lines import Line

# Rows of cases that are made at a time, to bound the memory.
AT_ONCE = 200_000


@dataclass(frozen=True, slots=True)
class SizeCases:
    """The cases of some lines: `rows` are the lines, `starts` where the cases of each begin among those of all."""

    rows: NDArray[np.intp]
    starts: NDArray[np.intp]
    columns: Columns


def ranged_rows(columns: Columns, names: Iterable[str]) -> NDArray[np.intp]:
    """Return the rows that cover a range in at least one of some terms of sizes."""
    ranged = np.zeros(columns.count, np.bool_)
    for name in names:
        ranged[columns.sizes[name].rows] = True
    return np.flatnonzero(ranged)


def size_cases(columns: Columns, sized: Sequence[str], drawn_on: Iterable[str]) -> Iterator[SizeCases]:
    """Yield the cases of all rows with ranges in the terms `sized`, with the columns of the terms `drawn_on`.

    Lines with more than `CASES_LIMIT` cases are left out.
    """
    names = tuple(drawn_on)
    rows = ranged_rows(columns, sized)
    firsts, lasts, counts = _spans(columns, sized, rows)
    totals = counts.prod(axis=0)
    few = totals <= CASES_LIMIT
    rows, firsts, lasts, counts = rows[few], firsts[:, few], lasts[:, few], counts[:, few]
    totals = totals[few]
    ends = np.cumsum(totals)
    start = 0
    while start < len(rows):
        done = ends[start - 1] if start else 0
        stop = max(int(np.searchsorted(ends, done + AT_ONCE, side="right")), start + 1)
        part = slice(start, stop)
        yield _cases(columns, sized, names, rows[part], (firsts[:, part], lasts[:, part]), counts[:, part])
        start = stop


def _spans(
    columns: Columns, sized: Sequence[str], rows: NDArray[np.intp]
) -> tuple[NDArray[np.intp], NDArray[np.intp], NDArray[np.intp]]:
    """Return the codes of the first and the last size and the number of sizes, by term and row; -1 and 1 for none."""
    shape = (len(sized), len(rows))
    firsts, lasts, counts = np.full(shape, -1, np.intp), np.full(shape, -1, np.intp), np.ones(shape, np.intp)
    for number, name in enumerate(sized):
        ranges = columns.sizes[name]
        places = np.searchsorted(rows, ranges.rows)
        firsts[number, places], lasts[number, places] = ranges.first, ranges.last
        counts[number, places] = _between(ranges.first, ranges.last) + 1 + (ranges.last > ranges.first)
    return firsts, lasts, counts


def _between(first: NDArray[np.int8], last: NDArray[np.int8]) -> NDArray[np.intp]:
    """Return how many sizes of pipe lie between the first and the last size of ranges; no pipe has sizes of tube."""
    found = np.searchsorted(PIPE_CODES, last) - np.searchsorted(PIPE_CODES, first, side="right")
    return np.asarray(np.maximum(found, 0), np.intp)


def _code_at(first: NDArray[np.intp], last: NDArray[np.intp], place: NDArray[np.intp]) -> NDArray[np.intp]:
    """Return the code of the size at a place of a range, its first size at 0, its last one where no pipe is left."""
    behind = np.searchsorted(PIPE_CODES, first, side="right") + place - 1
    found = np.asarray(PIPE_CODES[np.clip(behind, 0, len(PIPE_CODES) - 1)])
    return np.where(place == 0, first, np.where(found < last, found, last))


def _cases(
    columns: Columns,
    sized: Sequence[str],
    names: Sequence[str],
    rows: NDArray[np.intp],
    ends: tuple[NDArray[np.intp], NDArray[np.intp]],
    counts: NDArray[np.intp],
) -> SizeCases:
    firsts, lasts = ends
    totals = counts.prod(axis=0)
    starts = np.cumsum(totals) - totals
    base = columns.take(np.repeat(rows, totals), names)
    rest = np.arange(len(base_rows := np.repeat(np.arange(len(rows)), totals))) - np.repeat(starts, totals)
    replaced = {}
    for number, name in enumerate(sized):
        count = counts[number, base_rows]
        first = firsts[number, base_rows]
        stated = base.terms[name]
        assert isinstance(stated, CodeColumn), name
        codes = _code_at(first, lasts[number, base_rows], rest % count)
        replaced[name] = CodeColumn(np.where(first < 0, stated.codes, codes).astype(np.int8))
        rest //= count
    return SizeCases(rows, starts, base.replacing(replaced))


Varied = tuple[tuple[str, Single], ...]
Codes = NDArray[np.int8]


@dataclass(frozen=True, slots=True)
class RangeVerdicts:
    """The rows that a clause judges case by case, and the codes of its verdicts on them and of those on its advice."""

    rows: NDArray[np.intp]
    codes: Codes
    advice: Codes


@dataclass(frozen=True, slots=True)
class RangeJudge:
    """Judges lines with ranges by one clause, in the two steps of the judge: by its scope alone, then by all of it."""

    ruleset: Ruleset
    number: int
    needs: Needs

    def judge(self, columns: Columns) -> RangeVerdicts:
        """Return the verdicts on all lines that cover a range of what the clause draws on."""
        groups = self._alike(columns)
        firsts = [rows[0] for rows in groups]
        codes, advice = self._distinct(columns, firsts)
        counts = [len(rows) for rows in groups]
        rows = np.array([row for rows in groups for row in rows], np.intp)
        return RangeVerdicts(rows, np.repeat(codes, counts), np.repeat(advice, counts))

    def _alike(self, columns: Columns) -> list[list[int]]:
        """Return the rows to judge, those together that state the same for the clause."""
        groups: dict[tuple[Value | NotGiven | None, ...], list[int]] = {}
        for row, line in columns.ranged.items():
            stated = tuple(line.data[term.name].value if term.name in line.data else None for term in self.needs.terms)
            if _to_be_tried(stated):
                groups.setdefault(stated, []).append(row)
        return list(groups.values())

    def _distinct(self, columns: Columns, rows: list[int]) -> tuple[Codes, Codes]:
        """Return the verdicts on rows that all state something else."""
        clause = self.ruleset.clauses[self.number]
        bare = replace(clause, exceptions=(), judged_only=(), shall=(), should=())
        scope, _ = self._tried(columns, rows, bare, clause.scope, needs_of(clause.scope, self.ruleset))
        codes, advice = np.full(len(rows), NOT_APPLICABLE, np.int8), np.full(len(rows), NOT_APPLICABLE, np.int8)
        inside = np.flatnonzero(scope != NOT_APPLICABLE)
        within = [rows[place] for place in inside]
        codes[inside], advice[inside] = self._tried(columns, within, clause, conditions_of(clause), self.needs)
        return codes, advice

    def _tried(
        self, columns: Columns, rows: list[int], clause: Clause, conditions: Sequence[Condition], needs: Needs
    ) -> tuple[Codes, Codes]:
        """Return the worst verdicts of the cases of rows, "cannot be determined" where these are too many."""
        rules = Rules.of(self.ruleset)
        codes, advice = np.full(len(rows), CANNOT_TELL, np.int8), np.full(len(rows), CANNOT_TELL, np.int8)
        varied = [_varied(columns.ranged[row], conditions, needs, rules) for row in rows]
        few = [place for place, cases in enumerate(varied) if cases is not None]
        if not few:
            return codes, advice
        tried = [cases for cases in varied if cases is not None]
        units = self.ruleset.nominal_metric
        cases = _case_columns(columns, [rows[place] for place in few], tried, needs.terms, units=units)
        found, advised = plan(self.ruleset, [clause]).verdicts(cases.columns, 1, int(bool(clause.should)))
        codes[few] = np.minimum.reduceat(found[0], cases.starts)
        if clause.should:
            advice[few] = np.minimum.reduceat(advised[0], cases.starts)
        return codes, advice


def _to_be_tried(stated: Iterable[Value | NotGiven | None]) -> bool:
    """Say whether values hold a range of something else than sizes, or ranges of very many sizes."""
    ranges = [value for value in stated if isinstance(value, Interval)]
    sizes = [len(sizes_in(value)) for value in ranges if _is_of_sizes(value)]
    return len(sizes) < len(ranges) or math.prod(sizes) > CASES_LIMIT


def _is_of_sizes(value: Interval[Quantity] | Interval[NominalSize] | Interval[float]) -> bool:
    return isinstance(value.low if value.low is not None else value.high, NominalSize)


@dataclass(frozen=True, slots=True)
class _Cases:
    """The cases of some lines as columns: `starts` says where the cases of each line begin among those of all."""

    starts: NDArray[np.intp]
    columns: Columns


def _varied(line: Line, conditions: Sequence[Condition], needs: Needs, rules: Rules) -> list[Varied] | None:
    """Return what differs between the cases of a line, a pair of term and value each; None where they are too many."""
    stated = {term.name: line.data[term.name].value for term in needs.terms if term.name in line.data}
    if not any(isinstance(value, Interval) for value in stated.values()):
        return [()]
    points = breakpoints((*conditions, *needs.scopes), stated, rules, needs.inputs)
    cases = cases_of(line, needs.terms, points)
    return None if cases is None else [case.varied for case in cases]


def _case_columns(
    columns: Columns, rows: Sequence[int], varied: Sequence[Sequence[Varied]], terms: Sequence[Term], *, units: bool
) -> _Cases:
    """Return the columns of all cases of some rows; `varied` has what differs between the cases of each row."""
    counts = np.array([len(cases) for cases in varied], np.intp)
    base = columns.take(np.repeat(np.array(rows, np.intp), counts), [term.name for term in terms])
    changed: dict[str, tuple[list[int], list[Value | NotGiven]]] = {}
    for place, case in enumerate(case for cases in varied for case in cases):
        for name, value in case:
            places, values = changed.setdefault(name, ([], []))
            places.append(place)
            values.append(value)
    replaced = {}
    for term in terms:
        if term.name in changed:
            places, values = changed[term.name]
            made = column_of(values, term, columns.texts, units=units)
            replaced[term.name] = _with_rows(base.terms[term.name], np.array(places, np.intp), made)
    return _Cases(np.cumsum(counts) - counts, base.replacing(replaced))


def _with_rows(column: Column, rows: NDArray[np.intp], other: Column) -> Column:
    if isinstance(column, NumberColumn) and isinstance(other, NumberColumn):
        return column.with_rows(rows, other)
    assert isinstance(column, CodeColumn)
    assert isinstance(other, CodeColumn)
    return column.with_rows(rows, other)
