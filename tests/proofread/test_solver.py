"""Proofreading held against z3, which knows nothing of atoms: conditions written as formulas over real numbers.

Quantities are real numbers in SI units and compared without tolerance; every term besides has a truth value that says
whether it is given, and a condition is a pair of formulas, when it holds and when it does not.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, assert_never

import pytest

from speccheck.engine.comparing import bare
from speccheck.language.core import (
    Amount,
    Clause,
    Comparison,
    Condition,
    Every,
    Given,
    Holds,
    Includes,
    Inclusion,
    Literal,
    Lookup,
    NamedCondition,
    Negation,
    OneOf,
    Relation,
    Some,
    TermValue,
)
from speccheck.language.kinds import Form
from speccheck.language.vocabulary import Term
from speccheck.language.walking import conditions_of, terms_of, walk
from speccheck.proofread.clause_regions import read_together
from speccheck.proofread.idle_clauses import implied_clauses
from speccheck.proofread.idle_conditions import idle_conditions
from speccheck.proofread.lines import Lines
from speccheck.quantities import NOMINAL_SIZES
from tests.proofread.random_rulesets import random_ruleset
from tests.proofread.test_every_line import _labels

z3 = pytest.importorskip("z3")
COUNT, BATCH = 60, 30
SEEDS = [range(start, start + BATCH) for start in range(0, COUNT, BATCH)]
Formulas = tuple[Any, Any]


def number(term: Term) -> Any:
    """Return the number that stands for the value of a term."""
    return z3.Real(term.name)


def given(term: Term) -> Any:
    """Return the truth value that says whether a term is given."""
    return z3.Bool(f"{term.name} given")


def formulas(condition: Condition) -> Formulas:
    """Return when a condition holds and when it does not."""
    match condition:
        case Every(parts):
            both = [formulas(part) for part in parts]
            return z3.And([one[0] for one in both]), z3.Or([one[1] for one in both])
        case Some(parts):
            both = [formulas(part) for part in parts]
            return z3.Or([one[0] for one in both]), z3.And([one[1] for one in both])
        case Negation(part):
            return formulas(part)[::-1]
        case NamedCondition(_, inner):
            return formulas(inner)
        case Given(term):
            return given(term), z3.Not(given(term))
        case Holds(term):
            return z3.And(given(term), number(term) == 1), z3.And(given(term), number(term) == 0)
        case Includes(term, inclusion, options):
            members = [z3.Bool(f"{term.name} {option}") for option in options]
            truth = {
                Inclusion.ALL: z3.And(members),
                Inclusion.ANY: z3.Or(members),
                Inclusion.NONE: z3.Not(z3.Or(members)),
            }[inclusion]
            return z3.And(given(term), truth), z3.And(given(term), z3.Not(truth))
        case OneOf(amount, options):
            return formulas(Some(tuple(Comparison(amount, Relation.EQUAL, Literal(o, amount.kind)) for o in options)))
        case Comparison(left, relation, right):
            known = z3.And(is_known(left), is_known(right))
            truth = related(value(left), relation, value(right, left))
            return z3.And(known, truth), z3.And(known, z3.Not(truth))
        case _:
            assert_never(condition)


def related(left: Any, relation: Relation, right: Any) -> Any:
    """Return that two numbers stand in a relation."""
    match relation:
        case Relation.EQUAL:
            return left == right
        case Relation.NOT_EQUAL:
            return left != right
        case Relation.AT_LEAST:
            return left >= right
        case Relation.AT_MOST:
            return left <= right
        case Relation.LESS_THAN:
            return left < right
        case Relation.MORE_THAN:
            return left > right


def is_known(amount: Amount) -> Any:
    """Return that an amount has a value."""
    if isinstance(amount, Lookup):
        (axis,) = amount.table.axes
        rows = zip(axis.bands, amount.table.cells, strict=True)
        return z3.And(
            given(axis.term), z3.Or([within(axis.term, band) for band, cells in rows if cells[0] is not None])
        )
    return given(amount.term) if isinstance(amount, TermValue) else z3.BoolVal(True)


def within(term: Term, band: Any) -> Any:
    """Return that a term lies in a band of a table."""
    interval, limits = band.interval, [z3.BoolVal(True)]
    if interval.low is not None:
        low = exact(bare(interval.low))
        limits.append(number(term) >= low if interval.low_closed else number(term) > low)
    if interval.high is not None:
        high = exact(bare(interval.high))
        limits.append(number(term) <= high if interval.high_closed else number(term) < high)
    return z3.And(limits)


def value(amount: Amount, beside: Amount | None = None) -> Any:
    """Return the number that an amount comes to; words are numbered in the order of their term's list."""
    if isinstance(amount, TermValue):
        return number(amount.term)
    if isinstance(amount, Lookup):
        (axis,) = amount.table.axes
        found = z3.RealVal(0)
        for band, (cell,) in zip(axis.bands, amount.table.cells, strict=True):
            if cell is not None:
                found = z3.If(within(axis.term, band), exact(bare(cell.value)), found)
        return found
    assert isinstance(amount, Literal), amount
    if isinstance(amount.value, str):
        assert isinstance(beside, TermValue), beside
        return z3.RealVal([choice.name for choice in beside.term.choices].index(amount.value))
    return exact(bare(amount.value))


