"""Walking the core: the nodes inside a node, and the terms and tables that a clause draws on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import assert_never

from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    Clause,
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
    Some,
    Table,
    TermValue,
)
from speccheck.language.vocabulary.terms import Term

Node = Amount | Condition


def inner(node: Node) -> tuple[Node, ...]:
    """Return the nodes directly inside a node."""
    match node:
        case Comparison(left, _, right) | Arithmetic(_, left, right):
            return (left, right)
        case Adjusted(thickness, stated, proposed, diameter):
            return (thickness, stated, proposed, diameter)
        case OneOf(amount) | NamedAmount(_, amount):
            return (amount,)
        case Every(parts) | Some(parts):
            return parts
        case Negation(part):
            return (part,)
        case NamedCondition(_, condition):
            return (condition,)
        case Literal() | TermValue() | Lookup() | Includes() | Given() | Holds():
            return ()
        case _:
            assert_never(node)


def walk(nodes: Iterable[Node]) -> Iterator[Node]:
    """Go through nodes and all that is inside them, outer ones first."""
    for node in nodes:
        yield node
        yield from walk(inner(node))


def depth_of(nodes: Iterable[Node]) -> int:
    """Return how many nodes stand inside one another at most; unlike `walk` it takes any depth."""
    deepest, level = 0, list(nodes)
    while level:
        deepest += 1
        level = list({id(one): one for node in level for one in inner(node)}.values())
    return deepest


def conditions_of(clause: Clause) -> tuple[Condition, ...]:
    """Return all conditions of a clause: where, judged only where, except, shall, should."""
    exceptions = tuple(part.condition for part in clause.exceptions)
    return (*clause.scope, *clause.judged_only, *exceptions, *clause.shall, *clause.should)


def terms_of(nodes: Iterable[Node]) -> tuple[Term, ...]:
    """Return the terms that nodes draw on, through tables too, in the order in which they are met."""
    found: dict[str, Term] = {}
    for node in walk(nodes):
        if isinstance(node, TermValue | Includes | Given | Holds):
            found.setdefault(node.term.name, node.term)
        elif isinstance(node, Lookup):
            for axis in node.table.axes:
                found.setdefault(axis.term.name, axis.term)
    return tuple(found.values())


def tables_of(nodes: Iterable[Node]) -> tuple[Table, ...]:
    """Return the tables that nodes look up, in the order in which they are met."""
    return tuple(dict.fromkeys(node.table for node in walk(nodes) if isinstance(node, Lookup)))
