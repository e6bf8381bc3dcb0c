"""The working of a computed value in words: amounts in the units of one system, inputs with where they came from."""

from __future__ import annotations

from speccheck.quantities import DIMENSIONS, Quantity
from speccheck.trade.working import Given

DIGITS = 4


def amount_words(value: float | str, dimension: str, system: str) -> str:
    """Return a value of the floor `trade` (SI) in the usual unit of `system`, to four significant digits."""
    if isinstance(value, str):
        return value
    known = DIMENSIONS.get(dimension)
    if known is None:
        return f"{value:.{DIGITS}g}"
    unit = known.metric if system == "metric" else known.inch_pound
    number = Quantity(value, dimension, unit).in_unit(unit)
    return f"{number:.{DIGITS}g} {unit}"


def input_words(given: Given, system: str) -> str:
    """Return an input with where it came from: given, worked out, or assumed."""
    return f"{amount_words(given.value, given.dimension, system)} ({given.origin})"
