"""What all building of syntax shares: text, places, words, children of the parser's tree, and where complaints go."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any, TypeGuard

from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import Words

if TYPE_CHECKING:
    from lark import Lark, Token, Tree

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


@dataclass
class Builder:
    """One file being built.

    `left_out` holds the numbers of the lines that could not be read and were blanked before; `parser` reads what it
    took whole (tables), which may leave diagnostics; `name_lines` are those that begin with a word of a name, with that
    word: it may be a keyword that was read as one.
    """

    source: SourceText
    parser: Lark
    left_out: frozenset[int] = frozenset()
    diagnostics: list[Diagnostic] = field(default_factory=list)
    name_lines: dict[int, str] = field(default_factory=dict)

    def place(self, here: Node | Token) -> Place:
        """Return where a node begins and how far it goes on its first line."""
        meta = here.meta if is_node(here) else token(here)
        line, column = meta.line or 0, meta.column or 0
        if meta.end_line == line:
            length = (meta.end_column or column) - column
        else:
            length = len(self.source.lines[line - 1].rstrip()) - column + 1
        return Place(self.source.name, line, column, max(length, 1))

    def string(self, word: Token) -> Words:
        """Return a token as words; a string loses its marks and its line breaks."""
        text = str(word)
        if word.type == "STRING":
            text = " ".join(text[1:-1].split())
        return Words(text, self.place(word))

    def phrase(self, tree: Node) -> Words:
        """Return a name made of several words."""
        words = [token(child) for child in tree.children]
        for word in words:
            line, column = word.line or 1, word.column or 1
            if not self.source.lines[line - 1][: column - 1].strip():
                self.name_lines[line] = str(word)
        return Words(" ".join(self.string(word).text for word in words), self.place(tree))
