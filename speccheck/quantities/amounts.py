"""What a text says before a kind is asked of it: one amount, or a range of amounts, as written."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, NamedTuple

from speccheck.quantities.marks import place, plain
from speccheck.quantities.values import Misread

# A degree sign alone, which leaves open whether F or C is meant.
DEGREES = frozenset({"°", "deg", "deg.", "degree", "degrees"})

Designation = Literal["NPS", "DN", "R", "RSI"]


class Amount(NamedTuple):
    """One number as written: exact, with its unit and its designation where it has them.

    `start` and `end` are its place in the plain text, `unit_start` the place of its unit (or `end`);
    `is_fraction` tells "1-1/2" from "1.5".
    """

    number: Fraction
    unit: str | None
    designation: Designation | None
    is_fraction: bool
    start: int
    end: int
    unit_start: int


@dataclass(frozen=True, slots=True)
class Reading:
    """What a text says: the amounts at both ends, the same one twice where it is no range; None is no bound."""

    text: str
    low: Amount | None
    high: Amount | None
    low_closed: bool = True
    high_closed: bool = True
    is_range: bool = False

    @property
    def amounts(self) -> tuple[Amount, ...]:
        """The amounts that stand in the text: one or two."""
        ends = (self.low, self.high) if self.is_range else (self.low,)
        return tuple(end for end in ends if end is not None)


def misread(text: str, message: str, help: str, start: int = 0, end: int | None = None) -> Misread:
    """Return a Misread whose offending part runs from `start` to `end` of the plain text.

    The place is turned back to the text as written, and `{}` in the message is filled with that part.
    """
    first, last = place(text, start, len(plain(text)) if end is None else end)
    first += len(text[first:last]) - len(text[first:last].lstrip())
    last = first + len(text[first:last].rstrip())
    return Misread(text, message.replace("{}", f"`{text[first:last]}`"), help, first, last)
