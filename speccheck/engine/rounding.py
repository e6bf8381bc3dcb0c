"""Rounding: a value that was worked out, in as many digits as a reviewer would write.

Four significant digits, and a tenth of a degree. Whole numbers and fractions of an inch stay as they are, and so does
everything that somebody stated: that is written as `value_text` has it. Verdicts rest on the full numbers.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from decimal import Decimal
from functools import lru_cache

from speccheck.language.values import Single
from speccheck.language.wording import value_text
from speccheck.quantities import Quantity, write_fraction
from speccheck.quantities.writing import write_number, write_with_unit

SIGNIFICANT = 4
DECIMALS_OF_DEGREES = 1
# How many more digits are tried at most; beyond them the roundings of the machine begin.
MOST_MORE = 7


@lru_cache(maxsize=20_000)
def worked_text(value: Single, system: str = "inch-pound", more: int = 0) -> str:
    """Return a value that was worked out in words, with `more` digits than usual; sizes in the units of `system`."""
    if isinstance(value, Quantity) and math.isfinite(value.value):
        number = value.in_unit(value.unit)
        if value.unit in ("in", "ft") and write_fraction(number) != write_number(number):
            return value_text(value)
        return _with_unit(_digits(number, value.dimension, more), value.unit)
    if isinstance(value, float) and math.isfinite(value):
        return _digits(value, "number", more)
    return value_text(value, system)


def mark_text(value: Single, neighbours: Iterable[Single], system: str = "inch-pound") -> str:
    """Return in words a value at which something changes: as it is where it is as short as stated values are.

    Otherwise it was closed in on, and is rounded as far as it keeps its side of its neighbours.
    """
    if not isinstance(value, Quantity) or not math.isfinite(value.value) or _is_short(value):
        return value_text(value, system)
    number = value.in_unit(value.unit)
    others = [one.in_unit(value.unit) for one in neighbours if isinstance(one, Quantity)]
    for more in range(MOST_MORE):
        rounded = float(_digits(number, value.dimension, more))
        if all((rounded - other) * (number - other) > 0 for other in others):
            return worked_text(value, system, more)
    return value_text(value, system)


def _is_short(value: Quantity) -> bool:
    """Say whether a value has at most one digit more than values that were worked out are written with."""
    number = value.in_unit(value.unit)
    return math.isclose(number, float(_digits(number, value.dimension, 1)), rel_tol=1e-9)


def _digits(number: float, dimension: str, more: int) -> str:
    """Return a number with the digits that its dimension is written with, and `more`, without trailing zeros."""
    rounded = round(number, _decimals(number, dimension) + more)
    text = f"{rounded:.15g}"
    if "e" in text and 1e-6 <= abs(rounded) < 1e15:
        text = format(Decimal(text), "f")
    return "0" if text == "-0" else text


def _decimals(number: float, dimension: str) -> int:
    """Return how many decimals a number is written with; digits before the point are never rounded away."""
    if dimension == "temperature":
        return DECIMALS_OF_DEGREES
    return max(0, SIGNIFICANT - 1 - math.floor(math.log10(abs(number)))) if number else 0


def _with_unit(digits: str, unit: str) -> str:
    """Return digits with their unit where it is written: "2.374 in", "R-6.1"."""
    one = "-1" if digits.startswith("-") else "1"
    return write_with_unit(float(one), unit).replace(one, digits, 1)
