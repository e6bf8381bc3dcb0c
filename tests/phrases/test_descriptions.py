"""Systems as lists of quantities describe them. What the words mean is common practice, no source."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.language.vocabulary.values import BareUnits, write_value
from speccheck.phrases import read_description
from tests.phrases.test_cells import shipped

INCHES = BareUnits(system="inch-pound")


def described(text: str) -> dict[str, str] | None:
    """Write what a description says by term; None where nothing is read."""
    found = read_description(text, shipped(), INCHES)
    return found and {name: write_value(value, shipped().terms[name]) for name, value in found.values.items()}


PARTS = {
    "service": "heating hot water",
    "pipe size": "3 in",
    "thickness": "2 in",
    "insulation": "fiberglass",
    "facing": "all-service jacket",
}


@given(st.permutations(["HHW", '3" NPS', '2" thick', "fiberglass w/ ASJ"]), st.sampled_from([", ", "; ", " - ", " x "]))
def test_the_parts_stand_in_any_order(parts: list[str], between: str) -> None:
    """In whatever order and however parted, each part goes to its term."""
    assert described(between.join(parts)) == PARTS


@pytest.mark.parametrize(
    "text",
    [
        '3" HHW - 2" FG w/ ASJ',
        'HHW 3" - 2" FG, ASJ',
        'HHW, 3" pipe, 2" wall fiberglass w/ASJ',
        '3" HHW, FG/ASJ, 2" thk',
    ],
)
def test_what_stands_beside_a_length_says_which_it_is(text: str) -> None:
    """A length beside a service, or beside "pipe", is the size; one beside a material, or "wall", the thickness."""
    assert described(text) == PARTS


def test_a_temperature_is_that_of_the_system() -> None:
    """A part that is a temperature with its unit belongs to the service."""
    assert described('3" HHW, 180F - 2" FG w/ ASJ') == {**PARTS, "operating temperature": "180 F"}


def test_a_place_behind_it_is_that_of_the_system() -> None:
    """Where it runs, and that it is concealed, may stand beside; "pipe insulation" behind the size says no more."""
    said = described('HHW 3" pipe insulation, 2" thk FG w/ ASJ, indoors concealed')
    assert said == {**PARTS, "location": "conditioned", "concealed": "yes"}


@pytest.mark.parametrize(
    "text",
    [
        '3" x 2" fiberglass',
        '3" fiberglass pipe insulation, HHW',
        'Fiberglass, 3", 2", HHW',
        "HHW, 3 in, 2 in, fiberglass",
        '3" HHW - 2" FG w/ ASJ, by others',
        '3" HHW - 2" FG, 1" thick',
        "HHW, 3 in pipe, fiberglass",
        "",
    ],
)
def test_where_it_is_not_said_nothing_is_read(text: str) -> None:
    """Two lengths that could be either, words left over, two thicknesses, and none at all."""
    assert described(text) is None
