"""Stating: the amounts of a comparison in words, each with its value and with what it was worked out from.

What was stated is written as it was stated; what was worked out or converted in the digits that a reviewer would write,
and in more where both sides would otherwise read the same.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import assert_never

from speccheck.judge.evaluation import Amounted
from speccheck.judge.explain.causes import be, place_in
from speccheck.judge.explain.workings import MOST_MORE, worked_text
from speccheck.judge.operations import Rules, compare
from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    Literal,
    Lookup,
    NamedAmount,
    Operation,
    Relation,
    TermValue,
)
from speccheck.language.core.wording import value_text
from speccheck.language.vocabulary.values import Single
from speccheck.quantities import Quantity

# Amounts that are one value, of which a check states very many.
PLAIN = (TermValue, Literal, Lookup)


@dataclass(frozen=True, slots=True)
class Stating:
    """States amounts with sizes written in one system of units ("inch-pound" or "metric").

    `instead` has the words to write for the value of a term, where the statement is to stand for a whole range.
    `worked_out` names the terms whose values were worked out; `more` digits than usual are written of these and of
    calculations.
    """

    system: str
    instead: Mapping[str, str] = field(default_factory=dict)
    worked_out: frozenset[str] = frozenset()
    more: int = 0

    def apart(self, left: Amount, found: Amounted, right: Amount, beside: Amounted) -> Stating:
        """Return the same with as many digits as it takes for two amounts that differ not to read the same."""
        if found.value is None or beside.value is None or not self._is_rounded(left, found, right, beside):
            return self
        if compare(found.value, Relation.EQUAL, beside.value, Rules())[0]:
            return self
        for more in range(MOST_MORE):
            closer = replace(self, more=more)
            if closer._beside(left, found, beside.value) != closer._value(right, beside):
                return closer
        return self

    def among(self, amount: Amount, found: Amounted, options: Iterable[Single]) -> Stating:
        """Return the same with as many digits as it takes for an amount not to read like another value."""
        if not isinstance(found.value, Quantity | float):
            return self
        each = (self.apart(amount, found, Literal(option, amount.kind), Amounted(option)) for option in options)
        return max(each, key=lambda stating: stating.more)

    def stated(self, amount: Amount, found: Amounted, beside: Single | None = None) -> str:
        """Return an amount with its value, as a sentence begins: "thickness is 25 mm (0.984252 in)".

        `beside` is the value that it is compared with; where that has another unit, the value is written in it too.
        """
        assert found.value is not None
        value = self._value(amount, found)
        if (converted := self._converted(amount, found, beside)) is not None:
            value += f" ({worked_text(converted, self.system, self.more)})"
        match amount:
            case Literal():
                return value
            case TermValue(term):
                return f"{term.name} {be(term.name)} {value}"
            case Lookup(table):
                return f"{table.published_as} is {value}{self._place(found)}"
            case NamedAmount(name, meaning):
                return f"{name} is {value}{self._origin(meaning, found.parts[0])}"
            case Arithmetic() | Adjusted():
                return f"{self.worked(amount, found)} is {value}{self._tables(found)}"
            case _:
                assert_never(amount)

    def other(self, amount: Amount, found: Amounted) -> str:
        """Return the value that another one is compared with, and where it comes from."""
        return self._value(amount, found) + self._origin(amount, found)

    def _is_range(self, amount: Amount) -> bool:
        return isinstance(amount, TermValue) and amount.term.name in self.instead

    def _value(self, amount: Amount, found: Amounted) -> str:
        assert found.value is not None
        if isinstance(amount, TermValue) and amount.term.name in self.instead:
            return self.instead[amount.term.name]
        if self._is_worked_out(amount, found):
            return worked_text(found.value, self.system, self.more)
        return value_text(found.value, self.system)

    def _is_rounded(self, left: Amount, found: Amounted, right: Amount, beside: Amounted) -> bool:
        """Say whether one of two amounts is written in fewer digits than it has."""
        if self._is_worked_out(left, found) or self._is_worked_out(right, beside):
            return True
        return self._converted(left, found, beside.value) is not None

    def _is_worked_out(self, amount: Amount, found: Amounted) -> bool:
        """Say whether nobody stated the value of an amount; the larger of two is one of them."""
        if isinstance(amount, PLAIN):
            return bool(self.worked_out) and isinstance(amount, TermValue) and amount.term.name in self.worked_out
        match amount:
            case NamedAmount(_, meaning):
                return self._is_worked_out(meaning, found.parts[0])
            case Arithmetic(Operation.LARGER | Operation.SMALLER, left, right):
                taken = 0 if found.parts[0].value == found.value else 1
                return self._is_worked_out((left, right)[taken], found.parts[taken])
            case Arithmetic() | Adjusted():
                return True
            case _:
                assert_never(amount)

    def _beside(self, amount: Amount, found: Amounted, beside: Single) -> str:
        """Return the value of an amount as it reads beside another: in the unit of that one, where they differ."""
        converted = self._converted(amount, found, beside)
        return self._value(amount, found) if converted is None else worked_text(converted, self.system, self.more)

    def _converted(self, amount: Amount, found: Amounted, beside: Single | None) -> Quantity | None:
        """Return the value of an amount in the unit of the value beside it; None where that says nothing new."""
        value = found.value
        if not isinstance(value, Quantity) or not isinstance(beside, Quantity) or value.unit == beside.unit:
            return None
        if self._is_range(amount) or value.dimension != beside.dimension or math.isinf(value.value):
            return None
        if _same_scale(value, beside.unit):
            return None
        return Quantity(value.value, value.dimension, beside.unit)

    def _origin(self, amount: Amount, found: Amounted) -> str:
        match amount:
            case Literal():
                return ""
            case TermValue(term):
                return f" ({term.name})"
            case Lookup(table):
                return f" ({table.published_as}{self._place(found, ', ')})"
            case NamedAmount(name, meaning):
                inner = self._origin(meaning, found.parts[0]).removeprefix(" (").removesuffix(")")
                return f" ({name}: {inner})" if inner else f" ({name})"
            case Arithmetic() | Adjusted():
                return f" ({self.worked(amount, found)}{self._tables(found, '; ')})"
            case _:
                assert_never(amount)

    def worked(self, amount: Amount, found: Amounted) -> str:
        """Return a calculation in words with the values in it: "fastener count 4 times 36 in"."""
        if isinstance(amount, Adjusted):
            nodes = (amount.thickness, amount.stated, amount.proposed, amount.diameter)
            words = [self.worked(part, inner) for part, inner in zip(nodes, found.parts, strict=True)]
            return "{} adjusted from {} to {} around {}".format(*words)
        if isinstance(amount, Arithmetic):
            left, right = (
                self.worked(part, inner) for part, inner in zip((amount.left, amount.right), found.parts, strict=True)
            )
            if amount.operation in (Operation.LARGER, Operation.SMALLER):
                return f"{amount.operation} {left} and {right}"
            return f"{left} {amount.operation} {right}"
        value = self._value(amount, found)
        match amount:
            case Literal(_, kind):
                return value + (" difference" if kind.dimension == "temperature difference" else "")
            case TermValue(term):
                return f"{term.name} {value}"
            case Lookup(table):
                return f"{table.name} {value}"
            case NamedAmount(name):
                return f"{name} {value}"
            case _:
                assert_never(amount)

    def _place(self, found: Amounted, joint: str = "") -> str:
        if found.use is None:
            return ""
        return joint + place_in(found.use) if joint else f" ({place_in(found.use)})"

    def _tables(self, found: Amounted, joint: str = "") -> str:
        """Return the places of all table cells that went into an amount."""
        places = "; ".join(dict.fromkeys(f"{use.table.published_as}, {place_in(use)}" for use in found.uses))
        if not places:
            return ""
        return joint + places if joint else f" ({places})"


def _same_scale(value: Quantity, unit: str) -> bool:
    """Say whether the number of a value is the same in another unit: R-6 is 6 h.ft2.F/Btu, and nothing is nothing."""
    if value.dimension == "temperature":
        return value.unit == unit
    return value.value == 0 or math.isclose(value.in_unit(value.unit), value.in_unit(unit), rel_tol=1e-12)
