"""The values that a text can have, and the answer where it has none."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Generic, TypeVar

from speccheck.quantities.conversion import conversions, from_si
from speccheck.quantities.sizes import NominalSize
from speccheck.quantities.writing import write_number, write_with_unit

TOLERANCE = 1e-9
"""How far apart, relatively, two numbers may be and still be one: what converting units and back adds is far less."""


@dataclass(frozen=True, slots=True)
class Quantity:
    """A physical quantity: its SI value, the name of its dimension and the unit that it is to be shown in."""

    value: float
    dimension: str
    unit: str

    def in_unit(self, unit: str) -> float:
        """Return the number in another unit; raises `ValueError` where that unit measures something else."""
        conversion = conversions(unit).get(self.dimension)
        if conversion is None:
            raise ValueError(f"{unit!r} is not a unit of {self.dimension}")
        return from_si(self.value, conversion)

    def __str__(self) -> str:
        return write_with_unit(self.in_unit(self.unit), self.unit)


@dataclass(frozen=True, slots=True)
class Misread:
    """Why a text is not a value: one sentence, what to write instead, and where the offending part lies in the text.

    `advice` is what to write instead, or what finds that out: of most texts that were tried as a value nobody asks.
    """

    text: str
    message: str
    advice: str | Callable[[], str]
    start: int
    end: int

    @property
    def help(self) -> str:
        """What to write instead."""
        return self.advice if isinstance(self.advice, str) else self.advice()


T = TypeVar("T", Quantity, NominalSize, float)


@dataclass(frozen=True, slots=True)
class Interval(Generic[T]):
    """All values from `low` to `high`; None is no bound on that side. An end belongs to it where it is closed.

    Make one as `Interval(low, high)`: Python 3.11 cannot make a frozen class with slots through `Interval[float]`.
    """

    low: T | None
    high: T | None
    low_closed: bool = True
    high_closed: bool = True

    def contains(self, value: T) -> bool:
        """Tell whether a value lies in the interval.

        A number within `TOLERANCE` of an end counts as that end, so that 45 C lies in "up to 113 F".
        """
        if self.low is not None:
            side = compare(value, self.low)
            if side < 0 or (side == 0 and not self.low_closed):
                return False
        if self.high is not None:
            side = compare(value, self.high)
            if side > 0 or (side == 0 and not self.high_closed):
                return False
        return True

    def holds(self, other: Interval[T]) -> bool:
        """Tell whether all of another interval lies in this one, at the same tolerance."""
        return _no_further(self.low, self.low_closed, other.low, other.low_closed, 1) and _no_further(
            self.high, self.high_closed, other.high, other.high_closed, -1
        )

    def __str__(self) -> str:
        low, high = _shown(self.low), _shown(self.high)
        if self.low is None and self.high is None:
            return "any"
        if self.low is None:
            return f"{high} and under" if self.high_closed else f"under {high}"
        if self.high is None:
            return f"{low} and over" if self.low_closed else f"over {low}"
        if self.low_closed and self.high_closed:
            return f"{low} through {high}"
        return f"{'' if self.low_closed else 'over '}{low} to {'' if self.high_closed else 'under '}{high}"


def _no_further(outer: T | None, outer_closed: bool, inner: T | None, inner_closed: bool, inward: int) -> bool:
    """Whether one end of an inner interval stays within that of an outer one; `inward` is the way to its middle."""
    if outer is None or inner is None:
        return outer is None
    side = compare(inner, outer) * inward
    return side > 0 or (side == 0 and (outer_closed or not inner_closed))


def compare(value: Quantity | NominalSize | float, end: Quantity | NominalSize | float) -> int:
    """Return -1, 0 or 1: below the end, at it (within `TOLERANCE`), above it; quantities by their SI values.

    Raises `ValueError` for values of different kinds.
    """
    if isinstance(value, Quantity) and isinstance(end, Quantity):
        if value.dimension != end.dimension:
            raise ValueError(f"{value.dimension} cannot be compared with {end.dimension}")
        return _side(value.value, end.value)
    if isinstance(value, NominalSize) and isinstance(end, NominalSize):
        return (value > end) - (value < end)
    if isinstance(value, int | float) and isinstance(end, int | float):
        return _side(value, end)
    raise ValueError(f"{value!r} cannot be compared with {end!r}")


def _side(number: float, end: float) -> int:
    """Return -1, 0 or 1: below, the same within the tolerance, above."""
    return 0 if math.isclose(number, end, rel_tol=TOLERANCE) else (number > end) - (number < end)


def _shown(end: Quantity | NominalSize | float | None) -> str:
    """Write one end of an interval."""
    return write_number(end) if isinstance(end, int | float) else str(end)
