"""Which cells of tables without rules are unsure, since a line may go on with the row above or begin the one below.

Cells that are wrapped leave the other columns of their line blank, and a word goes to the next line where it has no
room. Where rows look so too, what stands in these columns is not read.
"""

from __future__ import annotations

import itertools
import re
from collections import Counter
from collections.abc import Iterable, Sequence

from speccheck.schedule.formats.pdf_words import BLANK, PrintedWord

FAR_APART = 1.6
"""Sizes of letters from which lines of print are none of one cell (common practice, no source)."""
_DIGITS = re.compile(r"\d+")

_FEWEST_COUNTED = 3
"""Whole numbers that count rows are at least as many."""

RowCells = dict[int, tuple[tuple[PrintedWord, ...], bool]]
"""The cells of a row by their column: their words, and whether they are unsure."""


def doubt_what_may_go_on(
    rows: Sequence[RowCells], nears: Sequence[bool], columns: Sequence[tuple[float, float]], first_ends: float
) -> None:
    """Mark as unsure what may be of one cell with what stands above or below it, and marks that run into other words.

    `nears` says of each row whether it is near the one above, as lines of a cell are; `first_ends` is where the first
    cells of rows end.
    """
    key, shape = key_of(rows)
    above_each = zip(nears, [{}, *rows], rows, strict=False)
    nears = [near and not begins_with_mark(above, below, key, shape) for near, above, below in above_each]
    for (above, below), near in zip(itertools.pairwise(rows), nears[1:], strict=True):
        if near and (_may_begin(above, below, first_ends) or _no_room(above, below, columns, key)):
            doubt(above, below)
    _doubt_between(rows, nears)
    for (before, after), near in zip(itertools.pairwise(rows), nears[1:], strict=True):
        _doubt_further(before, after, near)
    for (before, after), near in reversed(list(zip(itertools.pairwise(rows), nears[1:], strict=True))):
        _doubt_further(after, before, near)
    for row, is_near in zip(rows, map(max, nears, [*nears[1:], False]), strict=True):
        if shape and key in row and _runs_on(row[key][0], shape):
            make_unsure(row, [key])
        elif shape and key not in row and is_near and set(row) != {0}:
            make_unsure(row, row)
        elif shape and key not in row:
            make_unsure(row, [column for column, (words, _) in row.items() if _holds_mark(words, shape)])


def _holds_mark(words: Sequence[PrintedWord], shape: str) -> bool:
    """Whether one of the words is as marks are: in a row that has none, its mark runs into the text before it."""
    return any(shape_of(word) == shape for word in words)


def doubt(one: RowCells, other: RowCells) -> None:
    """Mark as unsure what two rows have in the same columns."""
    common = set(one) & set(other)
    make_unsure(one, common)
    make_unsure(other, common)


def make_unsure(row: RowCells, columns: Iterable[int]) -> None:
    """Mark the cells of a row in some columns as unsure."""
    for column in columns:
        row[column] = row[column][0], True


def _doubt_further(doubted: RowCells, other: RowCells, near: bool) -> None:
    """Mark a row as unsure that fills no other columns than a near one of which all is unsure."""
    if near and set(other) <= set(doubted) and all(unsure for _, unsure in doubted.values()):
        make_unsure(other, other)


def key_of(rows: Sequence[RowCells]) -> tuple[int, str]:
    """Return the column in which the marks of rows stand, and their shape; the first and "" where there are no marks.

    Marks have letters and a number, are all of one shape, and no two are the same; or they count the rows.
    """
    for column in sorted({column for row in rows for column in row}):
        words = [row[column][0][0] for row in rows if column in row]
        shapes = Counter(filter(None, map(shape_of, words)))
        for shape, count in shapes.most_common(1):
            texts = [word.text for word in words if shape_of(word) == shape]
            if _count(texts):
                return column, shape
            if (
                any(map(str.isalpha, shape))
                and len(set(texts)) == count > 1
                and _beginning(shape, shapes) > 0.25 * len(words)
            ):
                return column, shape
    return 0, ""


