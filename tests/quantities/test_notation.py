"""Every notation of the trade, text by text, from notation.toml and misread.toml."""

from __future__ import annotations

import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from speccheck.quantities import (
    Interval,
    Misread,
    NominalSize,
    Quantity,
    as_number,
    as_quantity,
    as_size,
    quantity,
    read,
)

FOLDER = Path(__file__).parent
NOTATION = tomllib.loads((FOLDER / "notation.toml").read_text(encoding="utf-8"))
MISREAD = tomllib.loads((FOLDER / "misread.toml").read_text(encoding="utf-8"))


def cases(data: dict[str, list[dict[str, Any]]], kind: str) -> pytest.MarkDecorator:
    """Return the decorator that runs a test on each case of a kind."""
    return pytest.mark.parametrize("case", data[kind], ids=lambda case: case["text"])


def closedness(case: dict[str, Any]) -> tuple[bool, bool]:
    """Return whether the ends of the expected range belong to it."""
    return case.get("open") != "low", case.get("open") != "high"


@cases(NOTATION, "quantity")
def test_a_quantity_is_read_as_written(case: dict[str, Any]) -> None:
    """The number, the unit and the ends of a quantity are those that the text says."""
    found = as_quantity(read(case["text"]), case["dimension"], case.get("bare"))
    if "value" in case:
        assert isinstance(found, Quantity)
        assert (found.dimension, found.unit) == (case["dimension"], case["unit"])
        assert found.in_unit(case["unit"]) == pytest.approx(case["value"], rel=1e-12, abs=1e-9)
    else:
        assert isinstance(found, Interval)
        assert (found.low_closed, found.high_closed) == closedness(case)
        for end, name in ((found.low, "low"), (found.high, "high")):
            assert (end is None) == (name not in case)
            if end is not None:
                assert end.unit == case["unit"]
                assert end.in_unit(case["unit"]) == pytest.approx(case[name], rel=1e-12)


@cases(NOTATION, "quantity")
def test_a_quantity_is_written_as_a_person_would(case: dict[str, Any]) -> None:
    """The text written back is the usual notation, whatever the notation it came in."""
    assert str(as_quantity(read(case["text"]), case["dimension"], case.get("bare"))) == case["shown"]


@cases(NOTATION, "size")
def test_a_size_is_read_as_written(case: dict[str, Any]) -> None:
    """A nominal size, or the ends of a range of sizes, are those that the text says, in inches or in DN."""
    found = as_size(read(case["text"]), case.get("bare"))
    expected: NominalSize | Interval[NominalSize]
    if "size" in case:
        expected = NominalSize(Fraction(case["size"]))
    else:
        low, high = (NominalSize(Fraction(case[name])) if name in case else None for name in ("low", "high"))
        expected = Interval(low, high, *closedness(case))
    assert found == expected
    assert str(found) == case["shown"]


@cases(NOTATION, "number")
def test_a_plain_number_is_read_as_written(case: dict[str, Any]) -> None:
    """A count, or a range of counts, is the number that the text says."""
    expected = case["value"] if "value" in case else Interval(case.get("low"), case.get("high"))
    assert as_number(read(case["text"])) == expected


def check_misread(found: object, case: dict[str, Any]) -> None:
    """Hold a whole Misread against the expected one."""
    assert isinstance(found, Misread)
    assert (found.text, found.message, found.help) == (case["text"], case["message"], case["help"])
    assert found.text[found.start : found.end] == case["part"]


@cases(MISREAD, "read")
def test_a_text_that_is_no_value_says_why(case: dict[str, Any]) -> None:
    """The message names the offending part, the help says what to write, and the place is where that part lies."""
    check_misread(read(case["text"]), case)
    check_misread(as_quantity(read(case["text"]), "length"), case)
    check_misread(as_size(read(case["text"])), case)
    check_misread(as_number(read(case["text"])), case)


@cases(MISREAD, "quantity")
def test_a_text_that_is_no_such_quantity_says_why(case: dict[str, Any]) -> None:
    """A missing unit, an unknown one and one of another dimension are each told apart."""
    check_misread(as_quantity(read(case["text"]), case["dimension"]), case)


@pytest.mark.parametrize("parts", range(2, 70))
def test_a_fraction_by_itself_is_one_of_a_rule_or_a_third(parts: int) -> None:
    """An inch rule has marks from halves to sixty-fourths; 1/5 is rather two numbers (common practice, no source)."""
    found = as_quantity(read(f"1/{parts} in"), "length")
    if parts in (2, 3, 4, 8, 16, 32, 64):
        assert isinstance(found, Quantity)
        assert found.in_unit("in") == pytest.approx(1 / parts, rel=1e-12)
    else:
        assert isinstance(found, Misread)
        assert found.message == f"`1/{parts}` could be a fraction or two numbers"


@cases(MISREAD, "size")
def test_a_text_that_is_no_size_says_why(case: dict[str, Any]) -> None:
    """A size that does not exist names the nearest ones; a number that is a size in both systems names both."""
    check_misread(as_size(read(case["text"])), case)


@cases(MISREAD, "number")
def test_a_text_that_is_no_plain_number_says_why(case: dict[str, Any]) -> None:
    """A number with a unit is no count."""
    check_misread(as_number(read(case["text"])), case)


def test_a_text_that_is_too_long_is_not_parsed() -> None:
    """More than 200 characters are refused, and the message shows only how they begin."""
    found = read("1" * 201)
    assert isinstance(found, Misread)
    assert found.message == "`11111111111111111111...` is too long for a number (201 characters)"
    assert (found.start, found.end) == (0, 201)


def test_the_shorthand_for_our_own_text_raises() -> None:
    """`quantity` gives the value, and raises for a text that is none or that is a range."""
    assert quantity("1-1/2 in", "length").value == pytest.approx(0.0381, rel=1e-12)
    with pytest.raises(ValueError, match="has no unit"):
        quantity("1-1/2", "length")
    with pytest.raises(ValueError, match="is a range"):
        quantity("1 to 2 in", "length")


def test_a_wrong_bare_unit_is_a_bug_of_ours() -> None:
    """A header unit that does not fit the dimension raises, because no user wrote it there."""
    with pytest.raises(ValueError, match="is not a unit of length"):
        as_quantity(read("5"), "length", "F")


@pytest.mark.parametrize("text", ["180°", "180 deg", "180 º", "180"])
def test_a_degree_sign_alone_takes_the_unit_of_bare_numbers(text: str) -> None:
    """A column in °F in which somebody wrote 180° is in F; nothing is taken from the sign itself."""
    assert as_quantity(read(text), "temperature", "F") == quantity("180 F", "temperature")
