"""Two values calculated with and compared: with the ruleset's tolerance, and with nominal metric sizes where it lets
them.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import Enum, auto
from fractions import Fraction

from speccheck.language.core import Arithmetic, Operation, Order, Relation, Ruleset
from speccheck.language.vocabulary.terms import Form
from speccheck.language.vocabulary.values import Single
from speccheck.quantities import DIMENSIONS, NominalSize, Quantity, convert

TEMPERATURE_TOLERANCE = 1e-6

# Nominal insulation thicknesses in mm and the inches they stand for: the headings of the dimension tables for pipe and
# tube insulation, ASHRAE Handbook - Fundamentals 2021 (SI), chapter 23, tables 13 to 16 (ASTM C585 sizes). After them
# the whole millimetres nearest to these inches, as table 2 of the same chapter prints them: 51 mm is 2 in as 50 mm is.
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
    51: Fraction(2),
    64: Fraction(5, 2),
    76: Fraction(3),
    89: Fraction(7, 2),
    102: Fraction(4),
    114: Fraction(9, 2),
    127: Fraction(5),
}

# How far apart, relative, one length may come out in two units: so near, it is the inch size a metric one stands for.
SAME_LENGTH = 1e-6

# A nominal size is the same size however its millimetres are written: 5 cm and 0.05 m are 50 mm.
METRIC_LENGTHS = ("mm", "cm", "m")


@dataclass(frozen=True, slots=True)
class Rules:
    """How values are compared: the relative tolerance, and whether nominal metric sizes may stand for inch sizes.

    `system` ("inch-pound" or "metric") is that in which sizes are written in messages. `stocked` are the thicknesses
    (m) in which insulation can be had by the ruleset, rising; none where it does not say, and those of the system
    count.
    """

    tolerance: float = 1e-6
    nominal_metric: bool = False
    system: str = "inch-pound"
    stocked: tuple[float, ...] = ()

    @classmethod
    def of(cls, ruleset: Ruleset) -> Rules:
        """Return the rules of a ruleset."""
        said = ruleset.stocked.get("thickness", ())
        stocked = sorted({value.value for value in said if isinstance(value, Quantity) and value.value > 0})
        return cls(ruleset.tolerance, ruleset.nominal_metric, ruleset.units, tuple(stocked))


EXACTLY = Rules(tolerance=0.0)


@dataclass(frozen=True, slots=True)
class NominalStandIn:
    """A nominal metric size that was compared as the inch size it stands for."""

    metric: Quantity
    inches: Fraction


def compare(left: Single, relation: Relation, right: Single, rules: Rules) -> tuple[bool, NominalStandIn | None]:
    """Return whether `left` stands in `relation` to `right`, and the stand-in where only a nominal size makes it so."""
    truth = _stands(left, relation, right, rules)
    if rules.nominal_metric and isinstance(left, Quantity) and isinstance(right, Quantity):
        nominal_left, nominal_right, stand_in = _nominal(left, right)
        by_name = _stands(nominal_left, relation, nominal_right, rules)
        return by_name, stand_in if by_name is not truth else None
    return truth, None


def _stands(left: Single, relation: Relation, right: Single, rules: Rules) -> bool:
    if _equal(left, right, rules):
        return Order.AT in relation.order
    if not relation.is_limit:
        return Order.AT not in relation.order
    return (Order.BELOW if bare(left) < bare(right) else Order.ABOVE) in relation.order


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


def _nominal(left: Quantity, right: Quantity) -> tuple[Quantity, Quantity, NominalStandIn | None]:
    """Return both, the metric one in inches where the other is the inch size that it stands for.

    Beside any other length it is as long as it is: 4.49 in is more than 113 mm, which stands for 4-1/2 in.
    """
    metric, other = (left, right) if left.unit in METRIC_LENGTHS else (right, left)
    if metric.unit not in METRIC_LENGTHS or other.unit != "in":
        return left, right, None
    inches = _inches(metric)
    if inches is None or not math.isclose(convert(float(inches), "in", "m"), other.value, rel_tol=SAME_LENGTH):
        return left, right, None
    stand_in = NominalStandIn(metric, inches)
    return (other, right, stand_in) if metric is left else (left, other, stand_in)


def _inches(metric: Quantity) -> Fraction | None:
    millimetres = metric.in_unit("mm")
    if math.isinf(millimetres):
        return None
    nearest = round(millimetres)
    return NOMINAL_INCHES.get(nearest) if math.isclose(millimetres, nearest, rel_tol=1e-9) else None


# A sum or a difference smaller than this part of what went into it is a rounding of the machine's and stands for 0,
# so that 38.1 mm minus 1-1/2 in is not below zero. Sixteen digits are kept, four of them are given away.
ROUNDING = 1e-12

# Amounts from here on are not worked with: in another unit they could be beyond the numbers of the machine.
TOO_LARGE = 1e250


class Hindrance(Enum):
    """What keeps a calculation from having a result."""

    DIVISION_BY_ZERO = auto()
    NOT_FINITE = auto()
    NOT_ADJUSTABLE = auto()


@dataclass(frozen=True, slots=True, eq=False)
class NoResult:
    """A calculation with certain values has no result: an operation on two, or an adjusted thickness."""

    values: tuple[Single, ...]
    hindrance: Hindrance
    operation: Operation | None = None


def calculate(node: Arithmetic, left: Single, right: Single) -> Single | NoResult:
    """Return the result of a calculation, or why it has none."""
    if node.operation in (Operation.LARGER, Operation.SMALLER):
        take_left = (bare(left) >= bare(right)) is (node.operation is Operation.LARGER)
        return left if take_left else right
    if node.operation is Operation.DIVIDED_BY and bare(right) == 0:
        return NoResult((left, right), Hindrance.DIVISION_BY_ZERO, node.operation)
    number = _number(node.operation, bare(left), bare(right))
    if not abs(number) < TOO_LARGE:
        return NoResult((left, right), Hindrance.NOT_FINITE, node.operation)
    if node.kind.form is not Form.QUANTITY:
        return number
    return Quantity(number, node.kind.dimension, _unit(node, left, right))


def _number(operation: Operation, left: float, right: float) -> float:
    """Return the bare result; infinite where it is too large for the machine."""
    if operation is Operation.TIMES:
        return left * right
    if operation is Operation.DIVIDED_BY:
        return left / right
    total = left + right if operation is Operation.PLUS else left - right
    negligible = math.isfinite(total) and abs(total) <= ROUNDING * max(abs(left), abs(right))
    return 0.0 if negligible else total


def _unit(node: Arithmetic, left: Single, right: Single) -> str:
    """Return the unit to show a result in: that of an operand of its dimension, else the usual one."""
    for operand in (left, right):
        if isinstance(operand, Quantity) and operand.dimension == node.kind.dimension:
            return operand.unit
    if isinstance(left, Quantity) and left.dimension == "temperature" and left.unit in ("F", "C"):
        return "F" if left.unit == "F" else "K"
    return DIMENSIONS[node.kind.dimension].inch_pound


def adjust(thickness: Single, stated: Single, proposed: Single, diameter: Single) -> Single | NoResult:
    """Return a thickness adjusted from the stated conductivity to the proposed one, or why there is none.

    T = r [(1 + t/r)^(K/k) - 1] with the actual outside radius r: ASHRAE 90.1, note to the tables of pipe insulation.
    """
    assert isinstance(thickness, Quantity), thickness
    values = (thickness, stated, proposed, diameter)
    radius, ratio = bare(diameter) / 2, bare(proposed) / bare(stated) if bare(stated) else math.inf
    if not (radius > 0 and math.isfinite(radius) and ratio > 0 and math.isfinite(ratio)):
        return NoResult(values, Hindrance.NOT_ADJUSTABLE)
    try:
        adjusted = radius * math.expm1(ratio * math.log1p(thickness.value / radius))
    except (OverflowError, ValueError):  # or a layer that leaves no radius at all
        adjusted = math.inf
    if not abs(adjusted) < TOO_LARGE:
        return NoResult(values, Hindrance.NOT_FINITE)
    return Quantity(adjusted, thickness.dimension, thickness.unit)
