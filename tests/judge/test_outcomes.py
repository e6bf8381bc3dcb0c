"""Outcomes that are kept from one case to another say what evaluating afresh says."""

from __future__ import annotations

from dataclasses import fields, is_dataclass

from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.judge import Judge
from speccheck.judge.evaluation import evaluate
from speccheck.judge.operations import Rules
from speccheck.judge.outcomes import Outcomes
from speccheck.language.core import Ruleset
from speccheck.language.core.walking import conditions_of
from tests.strategies.rulesets import lines, rulesets


def same(first: object, second: object) -> bool:
    """Say whether two outcomes are alike in all their parts; some of these are the same by identity alone."""
    if first is second:
        return True
    if isinstance(first, tuple) and isinstance(second, tuple):
        return len(first) == len(second) and all(map(same, first, second))
    if is_dataclass(first) and type(first) is type(second):
        return all(same(getattr(first, each.name), getattr(second, each.name)) for each in fields(first))
    return first == second


@settings(deadline=None, max_examples=100)
@given(rulesets(), st.data())
def test_kept_outcomes_are_those_of_evaluating_afresh(ruleset: Ruleset, draw: st.DataObject) -> None:
    """On several lines, one after the other, each condition comes to what it comes to by itself."""
    rules = Rules.of(ruleset)
    kept = Outcomes(rules)
    for _ in range(3):
        case = {name: datum.value for name, datum in draw.draw(lines(ruleset.vocabulary)).data.items()}
        for clause in ruleset.clauses:
            conditions = conditions_of(clause)
            found = kept.of(conditions, case)  # type: ignore[arg-type]
            assert same(found, tuple(evaluate(one, case, rules) for one in conditions))  # type: ignore[arg-type]


@settings(deadline=None, max_examples=60)
@given(rulesets(), st.data())
def test_a_judge_that_knows_other_lines_says_the_same(ruleset: Ruleset, draw: st.DataObject) -> None:
    """The cells of a line by a judge that has judged another one are those of a judge that has not."""
    first, second = draw.draw(lines(ruleset.vocabulary)), draw.draw(lines(ruleset.vocabulary))
    experienced = Judge(ruleset)
    experienced.row(first)
    afresh = Judge(ruleset).row(second)
    assert same(tuple(cell.said for cell in experienced.row(second)), tuple(cell.said for cell in afresh))
