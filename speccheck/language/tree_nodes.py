"""Children of the parser's tree, with their sort made sure of: a wrong sort is a bug of ours, never a user's."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any, TypeGuard

if TYPE_CHECKING:
    from lark import Token, Tree

    Node = Tree[Token]


def is_node(child: object) -> TypeGuard[Node]:
    """Say whether a child is a tree of its own and not a token."""
    return hasattr(child, "children")


def node(child: Any) -> Node:
    """Return a child that is a tree."""
    assert is_node(child), child
    return child


def token(child: Any) -> Token:
    """Return a child that is a token."""
    assert not is_node(child), child
    result: Token = child
    return result


def nodes(children: Iterable[Any]) -> list[Node]:
    """Return the children that are trees."""
    return [child for child in children if is_node(child)]


def only_node(parent: Node) -> Node:
    """Return the first child, which is a tree."""
    return node(parent.children[0])
