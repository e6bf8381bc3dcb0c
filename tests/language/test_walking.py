"""One traversal of the core: every reader goes through it, and it knows every node."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

from hypothesis import given

from speccheck.language.core import Amount, Condition, Relation, Ruleset
from speccheck.language.core.relations import ANYWHERE
from speccheck.language.core.walking import atoms, conditions_of, inner, rebuild, walk
from tests.strategies.rulesets import rulesets

PACKAGE = Path(__file__).parents[2] / "speccheck"
CORE = PACKAGE / "language" / "core"
NODES = frozenset(node.__name__ for node in (*get_args(Amount), *get_args(Condition)))


def loops_over_walks(tree: ast.AST) -> Iterator[ast.AST]:
    """Yield the loops and comprehensions that go over `walk(...)` or what is inside a node."""
    for node in ast.walk(tree):
        sources: list[ast.expr] = []
        if isinstance(node, ast.For):
            sources = [node.iter]
        elif isinstance(node, ast.ListComp | ast.SetComp | ast.GeneratorExp | ast.DictComp):
            sources = [part.iter for part in node.generators]
        called = {
            getattr(one.func, "id", "") for source in sources for one in ast.walk(source) if isinstance(one, ast.Call)
        }
        if called & {"walk", "inner"}:
            yield node


def filters(loop: ast.AST) -> bool:
    """Say whether a loop asks a node for its class by name."""
    calls = (
        node for node in ast.walk(loop) if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "isinstance"
    )
    return any(NODES & {getattr(name, "id", "") for name in ast.walk(call.args[1])} for call in calls)


def test_no_reader_filters_a_walk_by_class() -> None:
    """Outside the core no loop over a walk tests for classes of nodes, which a new node would slip through untold."""
    readers = [path for path in PACKAGE.rglob("*.py") if CORE not in path.parents]
    loops = [(path, loop) for path in readers for loop in loops_over_walks(ast.parse(path.read_text("utf-8")))]
    assert loops, "the test sees no loop at all"
    assert [f"{path.name}:{loop.lineno}" for path, loop in loops if filters(loop)] == []  # type: ignore[attr-defined]


@given(rulesets())
def test_a_node_rebuilt_with_its_own_parts_is_the_same(ruleset: Ruleset) -> None:
    """`rebuild` undoes `inner` for every node of any clause."""
    for node in (node for clause in ruleset.clauses for node in walk(conditions_of(clause))):
        assert rebuild(node, inner(node)) == node


@given(rulesets())
def test_atoms_have_no_parts_but_amounts(ruleset: Ruleset) -> None:
    """Each clause comes down to atoms, and what `atoms` yields has no condition inside it."""
    for clause in ruleset.clauses:
        found = list(atoms(conditions_of(clause)))
        assert found
        assert not any(isinstance(part, Condition) for atom in found for part in inner(atom))


def test_relations_say_of_themselves_what_they_are() -> None:
    """A denial is the rest of the places; turned twice, denied twice and exchanged twice a relation is itself again."""
    for relation in Relation:
        assert relation.denial.order == ANYWHERE ^ relation.order
        assert relation.denial.denial is relation
        assert relation.turned.turned is relation
        if relation.exchanged is not None:
            assert relation.exchanged.exchanged is relation
    assert [one.denial for one in Relation] == [
        Relation.NOT_EQUAL,
        Relation.EQUAL,
        Relation.LESS_THAN,
        Relation.MORE_THAN,
        Relation.AT_LEAST,
        Relation.AT_MOST,
    ]
    assert Relation.AT_LEAST.turned is Relation.AT_MOST
    assert Relation.LESS_THAN.exchanged is Relation.AT_MOST
