"""The drawn rulesets and lines reach every kind of node, every relation and every sort of value.

The other tests of this folder say something about all rulesets only as far as these do.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import pytest
from hypothesis import given, settings

from speccheck.judge import Basis, Verdict, judge_lines
from speccheck.language.core import Arithmetic, Comparison, Includes, Inclusion, Lookup, Operation, Relation, Ruleset
from speccheck.language.core.relations import Within
from speccheck.language.core.walking import Node, conditions_of, walk
from speccheck.language.vocabulary.values import NotGiven
from speccheck.quantities import Interval
from speccheck.schedule.lines import Line
from tests.strategies.rulesets import NODES, judged

DRAWN = 200
JUDGED = {Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.COMPLIES, Verdict.NOT_CHECKED, Verdict.NOT_APPLICABLE}


@cache
def sample() -> tuple[tuple[Ruleset, Line], ...]:
    """Return the same few hundred rulesets each time, each with a line, some of them with ranges."""
    found: list[tuple[Ruleset, Line]] = []

    @settings(max_examples=DRAWN, database=None, derandomize=True, deadline=None)
    @given(judged() | judged(ranges=True))
    def gather(drawn: tuple[Ruleset, Line]) -> None:
        found.append(drawn)

    gather()
    return tuple(found)


def nodes() -> Iterator[Node]:
    """Go through all nodes of the sample."""
    for ruleset, _ in sample():
        for clause in ruleset.clauses:
            yield from walk(conditions_of(clause))


@pytest.mark.parametrize("kind", NODES, ids=lambda kind: kind.__name__)
def test_every_kind_of_node_is_drawn(kind: type) -> None:
    """Each kind of node of the core stands in some drawn ruleset."""
    assert any(isinstance(node, kind) for node in nodes())


def test_every_relation_operation_and_inclusion_is_drawn() -> None:
    """Each way to compare, to calculate and to include stands in some drawn ruleset."""
    relations = {node.relation for node in nodes() if isinstance(node, Comparison)}
    assert {each for each in relations if isinstance(each, Relation)} == set(Relation)
    assert {each.denied for each in relations if isinstance(each, Within)} == {False, True}
    assert {node.operation for node in nodes() if isinstance(node, Arithmetic)} == set(Operation)
    assert {node.inclusion for node in nodes() if isinstance(node, Includes)} == set(Inclusion)


@pytest.mark.parametrize("part", ["scope", "shall", "should", "exceptions"])
def test_every_part_of_a_clause_is_drawn_and_left_out(part: str) -> None:
    """Each part of a clause is there in some drawn clause and missing in another."""
    assert {bool(getattr(clause, part)) for ruleset, _ in sample() for clause in ruleset.clauses} == {True, False}


def test_tables_of_one_to_three_axes_are_drawn_with_dashes() -> None:
    """Tables of each shape are drawn, of each some with a cell that is not covered."""
    tables = [node.table for node in nodes() if isinstance(node, Lookup)]
    shapes = {(len(table.axes), any(None in row for row in table.cells)) for table in tables}
    assert shapes == {(axes, dashes) for axes in (1, 2, 3) for dashes in (True, False)}


def test_ranges_and_missing_data_are_drawn() -> None:
    """Lines with ranges, words that say nothing, and terms without a column are drawn."""
    sorts = {type(datum.value) for _, line in sample() for datum in line.data.values()}
    assert {Interval, NotGiven} <= sorts
    assert any(len(line.data) < len(ruleset.vocabulary.terms) for ruleset, line in sample())


def test_every_verdict_basis_and_advice_is_reached() -> None:
    """Between them the drawn clauses and lines come to each verdict, by each rule, and to each verdict on advice."""
    cells = [cell for ruleset, line in sample() for cell in judge_lines(ruleset, [line])[0]]
    assert {cell.verdict for cell in cells} == JUDGED
    assert {cell.basis for cell in cells} == set(Basis)
    assert {cell.advice for cell in cells} == {None, *JUDGED}
    assert any(cell.at for cell in cells)