def _count(texts: Sequence[str]) -> bool:
    """Whether texts are whole numbers, each one more than the one before."""
    if len(texts) < _FEWEST_COUNTED or not all(map(str.isdecimal, texts)):
        return False
    return all(int(after) == int(before) + 1 for before, after in itertools.pairwise(texts))


def begins_with_mark(above: RowCells, below: RowCells, key: int, shape: str) -> bool:
    """Whether a row has a mark of its own below something, so that none of it goes on from the row above."""
    return bool(shape) and key in above and key in below and shape_of(below[key][0][0]) == shape


def _beginning(shape: str, shapes: Counter[str]) -> int:
    """Return how many shapes begin with one."""
    return sum(count for one, count in shapes.items() if one.startswith(shape))


def _runs_on(words: Sequence[PrintedWord], shape: str) -> bool:
    """Whether words begin as marks do and go on, as where the next column runs into that of the marks."""
    own = shape_of(words[0])
    return own.startswith(shape) and (own != shape or len(words) > 1)


def shape_of(word: PrintedWord) -> str:
    """Return a word that has a number in it with a sign for each, as `P-#`; else nothing."""
    shape = _DIGITS.sub("#", word.text)
    return shape if shape != word.text else ""


def _no_room(above: RowCells, below: RowCells, columns: Sequence[tuple[float, float]], key: int) -> bool:
    """Whether one of two lines fills some of the columns of the other, and few words below had room on the line above.

    Cells that are wrapped look so: a word goes to the next line where it has no room.
    """
    common = set(above) & set(below)
    if len(common) != min(len(above), len(below)) or len(above) == len(below):
        return False
    with_room = sum(_has_room(above[column][0], below[column][0][0], *columns[column]) for column in common)
    return with_room <= (0 if key in common else len(common) / 2)


def _has_room(above: Sequence[PrintedWord], word: PrintedWord, left: float, right: float) -> bool:
    """Whether a word would have had room behind the last line of others, in a column from `left` to `right`."""
    last = [one for one in above if one.bottom > max(one.top for one in above)]
    width, own = max(one.right for one in last) - min(one.left for one in last), word.right - word.left
    return width + own / len(word.text) + own <= right - left


def _may_begin(above: RowCells, cells: RowCells, first_ends: float) -> bool:
    """Whether a line of few cells may be the first one of cells of the row below, set on their last or middle line."""
    common = set(above) & set(cells)
    if not common or len(above) > len(cells) / 2:
        return False
    if set(above) != {0}:
        return True
    words = above[0][0]
    inside = max(word.right for word in words) <= first_ends + 0.5
    return inside and may_go_on(words, cells[0][0], first_ends)


def _doubt_between(rows: Sequence[RowCells], nears: Sequence[bool]) -> None:
    """Mark as unsure what stands on lines of few cells near others, and what stands in these columns above and below.

    They may go on with the row above or begin the one below. Lines of the first column alone are headings.
    """
    most = max(map(len, rows), default=0)
    few = [len(row) <= most / 2 and set(row) != {0} for row in rows]
    for is_few, run in itertools.groupby(range(len(rows)), few.__getitem__):
        numbers = list(run)
        above, below = numbers[0] - 1, numbers[-1] + 1
        if not is_few:
            continue
        if above >= 0 and nears[numbers[0]]:
            numbers.insert(0, above)
        if below < len(rows) and nears[below]:
            numbers.append(below)
        columns = {column for number in numbers if few[number] for column in rows[number]}
        for number in numbers if len(numbers) > 1 else ():
            make_unsure(rows[number], columns & set(rows[number]))


def may_go_on(above: Sequence[PrintedWord], words: Sequence[PrintedWord], ends: float) -> bool:
    """Whether words alone in the first column may be a text going on, and not a heading over the rows below.

    They lie within the column, of which the first cells of rows end at `ends`, the first of them had no room on the
    line above, they are no heading in capitals under small letters, and no colon follows.
    """
    written, before = (" ".join(word.text for word in part) for part in (words, above))
    if written.endswith(":") or (written.isupper() and not before.isupper()):
        return False
    room = ends - max(word.right for word in above)
    return words[-1].right <= ends + 0.5 and words[0].right - words[0].left + BLANK * words[0].size > room
