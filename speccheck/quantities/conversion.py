"""From the spelling of a unit to its canonical name, its dimensions and its conversion to SI; pint comes late, for
rare units.
"""

from __future__ import annotations

import json
import re
from collections import defaultdict
from collections.abc import Iterable, Mapping
from fractions import Fraction
from functools import cache, lru_cache
from itertools import chain, product
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from speccheck.quantities.units import DIMENSIONS, RUN_TOGETHER, SPELLINGS, UNITS

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
    read as a permeability, a single word for a time.
    """
    if not _may_measure(above, below):
        return {}
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


def _may_measure(above: tuple[str, ...], below: tuple[str, ...]) -> bool:
    """Tell whether pint may know a unit of these factors that measures what we know, without loading pint.

    Most words behind a number are no units at all, and "N/A", which pint reads as newtons by the ampere, measures
    nothing of ours.
    """
    readings = [_base_dimensions(word, 1) for word in above] + [_base_dimensions(word, -1) for word in below]
    return any(_product(factors) in _pint_words().measured for factors in product(*readings))


def _base_dimensions(word: str, sign: int) -> list[_BaseDimensions]:
    """Return what a word may measure as pint reads it, in base dimensions: as a unit, or as a prefix before one."""
    known = _pint_words()
    name, power = word.rstrip("23^"), sign * (int(word[-1]) if word[-1] in "23" else 1)
    found = []
    for length in range(len(name)):
        prefix, rest = name[:length], name[length:]
        for unit in {rest, rest.removesuffix("s")} & known.units.keys() if prefix in known.prefixes else ():
            called, exponents = known.units[unit]
            if not prefix or called in _PREFIXED:
                found.append(tuple((dimension, exponent * power) for dimension, exponent in exponents.items()))
    return found


def _product(factors: Iterable[_BaseDimensions]) -> frozenset[tuple[str, float]]:
    """Return the base dimensions of a product, without those that cancel out."""
    total: dict[str, float] = defaultdict(float)
    for dimension, exponent in chain.from_iterable(factors):
        total[dimension] += exponent
    return frozenset((dimension, exponent) for dimension, exponent in total.items() if exponent)


def _is_plain(word: str) -> bool:
    """Tell whether pint knows this word as a unit, and not merely as an odd prefix before one."""
    found = registry().parse_unit_name(word.rstrip("23^"))
    return bool(found) and all(not prefix or name in _PREFIXED for prefix, name, _plural in found[:1])


Factors = tuple[tuple[str, ...], tuple[str, ...]]
"""The words above and below the line of a unit, each side sorted."""

CONVERSIONS_FILE = Path(__file__).with_name("conversions.json")
PINT_WORDS_FILE = Path(__file__).with_name("pint_words.json")

_WORD = re.compile(
    r"(?:sq|cu)\.? ?[a-z]+|° ?[a-z]+|deg(?:rees?)?\.? ?[fc]\b|''|[a-z_]+(?:\^?[23])?|[\"'%°]|/|[^ ]", re.I
)
_SEPARATORS = frozenset(".*-()·")
_BaseDimensions = tuple[tuple[str, float], ...]


@lru_cache(maxsize=4096)
def canonical_unit(text: str) -> str | None:
    """Return the canonical spelling of a unit, or None where nothing is known of it.

    "inches", '"' and "in." give "in"; "BTU.in/hr.ft2.F" gives "Btu.in/(h.ft2.F)". A unit that only pint knows is
    returned as its factors, "a.b/(c.d)", in the words that were written.
    """
    listed = listed_unit(text)
    if listed is not None:
        return listed
    factors = _factors(text.strip())
    return _spelled(factors) if factors is not None and unlisted(*factors) else None


@lru_cache(maxsize=4096)
def listed_unit(text: str) -> str | None:
    """Return the canonical spelling of a unit of the trade's table, or None; pint, slow to import, is not asked."""
    stripped = text.strip()
    if stripped in UNITS:
        return stripped
    squeezed = re.sub(r"[\s.*()^°]", "", stripped).casefold()
    if squeezed in RUN_TOGETHER:
        return RUN_TOGETHER[squeezed]
    factors = _factors(stripped)
    return _by_factors().get(factors) if factors is not None else None


