"""Proposals checked against all changes there are, on small random rulesets."""

from __future__ import annotations

import random

from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.judge import Verdict, judge_lines
from speccheck.review.corrections import Tools, mend
from tests.review.mending.drawing import drawn_line, drawn_ruleset
from tests.review.mending.exhausting import cheapest, price, stating


@settings(max_examples=100, deadline=None)
@given(st.integers(0, 10**9))
def test_no_cheaper_changes_comply(seed: int) -> None:
    """The first proposal costs what the cheapest of all combinations of values costs, and complies when judged."""
    chance = random.Random(seed)
    ruleset, names = drawn_ruleset(chance)
    keep = frozenset(ruleset.vocabulary.terms) - set(names)
    line = drawn_line(chance, ruleset, names)
    found = mend(line, Tools.of(ruleset, keep))
    plainly = cheapest(line, ruleset, names)
    if found is None:
        assert plainly is not None
        assert plainly[1] == [{}]
        return
    firm = [proposal for proposal in found.proposals if not proposal.undecided]
    if plainly is None:
        assert not firm
        return
    changes = {change.term.name: change.after for change in firm[0].changes}
    assert price(changes, ruleset) == plainly[0]
    verdicts = [cell.verdict for cell in judge_lines(ruleset, [stating(line, changes, ruleset)])[0]]
    assert verdicts == [cell.verdict for cell in firm[0].cells]
    assert Verdict.FAILS not in verdicts
