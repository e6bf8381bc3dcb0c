"""Section headings that list several systems say of no line which of them it is."""

from __future__ import annotations

from functools import cache

import pytest

from speccheck.language import load_vocabulary
from speccheck.schedule.sections import HeadingReader
from speccheck.shipped import shipped_folder


@cache
def reader() -> HeadingReader:
    """Return a reader of headings in the words of mechanical insulation."""
    vocabulary = load_vocabulary(shipped_folder("rulesets") / "mechanical-insulation.clauses").vocabulary
    assert vocabulary is not None
    return HeadingReader(vocabulary)


@pytest.mark.parametrize(
    "heading",
    ["DOMESTIC WATER AND DRAINS", "Drains and domestic water", "Domestic water & drains", "Chilled water / drain"],
)
def test_a_list_of_systems_says_nothing(heading: str) -> None:
    """The drains in "domestic water and drains" are other lines: none is cold water that flows in a drain."""
    assert dict(reader().said(heading)) == {}


@pytest.mark.parametrize(
    ("heading", "said"),
    [
        ("Domestic water drain", {"service": "domestic cold water", "flow": "drain"}),
        ("Chilled water supply and return", {"service": "chilled water"}),
        ("Roof drains", {"service": "rainwater"}),
    ],
)
def test_a_heading_of_one_system_says_what_it_is(heading: str, said: dict[str, str]) -> None:
    """Without "and" the words are of one system; supply and return are both lines of it."""
    assert dict(reader().said(heading)) == said


def test_the_places_of_one_system_are_no_list_of_systems() -> None:
    """Pipes of chilled water on the roof and in the yard are all outdoors."""
    assert dict(reader().said("CHILLED WATER - ROOF AND YARD")) == {"service": "chilled water", "location": "outdoor"}
