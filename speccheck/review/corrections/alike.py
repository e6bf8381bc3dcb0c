"""Values that are alike to a clause: those of a term between which none of its conditions tells.

Between two values at which a clause could change its mind all verdicts are the same, and so are they for choices that
it does not name. What a condition makes of a value is asked of the condition itself, so that nothing here has to know
how values are compared.
"""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from dataclasses import dataclass, field
from typing import assert_never

from speccheck.judge.evaluation import evaluate
from speccheck.judge.judging import Judge
from speccheck.judge.lookup import band_of
from speccheck.judge.operations import Rules
from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    AskedIf,
    Band,
    CellSays,
    Comparison,
    Condition,
    Every,
    Given,
    Holds,
    Includes,
    Literal,
    Lookup,
    NamedAmount,
    NamedCondition,
    Negation,
    OneOf,
    OrEqual,
    Readings,
    Some,
    TermValue,
)
from speccheck.language.core.walking import Node, conditions_of, plain_terms_of, tables_of, walk
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import Single
from speccheck.review.corrections.amounts import is_hidden
from speccheck.review.corrections.mentions import is_term, possible_values


@dataclass(frozen=True)
class _Tests:
    """What tells the values of a term apart: conditions on it alone, and the bands of tables that are read by it."""

    conditions: tuple[Condition, ...]
    bands: tuple[Sequence[Band], ...]

    def of(self, name: str, value: Single, rules: Rules) -> Hashable:
        """Return what the tests make of a value."""
        truths = [evaluate(one, {name: value}, rules).truth for one in self.conditions]
        return (*truths, *(band_of(value, bands) for bands in self.bands))


@dataclass
class Alike:
    """Tells which values of a term are alike to a clause of a ruleset, or to its scope alone."""

    judge: Judge
    of_scope: bool = False
    _tests: dict[tuple[int, str], _Tests | None] = field(default_factory=dict)
    _seen: dict[tuple[int, str, Single], Hashable] = field(default_factory=dict)

    def as_seen(self, number: int, name: str, value: Single) -> Hashable:
        """Return what clause `number` sees of a value: the same for values that are alike to it."""
        key = (number, name, value)
        found = self._seen.get(key)
        if found is None:
            tests = self._tests_of(number, name)
            found = value if tests is None else tests.of(name, value, self.judge.rules)
            self._seen[key] = found
        return found

    def _tests_of(self, number: int, name: str) -> _Tests | None:
        key = (number, name)
        if key not in self._tests:
            clause, term = self.judge.ruleset.clauses[number], self.judge.ruleset.vocabulary.terms[name]
            needs = self.judge.scope_needs(number) if self.of_scope else self.judge.needs(number)
            nodes = (*(clause.scope if self.of_scope else conditions_of(clause)), *needs.scopes)
            self._tests[key] = None if is_hidden(term, needs.inputs) else _tests(term, nodes)
        return self._tests[key]


def _tests(term: Term, nodes: Sequence[Node]) -> _Tests | None:
    """Return what of conditions tells values of a term apart; None where it goes into a calculation, or is compared
    with what the line states for another term.
    """
    conditions: list[Condition] = []
    for node in walk(nodes):
        found = _tests_at(node, term)
        if found is None:
            return None
        conditions += found
    axes = (axis for table in tables_of(nodes) for axis in table.axes)
    return _Tests(tuple(conditions), tuple(axis.bands for axis in axes if axis.term.name == term.name))


def _tests_at(node: Node, term: Term) -> Sequence[Condition] | None:
    """Return the conditions on a term alone that a node itself comes to, None where it draws on the term otherwise."""
    match node:
        case Comparison():
            return _of_comparison(node, term)
        case OneOf(amount):
            return [node] if is_term(amount, term) else None if _draws_on(amount, term) else []
        case Includes(of) | Given(of) | Holds(of):
            return [node] if of.name == term.name else []
        case Every() | Some() | Negation() | AskedIf() | OrEqual() | Readings() | NamedCondition() | CellSays():
            return []
        case Literal() | TermValue() | Lookup() | Arithmetic() | Adjusted() | NamedAmount():
            return []
        case _:
            assert_never(node)


def _of_comparison(node: Comparison, term: Term) -> Sequence[Condition] | None:
    """Return what a comparison comes to: the term compared with all that the other side can be."""
    drawn = [_draws_on(side, term) for side in (node.left, node.right)]
    if not any(drawn):
        return []
    side, other = (node.left, node.right) if drawn[0] else (node.right, node.left)
    values = possible_values(other) if is_term(side, term) else None
    if values is None:
        return None
    constants = [Literal(value, other.kind) for value in dict.fromkeys(values)]
    pairs = ((side, one) if drawn[0] else (one, side) for one in constants)
    return [Comparison(left, node.relation, right, node.place) for left, right in pairs]


def _draws_on(amount: Amount, term: Term) -> bool:
    return any(one.name == term.name for one in plain_terms_of([amount]))
