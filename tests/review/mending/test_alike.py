"""Values that corrections take for alike to a clause, held against the judge on drawn rulesets and lines."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st

from speccheck.judge.judging import Judge
from speccheck.language import parse_ruleset
from speccheck.language.core.walking import conditions_of, terms_of
from speccheck.language.vocabulary.values import Single
from speccheck.quantities import Quantity
from speccheck.review.corrections.alike import Alike
from speccheck.review.corrections.requirements import Standings, changed
from tests.strategies.rulesets import judged
from tests.strategies.values import singles

RULESET = """ruleset "Alike"
  speaks mechanical insulation

clause 1 "Thickness by service"
  where service is one of chilled water, heating hot water
  shall thickness be at least 1 in

clause 2 "Adjusted"
  shall thickness be at least 2 times pipe outside diameter
"""


def alike() -> Alike:
    """Return what tells values alike to the clauses above."""
    loaded = parse_ruleset(RULESET)
    assert loaded.ruleset is not None, loaded.diagnostics
    return Alike(Judge(loaded.ruleset))


def inches(number: float) -> Quantity:
    """Return a length."""
    return Quantity(number * 0.0254, "length", "in")


def test_amounts_on_one_side_of_a_limit_are_alike() -> None:
    """1.5 in and 2 in are alike to `at least 1 in`, and 1/2 in is not; nor is a choice that the clause names."""
    seen = alike().as_seen
    assert seen(0, "thickness", inches(1.5)) == seen(0, "thickness", inches(2))
    assert seen(0, "thickness", inches(0.5)) != seen(0, "thickness", inches(2))
    assert seen(0, "service", "domestic cold water") == seen(0, "service", "steam")
    assert seen(0, "service", "chilled water") != seen(0, "service", "steam")


def test_amounts_that_are_compared_with_a_calculation_are_not_alike() -> None:
    """What thickness is held against depends on the line, so that each thickness is one of its own."""
    seen = alike().as_seen
    assert seen(1, "thickness", inches(1.5)) != seen(1, "thickness", inches(2))


@settings(deadline=None, max_examples=150)
@given(judged(ranges=True), st.data())
def test_a_clause_stands_on_alike_values_in_the_same_way(drawn: tuple, draw: st.DataObject) -> None:  # type: ignore[type-arg]
    """A line that states one value for a term, and the line that states another which is alike, stand alike."""
    ruleset, line = drawn
    judge = Judge(ruleset)
    known = Alike(judge)
    for number, clause in enumerate(ruleset.clauses):
        for term in terms_of(conditions_of(clause)):
            values: list[Single] = draw.draw(st.lists(singles(term.kind, term), min_size=2, max_size=4))
            stood: dict[object, object] = {}
            for value in values:
                there = changed(line, {term.name: value}, ruleset.vocabulary)
                standing = Standings(judge).of(number, there)
                assert stood.setdefault(known.as_seen(number, term.name, value), standing) == standing, (term, value)


@settings(deadline=None, max_examples=40)
@given(judged(ranges=True))
def test_what_is_out_of_scope_is_judged_not_to_apply(drawn: tuple) -> None:  # type: ignore[type-arg]
    """Asking the scope first changes no verdict: what stands on a line is what the whole judge says of it."""
    ruleset, line = drawn
    judge = Judge(ruleset)
    told = [(cell.verdict, cell.advice) for cell in judge.row(line)]
    assert [(cell.verdict, cell.advice) for cell in Standings(judge).row(line)] == told
