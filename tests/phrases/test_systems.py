"""Systems in a sentence, as outlines propose them. What the words mean is common practice, no source."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.language.vocabulary.values import BareUnits, write_value
from speccheck.phrases import read_systems
from tests.phrases.test_cells import shipped

INCHES = BareUnits(system="inch-pound")


def systems(text: str) -> list[str]:
    """Write each system of a sentence: "thickness 1 in; insulation fiberglass"."""
    found = read_systems(text, shipped(), INCHES)
    return [
        "; ".join(f"{name} {write_value(value, shipped().terms[name])}" for name, value in one.values.items())
        for one in found
    ]


DHW = "service domestic hot water; operating temperature 140 F; thickness"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            'Domestic hot water, 140F: 1" fiberglass w/ ASJ up to 1-1/4", 1-1/2" above',
            [
                f"{DHW} 1 in; insulation fiberglass; facing all-service jacket; pipe size 1-1/4 in and under",
                f"{DHW} 1-1/2 in; insulation fiberglass; facing all-service jacket; pipe size over 1-1/4 in",
            ],
        ),
        (
            "Chilled water (42F): 1-1/2 in fiberglass with ASJ, 0.016 aluminum jacket",
            [
                "service chilled water; operating temperature 42 F; thickness 1-1/2 in; insulation fiberglass; "
                "facing all-service jacket; jacket thickness 0.016 in; jacket aluminum"
            ],
        ),
        (
            'Steam: 2-1/2" cal-sil 1" to 3", 3" 4" & larger',
            [
                "service steam; thickness 2-1/2 in; insulation calcium silicate; pipe size 1 in through 3 in",
                "service steam; thickness 3 in; insulation calcium silicate; pipe size 4 in and over",
            ],
        ),
        (
            'HHW: 1" fiberglass, ASJ, up to 1-1/4"; 1" elastomeric for larger',
            [
                "service heating hot water; thickness 1 in; insulation fiberglass; facing all-service jacket; "
                "pipe size 1-1/4 in and under",
                "service heating hot water; thickness 1 in; insulation elastomeric foam; pipe size over 1-1/4 in",
            ],
        ),
        (
            'CHW 2": 1" fiberglass with ASJ, in mechanical room, 25/50',
            [
                "service chilled water; pipe size 2 in; flame spread 25; smoke developed 50; location mechanical room; "
                "thickness 1 in; insulation fiberglass; facing all-service jacket"
            ],
        ),
        ("25 mm elastomeric, all sizes", ["thickness 25 mm; insulation elastomeric foam; pipe size any"]),
        (
            "CHW: 25 mm elastomeric up to DN 50, 32 mm above",
            [
                "service chilled water; thickness 25 mm; insulation elastomeric foam; pipe size 2 in and under",
                "service chilled water; thickness 32 mm; insulation elastomeric foam; pipe size over 2 in",
            ],
        ),
    ],
)
def test_each_part_is_a_system(text: str, expected: list[str]) -> None:
    """What stands before the colon holds for all parts, materials go on, and "above" begins where the band before ends.

    Another material takes nothing from the one before: elastomeric foam does not inherit a facing.
    """
    assert systems(text) == expected


@pytest.mark.parametrize(
    "text",
    [
        "",
        "All valves by others",
        "Chilled water",
        'fiberglass up to 2"',
        '1" fiberglass or elastomeric up to 2"',
        '1" fiberglass up to 2", 2" at roof',
        'Use 1" fiberglass',
        'DHW & DHWR: 1" FG',
        '1" fiberglass 2" pipe',
        '1" fiberglass, 2" cellular glass',
        'No insulation: 1" fiberglass',
        '1" fiberglass above',
        'Chilled water: 1" fiberglass up to 2", 2" above, except at AHU',
        'Chilled water: 1" fiberglass up to 2", 1" elastomeric above, outdoors',
    ],
)
def test_a_sentence_that_is_not_understood_proposes_nothing(text: str) -> None:
    """Words left over, alternatives, two services, two systems of the same sizes: nothing is guessed."""
    assert systems(text) == []


@given(
    st.sampled_from(["1", "1-1/2", "2"]),
    st.sampled_from(["2", "2-1/2", "3"]),
    st.sampled_from(["1-1/4", "2", "4"]),
    st.sampled_from(["fiberglass", "elastomeric", "mineral wool"]),
    st.sampled_from(['up to {}"', '{}" and smaller', 'for {}" & smaller']),
    st.sampled_from(["above", "for larger sizes", "for all others"]),
)
def test_two_bands_come_back_whole(small: str, large: str, end: str, material: str, below: str, above: str) -> None:
    """Whatever wording parts the sizes, both thicknesses stand for theirs, and the bands meet at the size between."""
    first, second = read_systems(
        f'Chilled water: {small}" {material} {below.format(end)}, {large}" {above}', shipped(), INCHES
    )
    sizes = shipped().terms["pipe size"]
    written = [write_value(one.values["pipe size"], sizes) for one in (first, second)]
    assert written == [f"{end} in and under", f"over {end} in"]
    thickness = shipped().terms["thickness"]
    assert [write_value(one.values["thickness"], thickness) for one in (first, second)] == [
        f"{small} in",
        f"{large} in",
    ]
