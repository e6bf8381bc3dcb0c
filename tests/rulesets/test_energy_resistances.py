"""Resistances that codes ask of ducts, suction lines and pipes, against their published values, in both units.

`data/energy_resistances.csv` has each edition, its state amendments and both ends of each band. A value that two
readings of a source dispute has both; between them nothing can be determined.
"""

from __future__ import annotations

import pytest

from speccheck.judge import Verdict
from tests.rulesets.proposing import published, verdict
from tests.rulesets.test_energy_places import stated

ROWS = published("energy_resistances")
METRIC = 0.1761101838
"""One h ft2 F/Btu in m2 K/W, by exact definitions of the units."""


def tried(row: dict[str, str], value: float) -> list[Verdict]:
    """Return the verdicts on a resistance, in the code's unit and in the other."""
    words = (f"{value:.9f} h.ft2.F/Btu", f"{value * METRIC:.9f} m2.K/W")
    return [verdict(row["ruleset"], row["clause"], {**stated(row["state"]), row["term"]: one}) for one in words]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['clause']} {row['state']}")
def test_the_published_resistance_is_enough_and_a_little_less_is_not(row: dict[str, str]) -> None:
    """Each value decides as printed; where readings disagree, only what meets all of them complies."""
    low = float(row["resistance"])
    high = float(row["other"] or low)
    assert tried(row, high * (1 + 2e-6)) == [Verdict.COMPLIES] * 2
    assert tried(row, low * 0.998) == [Verdict.FAILS] * 2
    if high > low:
        assert tried(row, low) == tried(row, high * 0.998) == [Verdict.CANNOT_TELL] * 2
