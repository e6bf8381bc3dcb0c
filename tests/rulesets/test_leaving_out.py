"""A schedule that says less is never told better: every shipped ruleset and the demo, every datum, one at a time.

The lines are those of all examples of a ruleset and those of the demo's schedule. A verdict gets better where a line
that does not comply, or cannot be determined, comes to comply, to be not applicable or to be not checked. Three things
are no help: a clause that says itself `judged only where` the datum `is stated`; another clause that then judges the
line instead, by the same terms and without a pass; and an assumption of the ruleset that the verdict tells. What else
there is stands in `data/leaving_out.csv`, with the reason.
"""

from __future__ import annotations

import csv
from functools import cache
from pathlib import Path

import pytest

from speccheck.language import shipped_ruleset_names
from tests.rulesets.leaving_out import DEMO, Improvement, improvements, lines_of, rules

RULESETS = (*shipped_ruleset_names(), DEMO)
with (Path(__file__).parent / "data" / "leaving_out.csv").open(encoding="utf-8", newline="") as opened:
    EXCEPTIONS = list(csv.DictReader(opened))


@cache
def _tried(name: str, words: str | None) -> tuple[int, list[Improvement]]:
    """Return how many data of a ruleset's lines were taken away, and each verdict that was better without one."""
    return improvements(lines_of(name), rules(name), words)


def _excepted(one: Improvement, ruleset: str) -> list[int]:
    """Return the numbers of the exceptions that an improvement falls under."""
    return [
        number
        for number, row in enumerate(EXCEPTIONS)
        if row["ruleset"] in ("*", ruleset) and row["clause"] in ("*", one.clause.label) and row["datum"] == one.datum
    ]


@pytest.mark.parametrize("words", [None, "TBD", ""], ids=["absent", "to be settled", "blank"])
@pytest.mark.parametrize("name", RULESETS, ids=lambda name: Path(name).stem)
def test_leaving_a_datum_out_never_helps(name: str, words: str | None) -> None:
    """No verdict gets better without a datum, but for what the clause, another one or an assumption tells."""
    key = "project" if name == DEMO else name
    count, found = _tried(name, words)
    assert count > len(lines_of(name)) / 2
    helped = [one for one in found if not one.by_rule and not _excepted(one, key)]
    assert [(one.clause.label, one.line.name, one.datum, one.before, one.after) for one in helped] == []


def test_every_exception_is_met_and_has_a_reason() -> None:
    """No row of the list stands without need, none without a reason, and there are few."""
    met: set[int] = set()
    for name in RULESETS:
        _, found = _tried(name, None)
        key = "project" if name == DEMO else name
        met.update(number for one in found if not one.by_rule for number in _excepted(one, key))
    assert met == set(range(len(EXCEPTIONS)))
    assert all(row["why"] for row in EXCEPTIONS)
    assert len(EXCEPTIONS) <= 12
