"""From the terminals of a text to its tree, by the rules of `grammar/phrases.lark`."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any

from speccheck.parsers import load_parser
from speccheck.phrases.terminals import Terminal

if TYPE_CHECKING:
    import lark


@dataclass(frozen=True, slots=True)
class Node:
    """What a rule of the grammar put together, in the order of the text."""

    rule: str
    parts: tuple[Node | Terminal, ...]

    @property
    def nodes(self) -> tuple[Node, ...]:
        """The parts that rules put together."""
        return tuple(part for part in self.parts if isinstance(part, Node))

    @property
    def terminals(self) -> tuple[Terminal, ...]:
        """The parts that are runs of words."""
        return tuple(part for part in self.parts if isinstance(part, Terminal))

    @property
    def first(self) -> Terminal:
        """The terminal that stands first, however deep; only cells can be empty, and these are never asked."""
        part = self.parts[0]
        return part if isinstance(part, Terminal) else part.first

    @property
    def last(self) -> Terminal:
        """The terminal that stands last, however deep."""
        part = self.parts[-1]
        return part if isinstance(part, Terminal) else part.last


def tree_of(terminals: Iterable[Terminal]) -> Node:
    """Return the tree of a text.

    Terminals are found by us, so that they are handed to the parser one by one: there is no text for lark to part.
    """
    from lark import Token

    parsing = _parser().parse_interactive()
    for terminal in terminals:
        token = Token(terminal.type, "")
        token.value = terminal
        parsing.feed_token(token)
    return _node(parsing.feed_eof())  # type: ignore[no-untyped-call]


def _node(tree: Any) -> Node:
    return Node(str(tree.data), tuple(_node(part) if hasattr(part, "data") else part.value for part in tree.children))


@cache
def _parser() -> lark.Lark:
    return load_parser("phrases", start="cell", positions=False)
