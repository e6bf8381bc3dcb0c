"""Comparing two values of one kind: with the ruleset's tolerance, and with nominal metric sizes where it allows them.

Amounts are compared in SI units to a relative tolerance. Temperatures have no zero that a ratio could start from, so
that theirs is always one part in a million of the absolute temperature. Sizes, counts and words are compared exactly.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from speccheck.language.core import Relation
from speccheck.language.values import Single
from speccheck.quantities import NominalSize, Quantity, convert, write_fraction

TEMPERATURE_TOLERANCE = 1e-6

# Nominal insulation thicknesses in mm and the inches they stand for: the headings of the dimension tables for pipe and
# tube insulation, ASHRAE Handbook - Fundamentals 2021 (SI), chapter 23, tables 13 to 16 (ASTM C585 sizes).
NOMINAL_INCHES: dict[int, Fraction] = {
    13: Fraction(1, 2),
    19: Fraction(3, 4),
    25: Fraction(1),
    38: Fraction(3, 2),
    50: Fraction(2),
    63: Fraction(5, 2),
    75: Fraction(3),
    88: Fraction(7, 2),
    100: Fraction(4),
    113: Fraction(9, 2),
    125: Fraction(5),
}


@dataclass(frozen=True, slots=True)
class Rules:
    """How values are compared: the relative tolerance, and whether nominal metric sizes may stand for inch sizes."""

    tolerance: float = 1e-6
    nominal_metric: bool = False


def compare(left: Single, relation: Relation, right: Single, rules: Rules) -> tuple[bool, str]:
    """Return whether `left` stands in `relation` to `right`, and a note where a nominal size stood for another."""
    note = ""
    if rules.nominal_metric and isinstance(left, Quantity) and isinstance(right, Quantity):
        left, right, note = _nominal(left, right)
    if relation is Relation.EQUAL:
        return _equal(left, right, rules), note
    if relation is Relation.NOT_EQUAL:
        return not _equal(left, right, rules), note
    below = bare(left) < bare(right)
    equal = _equal(left, right, rules)
    if relation is Relation.AT_LEAST:
        return equal or not below, note
    if relation is Relation.AT_MOST:
        return equal or below, note
    if relation is Relation.LESS_THAN:
        return below and not equal, note
    return not below and not equal, note


def bare(value: Single) -> float:
    """Return the number to compare: SI for a quantity, inches for a nominal size."""
    if isinstance(value, Quantity):
        return value.value
    if isinstance(value, NominalSize):
        return float(value.inches)
    assert isinstance(value, int | float), value
    return float(value)


def _equal(left: Single, right: Single, rules: Rules) -> bool:
    if left == right:
        return True
    if isinstance(left, Quantity) and isinstance(right, Quantity):
        tolerance = TEMPERATURE_TOLERANCE if left.dimension == "temperature" else rules.tolerance
        return math.isclose(left.value, right.value, rel_tol=tolerance)
    if isinstance(left, str | frozenset | NominalSize | bool) or isinstance(
        right, str | frozenset | NominalSize | bool
    ):
        return False
    return math.isclose(bare(left), bare(right), rel_tol=rules.tolerance)


def _nominal(left: Quantity, right: Quantity) -> tuple[Quantity, Quantity, str]:
    """Return both, the metric one as its nominal inch size where the other is in inches and the list has it."""
    if left.dimension != "length" or {left.unit, right.unit} != {"mm", "in"}:
        return left, right, ""
    metric = left if left.unit == "mm" else right
    inches = _inches(metric)
    if inches is None:
        return left, right, ""
    stand_in = Quantity(convert(float(inches), "in", "m"), "length", "in")
    note = f"{metric} stands for {write_fraction(float(inches))} in (nominal sizes)"
    return (stand_in, right, note) if metric is left else (left, stand_in, note)


def _inches(metric: Quantity) -> Fraction | None:
    millimetres = metric.in_unit("mm")
    nearest = round(millimetres)
    return NOMINAL_INCHES.get(nearest) if math.isclose(millimetres, nearest, rel_tol=1e-9) else None
