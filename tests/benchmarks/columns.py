"""All lines at once: the 40 clauses of the workload by speccheck's columns, and written by hand in other libraries.

All work on the same random rows without ranges, in one run, and all verdicts of theirs are checked against those
of the columns before anything is timed. A wall time is the least of several, a processor time the mean. Polars, DuckDB
and numexpr use all cores; NumPy, the columns and the expression language, which goes row by row, use one. What is slow
stops at a million rows, or at a thousand.
"""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from time import perf_counter, process_time
from typing import Any

import numpy as np
from benchmarks import by_numpy, by_polars, memory
from benchmarks.plain_columns import Plain, as_columns, plain_columns
from benchmarks.workload import ruleset_text

from speccheck.judge.vectorized import ColumnJudge
from speccheck.language import parse_ruleset
from speccheck.language.core import Ruleset

ROWS = (1_000, 10_000, 100_000, 1_000_000, 10_000_000)
CLAUSES = (10, 20, 40, 80, 160)
FEW, MANY = 1_000, 1_000_000
ENOUGH = 1.5


def run() -> Iterator[tuple[str, str]]:
    """Yield the rows of the table."""
    # A process begins with the memory of the one that started it, so that these come before anything large is made.
    for count in ROWS[-2:]:
        yield f"{count:,} lines x 40 clauses, peak memory", memory.peaks(count)
    plain = plain_columns(ROWS[-1])
    for count in ROWS:
        yield from _beside_others(plain.head(count))
    for clauses in CLAUSES:
        judge, columns = ColumnJudge(_ruleset(clauses)), as_columns(plain.head(MANY), _ruleset(clauses))
        (taken,) = _in_turns([lambda judge=judge, columns=columns: judge.judge(columns)])  # type: ignore[misc]
        rate = MANY * clauses / taken.least / 1e6
        result = f"{_ms(taken.least)}, {rate:.0f} M/s; processor {_ms(taken.processor)}"
        yield f"{MANY:,} lines x {clauses} clauses, columns", result
    yield from from_parquet()


def _ruleset(clauses: int) -> Ruleset:
    ruleset = parse_ruleset(ruleset_text(clauses)).ruleset
    assert ruleset is not None
    return ruleset


def beside_by_hand(rows: Sequence[int]) -> Iterator[tuple[str, str]]:
    """Yield the times of the columns beside NumPy and Polars, on so many rows each."""
    plain = plain_columns(rows[-1])
    for count in rows:
        yield from _beside_others(plain.head(count), by_hand_alone=True)


Ways = dict[str, tuple[Callable[[], Any], Callable[[Any], Any]]]


def _beside_others(plain: Plain, *, by_hand_alone: bool = False) -> Iterator[tuple[str, str]]:
    """Yield the time of each library on some rows, and how many times as long it takes as the columns."""
    ruleset, count = _ruleset(40), len(plain.service)
    judge, columns, frame = ColumnJudge(ruleset), as_columns(plain, ruleset), by_polars.frame_of(plain)
    expected = judge.judge(columns).codes.T
    ways: Ways = {
        "columns": (lambda: judge.judge(columns), lambda found: found.codes.T),
        "NumPy by hand": (lambda: by_numpy.verdicts(plain, 40), lambda found: found),
        "Polars by hand": (lambda: by_polars.verdicts(frame, 40), lambda found: found.iter_columns()),
    }
    if not by_hand_alone:
        ways |= other_libraries(plain, frame)
    for call, codes in ways.values():
        for found, wanted in zip(codes(call()), expected, strict=True):
            assert np.array_equal(np.asarray(found), wanted)
    times = _in_turns([call for call, _ in ways.values()])
    first = times[0]
    for name, taken in zip(ways, times, strict=True):
        rate = count * 40 / taken.least / 1e6
        beside = f"{taken.least / first.least:.1f} x; processor {_ms(taken.processor)}"
        ratio = f", {taken.processor / first.processor:.1f} x" if first.processor else ""
        yield f"{count:,} lines x 40 clauses, {name}", f"{_ms(taken.least)}, {rate:.0f} M/s, {beside}{ratio}"


def other_libraries(plain: Plain, frame: Any) -> Ways:
    """Return the ways of the libraries of the extra `benchmarks`, as far as they come to an end with so many rows."""
    from benchmarks import by_duckdb, by_expression_language, by_numexpr

    ways: Ways = {}
    count = len(plain.service)
    if count <= MANY:
        ways["DuckDB"] = (lambda: by_duckdb.verdicts(frame, 40), lambda found: found)
        ways["numexpr"] = (lambda: by_numexpr.verdicts(plain, 40), lambda found: found)
    if count <= FEW:
        compiled, rows = by_expression_language.programs(40), by_expression_language.rows_of(plain)
        ways["CEL"] = (lambda: by_expression_language.verdicts(compiled, rows), lambda found: found)
    return ways


@dataclass(frozen=True)
class Taken:
    """The least wall time of some calls, and their mean processor time, all threads together; in seconds."""

    least: float
    processor: float


def _in_turns(calls: list[Callable[[], Any]]) -> list[Taken]:
    """Return the times of each call; they take turns, so that what else the machine does meets all alike.

    Each is called three times or for a second and a half, whichever is longer.
    """
    walls: list[list[float]] = [[] for _ in calls]
    processors = [0.0] * len(calls)
    while any(len(wall) < 3 or sum(wall) < ENOUGH for wall in walls):
        for number, call in enumerate(calls):
            if len(walls[number]) < 3 or sum(walls[number]) < ENOUGH:
                start, busy = perf_counter(), process_time()
                call()
                walls[number].append(perf_counter() - start)
                processors[number] += process_time() - busy
    return [Taken(min(wall), busy / len(wall)) for wall, busy in zip(walls, processors, strict=True)]


def _ms(seconds: float) -> str:
    return f"{seconds * 1000:.2f} ms" if seconds < 0.1 else f"{seconds * 1000:.0f} ms"


def from_parquet() -> Iterator[tuple[str, str]]:
    """Yield the time and the peak memory of a process of its own that judges a Parquet file of cell texts."""
    found = subprocess.run(
        [sys.executable, "-m", "benchmarks.parquet_file", str(MANY)], capture_output=True, text=True, check=True
    )
    for line in found.stdout.splitlines():
        what, _, result = line.partition(": ")
        yield f"{MANY:,} lines x 40 clauses from Parquet, {what}", result
