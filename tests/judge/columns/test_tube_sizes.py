"""Sizes of tube in ranges: a range of pipe has none between its ends, by the judge and by the columns alike."""

from __future__ import annotations

import pytest

from speccheck.judge import judge_lines
from speccheck.judge.vectorized import columns_of, judge_columns
from speccheck.language import parse_ruleset
from speccheck.quantities import Interval, Misread, as_quantity, as_size, read
from speccheck.schedule.lines import Datum, Line

RULES = """ruleset "Sizes"
  speaks mechanical insulation

clause 1 "Tube of 5/8 in and of 7/8 in"
  where pipe size is one of 5/8 in, 7/8 in
  shall thickness be at least 2 in
"""


@pytest.mark.parametrize(
    ("sizes", "verdict"),
    [
        ("1/2 in to 1 in", "not applicable"),
        ("1/2 in to 3/4 in", "not applicable"),
        ("5/8 in to 1 in", "does not comply"),
        ("5/8 in", "does not comply"),
        ("3/4 in to 7/8 in", "does not comply"),
    ],
)
def test_a_range_of_pipe_holds_no_size_of_tube_but_at_its_ends(sizes: str, verdict: str) -> None:
    """A clause on two sizes of tube is no matter of pipe from 1/2 in to 1 in, only of ranges that end at such sizes."""
    ruleset = parse_ruleset(RULES).ruleset
    assert ruleset is not None
    size, thickness = as_size(read(sizes)), as_quantity(read("1 in"), "length")
    assert not isinstance(size, Misread)
    assert not isinstance(thickness, Misread)
    assert isinstance(size, Interval) is ("to" in sizes)
    line = Line("A", {"pipe size": Datum(size), "thickness": Datum(thickness)})
    (row,) = judge_lines(ruleset, [line])
    assert row[0].verdict == verdict
    assert judge_columns(ruleset, columns_of([line], ruleset)).verdict(0, 0) == verdict
