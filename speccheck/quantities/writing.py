"""Numbers as a person writes them: fractions of an inch where they are sixteenths, otherwise a short plain decimal."""

from __future__ import annotations

import math
from decimal import Decimal
from fractions import Fraction

_FRACTION_UNITS = frozenset({"in", "ft"})
_LEADING = {"R": ("R-", "h.ft2.F/Btu"), "RSI": ("RSI-", "m2.K/W")}


def write_fraction(inches: float) -> str:
    """Write a number of inches: "1-1/2", "3/64", "0.016".

    A fraction is written where the number is, within 1e-9 relative, a multiple of 1/16, else of 1/32 or 1/64;
    any other number is a decimal of at most six significant digits.
    """
    if math.isinf(inches):
        return write_number(inches)
    for denominator in (16, 32, 64):
        parts = round(inches * denominator)
        if parts and abs(parts / denominator - inches) <= 1e-9 * abs(inches):
            return write_exact(Fraction(parts, denominator))
    return write_number(inches)


def write_exact(number: Fraction) -> str:
    """Write a fraction the way a rule is read: "2", "3/4", "-1-1/2"."""
    sign = "-" if number < 0 else ""
    whole, rest = divmod(abs(number), 1)
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{whole}-{rest}" if whole else f"{sign}{rest}"


def write_number(value: float) -> str:
    """Write a number, in whatever unit, with at most six significant digits and no trailing zeros.

    Very small and very large ones as 1.5e-09.
    """
    short = f"{value:.6g}"
    if "e" in short and 1e-6 <= abs(value) < 1e15:
        short = format(Decimal(short), "f")
    return "0" if short == "-0" else short


def write_with_unit(value: float, unit: str) -> str:
    """Write a value that is given in `unit`, with its unit: "1-1/2 in", "-20 F", "R-6", "0.9"."""
    if unit in ("F", "C"):
        value = round(value, 9)  # 0 F is kept as 255.372... kelvin and comes back as 2.8e-14
    if unit in _LEADING:
        mark, unit_without_mark = _LEADING[unit]
        # "R--6" could not be read back, and a difference of two resistances may be negative.
        return f"{mark}{write_number(value)}" if value >= 0 else f"{write_number(value)} {unit_without_mark}"
    number = write_fraction(value) if unit in _FRACTION_UNITS else write_number(value)
    return f"{number} {unit}" if unit else number
