"""The 40 clauses of the workload as expressions for numexpr, an evaluator of expressions over arrays, one a clause.

The expressions are those of `by_numpy`, written down by names that stand for the columns.
"""

from __future__ import annotations

from dataclasses import dataclass, fields
from typing import Any

import numexpr
import numpy as np
from benchmarks import by_numpy
from benchmarks.plain_columns import Plain
from benchmarks.workload import clause_words
from numpy.typing import NDArray

from speccheck.judge.vectorized.conditions import CANNOT_TELL, COMPLIES, FAILS, NOT_APPLICABLE


@dataclass(frozen=True)
class Written:
    """An expression as text; operators join such texts."""

    text: str

    def _joined(self, joint: str, other: Any) -> Written:
        return Written(f"({self.text} {joint} {other.text if isinstance(other, Written) else repr(other)})")

    def __and__(self, other: Any) -> Written:
        return self._joined("&", other)

    def __or__(self, other: Any) -> Written:
        return self._joined("|", other)

    def __mul__(self, other: Any) -> Written:
        return self._joined("*", other)

    def __lt__(self, other: Any) -> Written:
        return self._joined("<", other)

    def __le__(self, other: Any) -> Written:
        return self._joined("<=", other)

    def __gt__(self, other: Any) -> Written:
        return self._joined(">", other)

    def __ge__(self, other: Any) -> Written:
        return self._joined(">=", other)

    def __eq__(self, other: object) -> Any:
        return self._joined("==", other)

    def __invert__(self) -> Written:
        return Written(f"(~{self.text})")

    def __array_ufunc__(self, ufunc: np.ufunc, method: str, one: Any, other: Any) -> Written:
        assert ufunc is np.minimum, ufunc
        return Written(f"where({one.text} > {other!r}, {other!r}, {one.text})")


class Shared(by_numpy.Shared):
    """What several clauses need, by name."""

    def __init__(self, plain: Any) -> None:
        self.plain = plain
        below = Written("below_ambient")
        self.below_ambient = below, ~below  # type: ignore[assignment]
        self.hot_thickness = Written("hot_thickness")  # type: ignore[assignment]
        self.concealed = plain.concealed == 1, plain.concealed == 0
        self.cellular_glass = self.insulation("cellular glass")


def verdicts(plain: Plain, clauses: int) -> list[NDArray[np.int32]]:
    """Return the codes of the verdicts, an array for each clause."""
    columns = {one.name: getattr(plain, one.name) for one in fields(plain)}
    shared = Shared(Plain(**{name: Written(name) for name in columns}))  # type: ignore[arg-type]
    below = f"operating_temperature < ambient_temperature * {1 - by_numpy.TOLERANCE!r}"
    columns["below_ambient"] = numexpr.evaluate(below, columns)
    columns["hot_thickness"] = by_numpy.hot_thickness(plain)
    return [numexpr.evaluate(text, columns) for text in _expressions(shared, clauses)]


def _expressions(shared: Shared, clauses: int) -> list[str]:
    found = []
    for number, words in enumerate(clause_words(clauses)):
        parts = by_numpy.PARTS[number % len(by_numpy.PARTS)](shared, **words)
        scope, met, excepted = [[one.text for one in pair] for pair in parts]  # type: ignore[attr-defined]
        fails = f"where({scope[0]} & {excepted[1]} & {met[1]}, {FAILS}, {CANNOT_TELL})"
        found.append(f"where({scope[1]} | {excepted[0]}, {NOT_APPLICABLE}, where({met[0]}, {COMPLIES}, {fails}))")
    return found
