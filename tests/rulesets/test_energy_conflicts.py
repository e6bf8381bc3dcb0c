"""Where sources disagree: both readings stand, and between them nothing is determined.

`data/energy_conflicts.csv` has for each conflict what all readings take, what one alone takes and what none takes.
"""

from __future__ import annotations

import pytest

from speccheck.language import shipped_ruleset_names
from tests.rulesets.proposing import cell, published
from tests.rulesets.test_energy_places import stated
from tests.rulesets.test_examples import written

ROWS = published("energy_conflicts")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['clause']} {row['state']} {row['value']}")
def test_only_what_all_readings_say_is_determined(row: dict[str, str]) -> None:
    """What all readings take complies, what none takes does not; between them the finding names the conflict."""
    found = cell(row["ruleset"], row["clause"], {**stated(row["state"]), row["term"]: row["value"]})
    assert str(found.verdict) == row["verdict"], found.reason
    assert ("the sources disagree" in found.reason) is (row["verdict"] == "cannot be determined"), found.reason


@pytest.mark.parametrize("name", shipped_ruleset_names())
def test_a_ruleset_with_two_readings_says_so_in_a_note(name: str) -> None:
    """A file whose own clauses stand on two readings has a note that begins with or names the CONFLICT."""
    text = " ".join(written(name).split())
    assert "or by another reading" not in text or "CONFLICT" in text
