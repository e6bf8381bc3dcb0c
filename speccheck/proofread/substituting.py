"""Substituting: one node of the core put in the place of another, in every clause that draws on it.

Nodes are told apart by identity: what a definition says is one node for all clauses that use its name, so that it is
changed for all of them, as a change in the text would. In the place of a condition, None means that it is left out.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import TypeVar, cast

from speccheck.language.core import (
    Assumption,
    CellSays,
    Clause,
    Condition,
    ExceptionPart,
    Lookup,
    Table,
)
from speccheck.language.core.walking import Node, conditions_of, inner, rebuild, table_at, walk

Part = Node | Table | ExceptionPart
N = TypeVar("N", bound=Node)


def parts_of(clause: Clause) -> set[int]:
    """Return the identities of everything in a clause that can be substituted."""
    found = {id(node) for node in walk(conditions_of(clause))}
    found |= {id(table) for node in walk(conditions_of(clause)) if (table := table_at(node)) is not None}
    return found | {id(exception) for exception in clause.exceptions}


def in_clause(clause: Clause, old: Part, new: Part | None) -> Clause:
    """Return a clause with `new` in place of `old`."""
    exceptions = tuple(one for one in clause.exceptions if one is not old or new is not None)
    return replace(
        clause,
        scope=_in_all(clause.scope, old, new),
        shall=_in_all(clause.shall, old, new),
        should=_in_all(clause.should, old, new),
        exceptions=tuple(replace(one, condition=in_node(one.condition, old, new)) for one in exceptions),
    )


def in_assumption(assumption: Assumption, old: Part, new: Part | None) -> Assumption:
    """Return an assumption with `new` in place of `old` in its conditions."""
    return replace(assumption, scope=_in_all(assumption.scope, old, new))


def _in_all(conditions: Iterable[Condition], old: Part, new: Part | None) -> tuple[Condition, ...]:
    kept = (one for one in conditions if one is not old or new is not None)
    return tuple(in_node(one, old, new) for one in kept)


def in_node(node: N, old: Part, new: Part | None) -> N:
    """Return a node with `new` in place of `old`, at whatever depth."""
    if node is old:
        return cast(N, new)
    return cast(N, _inside(node, old, new))


def _inside(node: Node, old: Part, new: Part | None) -> Node:
    if isinstance(node, Lookup | CellSays) and node.table is old:
        return replace(node, table=cast(Table, new))
    kept = [part for part in inner(node) if part is not old or new is not None]
    return rebuild(node, [in_node(part, old, new) for part in kept])
