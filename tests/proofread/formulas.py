"""Clauses as formulas for z3, which knows nothing of atoms, diagrams or the judge: another reading of the same rules.

Quantities are real numbers in SI units and compared without tolerance; every term besides has a truth value that says
whether it is given, and a condition is a pair of formulas, when it holds and when it does not. What can be stated of a
term (a choice of its list, a nominal size, no less than nothing) is a formula too.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache
from typing import Any, assert_never

import z3

from speccheck.judge.operations import bare
from speccheck.language.core import (
    Amount,
    AskedIf,
    Band,
    CellSays,
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
    OrEqual,
    Readings,
    Relation,
    Some,
    Table,
    TermValue,
    Within,
)
from speccheck.language.core.relations import AnyRelation
from speccheck.language.core.walking import conditions_of, terms_of, walk
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.quantities import NOMINAL_SIZES

Formulas = tuple[Any, Any]
WHOLE = (Form.CHOICE, Form.YES_NO, Form.COUNT)


def number(term: Term) -> Any:
    """Return the number that stands for the value of a term; whole numbers are told apart, since z3 knows them well."""
    return z3.ToReal(z3.Int(term.name)) if term.kind.form in WHOLE else z3.Real(term.name)


def given(term: Term) -> Any:
    """Return the truth value that says whether a term is given."""
    return z3.Bool(f"{term.name} given")


def variables(term: Term) -> list[Any]:
    """Return all that the formulas say of one term: its number, whether it is given, what a set includes."""
    members = [z3.Bool(f"{term.name} {choice.name}") for choice in term.choices]
    return [z3.Int(term.name) if term.kind.form in WHOLE else z3.Real(term.name), given(term), *members]


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
        case Readings(parts):
            both = [formulas(part) for part in parts]
            return z3.And([one[0] for one in both]), z3.And([one[1] for one in both])
        case OrEqual(part):
            return formulas(part)[0], z3.BoolVal(False)
        case AskedIf(asked, only_if, otherwise):
            where, wanted = formulas(only_if), formulas(asked)
            other = (z3.BoolVal(True), z3.BoolVal(False)) if otherwise is None else formulas(otherwise)
            ways = [z3.And(where[0], wanted[at]) for at in (0, 1)], [z3.And(where[1], other[at]) for at in (0, 1)]
            holds, fails = (z3.Or(ways[0][at], ways[1][at], z3.And(wanted[at], other[at])) for at in (0, 1))
            return holds, fails
        case NamedCondition(_, inner):
            return formulas(inner)
        case CellSays(table, word):
            places = [(row, column) for row, cells in enumerate(table.cells) for column in range(len(cells))]
            says = [leads_to(table, *place) for place in places if table.word(*place) is word]
            return z3.Or(says), z3.Or([leads_to(table, *place) for place in places if table.word(*place) is not word])
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


def related(left: Any, relation: AnyRelation, right: Any) -> Any:
    """Return that two numbers stand in a relation."""
    match relation:
        case Within(share, denied):
            reach = exact(share.value) * z3.If(right >= 0, right, -right)
            inside = z3.And(left >= right - reach, left <= right + reach)
            return z3.Not(inside) if denied else inside
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
        table = amount.table
        return z3.Or([leads_to(table, row, column) for row, column, _ in table.filled()])
    return given(amount.term) if isinstance(amount, TermValue) else z3.BoolVal(True)


def leads_to(table: Table, row: int, column: int) -> Any:
    """Return that the values of a table's axes are given and lead to a cell."""
    bands = zip(table.axes, table.bands_at(row, column), strict=True)
    return z3.And([z3.And(given(axis.term), within(axis.term, band)) for axis, band in bands])


