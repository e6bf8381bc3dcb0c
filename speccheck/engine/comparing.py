"""Comparing two values of one kind: with the ruleset's tolerance, and with nominal metric sizes where it allows them.

Amounts are compared in SI units to a relative tolerance. Temperatures have no zero that a ratio could start from, so
that theirs is always one part in a million of the absolute temperature. Sizes, counts and words are compared exactly:
counts look like other numbers here, so that the caller gives `EXACTLY` for them.
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
    """How values are compared: the relative tolerance, and whether nominal metric sizes may stand for inch sizes.

    `system` ("inch-pound" or "metric") is that in which sizes are written in messages.
    """

    tolerance: float = 1e-6
    nominal_metric: bool = False
    system: str = "inch-pound"


EXACTLY = Rules(tolerance=0.0)


def compare(left: Single, relation: Relation, right: Single, rules: Rules) -> tuple[bool, str]:
    """Return whether `left` stands in `relation` to `right`, and a note where that is so only by a nominal size."""
    truth = _stands(left, relation, right, rules)
    if rules.nominal_metric and isinstance(left, Quantity) and isinstance(right, Quantity):
        nominal_left, nominal_right, note = _nominal(left, right)
        by_name = _stands(nominal_left, relation, nominal_right, rules)
        return by_name, note if by_name is not truth else ""
    return truth, ""


def _stands(left: Single, relation: Relation, right: Single, rules: Rules) -> bool:
    equal = _equal(left, right, rules)
    match relation:
        case Relation.EQUAL:
            return equal
        case Relation.NOT_EQUAL:
            return not equal
        case Relation.AT_LEAST:
            return equal or bare(left) > bare(right)
        case Relation.AT_MOST:
            return equal or bare(left) < bare(right)
        case Relation.LESS_THAN:
            return not equal and bare(left) < bare(right)
        case Relation.MORE_THAN:
            return not equal and bare(left) > bare(right)


def bare(value: Single) -> float:
    """Return the number to compare: SI for a quantity, inches for a nominal size."""
    if isinstance(value, Quantity):
        return value.value
    if isinstance(value, NominalSize):
        return value.rank
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
    if math.isinf(millimetres):
        return None
    nearest = round(millimetres)
    return NOMINAL_INCHES.get(nearest) if math.isclose(millimetres, nearest, rel_tol=1e-9) else None
