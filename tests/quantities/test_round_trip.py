"""Properties: text to value to text to value, intervals, and reading of arbitrary text."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.quantities import (
    Interval,
    Misread,
    Quantity,
    Reading,
    as_number,
    as_quantity,
    as_size,
    convert,
    quantity,
    read,
    write_fraction,
)
from tests.strategies.quantities import inches, quantities, quantity_intervals, units

# What people type, so that arbitrary text comes near to a quantity.
NEARLY = st.text(alphabet="0123456789/-–.,½¼\"'″′ °%<>=≤≥&+()×·²aAbcdefFghiImnoprRstuvwx", max_size=30)


def same(first: Quantity | None, second: Quantity | None) -> bool:
    """Tell whether two quantities are the same within 1e-9 relative, in the same unit."""
    if first is None or second is None:
        return first is second
    alike = math.isclose(first.value, second.value, rel_tol=1e-9, abs_tol=1e-24)
    return alike and (first.dimension, first.unit) == (second.dimension, second.unit)


@given(quantities())
def test_text_to_value_to_text_to_value(case: tuple[str, Quantity]) -> None:
    """The value of a text is the expected one, and writing it and reading it again gives it once more."""
    text, expected = case
    found = as_quantity(read(text), expected.dimension)
    assert isinstance(found, Quantity)
    assert same(found, expected)
    again = as_quantity(read(str(found)), expected.dimension)
    assert isinstance(again, Quantity)
    assert same(again, expected)
    assert str(again) == str(found)


@given(quantity_intervals())
def test_a_range_of_quantities_there_and_back(case: tuple[str, Interval[Quantity]]) -> None:
    """A range keeps its ends and whether they belong to it, through text and back."""
    text, expected = case
    for written in (text, str(expected)):
        found = as_quantity(read(written), (expected.low or expected.high).dimension)  # type: ignore[union-attr]
        assert isinstance(found, Interval)
        assert same(found.low, expected.low)
        assert same(found.high, expected.high)
        assert (found.low_closed, found.high_closed) == (expected.low_closed, expected.high_closed)


@given(quantity_intervals(dimension="length"), st.data())
def test_the_unit_of_a_value_does_not_change_whether_it_is_in_a_range(
    case: tuple[str, Interval[Quantity]], data: st.DataObject
) -> None:
    """A value given in another unit lies in the same ranges, also where it is exactly an end."""
    _, interval = case
    ends = [end for end in (interval.low, interval.high) if end is not None]
    value = data.draw(st.sampled_from(ends) | quantities("length").map(lambda pair: pair[1]))
    unit = data.draw(units("length"))
    number = value.in_unit(unit)
    in_other_unit = Quantity(convert(number, unit, "m"), "length", unit)
    assert interval.contains(value) == interval.contains(in_other_unit)


@given(quantity_intervals())
def test_an_end_lies_in_its_range_where_it_is_closed(case: tuple[str, Interval[Quantity]]) -> None:
    """A closed end belongs to its range and an open one does not."""
    _, interval = case
    if interval.low is not None:
        assert interval.contains(interval.low) == interval.low_closed
    if interval.high is not None:
        assert interval.contains(interval.high) == interval.high_closed


def test_the_end_of_a_range_holds_in_another_unit() -> None:
    """45 C is 113 F, so that it lies in "up to 113 F" and not in "under 113 F"."""
    assert Interval(None, quantity("113 F", "temperature")).contains(quantity("45 C", "temperature"))
    assert not Interval(None, quantity("113 F", "temperature"), high_closed=False).contains(
        quantity("45 C", "temperature")
    )


def test_each_end_of_a_range_keeps_its_own_unit() -> None:
    """ "40 C to 140 F" is 104 F to 140 F: neither end takes the unit of the other (40 C is 104 F by definition)."""
    found = as_quantity(read("40 C to 140 F"), "temperature")
    assert isinstance(found, Interval)
    assert (str(found.low), str(found.high)) == ("40 C", "140 F")
    assert found.contains(quantity("105 F", "temperature"))
    assert not found.contains(quantity("100 F", "temperature"))


@given(quantity_intervals(), quantity_intervals())
def test_a_range_holds_another_where_it_holds_its_ends(
    one: tuple[str, Interval[Quantity]], other: tuple[str, Interval[Quantity]]
) -> None:
    """A range holds itself, and another with two ends of its own kind only if each closed end lies in it."""
    outer, inner = one[1], other[1]
    assert outer.holds(outer)
    ends = [end for end in (inner.low, inner.high, outer.low, outer.high) if end is not None]
    if len({end.dimension for end in ends}) == 1 and outer.holds(inner):
        assert inner.low is None or not inner.low_closed or outer.contains(inner.low)
        assert inner.high is None or not inner.high_closed or outer.contains(inner.high)


@pytest.mark.parametrize("size", [1e-30, 1e-11, 1e-3, 1.0, 300.0, 1e9, 1e30])
def test_ranges_are_as_fine_for_small_numbers_as_for_large_ones(size: float) -> None:
    """What is a thousandth over an end lies outside and conversion dust does not, be it permeabilities or pressures."""
    whole = Interval(None, size)
    assert whole.contains(size * (1 + 1e-12))
    assert whole.holds(Interval(size * (1 + 1e-12), size * (1 + 1e-12)))
    assert not whole.contains(size * 1.001)
    assert not whole.holds(Interval(size, size * 1.001))


def test_a_range_refuses_values_of_another_kind() -> None:
    """Comparing a length with a temperature or with a plain number is a bug of ours, and raises."""
    thickness = Interval(quantity("1 in", "length"), None)
    with pytest.raises(ValueError, match="temperature cannot be compared with length"):
        thickness.contains(quantity("1 F", "temperature"))
    with pytest.raises(ValueError, match="cannot be compared"):
        thickness.contains(1.0)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("interval", "written"),
    [
        (Interval(1.0, 2.0), "1 through 2"),
        (Interval(1.0, 2.0, low_closed=False, high_closed=False), "over 1 to under 2"),
        (Interval(None, None), "any"),
    ],
)
def test_a_range_of_numbers_is_written_in_words(interval: Interval[float], written: str) -> None:
    """A range of plain numbers is written like any other."""
    assert str(interval) == written


def test_a_negative_resistance_is_written_with_its_unit() -> None:
    """An R mark does not take a sign, so that a negative difference of resistances is written as 6 h.ft2.F/Btu is."""
    assert str(Quantity(-convert(6, "R", "RSI"), "thermal resistance", "R")) == "-6 h.ft2.F/Btu"


def test_two_readings_of_a_hyphen() -> None:
    """ "1-1/2" is one and a half, "1-2" a range, and a hyphen before the first number a sign."""
    assert as_number(read("1-1/2")) == as_number(read("1 - 1/2")) == 1.5
    assert as_number(read("1-2")) == Interval(1.0, 2.0)
    assert as_number(read("-1-1/2")) == -1.5
    assert as_number(read("1/2-1-1/4")) == Interval(0.5, 1.25)


@given(inches())
def test_sixteenths_are_written_as_fractions(number: Fraction) -> None:
    """A multiple of 1/16 in, also with float dust on it, is written as a fraction that reads as that multiple."""
    for value in (float(number), float(number) * (1 + 4e-16), convert(convert(float(number), "in", "mm"), "mm", "in")):
        text = write_fraction(value)
        assert "." not in text
        whole, _, rest = text.partition("-")
        assert Fraction(whole) + Fraction(rest or 0) == number


@pytest.mark.parametrize(
    ("value", "written"),
    [
        (1.5, "1-1/2"),
        (1.4999999999999998, "1-1/2"),
        (0.03125, "1/32"),
        (2.015625, "2-1/64"),
        (0.016, "0.016"),
        (0.1 + 0.2, "0.3"),
        (1.4999, "1.4999"),
        (1.49999999, "1.5"),
        (38 / 25.4, "1.49606"),
        (0.0, "0"),
        (-0.5, "-1/2"),
        (-1.5, "-1-1/2"),
    ],
)
def test_a_number_of_inches_is_written_without_dust(value: float, written: str) -> None:
    """Fractions where they are sixteenths to sixty-fourths, otherwise at most six significant digits."""
    assert write_fraction(value) == written


@given(st.text() | NEARLY)
def test_reading_never_raises(text: str) -> None:
    """Arbitrary text gives a Reading or a Misread, and asking it for any kind gives a value or a Misread."""
    found = read(text)
    assert isinstance(found, Reading | Misread)
    for answer in (as_number(found), as_size(found), as_quantity(found, "length"), as_quantity(found, "ratio", "%")):
        if isinstance(answer, Misread):
            assert answer.text == text
            assert 0 <= answer.start <= answer.end <= len(text)
            assert answer.message
            assert not any(name in answer.message for name in ("UNIT", "NUMBER", "MARK", "$END", "Token"))
        else:
            assert all(math.isfinite(float(amount.number)) for amount in found.amounts)  # type: ignore[union-attr]
