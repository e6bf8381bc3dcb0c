"""Relations: how one amount is to stand to another. A relation is an object that carries its order, denial and words.

Readers ask a relation for what they need and never for its name, so that a new one is known wherever it says of itself
what it is.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntFlag, StrEnum

from speccheck.quantities import Quantity


class Order(IntFlag):
    """Where one amount stands beside another."""

    BELOW = 1
    AT = 2
    ABOVE = 4

    @property
    def turned(self) -> Order:
        """Where the other amount stands beside the one."""
        ends = Order.BELOW | Order.ABOVE
        return self if self & ends in (Order(0), ends) else self ^ ends


ANYWHERE = Order.BELOW | Order.AT | Order.ABOVE


class Relation(StrEnum):
    """How a `Comparison` compares its left amount with its right one: words, and where the left one may stand.

    `is_minimum` is where more is always enough, `is_maximum` where less is, and `is_limit` either, which only kinds
    with an order can be. They are kept, because every comparison of every line asks for them.
    """

    order: Order
    is_minimum: bool
    is_maximum: bool
    is_limit: bool

    def __new__(cls, words: str, order: Order) -> Relation:
        """Return a relation by its words behind "is" and the places that it allows."""
        relation = str.__new__(cls, words)
        relation._value_ = words
        relation.order = order
        relation.is_minimum = order & ~Order.AT == Order.ABOVE
        relation.is_maximum = order & ~Order.AT == Order.BELOW
        relation.is_limit = relation.is_minimum or relation.is_maximum
        return relation

    EQUAL = "is", Order.AT
    NOT_EQUAL = "is not", Order.BELOW | Order.ABOVE
    AT_LEAST = "is at least", Order.AT | Order.ABOVE
    AT_MOST = "is at most", Order.BELOW | Order.AT
    LESS_THAN = "is less than", Order.BELOW
    MORE_THAN = "is more than", Order.ABOVE

    @property
    def denial(self) -> Relation:
        """The relation that holds where this one does not."""
        return of_order(ANYWHERE ^ self.order)

    @property
    def turned(self) -> Relation:
        """The relation in which the right amount then stands to the left one."""
        return of_order(self.order.turned)

    @property
    def exchanged(self) -> Relation | None:
        """The relation with its limit left out instead of in, or the other way round; None where it has no limit."""
        return of_order(self.order ^ Order.AT) if self.is_limit else None

    @property
    def words(self) -> str:
        """Its words, with "is"."""
        return self.value

    @property
    def is_equality(self) -> bool:
        """Whether it asks for one value, or for any but that."""
        return not self.is_limit

    @property
    def limit(self) -> str:
        """The words before what an amount is compared with: "at least ", "other than ", and none for "is"."""
        if self is Relation.NOT_EQUAL:
            return "other than "
        return f"{self.value.removeprefix('is').strip()} ".lstrip()

    def behind(self, verb: str) -> str:
        """Return its words behind another verb than "is": "be at least", "shall be at least"."""
        return self.value.replace("is", verb, 1)


@dataclass(frozen=True, slots=True)
class Within:
    """The relation of two amounts that differ by no more than a share of the second: "is within 10 % of".

    In place of a share there can be an amount of their dimension, for temperatures a difference: "is within 5 F of".
    It has no order of its own, and comes down to two limits: see `plain` in `walking`.
    """

    share: Quantity
    denied: bool = False
    is_equality = is_limit = is_minimum = is_maximum = False
    exchanged = None

    @property
    def words(self) -> str:
        """Its words, with "is"."""
        return f"is {self.limit}".rstrip()

    @property
    def denial(self) -> Within:
        """The relation that holds where this one does not."""
        return Within(self.share, not self.denied)

    @property
    def limit(self) -> str:
        """The words before what an amount is compared with."""
        return f"{'not ' if self.denied else ''}{self._reach} "

    @property
    def _reach(self) -> str:
        return f"within {self.share} of"

    def behind(self, verb: str) -> str:
        """Return its words behind another verb than "is": "be within 10 % of"."""
        return f"{verb} {'not ' if self.denied else ''}{self._reach}"

    def __str__(self) -> str:
        return self.words


AnyRelation = Relation | Within


def by_order(relation: AnyRelation) -> Relation | None:
    """Return a relation that is one by order alone; None for one that comes down to several."""
    return relation if isinstance(relation, Relation) else None


_OF_WORDS = {relation.value: relation for relation in Relation}
_OF_ORDER = {relation.order: relation for relation in Relation}


def of_order(order: Order) -> Relation:
    """Return the relation that allows some places and no others."""
    return _OF_ORDER[order]


def of_words(words: str) -> Relation:
    """Return the relation that is written so, with "is"."""
    return _OF_WORDS[words]
