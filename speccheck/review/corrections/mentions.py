"""Mentions: which choices the clauses name for a term. Choices that none names are all alike to the clauses."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import assert_never

from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    CellSays,
    Comparison,
    Given,
    Holds,
    Includes,
    Literal,
    Lookup,
    NamedAmount,
    Relation,
    TermValue,
)
from speccheck.language.core.walking import Node, atoms, comparisons, tables_of
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import Single


@dataclass(frozen=True, slots=True)
class Mentions:
    """What nodes say of a term of choices: the choices named, and whether each choice has to be told apart."""

    named: frozenset[str]
    all_differ: bool


def mentions_of(term: Term, nodes: Iterable[Node]) -> Mentions:
    """Return which choices of a term nodes name; all differ where the term is compared with another term."""
    named: set[Single] = set()
    all_differ = False
    nodes = tuple(nodes)
    for atom in atoms(nodes):
        match atom:
            case Comparison(left, _, right):
                if is_term(left, term) or is_term(right, term):
                    found = possible_values(right if is_term(left, term) else left)
                    all_differ = all_differ or found is None
                    named.update(found or ())
            case Includes(of, _, options):
                named.update(options if of.name == term.name else ())
            case Given() | Holds() | CellSays():
                pass
            case _:
                assert_never(atom)
    for axis in (axis for table in tables_of(nodes) for axis in table.axes if axis.term.name == term.name):
        named.update(choice for band in axis.bands for choice in band.choices)
    return Mentions(frozenset(name for name in named if isinstance(name, str)), all_differ)


def asked_for(term: Term, nodes: Iterable[Node]) -> frozenset[str]:
    """Return the choices that nodes ask for by name, as against those that they forbid."""
    found: set[Single] = set()
    for comparison in comparisons(nodes):
        if comparison.relation is Relation.EQUAL and is_term(comparison.left, term):
            found.update(possible_values(comparison.right) or ())
    return frozenset(name for name in found if isinstance(name, str))


def is_term(amount: Amount, term: Term) -> bool:
    """Say whether an amount is the value of a term, be it under the name of a definition."""
    if isinstance(amount, NamedAmount):
        return is_term(amount.amount, term)
    return isinstance(amount, TermValue) and amount.term.name == term.name


def possible_values(amount: Amount) -> tuple[Single, ...] | None:
    """Return the values that an amount can have whatever the line states, None where that depends on the line."""
    match amount:
        case Literal(value):
            return (value,)
        case NamedAmount(_, meaning):
            return possible_values(meaning)
        case Lookup(table):
            return tuple(_cells(table.cells))
        case TermValue() | Arithmetic() | Adjusted():
            return None
        case _:
            assert_never(amount)


def _cells(rows: Iterable[Iterable[Literal | None]]) -> Iterator[Single]:
    return (cell.value for row in rows for cell in row if cell is not None)
