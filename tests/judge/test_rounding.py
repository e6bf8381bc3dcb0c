"""How many digits are written of values that were worked out; what somebody stated stays as it was stated."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.judge import Cell
from speccheck.judge.explain.workings import mark_text, worked_text
from speccheck.quantities import Misread, Quantity, as_quantity, read
from tests.judge.test_explaining import judged


def amount(text: str, dimension: str) -> Quantity:
    """Return a quantity as it is written."""
    found = as_quantity(read(text), dimension)
    assert isinstance(found, Quantity), found
    return found


@pytest.mark.parametrize(
    ("text", "dimension", "written"),
    [
        ("75.77461 F", "temperature", "75.8 F"),
        ("148.96 F", "temperature", "149 F"),
        ("-0.04 F", "temperature", "0 F"),
        ("23.456 C", "temperature", "23.5 C"),
        ("2.374016 in", "length", "2.374 in"),
        ("1-7/16 in", "length", "1-7/16 in"),
        ("3.4375 in", "length", "3-7/16 in"),
        ("0.000123456 in", "length", "0.0001235 in"),
        ("12345.678 ft", "length", "12346 ft"),
        ("R-6.12345", "thermal resistance", "R-6.123"),
        ("0.2876543 Btu.in/(h.ft2.F)", "conductivity", "0.2877 Btu.in/(h.ft2.F)"),
        ("0 in", "length", "0 in"),
    ],
)
def test_worked_out_values_have_four_digits_and_temperatures_a_tenth(text: str, dimension: str, written: str) -> None:
    """Whole numbers and fractions of an inch are kept, everything else is rounded."""
    assert worked_text(amount(text, dimension)) == written


@pytest.mark.parametrize(
    ("number", "written"), [(3 / 7, "0.4286"), (14400.0, "14400"), (2.0, "2"), (1e-9 / 3, "3.333e-10")]
)
def test_worked_out_numbers_have_four_digits(number: float, written: str) -> None:
    """Numbers without a unit are rounded as amounts are."""
    assert worked_text(number) == written


def test_negative_resistance_keeps_a_unit_that_can_be_read() -> None:
    """A difference of two resistances may be below zero, and R--1 is no notation."""
    less = Quantity(-amount("R-1.23456", "thermal resistance").value, "thermal resistance", "R")
    assert worked_text(less) == "-1.235 h.ft2.F/Btu"


@given(st.floats(1e-4, 1e6), st.integers(0, 6))
def test_what_is_written_lies_within_half_of_its_last_digit(inches: float, more: int) -> None:
    """The written amount reads back to one within half a unit of its last digit, the fourth or a later one."""
    full = Quantity(inches * 0.0254, "length", "in")
    again = amount(worked_text(full, more=more), "length")
    assert not isinstance(again, Misread)
    assert abs(again.value - full.value) <= 0.5001e-3 * full.value * 10**-more + 1e-9 * full.value


# ---- where a verdict changes along a range -----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "low", "high", "written"),
    [
        ("44.625 F", "44.4 F", "45 F", "44.6 F"),
        ("113.05 F", "100 F", "120 F", "113.05 F"),
        ("140.0333 F", "140.02 F", "140.04 F", "140.03 F"),
        ("44.66 F", "44 F", "44.68 F", "44.66 F"),
        ("44.6612 F", "44 F", "44.68 F", "44.66 F"),
    ],
)
def test_marks_of_a_range_are_rounded_between_their_neighbours(text: str, low: str, high: str, written: str) -> None:
    """What is as short as a stated value is kept; the rest is rounded, but never past what was tried beside it."""
    value, *others = (amount(each, "temperature") for each in (text, low, high))
    assert mark_text(value, others) == written


# ---- in sentences ------------------------------------------------------------------------------------------------


def reason(clause: str, **stated: str) -> str:
    """Return the reason of the cell of a line by a clause."""
    return judged(clause, **stated).reason


def test_calculations_are_rounded_and_stated_values_are_not() -> None:
    """2.12345 in was stated and stays; a third of it is 0.70781667 in."""
    found = reason("shall thickness divided by 3 be at least 1 in\n", thickness="2.12345 in")
    assert found == "thickness 2.12345 in divided by 3 is 0.7078 in, but must be at least 1 in"


def test_sides_that_would_read_the_same_get_the_digits_that_tell_them_apart() -> None:
    """A third of 2.99997 in is 0.99999 in, which four digits would call 1 in."""
    found = reason("shall thickness divided by 3 be at least 1 in\n", thickness="2.99997 in")
    assert found == "thickness 2.99997 in divided by 3 is 0.99999 in, but must be at least 1 in"


def test_sides_that_are_equal_by_the_tolerance_may_read_the_same() -> None:
    """2.9999999 in is 3 in to one part in a million, so that no digit need tell the two apart."""
    cell = judged("shall thickness divided by 3 be at least 1 in\n", thickness="2.9999999 in")
    assert cell.reason == "thickness 3 in divided by 3 is 1 in, at least 1 in"


def test_converted_values_are_rounded_unless_they_would_read_the_same() -> None:
    """25.3 mm is 0.996063 in; 25.399 mm is 0.99996 in and not 1 in (1 in is 25.4 mm exactly)."""
    clause = "shall thickness be at least 1 in\n"
    assert reason(clause, thickness="25.3 mm") == "thickness is 25.3 mm (0.9961 in), but must be at least 1 in"
    assert reason(clause, thickness="25.399 mm") == "thickness is 25.399 mm (0.99996 in), but must be at least 1 in"


def test_values_of_a_list_are_told_apart_too() -> None:
    """A third of 2.99997 in is none of the listed thicknesses, and does not read like one."""
    found = reason("shall thickness divided by 3 be one of 1 in, 2 in\n", thickness="2.99997 in")
    assert found == "thickness 2.99997 in divided by 3 is 0.99999 in, but must be one of 1 in, 2 in"


def test_the_larger_of_two_stated_values_is_written_as_it_was_stated() -> None:
    """Nothing was worked out: the larger one is one of them."""
    found = reason("shall larger of thickness and 1 in be at least 3 in\n", thickness="2.12345 in")
    assert found == "larger of thickness 2.12345 in and 1 in is 2.12345 in, but must be at least 3 in"


def test_steps_keep_the_full_numbers() -> None:
    """Beside the rounded words each step has the amounts as they were compared."""
    cell: Cell = judged("shall thickness divided by 3 be at least 1 in\n", thickness="2 in")
    assert cell.steps[0].detail.startswith("thickness 2 in divided by 3 is 0.6667 in")
    left, right = cell.steps[0].values
    assert isinstance(left, Quantity)
    assert isinstance(right, Quantity)
    assert left.value == pytest.approx(2 * 0.0254 / 3, rel=1e-15)
    assert right.value == 0.0254
