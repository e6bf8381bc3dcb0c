"""One value or a range of values, whatever their kind: the ends made one by one, then compared with each other."""

from __future__ import annotations

from collections.abc import Callable

from speccheck.quantities.amounts import Amount, Reading, misread
from speccheck.quantities.reading import misordered
from speccheck.quantities.values import Interval, Misread, T, compare


def value_or_interval(reading: Reading, make: Callable[[Amount], T | Misread]) -> T | Interval[T] | Misread:
    """Return the value of a reading, or the interval between the values of its ends; the first Misread stops it."""
    low = None if reading.low is None else make(reading.low)
    if isinstance(low, Misread):
        return low
    if low is not None and not reading.is_range:
        return low
    high = None if reading.high is None else make(reading.high)
    if isinstance(high, Misread):
        return high
    problem = misordered(reading, compare(low, high)) if low is not None and high is not None else None
    return problem or Interval(low, high, reading.low_closed, reading.high_closed)


def misread_amount(reading: Reading, amount: Amount, message: str, help: str) -> Misread:
    """Return a Misread whose offending part is one amount of the reading."""
    return misread(reading.text, message, help, amount.start, amount.end)


def misread_unit(reading: Reading, amount: Amount, message: str, help: str) -> Misread:
    """Return a Misread whose offending part is the unit of an amount, or the amount where the unit is elsewhere."""
    start = amount.unit_start if amount.unit_start < amount.end else amount.start
    return misread(reading.text, message, help, start, amount.end)