def exact(amount: float) -> Any:
    """Return a number as exact as the machine has it."""
    numerator, denominator = float(amount).as_integer_ratio()
    return z3.RealVal(f"{numerator}/{denominator}")


def possible(clauses: Sequence[Clause]) -> Any:
    """Return that a line can be stated, and states all that clauses ask for but for what they ask whether given."""
    conditions = [condition for clause in clauses for condition in conditions_of(clause)]
    asked = {node.term.name for node in walk(conditions) if isinstance(node, Given)}
    limits = []
    for term in terms_of(conditions):
        if term.name not in asked:
            limits.append(given(term))
        match term.kind.form:
            case Form.CHOICE:
                limits.append(z3.Or([number(term) == at for at in range(len(term.choices))]))
            case Form.SIZE:
                limits.append(z3.Or([number(term) == exact(float(size.inches)) for size in NOMINAL_SIZES]))
            case Form.YES_NO:
                limits.append(z3.Or(number(term) == 0, number(term) == 1))
            case Form.COUNT:
                limits += [z3.IsInt(number(term)), number(term) >= 0]
            case _:
                limits.append(number(term) >= 0)
    return z3.And(limits)


def applies(clause: Clause) -> Any:
    """Return that a clause surely applies."""
    scope = [formulas(condition)[0] for condition in clause.scope]
    return z3.And(*scope, *(formulas(part.condition)[1] for part in clause.exceptions), True)


def fails(clause: Clause) -> Any:
    """Return that a clause surely is not met."""
    return z3.And(applies(clause), z3.Or([formulas(condition)[1] for condition in clause.shall]))


def satisfiable(*parts: Any) -> bool:
    """Say whether there is a line of which all parts hold."""
    solver = z3.Solver()
    solver.add(*parts)
    answer = solver.check()
    assert answer != z3.unknown
    return bool(answer == z3.sat)


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_solver_agrees_on_clauses_that_never_apply_or_are_never_met(seeds: Sequence[int]) -> None:
    """A clause is told never to apply, or never to be met, if and only if the solver finds no line for it."""
    for seed in seeds:
        (reading,) = read_together([random_ruleset(seed)])
        found = tuple(idle_conditions(reading, Lines((reading,))))
        for clause in reading.ruleset.clauses:
            labels, whole = (clause.label,), possible([clause])
            scope = [formulas(condition)[0] for condition in clause.scope]
            assert (labels in _labels(found, "P301")) is not satisfiable(whole, *scope), seed
            if labels not in _labels(found, "P301", "P302", "P303", "P304"):
                met = [formulas(condition)[0] for condition in clause.shall]
                assert (labels in _labels(found, "P307")) is not satisfiable(whole, applies(clause), *met), seed


@pytest.mark.parametrize("seeds", SEEDS, ids=str)
def test_solver_agrees_on_implied_clauses(seeds: Sequence[int]) -> None:
    """A clause told to be implied fails on no line that the other accepts; one not told so does, against each other."""
    for seed in seeds:
        (reading,) = read_together([random_ruleset(seed)])
        told = {labels[0] for labels in _labels(implied_clauses(reading, Lines((reading,))), "P309")}
        clauses = reading.ruleset.clauses
        expected = {
            clause.label
            for at, clause in enumerate(clauses)
            if any(_implies(clause, other, place < at) for place, other in enumerate(clauses) if place != at)
        }
        assert told == expected, seed


def _implies(clause: Clause, other: Clause, earlier: bool) -> bool:
    whole, own = possible([clause, other]), fails(clause)
    met = [formulas(condition)[0] for condition in other.shall]
    if not satisfiable(whole, own) or not satisfiable(possible([other]), applies(other), *met):
        return False
    implied = not satisfiable(whole, own, z3.Not(fails(other)))
    return implied and (earlier or satisfiable(whole, fails(other), z3.Not(own)))
