"""What a text means for a term, and back: one reader for schedules, product data and the examples of rulesets."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.language import load_vocabulary
from speccheck.language.diagnostics import has_errors
from speccheck.language.vocabulary.terms import Term, Vocabulary
from speccheck.language.vocabulary.values import BareUnits, NotGiven, Value, read_value, write_value
from speccheck.quantities import Interval, Misread, NominalSize, Quantity
from tests.strategies.quantities import quantities, sizes

HERE = Path(__file__).parent
CASES: dict[str, Any] = tomllib.loads((HERE / "values.toml").read_text(encoding="utf-8"))


@cache
def vocabulary() -> Vocabulary:
    """Return the vocabulary of these tests."""
    loaded = load_vocabulary(HERE / "values.clauses")
    assert not has_errors(loaded.diagnostics)
    assert loaded.vocabulary is not None
    return loaded.vocabulary


def term(name: str) -> Term:
    """Return a term of the vocabulary."""
    return vocabulary().terms[name]


def value_of(text: str, name: str, bare: BareUnits | None = None) -> Value:
    """Return the value that a text has for a term; fails where it has none."""
    found = read_value(text, term(name), bare or BareUnits())
    assert not isinstance(found, Misread | NotGiven), found
    return found


@pytest.mark.parametrize(
    ("name", "text", "written"),
    [(table["term"], text, written) for table in CASES["means"] for text, written in table["cases"]],
)
def test_a_text_has_the_meaning_that_a_reader_gives_it(name: str, text: str, written: str) -> None:
    """Each text is the value that stands beside it, written as a person would, and that reads back as the same."""
    value = value_of(text, name)
    assert write_value(value, term(name)) == written
    assert value_of(written, name) == value


@pytest.mark.parametrize(("text", "why"), CASES["missing"].items())
@pytest.mark.parametrize(
    "name", ["thickness", "pipe size", "service", "vapor stop locations", "concealed", "flame spread"]
)
def test_words_that_say_nothing_are_not_given_with_the_reason(name: str, text: str, why: str) -> None:
    """TBD, a dash, a reference to another document: not given for a term of any kind, and why."""
    assert read_value(text, term(name)) == NotGiven(text.strip(), why)


@pytest.mark.parametrize("case", CASES["misread"], ids=lambda case: f"{case['term']} {case['text']}")
def test_a_text_that_cannot_be_read_says_why_and_what_to_write(case: dict[str, str]) -> None:
    """The message names the offending part and the help what to write instead; the place is that of the part."""
    found = read_value(case["text"], term(case["term"]))
    assert isinstance(found, Misread)
    assert (found.message, found.help) == (case["message"], case["help"])
    assert f"`{case['text'][found.start : found.end]}`" in case["message"]


def test_a_listed_value_wins_over_words_that_say_nothing() -> None:
    """Where the vocabulary lists "by others" as a spelling of a choice, it is a value."""
    assert read_value("by others", term("jacket")) == "factory applied"
    assert isinstance(read_value("by others", term("service")), NotGiven)


def test_free_text_is_not_taken_for_a_reference() -> None:
    """For a term of free text, "per spec" is text like any other, and TBD is still not given."""
    assert read_value("per spec", term("notes")) == "per spec"
    assert isinstance(read_value("TBD", term("notes")), NotGiven)


@pytest.mark.parametrize(
    ("text", "name", "bare", "written"),
    [
        ("1½", "thickness", BareUnits("in"), "1-1/2 in"),
        ("38", "thickness", BareUnits("mm"), "38 mm"),
        ("38 mm", "thickness", BareUnits("in"), "38 mm"),
        ("1.5", "thickness", BareUnits(system="inch-pound"), "1-1/2 in"),
        ("38", "thickness", BareUnits(system="metric"), "38 mm"),
        ("38", "thickness", BareUnits("mm", "inch-pound"), "38 mm"),
        ("15", "vapor stop spacing", BareUnits(system="inch-pound"), "15 ft"),
        ("180", "operating temperature", BareUnits("F"), "180 F"),
        ("90", "relative humidity", BareUnits("%"), "90 %"),
        ("6", "pipe size", BareUnits("in"), "6 in"),
        ("50", "pipe size", BareUnits("DN"), "2 in"),
        ("50", "pipe size", BareUnits("mm"), "2 in"),
        ("10", "pipe size", BareUnits(system="inch-pound"), "10 in"),
        ("10", "pipe size", BareUnits(system="metric"), "3/8 in"),
    ],
)
def test_bare_numbers_take_the_stated_unit_and_no_other(text: str, name: str, bare: BareUnits, written: str) -> None:
    """A number without a unit takes the unit of its column, else the usual one of the stated system."""
    assert write_value(value_of(text, name, bare), term(name)) == written


@pytest.mark.parametrize(("text", "name"), [("1.5", "thickness"), ("180", "operating temperature"), ("6", "pipe size")])
def test_nothing_is_guessed_where_no_unit_is_stated(text: str, name: str) -> None:
    """A number without any stated unit cannot be read, and neither can one under a unit of something else."""
    assert isinstance(read_value(text, term(name)), Misread)
    assert isinstance(read_value(text, term(name), BareUnits("perm")), Misread)


def test_a_share_under_a_percent_header_is_not_guessed() -> None:
    """0.9 under a header with % could be 0.9 % or 90 %; neither is taken."""
    found = read_value("0.9", term("relative humidity"), BareUnits("%"))
    assert isinstance(found, Misread)
    assert found.message == "`0.9` could be a share or a percentage"


def test_sizes_are_written_in_the_system_asked_for() -> None:
    """A nominal size, and a range of sizes, is written in inches or in DN (ISO 6708)."""
    assert write_value(value_of("1-1/2 in", "pipe size"), term("pipe size"), "metric") == "DN 40"
    assert write_value(value_of("1 in to 12 in", "pipe size"), term("pipe size"), "metric") == "DN 25 through DN 300"
    assert write_value(value_of("1 in to 12 in", "pipe size"), term("pipe size")) == "1 in through 12 in"


def test_what_is_not_given_is_written_as_it_stood() -> None:
    """The words that stood in the place of a value are kept."""
    assert write_value(NotGiven("T.B.D.", "to be settled later"), term("thickness")) == "T.B.D."


@pytest.mark.parametrize("filler", [" ", "x", "1", "(", "- ", "per "])
@pytest.mark.parametrize("name", [table["term"] for table in CASES["means"] if table["term"] != "notes"])
def test_a_text_that_is_no_value_by_its_length(name: str, filler: str) -> None:
    """A whole paragraph in a cell is refused for its length, at once, and the message shows only its beginning."""
    text = f"1 in{filler * 10_000}x"
    found = read_value(text, term(name))
    assert isinstance(found, Misread)
    assert found.message == f"`{text[:20]}...` is too long for a value of `{name}` ({len(text)} characters)"


@settings(max_examples=200, deadline=None)
@given(st.text(max_size=40), st.sampled_from(list(CASES["means"])))
def test_reading_never_raises(text: str, table: dict[str, Any]) -> None:
    """Any text gives a value, `NotGiven` or a `Misread` whose place lies in the text; the same text gives the same."""
    found = read_value(text, term(table["term"]))
    assert found == read_value(text, term(table["term"]))
    if isinstance(found, Misread):
        assert 0 <= found.start <= found.end <= len(text)
        assert found.message


@settings(max_examples=200, deadline=None)
@given(quantities("length") | quantities("temperature"))
def test_quantities_are_what_their_text_says(drawn: tuple[str, Quantity]) -> None:
    """A length or temperature drawn as text and value is read as that value."""
    text, expected = drawn
    name = "thickness" if expected.dimension == "length" else "operating temperature"
    found = value_of(text, name)
    assert isinstance(found, Quantity)
    assert found.value == pytest.approx(expected.value, rel=1e-9)


@given(sizes())
def test_sizes_read_back_in_both_systems(drawn: tuple[str, NominalSize]) -> None:
    """A nominal size written in either system reads back as the same size."""
    size = value_of(drawn[0], "pipe size")
    assert size == drawn[1]
    for system in ("inch-pound", "metric"):
        assert value_of(write_value(size, term("pipe size"), system), "pipe size") == size


@given(st.sets(st.sampled_from(["valves", "flanges", "hangers", "straps"])))
def test_sets_are_written_in_the_order_of_the_vocabulary(names: set[str]) -> None:
    """However a set is given, it is written in one order, and reads back."""
    written = write_value(frozenset(names), term("vapor stop locations"))
    assert written == (", ".join(sorted(names, key=["valves", "flanges", "hangers", "straps"].index)) or "none")
    assert value_of(written, "vapor stop locations") == frozenset(names)


def test_a_range_with_an_impossible_end_is_refused() -> None:
    """One end below zero is enough to refuse a range of thicknesses; an ordinary range stays a range."""
    assert isinstance(read_value("-1 in to 2 in", term("thickness")), Misread)
    assert isinstance(value_of("1 in to 2 in", "thickness"), Interval)
