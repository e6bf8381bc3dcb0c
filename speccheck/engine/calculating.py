"""Calculating: two values added, subtracted, multiplied, divided or held against each other, in SI units."""

from __future__ import annotations

import math

from speccheck.engine.comparing import bare
from speccheck.language.core import Arithmetic, Operation
from speccheck.language.kinds import Form
from speccheck.language.values import Single
from speccheck.quantities import DIMENSIONS, Quantity


def calculate(node: Arithmetic, left: Single, right: Single) -> tuple[Single | None, str]:
    """Return the result of a calculation, or None and the cause ("division by zero", ...)."""
    if node.operation in (Operation.LARGER, Operation.SMALLER):
        take_left = (bare(left) >= bare(right)) is (node.operation is Operation.LARGER)
        return (left if take_left else right), ""
    first, second = bare(left), bare(right)
    if node.operation is Operation.DIVIDED_BY and second == 0:
        return None, f"{left} divided by {right} is a division by zero"
    number = {
        Operation.PLUS: lambda: first + second,
        Operation.MINUS: lambda: first - second,
        Operation.TIMES: lambda: first * second,
        Operation.DIVIDED_BY: lambda: first / second,
    }[node.operation]()
    if not math.isfinite(number):
        return None, f"{left} {node.operation} {right} has no finite value"
    if node.kind.form is not Form.QUANTITY:
        return number, ""
    return Quantity(number, node.kind.dimension, _unit(node, left, right)), ""


def _unit(node: Arithmetic, left: Single, right: Single) -> str:
    """Return the unit to show a result in: that of an operand of its dimension, else the usual one."""
    for operand in (left, right):
        if isinstance(operand, Quantity) and operand.dimension == node.kind.dimension:
            return operand.unit
    if isinstance(left, Quantity) and left.dimension == "temperature" and left.unit in ("F", "C"):
        return "F" if left.unit == "F" else "K"
    return DIMENSIONS[node.kind.dimension].inch_pound
