"""From text to syntax: the parser, and what becomes of text that it cannot read.

In: a `SourceText`. Out: its `FileSyntax` and diagnostics. An error does not end the run: the part that holds it is
left out and the rest is read, so that a writer sees all mistakes at once.
"""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from speccheck.language.diagnostics import Diagnostic
from speccheck.language.syntax.builder import Builder
from speccheck.language.syntax.files import build_file
from speccheck.language.syntax.layout import BEGINNINGS
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import FileSyntax
from speccheck.parsers import load_parser

if TYPE_CHECKING:
    from lark import Lark

    from speccheck.language.syntax.misreading import Misreading

MOST_ERRORS = 60


def parse(source: SourceText) -> tuple[FileSyntax | None, tuple[Diagnostic, ...]]:
    """Return the syntax tree of a file, or None where nothing of it can be read, and the diagnostics.

    Where there are diagnostics, the tree is of what remained after the parts with errors were left out; it says which
    of its items are not whole and which were left out, so that what they lack is not an error of its own.
    """
    lines = [*source.lines, ""]
    found: list[Diagnostic] = []
    left_out: set[int] = set()
    while len(found) < MOST_ERRORS:
        read = _read(source, "\n".join(lines), frozenset(left_out))
        if isinstance(read, tuple):
            return read[0], (*found, *read[1])
        found.append(read.diagnostic)
        if read.first == 0:
            break
        end = read.end or len(lines)
        left_out |= set(range(read.first, end))
        lines[read.first - 1 : end - 1] = [""] * (end - read.first)
    return None, tuple(found)


def _read(
    source: SourceText, text: str, left_out: frozenset[int]
) -> tuple[FileSyntax, tuple[Diagnostic, ...]] | Misreading:
    """Return the syntax of a text, or what is to be said of its first error."""
    from lark.exceptions import UnexpectedInput

    builder = Builder(source, clause_parser(), left_out)
    try:
        syntax = build_file(builder, clause_parser().parse(text, start="start"))
    except UnexpectedInput:
        return _stopped(source, text)
    if BEGINNINGS.intersection(builder.name_lines.values()):
        return _stopped(source, text)
    if builder.name_lines:
        from speccheck.language.syntax.misreading import misspelt_keyword

        for line in builder.name_lines:
            misspelt = misspelt_keyword(source, text, line)
            if misspelt is not None:
                return misspelt
    return syntax, tuple(builder.diagnostics)


def _stopped(source: SourceText, text: str) -> Misreading:
    from speccheck.language.syntax.misreading import describe_stop, find_stop

    stop = find_stop(clause_parser(), text)
    assert stop is not None
    return describe_stop(clause_parser(), stop, source, text)


@cache
def clause_parser() -> Lark:
    """Return the parser of the clause language, with the start rules for whole files, bands and cells of tables."""
    return load_parser("clauses", start=["start", "band", "cell"])
