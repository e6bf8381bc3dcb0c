"""Comments of a file, which the parser passes over: where each stands, and to which block of the file it belongs."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field

from speccheck.language.syntax.parsing import clause_parser
from speccheck.language.syntax.source_text import SourceText

Position = tuple[int, int]
Word = tuple[Position, str]
_WHOLE_LINES = ("AXES", "ROW")


@dataclass(frozen=True, slots=True)
class Comment:
    """A comment with its marks, where it begins, whether it has a line of its own, and whether a blank one follows."""

    text: str
    position: Position
    own_line: bool
    blank_after: bool


@dataclass
class Attached:
    """The comments of one block: before it, at the end of its last line, and on lines of their own behind it."""

    before: list[Comment] = field(default_factory=list)
    trailing: Comment | None = None
    after: list[Comment] = field(default_factory=list)


def comments_and_words(source: SourceText) -> tuple[list[Comment], list[Word]]:
    """Return the comments of a text that can be parsed, and its other tokens.

    Between two tokens there is nothing but space and comments; axes and rows of tables hold their comments in them.
    """
    text = source.text + "\n"
    found: list[Comment] = []
    words: list[Word] = []
    end = 0
    for token in clause_parser().parse_interactive(text, start="start").iter_parse():
        assert token.start_pos is not None
        found += _comments_between(text, end, token.start_pos)
        words.append(((token.line or 0, token.column or 0), str(token)))
        end = token.start_pos + len(token)
        if token.type in _WHOLE_LINES and "--" in token:
            end = token.start_pos + token.index("--")
    return [*found, *_comments_between(text, end, len(text))], words


def _comments_between(text: str, start: int, end: int) -> list[Comment]:
    found: list[Comment] = []
    while True:
        start = text.find("--", start, end)
        if start < 0:
            return found
        line_end = text.find("\n", start)
        line_start = text.rfind("\n", 0, start) + 1
        following = text[line_end + 1 :].split("\n", 1)
        position = (text.count("\n", 0, start) + 1, start - line_start + 1)
        own_line = not text[line_start:start].strip()
        blank_after = len(following) > 1 and not following[0].strip()
        found.append(Comment(text[start:line_end].rstrip(), position, own_line, blank_after))
        start = line_end


def start_of(words: Sequence[Word], place: Position, keyword: str) -> Position:
    """Return where the last `keyword` before `place` stands, and `place` itself where there is no keyword."""
    if not keyword:
        return place
    before = words[: bisect_left(words, (place, ""))]
    return next((position for position, text in reversed(before) if text == keyword), place)


def attach(
    comments: Sequence[Comment], words: Sequence[Word], starts: Sequence[Position], opens_item: Sequence[bool]
) -> list[Attached]:
    """Return the comments of each block and, last, those behind all; blocks are given by where they start.

    A comment amid the words of a block goes before the block. One on a line of its own goes before the block behind
    it, unless it is indented and what follows is a new item: then it stays with the item that it ends.
    """
    attached = [Attached() for _ in range(len(starts) + 1)]
    for comment in comments:
        block = bisect_right(starts, comment.position) - 1
        last = block + 1 == len(starts)
        behind = len(words) if last else bisect_left(words, (starts[block + 1], ""))
        if block >= 0 and words[behind - 1][0] > comment.position:
            attached[block].before.append(comment)
        elif block >= 0 and not comment.own_line:
            attached[block].trailing = comment
        elif block >= 0 and comment.position[1] > 1 and (last or opens_item[block + 1]):
            attached[block].after.append(comment)
        else:
            attached[block + 1].before.append(comment)
    return attached
