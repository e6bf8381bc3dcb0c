"""Amounts: the nodes that have a value."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum
from typing import TYPE_CHECKING

from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Kind, Term
from speccheck.language.vocabulary.values import Single

if TYPE_CHECKING:
    from speccheck.language.core.tables import Table


class Operation(StrEnum):
    """What an `Arithmetic` node does with its two amounts."""

    PLUS = "plus"
    MINUS = "minus"
    TIMES = "times"
    DIVIDED_BY = "divided by"
    LARGER = "larger of"
    SMALLER = "smaller of"


@dataclass(frozen=True, slots=True)
class Literal:
    """A value that the clause states."""

    value: Single
    kind: Kind
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class TermValue:
    """The value that the line states for a term."""

    term: Term
    place: Place = field(default=Place(), compare=False)

    @property
    def kind(self) -> Kind:
        """The kind of the term."""
        return self.term.kind


@dataclass(frozen=True, slots=True)
class Lookup:
    """The cell of a table for the line's values of its axes."""

    table: Table
    place: Place = field(default=Place(), compare=False)

    @property
    def kind(self) -> Kind:
        """The kind of the table's cells."""
        return self.table.kind


@dataclass(frozen=True, slots=True)
class Arithmetic:
    """Two amounts put together; the kind of the result was worked out when the clause was resolved."""

    operation: Operation
    left: Amount
    right: Amount
    kind: Kind
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Adjusted:
    """A thickness adjusted from the stated conductivity to the proposed one, around a pipe of an outside diameter.

    T = r [(1 + t/r)^(K/k) - 1], as the energy codes have it for conductivities outside the range of their tables.
    """

    thickness: Amount
    stated: Amount
    proposed: Amount
    diameter: Amount
    place: Place = field(default=Place(), compare=False)

    @property
    def kind(self) -> Kind:
        """The kind of the thickness: a length."""
        return self.thickness.kind


@dataclass(frozen=True, slots=True)
class NamedAmount:
    """An amount that a definition gave a name."""

    name: str
    amount: Amount
    place: Place = field(default=Place(), compare=False)

    @property
    def kind(self) -> Kind:
        """The kind of the amount behind the name."""
        return self.amount.kind


Amount = Literal | TermValue | Lookup | Arithmetic | Adjusted | NamedAmount
