"""Limits of codes of several places against their published values: transmittances, resistances, thicknesses, indexes.

`data/published_limits.csv` has both ends of each band, with the mark of the source.
"""

from __future__ import annotations

import pytest

from speccheck.judge import Verdict
from tests.rulesets.proposing import published, verdict
from tests.rulesets.test_energy_places import stated

ROWS = published("published_limits")
OTHER = {
    "W/(m.K)": ("Btu.in/(h.ft2.F)", 1 / 0.1442278889),
    "W/(m2.K)": ("Btu/(h.ft2.F)", 1 / 5.678263341),
    "m2.K/W": ("h.ft2.F/Btu", 5.678263341),
    "mm": ("in", 1 / 25.4),
}
"""The inch-pound unit beside each metric one, and how many of it make one; exact definitions, rounded here."""


def tried(row: dict[str, str], value: float) -> set[Verdict]:
    """Return the verdicts on a value, in the document's unit and in the other."""
    words = [f"{value:.9f} {row['unit']}".strip()]
    if row["unit"] in OTHER:
        unit, factor = OTHER[row["unit"]]
        words.append(f"{value * factor:.9f} {unit}")
    if row["unit"] == "F":
        words.append(f"{(value - 32) / 1.8:.9f} C")
    return {verdict(row["ruleset"], row["clause"], {**stated(row["state"]), row["term"]: one}) for one in words}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['clause']} {row['state']}")
def test_the_published_limit_is_met_and_a_little_past_it_is_not(row: dict[str, str]) -> None:
    """Each limit decides as printed, in either unit."""
    value, worse = float(row["value"]), 1 if row["way"] == "most" else -1
    assert tried(row, value * (1 - worse * 4e-6)) == {Verdict.COMPLIES}
    assert tried(row, value * (1 + worse * 2e-3)) == {Verdict.FAILS}