@lru_cache(maxsize=4096)
def conversions(unit: str) -> dict[str, Conversion]:
    """Return the conversions of a unit to SI by the name of the dimension; an empty dict for an unknown unit."""
    canonical = canonical_unit(unit)
    if canonical is None:
        return {}
    listed = _listed().get(canonical)
    if listed is not None:
        return listed
    factors = _factors(canonical)
    return unlisted(*factors) if factors else {}


def unit_dimensions(unit: str) -> tuple[str, ...]:
    """Return the names of the dimensions that a unit can measure; () for an unknown unit."""
    return tuple(conversions(unit))


def convert(value: float, unit: str, to: str, *, difference: bool = False) -> float:
    """Return `value`, given in `unit`, in the unit `to`.

    `difference` says that temperatures are differences: a difference of 9 F is one of 5 C. Raises `ValueError` where
    the units do not measure the same thing.
    """
    first, second = conversions(unit), conversions(to)
    shared = [name for name in first if name in second]
    if difference and "temperature difference" in shared:
        shared = ["temperature difference"]
    if not shared:
        raise ValueError(f"cannot convert {unit!r} to {to!r}")
    return from_si(to_si(value, first[shared[0]]), second[shared[0]])


def to_si(value: float, conversion: Conversion) -> float:
    """Return a value in the SI unit of its dimension."""
    return value * conversion.factor + conversion.offset


def from_si(value: float, conversion: Conversion) -> float:
    """Return an SI value in the unit of `conversion`."""
    return (value - conversion.offset) / conversion.factor


@cache
def _listed() -> dict[str, dict[str, Conversion]]:
    """Return the content of `conversions.json`: unit, dimension, factor and offset."""
    data = json.loads(CONVERSIONS_FILE.read_text(encoding="utf-8"))
    return {
        unit: {name: Conversion(factor, offset) for name, (factor, offset) in found.items()}
        for unit, found in data.items()
    }


class PintWords(NamedTuple):
    """What pint knows: prefixes, what each word for a unit is called and measures; and what `DIMENSIONS` measure."""

    prefixes: frozenset[str]
    units: Mapping[str, tuple[str, Mapping[str, float]]]
    measured: frozenset[frozenset[tuple[str, float]]]


@cache
def _pint_words() -> PintWords:
    """Return the content of `pint_words.json`."""
    data = json.loads(PINT_WORDS_FILE.read_text(encoding="utf-8"))
    measured = frozenset(frozenset(exponents.items()) for exponents in data["measured"])
    return PintWords(frozenset(data["prefixes"]), data["units"], measured)


@cache
def _by_factors() -> dict[Factors, str]:
    """Return the listed units by their factors, the first of two that are alike ("m2.K/W" before none)."""
    found: dict[Factors, str] = {}
    for unit in UNITS:
        factors = _factors(unit)
        if factors is not None:
            found.setdefault(factors, unit)
    return found


def _factors(text: str) -> Factors | None:
    """Split a unit into its words above and below the line, or None where it holds something else than words."""
    above: list[str] = []
    below: list[str] = []
    side = above
    for word in _WORD.findall(text):
        if word == "/":
            side = below
        elif word[0].isalpha() or word[0] in "\"'%°#":
            side.append(_word(word))
        elif word not in _SEPARATORS:
            return None
    if len(above) + len(below) > 1:
        above, below = (["K" if word == "C" else word for word in side] for side in (above, below))
    return (tuple(sorted(above)), tuple(sorted(below))) if above or below else None


def _word(word: str) -> str:
    """Return the canonical word for one word of a unit; the word itself where the table does not have it."""
    folded = re.sub(r"[. ^]", "", word).casefold()
    return SPELLINGS.get(folded, word)


def _spelled(factors: Factors) -> str:
    """Write factors as a unit: "a.b/(c.d)"."""
    above, below = factors
    divisor = ".".join(below)
    if len(below) > 1:
        divisor = f"({divisor})"
    return (".".join(above) or "1") + (f"/{divisor}" if below else "")
