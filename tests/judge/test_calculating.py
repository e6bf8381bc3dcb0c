"""Calculating: every operation against ordinary arithmetic on SI values, and what has no result."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.judge.explain.causes import cause_text
from speccheck.judge.operations import NoResult, adjust, calculate
from speccheck.language.core import Arithmetic, Literal, Operation
from speccheck.language.vocabulary.terms import NUMBER, quantity_kind
from speccheck.language.vocabulary.values import Single
from speccheck.quantities import Quantity

LENGTH = quantity_kind("length")


def length(metres: float, unit: str = "in") -> Quantity:
    """Return a length."""
    return Quantity(metres, "length", unit)


def conductivity(value: float) -> Quantity:
    """Return a conductivity in W/(m.K)."""
    return Quantity(value, "conductivity", "W/(m.K)")


def of_lengths(operation: Operation, left: float, right: float) -> Single | NoResult:
    """Return what a calculation with two lengths comes to."""
    node = Arithmetic(operation, Literal(0.0, LENGTH), Literal(0.0, LENGTH), LENGTH)
    return calculate(node, length(left, "m"), length(right, "m"))


def words(found: Single | NoResult) -> str:
    """Return in words why a calculation has no result."""
    assert isinstance(found, NoResult), found
    return cause_text(found, "inch-pound")


metres = st.floats(1e-6, 1e6)


@given(metres, metres)
def test_sums_differences_and_the_larger_of_two_are_those_of_the_numbers(left: float, right: float) -> None:
    """Lengths add, subtract and compare as their SI values do, to the rounding of the machine."""
    expected = {
        Operation.PLUS: left + right,
        Operation.MINUS: left - right,
        Operation.LARGER: max(left, right),
        Operation.SMALLER: min(left, right),
    }
    for operation, number in expected.items():
        found = of_lengths(operation, left, right)
        assert isinstance(found, Quantity)
        assert found.value == pytest.approx(number, rel=1e-9, abs=1e-11 * max(left, right))


@given(metres, st.floats(-6, 6))
def test_products_and_quotients_with_numbers_are_those_of_the_numbers(left: float, right: float) -> None:
    """A length times or divided by a plain number is a length."""
    for operation in (Operation.TIMES, Operation.DIVIDED_BY):
        node = Arithmetic(operation, Literal(0.0, LENGTH), Literal(0.0, NUMBER), LENGTH)
        found = calculate(node, length(left), right)
        if operation is Operation.DIVIDED_BY and right == 0:
            assert words(found).endswith("divided by 0 is a division by zero")
        elif isinstance(found, Quantity):
            assert found.value == (left * right if operation is Operation.TIMES else left / right)
        else:
            assert words(found).endswith("has no finite value")


@pytest.mark.parametrize(
    ("operation", "left", "right", "cause"),
    [
        (Operation.PLUS, math.inf, 1.0, "unlimited plus 1 m has no finite value"),
        (Operation.MINUS, math.inf, math.inf, "unlimited minus unlimited has no finite value"),
        (Operation.PLUS, 8e249, 8e249, "8e+249 m plus 8e+249 m has no finite value"),
    ],
)
def test_what_has_no_finite_value_is_a_cause(operation: Operation, left: float, right: float, cause: str) -> None:
    """A calculation without a finite result comes to nothing, with the cause in words."""
    assert words(of_lengths(operation, left, right)) == cause


def test_a_rounding_of_the_machine_is_nothing() -> None:
    """One and a half inches less 38.1 mm is exactly nothing, not a hair below it."""
    found = of_lengths(Operation.MINUS, 1.5 * 0.0254, 0.0381 + 7e-18)
    assert found == length(0.0, "m")


@given(st.floats(0.005, 0.15), st.floats(0.01, 0.5), st.floats(0.02, 0.08), st.floats(0.02, 0.08))
def test_an_adjusted_thickness_keeps_the_resistance(
    thickness: float, diameter: float, stated: float, proposed: float
) -> None:
    """The adjusted thickness at the proposed conductivity resists as the stated one at the stated conductivity.

    ln(1 + t/r) / k is the resistance of a hollow cylinder for a unit of length, but for 2 pi.
    """
    found = adjust(length(thickness), conductivity(stated), conductivity(proposed), length(diameter))
    assert isinstance(found, Quantity)
    radius = diameter / 2
    resistance = math.log1p(thickness / radius) / stated
    assert math.log1p(found.value / radius) / proposed == pytest.approx(resistance, rel=1e-9)


@pytest.mark.parametrize(("diameter", "stated"), [(0.0, 0.04), (math.inf, 0.04), (0.1, 0.0), (0.1, 1e-300)])
def test_an_adjustment_out_of_its_range_is_a_cause(diameter: float, stated: float) -> None:
    """Without a diameter, without a conductivity, or beyond all numbers there is no adjusted thickness."""
    assert "adjusted from" in words(adjust(length(0.025), conductivity(stated), conductivity(0.04), length(diameter)))
