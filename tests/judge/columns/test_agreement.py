"""The columns checked against the judge: on random rulesets and lines they give the same verdicts."""

from __future__ import annotations

from typing import get_args

import pytest
from hypothesis import HealthCheck, Phase, find, given, settings

from speccheck.judge.vectorized import comparing
from speccheck.language.core import Amount, Comparison, Condition, Inclusion, Operation, OrEqual, Relation, Ruleset
from speccheck.language.core.relations import AnyRelation
from speccheck.language.core.walking import conditions_of, walk
from speccheck.language.vocabulary.terms import Form
from speccheck.schedule.lines import Line
from tests.judge.columns.agreement import Tally, by_columns, by_judge, hold_together
from tests.strategies.rulesets import judged

CALM = settings(max_examples=100, deadline=None, suppress_health_check=list(HealthCheck))
PAIRS = 25_000
LINES = 125


@pytest.fixture(scope="module")
def tally() -> Tally:
    """Return what came of many pairs of a written ruleset and a line."""
    return hold_together(range(1_000_000, 1_000_000 + PAIRS // LINES), LINES)


def test_agree_on_written_rulesets(tally: Tally) -> None:
    """Judge and columns agree on every cell of 25,000 pairs; `python -m tests.judge.columns.agreement` tries more."""
    assert tally.pairs == PAIRS
    assert tally.disagreements == []


def test_written_rulesets_hold_every_kind_of_node(tally: Tally) -> None:
    """The pairs hold every node, every relation on every form it can have, every operation and inclusion."""
    nodes = [node.__name__ for node in (*get_args(Amount), *get_args(Condition))]
    ordered = (Form.QUANTITY, Form.SIZE, Form.COUNT, Form.NUMBER)
    relations = [f"{form} {relation}" for form in ordered for relation in Relation]
    shares = [
        f"{form} {relation.__name__} {denied}"
        for form in (Form.QUANTITY, Form.COUNT, Form.NUMBER)
        for relation in get_args(AnyRelation)
        if relation is not Relation
        for denied in (False, True)
    ]
    unordered = [f"{form} {relation}" for form in (Form.CHOICE, Form.TEXT) for relation in ("is", "is not")]
    others = (
        *Operation,
        *Inclusion,
        "computed",
        "assumption",
        "nominal metric True",
        "tolerance 0.25",
        "tolerance 0.0",
    )
    wanted = (*nodes, *relations, *shares, *unordered, *map(str, others))
    assert [what for what in wanted if not tally.met[what]] == []


def test_lines_lack_data_in_every_column_and_cover_ranges(tally: Tally) -> None:
    """Each term is missing from lines, lines cover ranges of each ordered form, and all four verdicts come about."""
    missing = [what for what in tally.met if what.startswith("without ")]
    assert len(missing) == 35
    assert min(tally.met[what] for what in missing) > PAIRS / 50
    ranges = [f"range of {form}" for form in (Form.QUANTITY, Form.SIZE, Form.COUNT, Form.NUMBER)]
    verdicts = ["does not comply", "cannot be determined", "complies", "not applicable"]
    assert [what for what in (*ranges, *verdicts) if tally.met[what] < 50] == []


def agree(case: tuple[Ruleset, Line]) -> bool:
    """Say whether judge and columns agree on all clauses of a ruleset on a line."""
    ruleset, line = case
    return by_judge(ruleset, [line]) == by_columns(ruleset, [line])


@CALM
@given(judged())
def test_agree_on_drawn_clauses(case: tuple[Ruleset, Line]) -> None:
    """Judge and columns agree on any tree of nodes, be it one that nobody would write."""
    assert agree(case)


@CALM
@given(judged(ranges=True))
def test_agree_on_drawn_clauses_and_ranges(case: tuple[Ruleset, Line]) -> None:
    """Judge and columns agree on any tree of nodes where the line covers ranges of what it draws on."""
    assert agree(case)


def test_a_disagreement_shrinks_to_a_small_case(monkeypatch: pytest.MonkeyPatch) -> None:
    """A fault put into "at least" is found, and cut down to one clause with one comparison."""
    monkeypatch.setattr(comparing, "smallest_within", lambda value, _: value * 1.5)
    quick = settings(max_examples=2000, database=None, phases=[Phase.generate, Phase.shrink], deadline=None)
    ruleset, _ = find(judged(), lambda case: not agree(case), settings=quick)
    nodes = [node for clause in ruleset.clauses for node in walk(conditions_of(clause))]
    assert len(ruleset.clauses) == 1
    conditions = [node for node in nodes if not hasattr(node, "kind")]
    assert [type(node) for node in conditions if not isinstance(node, OrEqual)] == [Comparison]
    assert len(nodes) - len(conditions) == 2
