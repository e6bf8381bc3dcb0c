"""Conditions: the nodes that hold, do not hold, or are not known."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from speccheck.language.core.amounts import Amount
from speccheck.language.core.relations import AnyRelation
from speccheck.language.core.tables import CellWord, Table
from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import Single


class Inclusion(StrEnum):
    """What an `Includes` node asks of a set."""

    ALL = "include"
    ANY = "include any of"
    NONE = "exclude"


@dataclass(frozen=True, slots=True)
class Comparison:
    """One amount compared with another of the same kind."""

    left: Amount
    relation: AnyRelation
    right: Amount
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class OneOf:
    """An amount that is to be among the stated values."""

    amount: Amount
    options: tuple[Single, ...]
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Includes:
    """A set that is to include all of, any of or none of the stated choices."""

    term: Term
    inclusion: Inclusion
    options: tuple[str, ...]
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Given:
    """Whether the line states the term at all; never itself not known."""

    term: Term
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Holds:
    """A yes-or-no term that is to be yes."""

    term: Term
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class CellSays:
    """The cell of a table for the line's values of its axes, which is to say a word instead of having a value."""

    table: Table
    word: CellWord
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Negation:
    """A condition that is not to hold."""

    part: Condition
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Every:
    """Conditions that are all to hold."""

    parts: tuple[Condition, ...]
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Some:
    """Conditions of which at least one is to hold."""

    parts: tuple[Condition, ...]
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class AskedIf:
    """A requirement with a condition of its own: what is to hold where that holds, and what otherwise, if anything.

    Where it is not known whether the condition holds, the requirement is met, or missed, only if it is either way.
    `by_table` says that the condition comes from words in cells of the table that is compared with: "nothing required",
    "not permitted". In words only what is asked is told then.
    """

    asked: Condition
    condition: Condition
    otherwise: Condition | None = None
    place: Place = field(default=Place(), compare=False)
    by_table: bool = False


@dataclass(frozen=True, slots=True)
class OrEqual:
    """A condition that holds, or of which a person has to say whether what is proposed instead is equal to it.

    It never fails by itself: where its part does not hold, it is not known.
    """

    part: Condition
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Readings:
    """What a disputed source asks by each of its readings.

    It holds or fails only where all readings do; where they disagree it is not known.
    """

    parts: tuple[Condition, ...]
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class NamedCondition:
    """A condition that a definition gave a name."""

    name: str
    condition: Condition
    place: Place = field(default=Place(), compare=False)


Condition = (
    Comparison
    | OneOf
    | Includes
    | Given
    | Holds
    | CellSays
    | Negation
    | Every
    | Some
    | AskedIf
    | OrEqual
    | Readings
    | NamedCondition
)
