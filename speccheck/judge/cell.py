"""A cell of the compliance matrix: the verdict of one clause on one line, and the facts that led to it.

Words are made of the facts once, when somebody asks for them.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass, field
from typing import Protocol

from speccheck.judge.judgement import AssumedValue, BareVerdict, Basis, Judgement, Varied
from speccheck.judge.lookup import TableUse
from speccheck.judge.operations import NominalStandIn
from speccheck.judge.unknown import Unknown
from speccheck.language.core import Clause
from speccheck.language.vocabulary.values import NotGiven, Single, Value

Stated = Mapping[str, Value | NotGiven]
"""The ranges that a line states, by the name of the term."""


@dataclass(frozen=True, slots=True)
class RangePart:
    """The part of the ranges of a line for which a verdict holds.

    `tried` are the values of all cases, rising, `holds` says for each whether the verdict is theirs, and `stated` has
    the ranges.
    """

    tried: tuple[Varied, ...] = ((),)
    holds: tuple[bool, ...] = (True,)
    stated: Stated = field(default_factory=dict)


@dataclass(slots=True, eq=False)
class Grounds:
    """What a verdict rests on: values compared, table cells read, the exception, what is missing, what is assumed.

    `deciding` are the cases whose verdict is that of the line, none where the line has more cases than are tried;
    of very many only the first is kept, but `uses` and `stand_ins` are those of all. `others` is what cases behind the
    first lack and the first does not. `advising` is the case whose advice weighs most. `system` is that in which sizes
    are written.
    """

    clause: Clause
    deciding: tuple[Judgement, ...] = ()
    advising: Judgement | None = None
    uses: tuple[TableUse, ...] = ()
    stand_ins: tuple[NominalStandIn, ...] = ()
    part: RangePart = RangePart()
    others: tuple[Unknown, ...] = ()
    worked_out: frozenset[str] = frozenset()
    assumed: tuple[AssumedValue, ...] = ()
    system: str = "inch-pound"


@dataclass(slots=True, unsafe_hash=True)
class Step:
    """One step of the working: which part of the clause, the condition in words, whether it holds, what was compared.

    `part` is "where", "except", "shall" or "should"; `depth` counts how far the step is inside another;
    `truth` is True, False or None (not known); `detail` gives the values ("1 in is less than 1-1/2 in") and, for
    a table, its row and column; `values` are the amounts that were compared, as far as they are known, in full.
    Not frozen, though nothing changes it: a report makes tens of thousands.
    """

    part: str
    depth: int
    truth: bool | None
    text: str
    detail: str = ""
    values: tuple[Single, ...] = field(default=(), compare=False)


@dataclass(frozen=True, slots=True)
class Explanation:
    """A cell in words: its reason in one sentence, the working of the case that decided, and what goes with them.

    `at` names the sizes and temperatures for which the verdict holds, where a line covers a range and they are not
    all; `notes` are remarks that go with the numbers (a nominal size that stood for another, a value from memory).
    """

    reason: str
    steps: tuple[Step, ...] = ()
    at: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    advice_reason: str = ""


class CellRemark(Protocol):
    """A fact that a review adds to what the judge found: an accepted deviation, a value from product data."""

    @property
    def words(self) -> str:
        """The remark as a sentence."""


@dataclass(slots=True, eq=False, kw_only=True)
class Cell(BareVerdict):
    """One cell of the compliance matrix, with the facts that led to its verdict.

    `missing` names the terms that would settle it. `accepted` are the deviations by which a failing cell was accepted,
    `from_data` what product data showed in place of the schedule, and `shown` those of these values that the verdict
    stands on. `explainer` puts it into words.
    """

    basis: Basis
    grounds: Grounds
    explainer: Callable[[Cell], Explanation]
    missing: tuple[str, ...] = ()
    accepted: tuple[CellRemark, ...] = ()
    from_data: tuple[CellRemark, ...] = ()
    shown: tuple[AssumedValue, ...] = ()
    _told: Explanation | None = field(default=None, init=False, repr=False)

    @property
    def explanation(self) -> Explanation:
        """The cell in words, which are made once."""
        if self._told is None:
            self._told = self.explainer(self)
        return self._told

    @property
    def assumed(self) -> tuple[AssumedValue, ...]:
        """The values that stand in place of what the line does not state.

        A verdict of `COMPLIES` or `NOT_APPLICABLE` with such a value stands on it.
        """
        return (*self.grounds.assumed, *self.shown)

    @property
    def said(self) -> Hashable:
        """All that a reader is told of the cell: two cells of which it is the same say the same."""
        seen = (self.verdict, self.advice, self.mandatory, self.basis, self.missing, self.assumed)
        return (*seen, self.explanation)

    @property
    def reason(self) -> str:
        """Why the verdict is what it is, in one sentence."""
        return self.explanation.reason

    @property
    def advice_reason(self) -> str:
        """Why the verdict on the advice is what it is; "" where the clause advises nothing."""
        return self.explanation.advice_reason

    @property
    def steps(self) -> tuple[Step, ...]:
        """The working of the case that decided."""
        return self.explanation.steps

    @property
    def at(self) -> tuple[str, ...]:
        """The sizes and temperatures for which the verdict holds, where they are not all that the line covers."""
        return self.explanation.at

    @property
    def notes(self) -> tuple[str, ...]:
        """The remarks that go with the numbers."""
        return self.explanation.notes


def told(cell: BareVerdict) -> Cell:
    """Return a verdict that somebody reads as the cell that it is: whoever judges for a reader keeps the grounds."""
    assert isinstance(cell, Cell), cell
    return cell
