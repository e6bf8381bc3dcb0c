"""Burn thresholds against their transcriptions, and as clauses and lines use them."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from speccheck.physics.burns import burn_thresholds, touched_surface
from speccheck.physics.calculations.all import work_out, work_out_lines

ZERO = 273.15

# DIN EN 563:1994 as transcribed in a German rule (second hand): the lower end of each range, °C, at the times below.
EN_563 = {
    "bare metal": (65, 51, 48, 43),
    "coated metal": (75, 51, 48, 43),
    "ceramic, glass or stone": (80, 56, 48, 43),
    "plastic": (86, 60, 48, 43),
    "wood": (110, 60, 48, 43),
}
# A transcription said to be of EN ISO 13732-1 (second hand): sheet metal over mineral wool, and two more.
ISO_13732 = {
    "bare metal": (62, 51, 48, 43),
    "cloth, densely coated": (85, 60, 48, 43),
    "wood": (110, 60, 48, 43),
}
TIMES = (1.0, 60.0, 600.0, 28800.0)


@pytest.mark.parametrize("surface", sorted(EN_563 | ISO_13732))
def test_the_lower_of_two_transcriptions_counts(surface: str) -> None:
    """At each printed time the threshold is the printed one; where both print one and disagree, the lower."""
    printed = [of[surface] for of in (EN_563, ISO_13732) if surface in of]
    threshold, time, other = burn_thresholds()[surface].at(TIMES)
    assert threshold - ZERO == pytest.approx(np.min(printed, axis=0))
    assert tuple(time) == TIMES
    highest = np.max(printed, axis=0)
    differs = highest > np.min(printed, axis=0)
    assert np.all(np.isnan(other) == ~differs)
    assert other[differs] - ZERO == pytest.approx(highest[differs])


@given(st.sampled_from(sorted(EN_563)), st.floats(0.01, 1e5), st.floats(1.0, 50.0))
def test_a_longer_touch_never_has_a_higher_threshold(surface: str, seconds: float, times: float) -> None:
    """And between printed times it is that of the longer one: 10 s of metal counts as 1 min."""
    threshold, _, _ = burn_thresholds()[surface].at([seconds, seconds * times])
    assert threshold[1] <= threshold[0]
    assert threshold[0] in burn_thresholds()[surface].at(TIMES)[0]


def test_what_a_hand_meets() -> None:
    """The jacket, or the pipe where it is bare; nothing is known of canvas, mastic, facings and bare insulation."""
    assert touched_surface("jacket", "aluminum") == "bare metal"
    assert touched_surface("jacket", "PVC") == "plastic"
    for word in ("canvas", "mastic", "coating", "all-service jacket", "none"):
        assert touched_surface("jacket", word) == ""


@pytest.mark.parametrize(
    ("line", "celsius", "missing", "cannot"),
    [
        ({"jacket": "aluminum", "contact time": 1.0}, 62.0, (), ""),
        ({"jacket": "PVC", "contact time": 8 * 3600.0}, 43.0, (), ""),
        ({"jacket": "none", "insulation": "none", "pipe material": "copper", "contact time": 60.0}, 51.0, (), ""),
        ({"jacket": "aluminum", "jacket surface": "painted", "contact time": 1.0}, 62.0, (), ""),
        (
            {"jacket": "aluminum", "jacket surface": "painted", "coating thickness": 50e-6, "contact time": 1.0},
            75.0,
            (),
            "",
        ),
        (
            {"jacket": "aluminum", "jacket surface": "painted", "coating thickness": 40e-6, "contact time": 1.0},
            62.0,
            (),
            "",
        ),
        ({"jacket": "aluminum", "coating thickness": 50e-6, "contact time": 1.0}, 62.0, (), ""),
        ({"jacket": "canvas", "coating thickness": 1e-3, "contact time": 1.0}, 85.0, (), ""),
        ({"touched surface": "wood", "contact time": 1.0}, 110.0, (), ""),
        ({"jacket": "mastic", "touched surface": "ceramics", "contact time": 10.0}, 56.0, (), ""),
        ({"jacket": "aluminum", "touched surface": "wood", "contact time": 1.0}, 62.0, (), ""),
        ({"jacket": "aluminum"}, None, ("contact time",), ""),
        ({"contact time": 1.0}, None, ("jacket",), ""),
        ({"insulation": "none", "contact time": 1.0}, None, ("pipe material",), ""),
        (
            {"jacket": "canvas", "contact time": 1.0},
            None,
            (),
            "no threshold is published here for this outer material",
        ),
    ],
)
def test_a_threshold_explains_itself(
    line: dict[str, float | str | None], celsius: float | None, missing: tuple[str, ...], cannot: str
) -> None:
    """A line has the threshold of what is touched, or the cause why not; a missing input is never taken as mild."""
    working = work_out("burn threshold", line)
    assert working.value == (None if celsius is None else pytest.approx(celsius + ZERO))
    assert (working.missing, working.cannot) == (missing, cannot)


def test_both_transcriptions_are_shown() -> None:
    """Metal touched for 1 s: 62 °C counts, and the working names 65 °C of the other."""
    working = work_out("burn threshold", {"jacket": "stainless steel", "contact time": 1.0})
    steps = {step.name: step.value for step in working.steps}
    assert steps["surface in the table"] == "bare metal"
    assert steps["threshold in another transcription"] == pytest.approx(65 + ZERO)


def test_many_lines_are_those_of_each_alone() -> None:
    """Columns of lines give what each line gives by itself."""
    jackets, times = ["aluminum", "PVC", "canvas", ""], [1.0, 30.0, 1.0, 1.0]
    column = work_out_lines("burn threshold", {"jacket": np.array(jackets), "contact time": np.array(times)}).values
    alone = [
        work_out("burn threshold", {"jacket": jacket or None, "contact time": time}).value
        for jacket, time in zip(jackets, times, strict=True)
    ]
    assert [None if np.isnan(value) else value for value in column] == alone
