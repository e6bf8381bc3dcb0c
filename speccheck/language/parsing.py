"""From text to syntax: the parser, and what becomes of text that it cannot read.

In: a `SourceText`. Out: its `FileSyntax` and diagnostics. An error does not end the run: the part that holds it is
set aside and the rest is read, so that a writer sees all mistakes at once.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from speccheck.language.building import TreeBuilder
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.misreading import describe_error, set_aside
from speccheck.language.reading_files import SourceText
from speccheck.language.syntax import FileSyntax
from speccheck.parsers import load_parser

if TYPE_CHECKING:
    from lark import Lark

MOST_ERRORS = 60


def parse(source: SourceText) -> tuple[FileSyntax | None, tuple[Diagnostic, ...]]:
    """Return the syntax tree of a file, or None where nothing of it can be read, and the diagnostics.

    Where there are diagnostics, the tree is of what remained after the parts with errors were set aside.
    """
    from lark.exceptions import UnexpectedInput

    text = source.text + "\n"
    found: list[Diagnostic] = []
    while len(found) < MOST_ERRORS:
        try:
            tree = clause_parser().parse(text, start="start")
        except UnexpectedInput as problem:
            diagnostic, line = describe_error(clause_parser(), problem, source, text)
            found.append(diagnostic)
            remaining = set_aside(text, line)
            if remaining is None:
                return None, tuple(found)
            text = remaining
        else:
            builder = TreeBuilder(source, clause_parser())
            syntax = builder.build(tree)
            return syntax, tuple(found) + tuple(builder.diagnostics)
    return None, tuple(found)


@cache
def clause_parser() -> Lark:
    """Return the parser of the clause language, with the start rules for whole files, bands and cells of tables."""
    return load_parser("clauses", start=["start", "band", "cell"])
