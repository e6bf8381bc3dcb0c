"""Paragraphs of text beside tables in a PDF: lines that wrap below each other are one text.

A note in a narrow cell is printed with a word or two a line. Read line by line, "factory" out of "the white factory
cladding" would be a heading over the table that follows.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Iterator, Sequence

from speccheck.schedule.formats.pdf_doubtful_rows import FAR_APART
from speccheck.schedule.formats.pdf_words import BLANK, PrintedLine

_FEWEST_LINES = 3
"""Lines from which texts that wrap below each other are a paragraph; two may be titles, but for small letters."""
_LEAST = 0.8
"""Sizes of letters that lines of a paragraph are apart at least."""
_NEAR = 0.1
"""Part of the size of letters within which two left edges, or two sizes, are the same."""
_BEGINS_NOTE = re.compile(r"\(?(?:\d{1,2}|[A-Za-z])[.)]|[*†‡]+")


def paragraphs_of(texts: Sequence[PrintedLine]) -> list[PrintedLine]:
    """Return lines of text from above, those of each paragraph put together as one."""
    return [text for block in _blocks(texts) for text in _parts(block)]


def _blocks(texts: Sequence[PrintedLine]) -> Iterator[list[PrintedLine]]:
    """Yield lines that stand right below each other, with the same left edge and letters of the same size."""
    block: list[PrintedLine] = []
    for line in texts:
        if block and not _is_right_below(block[-1], line):
            yield block
            block = []
        block.append(line)
    if block:
        yield block


def _is_right_below(above: PrintedLine, line: PrintedLine) -> bool:
    """Whether a line stands below another as the next one of a paragraph does, and begins no note of its own."""
    size, first = above.size, line.words[0]
    in_place = abs(first.left - above.words[0].left) < _NEAR * size and abs(line.size - size) < _NEAR * size
    near = _LEAST * size < line.top - above.last_top < FAR_APART * size
    return in_place and near and not _BEGINS_NOTE.fullmatch(first.text)


def _parts(block: Sequence[PrintedLine]) -> Iterator[PrintedLine]:
    """Yield the paragraphs and the single lines of a block.

    A word goes to the next line where it has no room; the widest line tells how much room there is at least.
    """
    right = max(line.words[-1].right for line in block)
    part: list[PrintedLine] = []
    for line in block:
        if part and _has_room(part[-1], line, right):
            yield from _put_together(part)
            part = []
        part.append(line)
    yield from _put_together(part)


def _has_room(above: PrintedLine, line: PrintedLine, right: float) -> bool:
    """Whether the first word of a line would have had room behind the line above."""
    first = line.words[0]
    return above.words[-1].right + BLANK * above.size + first.right - first.left <= right


def _put_together(lines: Sequence[PrintedLine]) -> Iterator[PrintedLine]:
    """Yield lines as one where they are a paragraph: several of them, or one that goes on in small letters."""
    goes_on = len(lines) > 1 and lines[1].words[0].text[0].islower()
    if len(lines) >= _FEWEST_LINES or goes_on:
        yield PrintedLine(tuple(itertools.chain.from_iterable(line.words for line in lines)))
    else:
        yield from lines