def within(term: Term, band: Band) -> Any:
    """Return that a term lies in a band of a table."""
    if band.interval is None:
        return number(term) == (1 if band.choices == ("yes",) else 0)
    interval: Any = band.interval
    limits = [z3.BoolVal(True)]
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
        found = z3.RealVal(0)
        for row, column, cell in amount.table.filled():
            found = z3.If(leads_to(amount.table, row, column), exact(bare(cell.value)), found)
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


# ---- lines -------------------------------------------------------------------------------------------------------


@cache
def statable(name: str, form: Form, choices: int) -> Any:
    """Return that a schedule can state the value of a term."""
    value_of = z3.Int(name) if form in WHOLE else z3.Real(name)
    match form:
        case Form.CHOICE:
            return z3.And(value_of >= 0, value_of <= choices - 1)
        case Form.SIZE:
            return z3.Or([value_of == exact(float(size.inches)) for size in NOMINAL_SIZES])
        case Form.YES_NO:
            return z3.Or(value_of == 0, value_of == 1)
        case Form.SET:
            return z3.BoolVal(True)
        case _:
            return value_of >= 0


def line(conditions: Iterable[Condition], stated: Iterable[Condition] = (), *, strictly: bool = False) -> Any:
    """Return that a line over the terms of `conditions` can be stated, and states all that `stated` ask for.

    What `stated` ask whether it is given may be missing all the same, unless `strictly`.
    """
    needed = tuple(stated)
    asked = set() if strictly else {node.term.name for node in walk(needed) if isinstance(node, Given)}
    limits = [statable(one.name, one.kind.form, len(one.choices)) for one in terms_of((*conditions, *needed))]
    return z3.And(*limits, *(given(one) for one in terms_of(needed) if one.name not in asked), True)


def possible(*clauses: Clause, strictly: bool = False) -> Any:
    """Return that a line can be stated, and states all that clauses ask for but for what they ask whether given."""
    conditions = [condition for clause in clauses for condition in conditions_of(clause)]
    return line(conditions, conditions, strictly=strictly)


# ---- clauses -----------------------------------------------------------------------------------------------------


def holds(conditions: Iterable[Condition]) -> Any:
    """Return that all conditions surely hold."""
    return z3.And(*(formulas(condition)[0] for condition in conditions), True)


def fail(conditions: Iterable[Condition]) -> Any:
    """Return that at least one condition surely does not hold."""
    return z3.Or(*(formulas(condition)[1] for condition in conditions), False)


def excepted(clause: Clause) -> Any:
    """Return that an exception surely takes a line out."""
    return z3.Or(*(formulas(part.condition)[0] for part in clause.exceptions), False)


def applies(clause: Clause) -> Any:
    """Return that a clause surely applies."""
    return z3.And(holds(clause.scope), *(formulas(part.condition)[1] for part in clause.exceptions))


def out(clause: Clause) -> Any:
    """Return that a clause surely makes nothing of a line."""
    return z3.Or(fail(clause.scope), excepted(clause))


def fails(clause: Clause) -> Any:
    """Return that a clause surely is not met."""
    return z3.And(applies(clause), fail(clause.shall))


def complies(clause: Clause) -> Any:
    """Return that a clause surely applies and is met."""
    return z3.And(applies(clause), holds(clause.shall))


def accepts(clause: Clause) -> Any:
    """Return that a clause is surely met or makes nothing of a line."""
    return z3.Or(out(clause), holds(clause.shall))


def for_some(free: Sequence[Any], formula: Any) -> Any:
    """Return that some choice of the free variables makes a formula true."""
    return z3.Exists(list(free), formula)


def _quantified(formula: Any) -> bool:
    return z3.is_quantifier(formula) or any(map(_quantified, formula.children()))


def satisfiable(*parts: Any) -> bool:
    """Say whether there is a line of which all parts hold."""
    solver = z3.Solver() if any(map(_quantified, parts)) else z3.SimpleSolver()
    solver.add(*parts)
    answer = solver.check()
    assert answer != z3.unknown, parts
    return bool(answer == z3.sat)
