"""Programs: array operations in order, run over one block of rows after the other.

A block is small enough for its arrays to stay in the processor's cache, and an array is let go after its last use, so
that the next one takes its place there.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from numpy.typing import NDArray

from speccheck.judge.vectorized.column import CodeColumn, Column, Columns, Flags, NumberColumn, SetColumn

# Rows in a block: 64 kB for a column of flags, 512 kB for one of numbers. With 1 MB of cache for each core, this took
# two thirds of the time of 16,384 rows, and as long as 131,072.
BLOCK = 65_536

Operation = Callable[..., Any]
"""From a block and the results of other steps to an array, or to None for a step that only writes."""

ALWAYS, NEVER = 0, 1
"""The results that are true, or false, for all rows."""


@dataclass(frozen=True, slots=True)
class RowBlock:
    """Some rows of all columns, and where their verdicts are to be written: one row a clause, one column a line."""

    columns: Columns
    start: int
    stop: int
    verdicts: NDArray[np.int8]
    advice: NDArray[np.int8]

    @property
    def count(self) -> int:
        """How many rows it has."""
        return self.stop - self.start

    def column(self, name: str) -> Column:
        """Return the rows of the column of a term."""
        rows = slice(self.start, self.stop)
        match self.columns.terms[name]:
            case NumberColumn(values, units):
                return NumberColumn(values[rows], None if units is None else units[rows])
            case CodeColumn(codes):
                return CodeColumn(codes[rows])
            case SetColumn(parts, given):
                return SetColumn(tuple(part[rows] for part in parts), given[rows])


@dataclass(frozen=True, slots=True)
class ProgramStep:
    """One operation: from which results it is worked out, and which of them are not needed after it.

    A step that `writes` verdicts has a result of no use.
    """

    result: int
    operation: Operation
    inputs: tuple[int, ...]
    writes: bool = False
    last_used: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class Program:
    """Steps in order; each result is a number, its place among the results of a block."""

    steps: tuple[ProgramStep, ...]
    results: int

    def verdicts(self, columns: Columns, clauses: int, advised: int) -> tuple[NDArray[np.int8], NDArray[np.int8]]:
        """Return the codes of the verdicts of so many clauses, and of those on advice, a row for each clause."""
        verdicts, advice = np.empty((clauses, columns.count), np.int8), np.empty((advised, columns.count), np.int8)
        always, never = np.ones(BLOCK, np.bool_), np.zeros(BLOCK, np.bool_)
        with np.errstate(all="ignore"):
            for start in range(0, columns.count, BLOCK):
                stop = min(start + BLOCK, columns.count)
                block = RowBlock(columns, start, stop, verdicts[:, start:stop], advice[:, start:stop])
                self._run_block(block, always[: block.count], never[: block.count])
        return verdicts, advice

    def _run_block(self, block: RowBlock, always: Flags, never: Flags) -> None:
        results: list[Any] = [None] * self.results
        results[ALWAYS], results[NEVER] = always, never
        for step in self.steps:
            found = step.operation(block, *[results[number] for number in step.inputs])
            if not step.writes:
                results[step.result] = found
            for number in step.last_used:
                results[number] = None


def in_order(steps: Sequence[ProgramStep], results: int) -> Program:
    """Return the program of the steps that something comes of, with the last use of each result found out."""
    used: set[int] = set()
    kept: list[ProgramStep] = []
    for step in reversed(steps):
        if step.writes or step.result in used:
            ending = {number for number in step.inputs if number > NEVER} - used
            used |= ending
            kept.append(replace(step, last_used=tuple(sorted(ending))))
    return Program(tuple(reversed(kept)), results)
