"""Minimum thicknesses of other places against their published tables and rules, in millimetres and in inches.

`data/energy_places.csv` has a row for both ends of each band of each table, with the mark of its source, and values
that were worked out by hand from a published rule. None of them comes from this program.
"""

from __future__ import annotations

import pytest

from speccheck.judge import Verdict
from tests.rulesets.proposing import published, verdict

ROWS = published("energy_places")
ROUNDED = {"energy/quebec": 1e-5}  # 0.0357143 W/(m.K) stands for 1/28


def stated(words: str) -> dict[str, str]:
    """Return what a row states, by the name of the term."""
    return dict(part.split(": ", 1) for part in words.split("; "))


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['clause']} {row['state']}")
def test_the_published_thickness_is_enough_and_a_little_less_is_not(row: dict[str, str]) -> None:
    """Each cell decides as printed: its thickness complies, 1/500 less does not, in either unit."""
    asked = float(row["thickness"]) * (1 + 2e-6 + ROUNDED.get(row["ruleset"], 0.0))
    for part, expected in ((1.0, Verdict.COMPLIES), (0.998, Verdict.FAILS)):
        for thickness in (f"{asked * part:.8f} mm", f"{asked * part / 25.4:.9f} in"):
            line = {**stated(row["state"]), "thickness": thickness}
            assert verdict(row["ruleset"], row["clause"], line) is expected, line
