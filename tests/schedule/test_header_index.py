"""The index of names by which most rows are told to hold no better header than one that was found already."""

from __future__ import annotations

import random

import pytest

from speccheck.schedule import ScheduleMapping
from speccheck.schedule.header import _candidates, _most_terms, header_of
from tests.schedule.layout_run import reader
from tests.strategies.layouts import draw_layout


@pytest.mark.parametrize("first", range(0, 60, 20))
def test_no_header_names_more_terms_than_the_index_of_names_allows(first: int) -> None:
    """Random layouts, any rows of which are read as a header, so that a row passed over held no better one."""
    mapping = ScheduleMapping(units="inch-pound")
    named = 0
    for seed in range(first, first + 20):
        grid = draw_layout(random.Random(seed)).grid
        for row in grid.columns_by_row:
            for rows in _candidates(grid, row, mapping):
                header = header_of(grid, rows, reader(), mapping)
                assert header.terms <= _most_terms(grid, rows, reader(), mapping), (seed, rows)
                named += header.terms
    assert named > 100
