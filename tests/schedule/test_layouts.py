"""A known list of lines, written in many layouts, is read back or said not to be read: nothing is ever made up."""

from __future__ import annotations

from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.schedule.layout_run import compared
from tests.strategies.layouts import draw_layout


@given(seed=st.integers(0, 2**32))
@settings(max_examples=300, deadline=None)
def test_readings_never_invent(seed: int) -> None:
    """Every line that is read is one of the truth, with some values left out at most; none is lost untold."""
    found = compared(draw_layout(seed))
    assert (found["made up"], found["lost untold"]) == (0, 0)


def test_most_facts_are_read() -> None:
    """Of the facts of two hundred layouts, with hidden rows and headings of unknown words, most are read."""
    sums: Counter[str] = Counter()
    for seed in range(200):
        sums += compared(draw_layout(seed))
    assert sums["read"] > 4 * sums["not read"]
