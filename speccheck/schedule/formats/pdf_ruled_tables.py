"""Tables on a page of a PDF that are drawn with rules: what a table is, and the cells that its rules enclose."""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from speccheck.schedule.formats.pdf_cell_texts import text_of
from speccheck.schedule.formats.pdf_words import PrintedWord, lines_of

_SAME_EDGE = 3.0
_MOST_COLUMNS = 100
_LAST_LETTERS = re.compile(
    r"(?!(?:a|an|as|at|by|if|in|is|it|no|of|on|or|so|to|up|we|x|ft|mm|cm|m|lb|oz|pc|kg|f|c)\b)[a-z]{1,2}[,.;:)]?"
)
"""Letters of which a word may be left, and which are none of the short words and units of schedules."""


@dataclass(frozen=True, slots=True)
class TableCell:
    """One cell: its place in the table, the end of its merged range, its text, and its rectangle on the page."""

    row: int
    column: int
    last_row: int
    last_column: int
    text: str
    trouble: str
    rectangle: tuple[float, float, float, float]


@dataclass(frozen=True, slots=True)
class RuledTable:
    """A table on one page: its cells, the words in them, how many rows it has, and where its columns are.

    `edges` are the vertical rules, or the middles of the gaps between columns; `tolerance` is how far these may move
    from page to page.
    """

    cells: tuple[TableCell, ...]
    words: tuple[PrintedWord, ...]
    rows: int
    top: float
    edges: tuple[float, ...]
    tolerance: float = _SAME_EDGE


def ruled_tables(page: Any, words: Sequence[PrintedWord]) -> list[RuledTable]:
    """Return the tables of a page that are drawn with rules, from above."""
    found = []
    taken: set[int] = set()
    for one in page.find_tables():
        boxes = [box for box in one.cells if box[2] - box[0] > 2 and box[3] - box[1] > 2]
        if len(boxes) < 4:
            continue
        across = _edges([edge for box in boxes for edge in (box[0], box[2])])
        down = _edges([edge for box in boxes for edge in (box[1], box[3])])
        if len(across) < 3 or len(across) > _MOST_COLUMNS:
            continue
        cells, inside = [], []
        for box in sorted(boxes, key=lambda box: (box[1], box[0])):
            held = [word for word in words if id(word) not in taken and _holds(box, word)]
            taken |= {id(word) for word in held}
            inside += held
            text, trouble = text_of(_whole_words(held, box)) if held else ("", "")
            left, right = _index(across, box[0]), _index(across, box[2]) - 1
            top, bottom = _index(down, box[1]), _index(down, box[3]) - 1
            cells.append(TableCell(top, left, bottom, right, text, trouble, tuple(box)))
        found.append(RuledTable(tuple(cells), tuple(inside), len(down) - 1, down[0], tuple(across)))
    return sorted(found, key=lambda table: table.top)


def _whole_words(words: Sequence[PrintedWord], box: tuple[float, float, float, float]) -> list[PrintedWord]:
    """Return the words of a cell, those put together that broke off within: too wide for the cell, they filled a line.

    Word processors break a word so that has a line for itself, at the last letter for which there is room. Where more
    than two letters are left, they may as well be a word, as `steel` below `Carbon` is.
    """
    lines = [list(line.words) for line in lines_of(words)]
    inset = max(min(line[0].left for line in lines) - box[0], 0)
    room = box[2] - inset
    for above, line in itertools.pairwise(lines):
        first, rest = above[-1], line[0]
        if len(above) > 1 or not first.text[-1:].isalpha() or not _LAST_LETTERS.fullmatch(rest.text):
            continue
        letter = (rest.right - rest.left) / len(rest.text)
        width = first.right - first.left + rest.right - rest.left
        if first.right + letter > room and width > room - box[0] - inset:
            line[0] = replace(rest, text=first.text + rest.text)
            above.clear()
    return [word for line in lines for word in line]


def _edges(places: Sequence[float]) -> list[float]:
    """Return places without those that are the same but for the thickness of a rule."""
    edges: list[float] = []
    for place in sorted(places):
        if not edges or place - edges[-1] > _SAME_EDGE:
            edges.append(place)
    return edges


def _index(edges: Sequence[float], place: float) -> int:
    """Return the number of the edge that is nearest."""
    return min(range(len(edges)), key=lambda index: abs(edges[index] - place))


def _holds(box: tuple[float, float, float, float], word: PrintedWord) -> bool:
    """Whether the middle of a word lies in a box."""
    x, y = word.middle
    return box[0] <= x <= box[2] and box[1] <= y <= box[3]
