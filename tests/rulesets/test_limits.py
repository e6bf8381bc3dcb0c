"""Single limits of the shipped rulesets, checked by the published values in `data/limits.toml`, source by source."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from speccheck.judge import Verdict
from tests.rulesets.proposing import judge_of, verdict

LIMITS: list[dict[str, Any]] = tomllib.loads(
    (Path(__file__).parent / "data" / "limits.toml").read_text(encoding="utf-8")
)["limit"]

EXPECTED = {
    "within": Verdict.COMPLIES,
    "beyond": Verdict.FAILS,
    "outside": Verdict.NOT_APPLICABLE,
}
TRIED = [
    pytest.param(limit, words, expected, id=f"{limit['ruleset']} {limit['clause']} {limit['term']} {words}")
    for limit in LIMITS
    for part, expected in EXPECTED.items()
    for words in limit.get(part, ())
]


@pytest.mark.parametrize(("limit", "words", "expected"), TRIED)
def test_a_published_limit_holds_at_itself_and_fails_right_beyond(
    limit: dict[str, Any], words: str, expected: Verdict
) -> None:
    """Each limit, in inch-pound and in metric units, allows what its source allows and nothing right beyond it."""
    stated = {**limit["line"], limit["term"]: words}
    assert verdict(limit["ruleset"], limit["clause"], stated) is expected


@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: f"{limit['ruleset']} {limit['clause']} {limit['term']}")
def test_a_clause_says_how_sure_its_published_value_is(limit: dict[str, Any]) -> None:
    """The mark that the value carries in the list (seen, second hand, from memory) is one of its clause."""
    clauses = {clause.name: clause for clause in judge_of(limit["ruleset"]).ruleset.clauses}
    sources = clauses[limit["clause"]].sources
    assert any(limit["source"].endswith(f"({source.confidence})") for source in sources)
