"""When codes of several places ask something and whom they exempt, against their published words.

`data/published_rules.csv` has for each rule a line that it is for and one that it is not, with the mark of its source.
"""

from __future__ import annotations

import pytest

from tests.rulesets.proposing import cell, published
from tests.rulesets.test_energy_places import stated

ROWS = published("published_rules")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row['ruleset']} {row['clause']} {row['state']}")
def test_the_rule_holds_where_it_is_printed_to_hold(row: dict[str, str]) -> None:
    """Each exemption, condition and end of a table decides as printed."""
    found = cell(row["ruleset"], row["clause"], stated(row["state"]))
    assert str(found.verdict) == row["verdict"], found.reason
