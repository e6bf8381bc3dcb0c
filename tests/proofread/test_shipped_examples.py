"""How good the examples of the shipped rulesets and of the demo are; what they do not notice is listed with the reason.

`unnoticed.csv` has each change that no example notices. Where `proved` says yes, the regions of the clauses before and
after the change are the same, so that no line that states what they ask for could show it.
"""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from speccheck.language import load_ruleset, shipped_ruleset_names
from speccheck.proofread.mutation import adequacy
from tests.tools.rulesets_page import PAGE, means_the_same, trials_row

FOLDER = Path(__file__).parent
DEMO = str(FOLDER.parents[1] / "examples" / "dairy" / "project.clauses")
RULESETS = (*shipped_ruleset_names(), DEMO)
LEAST_SHARE = 0.95


def listed(name: str) -> dict[str, tuple[bool, str]]:
    """Return the changes listed for a ruleset, with whether they are proved to alter nothing, and why they stay."""
    called = "the demo" if name == DEMO else name
    with (FOLDER / "unnoticed.csv").open(encoding="utf-8", newline="") as file:
        rows = [row for row in csv.DictReader(file) if row["ruleset"] == called]
    return {row["change"]: (row["proved"] == "yes", row["why"]) for row in rows}


@pytest.mark.parametrize("name", RULESETS, ids=lambda name: Path(name).stem)
def test_what_no_example_notices_is_listed_with_a_reason(name: str) -> None:
    """At least 95 % of the changes are noticed; the others are listed, and the page on the rulesets has the numbers."""
    ruleset = load_ruleset(name).ruleset
    assert ruleset is not None
    found = adequacy(ruleset)
    rows = listed(name)
    assert {change.words for change in found.unnoticed} == set(rows)
    assert {change.words: means_the_same(ruleset, change) for change in found.unnoticed} == {
        words: proved for words, (proved, _) in rows.items()
    }
    assert "" not in [why for _, why in rows.values()]
    assert found.share >= LEAST_SHARE
    if name != DEMO:
        assert trials_row(name, found, sum(proved for proved, _ in rows.values())) in PAGE.read_text(encoding="utf-8")
