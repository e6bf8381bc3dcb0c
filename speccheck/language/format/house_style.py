"""The house style of the clause language: one way to lay out a file.

In: the text of a file. Out: the same in house style (the same meaning, all its comments), or the diagnostics of a
text that cannot be read. Two columns of indentation, keywords padded to one column, tables with bars aligned, a blank
line between items, long lines broken at words, commas, `and` and `or`.
"""

from __future__ import annotations

from collections.abc import Sequence

from speccheck.language.diagnostics import Diagnostic
from speccheck.language.format.blocks import blocks_of
from speccheck.language.format.house_values import with_house_values
from speccheck.language.format.parts import INDENT, Block
from speccheck.language.syntax.comments import Attached, Comment, Word, attach, comments_and_words, start_of
from speccheck.language.syntax.parsing import parse
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import FileSyntax, RulesetSyntax
from speccheck.language.vocabulary.terms import Vocabulary


def format_text(source: SourceText, vocabulary: Vocabulary | None = None) -> str | tuple[Diagnostic, ...]:
    """Return the text of `source` in house style, or why it cannot be read; half a file is never formatted.

    With the `vocabulary` that a ruleset speaks, its values are called by their own names.
    """
    syntax, diagnostics = parse(source)
    if syntax is None or diagnostics:
        return diagnostics
    if vocabulary is not None and isinstance(syntax, RulesetSyntax):
        syntax = with_house_values(syntax, vocabulary)
    return format_syntax(syntax, *comments_and_words(source))


def format_syntax(syntax: FileSyntax, comments: Sequence[Comment] = (), words: Sequence[Word] = ()) -> str:
    """Return the text of a syntax tree in house style, with the comments of its file between the words of it."""
    blocks = list(blocks_of(syntax))
    if not comments:
        return _joined(blocks, [Attached() for _ in range(len(blocks) + 1)])
    starts = [start_of(words, (block.place.line, block.place.column), block.keyword) for block in blocks]
    return _joined(blocks, attach(comments, words, starts, [block.opens_item for block in blocks]))


def _joined(blocks: Sequence[Block], attached: Sequence[Attached]) -> str:
    lines: list[str] = []
    for block, comments in zip(blocks, attached, strict=False):
        lines += _before(block, comments.before)
        lines += block.lines
        if comments.trailing is not None:
            lines[-1] += f"  {comments.trailing.text}"
        lines += [INDENT + comment.text for comment in comments.after]
    at_end = _own_lines(attached[-1].before)
    return "\n".join([*lines, *([""] if at_end else []), *at_end]).rstrip("\n") + "\n"


def _before(block: Block, comments: Sequence[Comment]) -> list[str]:
    """Return the lines between the block above and this one."""
    if block.opens_item:
        return ["", *_own_lines(comments)]
    if not block.lines[0].startswith(INDENT):
        return _own_lines(comments)
    return [_indent(block) + comment.text for comment in comments]


def _own_lines(comments: Sequence[Comment]) -> list[str]:
    """Return comments with the blank lines that part them, which tell a heading from a remark on what follows."""
    return [line for comment in comments for line in ([comment.text, ""] if comment.blank_after else [comment.text])]


def _indent(block: Block) -> str:
    """Return the white space before a block, but for rows without a heading, which begin with their bar."""
    line = block.lines[0]
    return line[: len(line) - len(line.lstrip())] if "|" not in line else INDENT
