"""Pint, for what the tables do not hold: imported late, because importing it alone takes a quarter of a second."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Any, NamedTuple

from speccheck.quantities.dimensions import DIMENSIONS

if TYPE_CHECKING:
    import pint

# Units that may carry a metric prefix. Without this list "pins" would be read as pico-inches.
_PREFIXED = frozenset(
    {"meter", "gram", "watt", "pascal", "second", "joule", "liter", "kelvin", "newton", "bar", "hertz", "radian"}
)


class Conversion(NamedTuple):
    """How a unit becomes SI: value * factor + offset."""

    factor: float
    offset: float


@cache
def registry() -> pint.UnitRegistry[Any]:
    """Return pint's registry with the perm in it: one grain per hour, square foot and inch of mercury at 0 degrees C.

    That makes 57.2135 ng/(s.m2.Pa), as NIST SP 811 appendix B.8 has "perm (0 degrees C)" (from memory). The same
    source has 57.4525 for "perm (23 degrees C)", a perm of warm mercury, which explains the 1.459 ng/(s.m.Pa) that
    some tables print for the perm inch instead of 1.453. ASTM E96 and the trade use the perm of 0 degrees C.
    """
    import pint

    units: pint.UnitRegistry[Any] = pint.UnitRegistry(non_int_type=Fraction)  # so that 1 ft is 0.3048 m and no less
    units.define("perm = grain / (hour * foot ** 2 * inch_Hg_32F)")
    return units


def conversion(pint_unit: str, dimension: str) -> Conversion:
    """Return how `pint_unit` becomes the SI unit of `dimension`. Raises pint's errors where it cannot."""
    units = registry()
    si = DIMENSIONS[dimension].si_unit
    factor = units.Quantity(Fraction(1), _as_difference(pint_unit)).to(si).magnitude
    zero = units.Quantity(Fraction(0), pint_unit).to(si).magnitude if dimension == "temperature" else 0
    return Conversion(float(factor), float(zero))


def _as_difference(pint_unit: str) -> str:
    """Return the unit of a difference for a unit of a temperature; any other unit unchanged."""
    return f"delta_{pint_unit}" if pint_unit in ("degF", "degC") else pint_unit


@cache
def unlisted(above: tuple[str, ...], below: tuple[str, ...]) -> dict[str, Conversion]:
    """Return the conversion, by dimension, of a unit given by its factors; an empty dict where pint knows no such unit.

    A permeability, in SI, has the dimension of a time, and pint cannot tell them apart: a product of several units is
    taken for a permeability, a single word for a time.
    """
    import pint

    if not all(_is_plain(word) for word in above + below):
        return {}
    expression = " * ".join(map(_power, above)) or "1"
    if below:
        expression += " / (" + " * ".join(map(_power, below)) + ")"
    try:
        dimensionality = registry().parse_units(expression).dimensionality
        single = len(above) == 1 and not below
        return {
            name: conversion(expression, name)
            for name, dimension in DIMENSIONS.items()
            if registry().parse_units(dimension.si_unit).dimensionality == dimensionality
            and not _is_another_reading(name, single)
        }
    except (pint.PintError, ArithmeticError, AttributeError, TypeError, ValueError):
        return {}


def _is_another_reading(dimension: str, single_word: bool) -> bool:
    """Tell whether `dimension` only shares its SI base units with what was written."""
    if dimension in ("angle", "temperature"):
        return True
    return dimension in (("permeability", "permeance") if single_word else ("time",))


def _power(word: str) -> str:
    """Write "ft2" as "ft ** 2"."""
    name = word.rstrip("23^")
    return f"{name} ** {word[-1]}" if word[-1] in "23" else name


def _is_plain(word: str) -> bool:
    """Tell whether pint knows this word as a unit, and not merely as an odd prefix before one."""
    found = registry().parse_unit_name(word.rstrip("23^"))
    return bool(found) and all(not prefix or name in _PREFIXED for prefix, name, _plural in found[:1])
