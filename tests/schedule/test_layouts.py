"""A known list of lines, written in many layouts, is read back or said not to be read: nothing is ever made up."""

from __future__ import annotations

import random
from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st

from tests.schedule.layout_run import compared
from tests.strategies.layouts import draw_layout


@given(chance=st.randoms(use_true_random=False))
@settings(max_examples=300)
def test_readings_never_invent(chance: random.Random) -> None:
    """Every line that is read is one of the truth, with some values left out at most; none is lost untold."""
    found = compared(draw_layout(chance))
    assert (found["made up"], found["lost untold"]) == (0, 0)


def test_a_row_above_a_header_is_no_part_of_it() -> None:
    """A hidden line right above sizes side by side once gave them a size more, found by seed 98361 of a long run."""
    found = compared(draw_layout(random.Random(98361)))
    assert (found["made up"], found["lost untold"]) == (0, 0)


def test_a_label_between_lines_of_several_systems_is_of_its_own_line() -> None:
    """A place stood by chance in the middle of three lines whose sizes rise, found by seed 9026770 of a long run."""
    found = compared(draw_layout(random.Random(9026770)))
    assert found["made up"] == 0


def test_nearly_all_facts_are_read() -> None:
    """Of the facts of a thousand layouts, at least 95 of 100 are read and none is made up or lost untold."""
    sums: Counter[str] = Counter()
    for seed in range(1000):
        sums += compared(draw_layout(random.Random(seed)))
    assert (sums["made up"], sums["lost untold"]) == (0, 0)
    assert sums["read"] > 19 * sums["not read"]
