"""What is sensible bounds what proofreading tells: in the units of the ruleset, and where amounts are compared."""

from __future__ import annotations

import pytest

from speccheck.language import load_vocabulary, parse_ruleset
from speccheck.language.core import Ruleset
from speccheck.proofread.proofreading import proofread
from speccheck.proofread.variables import in_usual_unit
from speccheck.quantities import Quantity
from speccheck.quantities.meaning import quantity

STEAM = """ruleset "case"
  speaks mechanical insulation
  units  {units}

table asked in {unit}
  by {axes}
  {bands}

clause 1 "Steam"
  where service is steam
  shall thickness be at least asked
"""
HOT_AND_SWEATING = """ruleset "case"
  speaks mechanical insulation

clause 1 "No sweating"
  where operating temperature is less than dew point
  shall surface temperature be more than dew point

clause 2 "No burns"
  where operating temperature is above {least}
  shall surface temperature be at most 130 F
"""


def ruleset(text: str) -> Ruleset:
    """Return the ruleset of a text."""
    loaded = parse_ruleset(text)
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


@pytest.mark.parametrize(
    ("units", "unit", "bands", "holes"),
    [
        (
            "metric",
            "mm",
            "100 C to 180 C | 40",
            ["operating temperature 66 C to under 100 C", "operating temperature over 180 C to under 650 C"],
        ),
        (
            "inch-pound",
            "inches",
            "212 F to 350 F | 1",
            ["operating temperature 150 F to under 212 F", "operating temperature over 350 F to 1200 F"],
        ),
    ],
)
def test_a_hole_is_told_in_the_units_of_the_ruleset(units: str, unit: str, bands: str, holes: list[str]) -> None:
    """Steam is sensibly at 150 F to 1,200 F by the vocabulary; a metric ruleset is told so in Celsius, rounded."""
    text = STEAM.format(units=units, unit=unit, axes="operating temperature", bands=bands)
    found = [one.message for one in proofread(ruleset(text)).findings if one.code == "P101"]
    assert found == [f"`asked` has no band for {hole}" for hole in holes]


def test_an_end_is_turned_only_where_it_is_in_the_other_system() -> None:
    """150 F is 65.6 C: 66 C in a metric ruleset, as it is written in another; no size and no text is touched."""
    vocabulary = load_vocabulary("mechanical insulation").vocabulary
    assert vocabulary is not None
    term, end = vocabulary.terms["operating temperature"], quantity("150 F", "temperature")
    turned = in_usual_unit(end, term, "metric")
    assert isinstance(turned, Quantity)
    assert str(turned) == "66 C"
    assert in_usual_unit(end, term, "inch-pound") is end
    assert in_usual_unit("steam", term, "metric") == "steam"


def test_no_clash_is_told_that_only_an_impossible_dew_point_shows() -> None:
    """A line over 140 F that is colder than its dew point would need air more humid than any; over 90 F it would not.

    The highest dew point that was measured is about 95 F (from memory), so that a surface has to be at most 130 F and
    above a dew point that can be: no clash at either.
    """
    assert [one.code for one in proofread(ruleset(HOT_AND_SWEATING.format(least="140 F"))).findings] == []
    assert [one.code for one in proofread(ruleset(HOT_AND_SWEATING.format(least="90 F"))).findings] == []
