"""Deliberate changes to tables by a choice and a size: each is tried, whichever of the two comes first."""

from __future__ import annotations

import pytest

from speccheck.language import parse_ruleset
from speccheck.proofread.mutation import adequacy, unnoticed
from tests.some import some

ROWS = {
    "service, pipe size": " | up to 2 in | over 2 in\n  chilled water | 1 | 1-1/2\n  steam | 1-1/2 | 2",
    "pipe size, service": " | chilled water | steam\n  1 in | 1 | 1-1/2\n  2 in | 1-1/2 | 2",
}


@pytest.mark.parametrize("axes", ROWS)
def test_each_cell_is_changed_and_has_an_example_that_would_notice(axes: str) -> None:
    """The one example reads one of four cells; a line is proposed for each of the other three."""
    ruleset = parse_ruleset(
        f'ruleset "T"\n  speaks mechanical insulation\n\ntable needed in inches\n  by {axes}\n  {ROWS[axes]}\n\n'
        'clause 1 "Thickness"\n  shall thickness be at least needed\n  example "a" complies\n'
        "    service chilled water, pipe size 1 in, thickness 1 in\n"
    ).ruleset
    assert ruleset is not None
    answers = unnoticed(ruleset, adequacy(ruleset))
    cells = {str(answer.change.was) for answer in answers if str(answer.change.was).startswith("needed, ")}
    assert len(cells) >= 3
    assert all(
        answer.proposal is not None for answer in some(answer for answer in answers if str(answer.change.was) in cells)
    )


def test_a_limit_that_no_line_shows_is_answered_beside_rows_of_choices() -> None:
    """The table begins at DN 15 and its rows are services: each change has a proposal, or is told to show nowhere."""
    ruleset = parse_ruleset(
        'ruleset "T"\n  speaks mechanical insulation\n  units metric\n\ntable needed in mm\n  by service, pipe size\n'
        "   | DN 15 to DN 40 | DN 50 to DN 100 | DN 125 and over\n"
        "  steam | 50 | 60 | 80\n  chilled water | 19 | 25 | 32\n\n"
        'clause 1 "Thickness"\n  shall thickness be at least needed\n  example "a" complies\n'
        "    service steam, pipe size DN 15, thickness 50 mm\n"
    ).ruleset
    assert ruleset is not None
    found = adequacy(ruleset)
    assert len(unnoticed(ruleset, found)) == len(found.unnoticed) > 0
