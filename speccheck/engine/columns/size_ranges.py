"""Lines that cover ranges of nominal sizes, taken apart into one row for each size, many lines at a time."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from speccheck.engine.columns.column import CodeColumn, Columns
from speccheck.submittal.expanding import CASES_LIMIT

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
    firsts, counts = _spans(columns, sized, rows)
    totals = counts.prod(axis=0)
    few = totals <= CASES_LIMIT
    rows, firsts, counts, totals = rows[few], firsts[:, few], counts[:, few], totals[few]
    ends = np.cumsum(totals)
    start = 0
    while start < len(rows):
        done = ends[start - 1] if start else 0
        stop = max(int(np.searchsorted(ends, done + AT_ONCE, side="right")), start + 1)
        part = slice(start, stop)
        yield _cases(columns, sized, names, rows[part], firsts[:, part], counts[:, part])
        start = stop


def _spans(columns: Columns, sized: Sequence[str], rows: NDArray[np.intp]) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Return the code of the first size and the number of sizes, for each term and row; -1 and 1 for no range."""
    firsts, counts = np.full((len(sized), len(rows)), -1, np.intp), np.ones((len(sized), len(rows)), np.intp)
    for number, name in enumerate(sized):
        ranges = columns.sizes[name]
        places = np.searchsorted(rows, ranges.rows)
        firsts[number, places] = ranges.first
        counts[number, places] = ranges.last.astype(np.intp) - ranges.first + 1
    return firsts, counts


def _cases(
    columns: Columns,
    sized: Sequence[str],
    names: Sequence[str],
    rows: NDArray[np.intp],
    firsts: NDArray[np.intp],
    counts: NDArray[np.intp],
) -> SizeCases:
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
        replaced[name] = CodeColumn(np.where(first < 0, stated.codes, first + rest % count).astype(np.int8))
        rest //= count
    return SizeCases(rows, starts, base.replacing(replaced))
