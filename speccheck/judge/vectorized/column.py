"""Columns: what many lines state for each term, as arrays of numbers and of small integers."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from speccheck.schedule.lines import Line

Numbers = NDArray[np.float64]
Flags = NDArray[np.bool_]
Integers = NDArray[np.signedinteger]
Words = NDArray[np.unsignedinteger]

NOT_GIVEN = -1
"""The code of a value that is not given."""

METRIC, INCHES, OTHER_UNIT = 1, 2, 0
"""How the unit of a length is kept, where nominal metric sizes may stand for inch sizes."""


@dataclass(frozen=True, slots=True)
class NumberColumn:
    """Quantities in SI units, counts or numbers, NaN where not given; and the unit of each length where it matters."""

    values: Numbers
    units: NDArray[np.int8] | None = None

    def take(self, rows: NDArray[np.integer]) -> NumberColumn:
        """Return the column of some rows."""
        return NumberColumn(self.values[rows], None if self.units is None else self.units[rows])

    def with_rows(self, rows: NDArray[np.integer], other: NumberColumn) -> NumberColumn:
        """Return the column with the values of another one at some rows."""
        units = None if self.units is None or other.units is None else _replaced(self.units, rows, other.units)
        return NumberColumn(_replaced(self.values, rows, other.values), units)


@dataclass(frozen=True, slots=True)
class CodeColumn:
    """Choices, answers, texts or nominal sizes as positions in their list, -1 where not given."""

    codes: Integers

    def take(self, rows: NDArray[np.integer]) -> CodeColumn:
        """Return the column of some rows."""
        return CodeColumn(self.codes[rows])

    def with_rows(self, rows: NDArray[np.integer], other: CodeColumn) -> CodeColumn:
        """Return the column with the codes of another one at some rows."""
        return CodeColumn(_replaced(self.codes, rows, other.codes))


@dataclass(frozen=True, slots=True)
class SetColumn:
    """Sets of choices as bits, choice number n in bit n % 64 of part n // 64; and where they are given."""

    parts: tuple[Words, ...]
    given: Flags

    def take(self, rows: NDArray[np.integer]) -> SetColumn:
        """Return the column of some rows."""
        return SetColumn(tuple(part[rows] for part in self.parts), self.given[rows])


def _replaced(array: Any, rows: NDArray[np.integer], other: Any) -> Any:
    copied = array.copy()
    copied[rows] = other
    return copied


Column = NumberColumn | CodeColumn | SetColumn


@dataclass(frozen=True, slots=True)
class SizeRanges:
    """The rows, rising, that cover a range of nominal sizes, and the first and the last size of each."""

    rows: NDArray[np.intp]
    first: NDArray[np.int8]
    last: NDArray[np.int8]


@dataclass(frozen=True, slots=True)
class Columns:
    """The columns of all terms that a ruleset draws on.

    A row that covers a range has "not given" in the column. Ranges of sizes stand in `sizes`, by term. `ranged` has,
    by row, the lines with ranges of quantities or numbers, and those with ranges in very many terms of sizes.
    `texts` are the codes of free texts.
    """

    count: int
    terms: Mapping[str, Column]
    sizes: Mapping[str, SizeRanges] = field(default_factory=dict)
    ranged: Mapping[int, Line] = field(default_factory=dict)
    texts: Mapping[str, int] = field(default_factory=dict)

    def take(self, rows: NDArray[np.integer], names: Iterable[str]) -> Columns:
        """Return the columns of some terms at some rows, without ranges."""
        taken = {name: self.terms[name].take(rows) for name in names}
        return Columns(len(rows), taken, texts=self.texts)

    def replacing(self, columns: Mapping[str, Column]) -> Columns:
        """Return the same with some of the columns replaced, without ranges."""
        return Columns(self.count, {**self.terms, **columns}, texts=self.texts)
