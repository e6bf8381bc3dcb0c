"""Calculating: two values added, subtracted, multiplied, divided or held against each other, in SI units."""

from __future__ import annotations

import math

from speccheck.engine.comparing import bare
from speccheck.language.core import Arithmetic, Operation
from speccheck.language.kinds import Form
from speccheck.language.values import Single
from speccheck.language.wording import value_text
from speccheck.quantities import DIMENSIONS, Quantity

# A sum or a difference smaller than this part of what went into it is a rounding of the machine's and stands for 0,
# so that 38.1 mm minus 1-1/2 in is not below zero. Sixteen digits are kept, four of them are given away.
ROUNDING = 1e-12

# Amounts from here on are not worked with: in another unit they could be beyond the numbers of the machine.
TOO_LARGE = 1e250


def calculate(node: Arithmetic, left: Single, right: Single) -> tuple[Single | None, str]:
    """Return the result of a calculation, or None and the cause ("1 in divided by 0 is a division by zero", ...)."""
    if node.operation in (Operation.LARGER, Operation.SMALLER):
        take_left = (bare(left) >= bare(right)) is (node.operation is Operation.LARGER)
        return (left if take_left else right), ""
    words = f"{value_text(left)} {node.operation} {value_text(right)}"
    if node.operation is Operation.DIVIDED_BY and bare(right) == 0:
        return None, f"{words} is a division by zero"
    number = _number(node.operation, bare(left), bare(right))
    if not abs(number) < TOO_LARGE:
        return None, f"{words} has no finite value"
    if node.kind.form is not Form.QUANTITY:
        return number, ""
    return Quantity(number, node.kind.dimension, _unit(node, left, right)), ""


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


def adjust(thickness: Single, stated: Single, proposed: Single, diameter: Single) -> tuple[Single | None, str]:
    """Return a thickness adjusted from the stated conductivity to the proposed one, or None and the cause.

    T = r [(1 + t/r)^(K/k) - 1] with the actual outside radius r: ASHRAE 90.1, note to the tables of pipe insulation.
    """
    assert isinstance(thickness, Quantity), thickness
    words = [value_text(value) for value in (thickness, stated, proposed, diameter)]
    radius, ratio = bare(diameter) / 2, bare(proposed) / bare(stated) if bare(stated) else math.inf
    if not (radius > 0 and math.isfinite(radius) and ratio > 0 and math.isfinite(ratio)):
        return None, "{} cannot be adjusted from {} to {} around {}".format(*words)
    try:
        adjusted = radius * math.expm1(ratio * math.log1p(thickness.value / radius))
    except OverflowError:
        adjusted = math.inf
    if not abs(adjusted) < TOO_LARGE:
        return None, "{} adjusted from {} to {} around {} has no finite value".format(*words)
    return Quantity(adjusted, thickness.dimension, thickness.unit), ""
