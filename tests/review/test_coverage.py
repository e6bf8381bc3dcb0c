"""Coverage by ranges, checked against a look at every nominal size and at many temperatures, one by one."""

from __future__ import annotations

import random
from collections.abc import Sequence
from fractions import Fraction

import pytest

from speccheck.language.vocabulary.values import NotGiven
from speccheck.quantities import NOMINAL_SIZES, Interval, NominalSize, Quantity
from speccheck.review.coverage import Gap, coverage
from speccheck.review.system_extent import Extent, SystemTerms, extent_of, shared
from speccheck.schedule.lines import Datum, Line
from tests.review.rounds import ruleset
from tests.strategies.design_lists import TEMPERATURES, drawn_lines, fahrenheit

LISTS = 10_000
TERMS = SystemTerms.of(ruleset().vocabulary)
# Every temperature at which a drawn range can end, one between each two, and one beyond each of the outermost.
TRIED = tuple(fahrenheit(number) for number in range(TEMPERATURES[0] - 5, TEMPERATURES[-1] + 10, 5))


def the_extent_of(line: Line) -> Extent:
    """Return the systems that a line stands for, in the terms of the shipped vocabulary."""
    return extent_of(line, TERMS)


def holds(line: Line, term: str, value: object) -> bool | None:
    """Return whether a line stands for one value of a term, the plain way: None where it leaves it open."""
    datum = line.data.get(term)
    if datum is None:
        return True
    if isinstance(datum.value, NotGiven):
        return None
    if isinstance(datum.value, Interval):
        return datum.value.contains(value)  # type: ignore[arg-type]
    if isinstance(datum.value, Quantity) and isinstance(value, Quantity):
        return abs(datum.value.value - value.value) < 1e-6
    return datum.value == value


def stands_for(line: Line, point: dict[str, object]) -> bool | None:
    """Return whether a line stands for a system with one size and one temperature."""
    found = [holds(line, term, value) for term, value in point.items()]
    if False in found:
        return False
    return None if None in found else True


def points_of(design: Line) -> list[dict[str, object]]:
    """Return every system, with one size and one temperature, that a design line stands for."""
    words = {
        term: design.data[term].value
        for term in ("service", "location")
        if term in design.data and not isinstance(design.data[term].value, NotGiven)
    }
    choices: list[list[dict[str, object]]] = [[dict(words)]]
    for term, values in (("pipe size", NOMINAL_SIZES), ("operating temperature", TRIED)):
        datum = design.data.get(term)
        if datum is None or isinstance(datum.value, NotGiven):
            continue
        choices.append([{term: value} for value in values if holds(design, term, value)])
    points: list[dict[str, object]] = [{}]
    for parts in choices:
        points = [{**point, **part} for point in points for part in parts]
    return points


def in_gaps(gaps: Sequence[Gap], point: dict[str, object]) -> bool:
    """Return whether a system lies in one of the gaps."""
    temperature = point.get("operating temperature")
    for gap in gaps:
        if gap.size is not None and gap.size != point.get("pipe size"):
            continue
        if not isinstance(temperature, Quantity):
            return True
        if any(span.contains(round(temperature.value, 6)) for span in gap.spans):
            return True
    return False


def test_ranges_agree_with_every_nominal_size_on_ten_thousand_lists() -> None:
    """What no line covers, for certain and at the least, is the same by ranges and size by size, on 10,000 lists."""
    generator = random.Random(5)
    gaps = perhaps = 0
    for _ in range(LISTS):
        (design,) = drawn_lines(generator, "S", 1)
        lines = drawn_lines(generator, "L", 5)
        found = coverage(the_extent_of(design), [the_extent_of(line) for line in lines])
        for point in points_of(design):
            truths = [stands_for(line, point) for line in lines]
            assert in_gaps(found.gaps, point) is (True not in truths), (design, lines, point)
            assert in_gaps(found.gaps_at_least, point) is all(truth is False for truth in truths), (design, lines)
        gaps += bool(found.gaps)
        perhaps += found.gaps != found.gaps_at_least
    assert gaps > 1_000, "the lists leave gaps often enough to show anything"
    assert perhaps > 300, "lines leave something open often enough to show anything"


def test_lines_share_what_both_stand_for_at_every_size() -> None:
    """Two lines share a size exactly where some system with this size is what both stand for."""
    generator = random.Random(6)
    together = 0
    for _ in range(2_000):
        one, other = drawn_lines(generator, "A", 1)[0], drawn_lines(generator, "B", 1)[0]
        common = shared(the_extent_of(one), the_extent_of(other))
        points = [point for point in points_of(one) if stands_for(other, point)]
        if common is None:
            open_terms = {name for line in (one, other) for name, datum in line.data.items() if is_open(datum)}
            assert not points or open_terms, (one, other)
            continue
        together += 1
        if "pipe size" in one.data and common[0] is not None and points:
            found = {point["pipe size"] for point in points if "pipe size" in point}
            assert not found or found == set(common[0]), (one, other)
    assert together > 100


def is_open(datum: Datum) -> bool:
    """Return whether a datum is not given."""
    return isinstance(datum.value, NotGiven)


def size(text: str) -> NominalSize:
    """Return a nominal size by its inches."""
    return NominalSize(Fraction(text))


def line(name: str, **data: object) -> Line:
    """Return a line with data; underscores stand for blanks."""
    return Line(name, {term.replace("_", " "): Datum(value) for term, value in data.items()})  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("low", "high", "gap"),
    [
        (40, 44, "over 44 F to 48 F"),
        (44, 48, "42 F to under 44 F"),
        (40, 50, ""),
        (43, 44, "42 F to under 43 F or over 44 F to 48 F"),
    ],
)
def test_temperatures_left_over_are_named_exactly(low: float, high: float, gap: str) -> None:
    """A line from 44 F on does not cover 42 F to under 44 F of a design for 42 F to 48 F."""
    from speccheck.review.intervals import span_text

    design = the_extent_of(line("S", operating_temperature=Interval(fahrenheit(42), fahrenheit(48))))
    covering = the_extent_of(line("L", operating_temperature=Interval(fahrenheit(low), fahrenheit(high))))
    found = coverage(design, [covering])
    spans = [span for gap in found.gaps for span in gap.spans]
    assert " or ".join(span_text(span, "F", "temperature") for span in spans) == gap


def test_two_lines_cover_a_range_together() -> None:
    """Lines for 1/2 in through 2 in and for 2-1/2 in and over leave nothing of 1 in through 4 in."""
    design = the_extent_of(line("S", pipe_size=Interval(size("1"), size("4"))))
    small = the_extent_of(line("A", pipe_size=Interval(size("1/2"), size("2"))))
    large = the_extent_of(line("B", pipe_size=Interval(size("5/2"), None)))
    assert coverage(design, [small, large]).complete
    assert [str(gap.size) for gap in coverage(design, [small]).gaps] == [
        "NPS 2-1/2",
        "NPS 3",
        "NPS 3-1/2",
        "NPS 4",
    ]
