"""Circuits: a program under construction, in which each distinct operation stands once.

Results are known by their number. What is always true, or never, is folded away.
"""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass, field
from typing import Any, NamedTuple

import numpy as np

from speccheck.judge.vectorized.column import Flags
from speccheck.judge.vectorized.program import ALWAYS, NEVER, Operation, Program, ProgramStep, RowBlock, in_order


class Masks(NamedTuple):
    """A condition: the result that says where it holds, and the one that says where it does not."""

    true: int
    false: int

    @property
    def negation(self) -> Masks:
        """The condition that holds where this one does not."""
        return Masks(self.false, self.true)


@dataclass
class ExpressionGraph:
    """The steps so far, and the number of each result by what it is."""

    steps: list[ProgramStep] = field(default_factory=list)
    known: dict[Hashable, int] = field(default_factory=dict)

    def result(self, key: Hashable, operation: Operation, *inputs: int) -> int:
        """Return the number of a result; `key` and `inputs` together say what it is."""
        whole = (key, inputs)
        if whole not in self.known:
            self.known[whole] = number = len(self.known) + 2
            self.steps.append(ProgramStep(number, operation, inputs))
        return self.known[whole]

    def write(self, operation: Operation, *inputs: int) -> None:
        """Add an operation that only writes."""
        self.steps.append(ProgramStep(NEVER, operation, inputs, writes=True))

    def both(self, *flags: int) -> int:
        """Return where all of some flags are true."""
        distinct = sorted({number for number in flags if number != ALWAYS})
        if NEVER in distinct:
            return NEVER
        return self._joined("both", np.bitwise_and, distinct, ALWAYS)

    def either(self, *flags: int) -> int:
        """Return where at least one of some flags is true."""
        distinct = sorted({number for number in flags if number != NEVER})
        if ALWAYS in distinct:
            return ALWAYS
        return self._joined("either", np.bitwise_or, distinct, NEVER)

    def rest(self, whole: int, part: int) -> int:
        """Return where `whole` is true and `part`, which lies within it, is not."""
        if part == NEVER:
            return whole
        if whole == part:
            return NEVER
        if whole == ALWAYS:
            return self.result("not", lambda _, flags: ~flags, part)
        return self.result("rest", lambda _, first, second: first ^ second, whole, part)

    def settled(self, true: int, given: int) -> Masks:
        """Return the condition that holds where `true` is, and is known where `given` is."""
        return Masks(true, self.rest(given, true))

    def every(self, parts: tuple[Masks, ...]) -> Masks:
        """Return the condition that all of some hold."""
        return Masks(self.both(*(part.true for part in parts)), self.either(*(part.false for part in parts)))

    def some(self, parts: tuple[Masks, ...]) -> Masks:
        """Return the condition that at least one of some holds."""
        return self.every(tuple(part.negation for part in parts)).negation

    def program(self) -> Program:
        """Return the finished program."""
        return in_order(self.steps, len(self.known) + 2)

    def _joined(self, name: str, joint: Any, distinct: list[int], empty: int) -> int:
        if not distinct:
            return empty
        if len(distinct) == 1:
            return distinct[0]

        def join(_: RowBlock, first: Flags, second: Flags, *others: Flags) -> Flags:
            joined: Flags = joint(first, second)
            for other in others:
                joint(joined, other, out=joined)
            return joined

        return self.result(name, join, *distinct)
