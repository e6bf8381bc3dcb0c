"""Breakpoints: where in a range a verdict could change, and the words for the parts of a range."""

from __future__ import annotations

import pytest

from speccheck.judge.breakpoints import breakpoints
from speccheck.judge.cell import RangePart
from speccheck.judge.explain.ranges import holding, spans
from speccheck.judge.operations import Rules, bare
from speccheck.language.core.walking import conditions_of
from speccheck.language.vocabulary.values import BareUnits, NotGiven, Value, read_value
from speccheck.quantities import Interval, Misread, Quantity, convert
from tests.conformance.cases import load

CASES = {
    "a stated limit": ("where operating temperature is over 140 F", [140]),
    "both ends of a span": ("where operating temperature is between 100 F and 140 F", [100, 140]),
    "each of several": ("where operating temperature is one of 100 F, 140 F", [100, 140]),
    "the value of another term": ("where operating temperature is under ambient temperature", [75]),
    "a limit under a name": ("where operating temperature is under limit", [110]),
    "a calculation on the other side": (
        "where operating temperature is under ambient temperature plus 5 F difference",
        [80],
    ),
    "a calculation on its own side": ("where operating temperature minus 10 F difference is at least 100 F", [110]),
    "a difference of two": ("where operating temperature minus ambient temperature is at least 30 F difference", [105]),
    "the larger of two": ("where larger of operating temperature and 90 F is at most 120 F", [120]),
    "the bands of a table": ("shall thickness be at least least", [105, 140, 141, 200]),
    "a limit of another term": ("where ambient temperature is over 140 F\nwhere operating temperature is given", []),
}


def points(clause: str, **texts: str) -> list[float]:
    """Return the breakpoints of the operating temperature, in F, to a millionth of a degree."""
    given = """
define limit equal to 110 F
table least in inches
  by operating temperature
  105 F to 140 F | 1
  141 F to 200 F | 1-1/2
"""
    loaded = load(f'ruleset "case"\nspeaks "vocabulary"\n{given}\nclause 1 "case"\n{clause}\nshall outdoor\n')
    assert loaded.ruleset is not None
    assert loaded.usable
    stated: dict[str, Value | NotGiven] = {}
    for name, text in {"operating temperature": "40 F to 200 F", "ambient temperature": "75 F", **texts}.items():
        value = read_value(text, loaded.ruleset.vocabulary.terms[name], BareUnits())
        assert not isinstance(value, Misread)
        stated[name] = value
    found = breakpoints(conditions_of(loaded.ruleset.clauses[0]), stated, Rules())
    return [round(convert(value, "K", "F"), 6) for value in found["operating temperature"]]


@pytest.mark.parametrize("name", CASES)
def test_breakpoints_are_the_values_at_which_something_changes(name: str) -> None:
    """The breakpoints are the limits that the clause sets to the term on this line, and no other values."""
    clause, expected = CASES[name]
    assert points(clause) == pytest.approx(expected, abs=1e-6)


def test_a_term_without_a_range_has_no_breakpoints() -> None:
    """Only terms that cover a range on the line are tried."""
    loaded = load('ruleset "case"\nspeaks "vocabulary"\nclause 1 "case"\nshall operating temperature be over 140 F\n')
    assert loaded.ruleset is not None
    assert breakpoints(conditions_of(loaded.ruleset.clauses[0]), {}, Rules()) == {}


def test_ranges_held_against_one_another_share_their_values() -> None:
    """Two ranges that are compared are tried at each other's ends, with values between that allow either order."""
    clause = "where operating temperature is under ambient temperature"
    found = points(clause, **{"operating temperature": "40 F to 60 F", "ambient temperature": "50 F to 70 F"})
    assert found == pytest.approx([40, 45, 50, 55, 60, 65, 70], abs=1e-6)


def fahrenheit(number: float) -> Quantity:
    """Return a temperature in F."""
    return Quantity(convert(number, "F", "K"), "temperature", "F")


# Tried: the ends 40 and 60, the breakpoint 50, and a value between each two.
WHOLE = Interval(fahrenheit(40), fahrenheit(60))
TRIED = tuple((("operating temperature", fahrenheit(number)),) for number in (40, 45, 50, 55, 60))


@pytest.mark.parametrize(
    ("holds", "expected"),
    [
        ("xxxxx", ()),
        ("x....", ("operating temperature 40 F",)),
        ("xx...", ("operating temperature 40 F to under 50 F",)),
        ("xxx..", ("operating temperature 40 F through 50 F",)),
        ("..x..", ("operating temperature 50 F",)),
        ("...xx", ("operating temperature over 50 F to 60 F",)),
        (".x...", ("operating temperature over 40 F to under 50 F",)),
        ("xx.xx", ("operating temperature 40 F to under 50 F", "operating temperature over 50 F to 60 F")),
    ],
)
def test_parts_of_a_range_are_told_with_their_ends(holds: str, expected: tuple[str, ...]) -> None:
    """What holds at tried values is told as the parts of the range between breakpoints that it stands for."""
    stated = {"operating temperature": WHOLE}
    assert holding(RangePart(TRIED, tuple(mark == "x" for mark in holds), stated), "inch-pound") == expected


def test_the_ends_of_a_range_that_do_not_belong_to_it_are_told_so() -> None:
    """A range without its ends is tried between its marks, and the parts say that the ends are left out."""
    stated = {"operating temperature": Interval(fahrenheit(40), fahrenheit(60), False, False)}
    parts = {"x..": "over 40 F to under 50 F", "..x": "over 50 F to under 60 F", ".x.": "50 F"}
    for marks, words in parts.items():
        found = holding(RangePart(TRIED[1:4], tuple(mark == "x" for mark in marks), stated), "inch-pound")
        assert found == (f"operating temperature {words}",)


def test_many_parts_of_two_ranges_are_told_by_their_outlines() -> None:
    """Where two ranges fail in more parts than anybody reads, each range is told with the part that has any."""
    names = "operating temperature", "ambient temperature"
    tried = [
        ((names[0], fahrenheit(first)), (names[1], fahrenheit(second)))
        for first in range(40, 100)
        for second in (40, 45, 50, 55, 60)
    ]
    stated = {names[0]: Interval(fahrenheit(40), fahrenheit(99)), names[1]: WHOLE}
    holds = [bare(case[0][1]) >= bare(fahrenheit(60)) and bare(case[1][1]) > bare(fahrenheit(50)) for case in tried]
    assert holding(RangePart(tuple(tried), tuple(holds), stated), "inch-pound") == (
        "parts of operating temperature 60 F through 99 F, ambient temperature over 50 F to 60 F",
    )


def test_words_for_all_values_of_a_range() -> None:
    """One phrase stands for a whole range, or for one part of it; for parts that lie apart there is none."""
    stated = {"operating temperature": WHOLE}
    marks = {"xxxxx": "40 F through 60 F", "...xx": "over 50 F to 60 F"}
    for holds, words in marks.items():
        found = spans(RangePart(TRIED, tuple(mark == "x" for mark in holds), stated), "inch-pound")
        assert found == {"operating temperature": words}
    assert spans(RangePart(TRIED, (True, False, True, False, False), stated), "inch-pound") == {}
