"""Whether a line of print in a table without rules is a row of its own, or cells of the row above it going on.

Spacing tells, where lines within a row stand closer than rows do; and so do words that nothing ends with, such as
"and". Where neither does, both pieces are unsure, and no value is read from them.
"""

from __future__ import annotations

import itertools
import re
import statistics
from collections.abc import Mapping, Sequence, Set

from speccheck.schedule.formats.pdf_columns import Chunk, column_of, touched
from speccheck.schedule.formats.pdf_words import Line, Word

CLOSE = 1.32
"""Sizes of letters up to which one line of print is set under another within a cell (common practice, no source)."""
_NEARLY_USUAL = 1.15
FAR_APART = 1.6
"""Sizes of letters from which lines of print are none of one cell."""
_LEAST = 0.9
"""Sizes of letters that lines of print within one column are apart at least."""
_OPEN = re.compile(r"(?:\b(?:and|or|to|with|of|for|by|per|w/)|[&,/(+])$", re.IGNORECASE)
_CONTINUING = re.compile(r"(?:and|or|to|with|of|for)\b|[&)/+]", re.IGNORECASE)
_DIGITS = re.compile(r"\d+")
_SPACE = 0.25

RowCells = dict[int, tuple[tuple[Word, ...], bool]]
"""The cells of a row by their column: their words, and whether they are unsure."""


def rows_of(lines: Sequence[tuple[Line, Sequence[Chunk]]], columns: Sequence[tuple[float, float]]) -> list[RowCells]:
    """Return the rows of a table of which these are the lines.

    Where some were put together by the order in which they were drawn, no others are: what stays is a row or a doubt.
    """
    pitches = [_last_top(before, after) for (before, _), (after, _) in itertools.pairwise(lines)]
    usual = statistics.median(pitches)
    first_ends = max((chunks[0].right for _, chunks in lines if len(chunks) > 1), default=0.0)
    rows: list[RowCells] = []
    nears: list[bool] = []
    marks = {_shape(chunks[0].words[0]) for _, chunks in lines if len(chunks) > 1} - {""}
    tangled = _tangled([line for line, _ in lines], pitches)
    told_by_order = any(_has_several_lines(chunk) for _, chunks in lines for chunk in chunks)
    spacing_tells = not told_by_order and _spacing_tells(lines, pitches, columns)
    for number, (line, chunks) in enumerate(lines):
        cells = _cells(chunks, columns, number in tangled, marks)
        before = rows[-1] if rows else {}
        pitch = pitches[number - 1] if number else 0.0
        near = bool(before) and pitch < FAR_APART * line.size
        if before and set(cells) <= set(before):
            close = pitch < CLOSE * line.size
            told_by_spacing = spacing_tells and close and sum(other > pitch / 0.85 for other in pitches) > 1
            by_words = pitch <= _NEARLY_USUAL * usual and _told_by_words(before, cells)
            if told_by_spacing or (by_words and not told_by_order):
                _join(before, cells)
                continue
            few = len(cells) <= len(before) / 2 and len(before) > 1 and pitch < 1.6 * usual
            alone = set(cells) == {0} and len(before) > 1 and pitch <= _NEARLY_USUAL * usual
            own = few or close if 0 not in cells else near and few and len(cells) > 1
            if own or by_words or (alone and _may_go_on(before[0][0], cells[0][0], first_ends)):
                _doubt(before, cells)
        if near and (_may_begin(before, cells, first_ends) or _no_room(before, cells, columns)):
            _doubt(before, cells)
        rows.append(cells)
        nears.append(near)
    _doubt_between(rows, nears)
    return rows


def _cells(chunks: Sequence[Chunk], columns: Sequence[tuple[float, float]], unsure: bool, marks: Set[str]) -> RowCells:
    """Return the cells of a line; chunks that share a column are unsure, as is a text over columns that may be several.

    A text alone that stretches over columns is a heading, unless words of it begin where columns do, or it begins as
    rows do that have marks.
    """
    cells: RowCells = {}
    for chunk in chunks:
        column = column_of(columns, chunk)
        before = cells.get(column)
        cells[column] = (chunk.words, unsure) if before is None else (before[0] + chunk.words, True)
    if len(chunks) == 1 and len(touched(columns, chunks[0])) > 1:
        first, *rest = chunks[0].words
        inside = [word for word in rest if any(abs(word.left - left) < 0.1 * word.size for left, _ in columns)]
        if len(inside) > 1 or len(inside) == len(rest) or _shape(first) in marks:
            cells = {column: (words, True) for column, (words, _) in cells.items()}
    return cells


def _shape(word: Word) -> str:
    """Return a word that has a number in it with a sign for each, as `P-#`; else nothing."""
    shape = _DIGITS.sub("#", word.text)
    return shape if shape != word.text else ""


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
            rows[number] |= {column: (rows[number][column][0], True) for column in columns & set(rows[number])}


def _doubt(one: RowCells, other: RowCells) -> None:
    """Mark as unsure what two rows have in the same columns."""
    for column in set(one) & set(other):
        one[column], other[column] = (one[column][0], True), (other[column][0], True)


def _last_top(before: Line, after: Line) -> float:
    """Return how far a line stands below the last line of print of another, in points."""
    return after.top - max(word.top for word in before.words if word.size > 0.8 * before.size)


def _has_several_lines(chunk: Chunk) -> bool:
    """Whether the words of a chunk stand on several lines of print."""
    return max(word.top for word in chunk.words) > min(word.bottom for word in chunk.words)


def _spacing_tells(
    lines: Sequence[tuple[Line, Sequence[Chunk]]], pitches: Sequence[float], columns: Sequence[tuple[float, float]]
) -> bool:
    """Whether lines that stand close under others fill fewer columns than these: rows in groups stand close too."""
    filled = [{column_of(columns, chunk) for chunk in chunks} for _, chunks in lines]
    close = [number for number, pitch in enumerate(pitches, start=1) if pitch < CLOSE * lines[number][0].size]
    full = sum(filled[number] >= filled[number - 1] for number in close)
    return full <= len(close) / 2


def _no_room(above: RowCells, below: RowCells, columns: Sequence[tuple[float, float]]) -> bool:
    """Whether one of two lines fills some of the columns of the other, and few words below had room on the line above.

    Cells that are wrapped look so: a word goes to the next line where it has no room.
    """
    common = set(above) & set(below)
    if len(common) != min(len(above), len(below)) or len(above) == len(below):
        return False
    with_room = sum(_has_room(above[column][0], below[column][0][0], *columns[column]) for column in common)
    return with_room <= (0 if 0 in common else len(common) / 2)


def _has_room(above: Sequence[Word], word: Word, left: float, right: float) -> bool:
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
    return inside and _may_go_on(words, cells[0][0], first_ends)


def _tangled(lines: Sequence[Line], pitches: Sequence[float]) -> set[int]:
    """Return the lines that stand among others which lie less than a line of print below each other.

    Cells of several lines that are set in the middle of their rows look so: no line of print is a row then.
    """
    found: set[int] = set()
    group = [0]
    for number, pitch in enumerate([*pitches, float("inf")]):
        if pitch < CLOSE * lines[number].size:
            group.append(number + 1)
            continue
        if any(pitches[one] < _LEAST * lines[one].size for one in group[:-1]):
            found.update(group)
        group = [number + 1]
    return found


def _join(before: RowCells, cells: RowCells) -> None:
    """Put the words of cells into those of the row above."""
    for column, (words, unsure) in cells.items():
        before[column] = (before[column][0] + words, before[column][1] or unsure)


def _told_by_words(before: RowCells, cells: Mapping[int, tuple[tuple[Word, ...], bool]]) -> bool:
    """Whether each of a few cells goes on from a word above that ends nothing, or with a word that begins nothing."""
    return len(cells) <= len(before) / 2 and all(
        _OPEN.search(before[column][0][-1].text) or _CONTINUING.match(words[0].text)
        for column, (words, _) in cells.items()
    )


def _may_go_on(above: Sequence[Word], words: Sequence[Word], ends: float) -> bool:
    """Whether words alone in the first column may be a text going on, and not a heading over the rows below.

    They lie within the column, of which the first cells of rows end at `ends`, the first of them had no room on the
    line above, they are no heading in capitals under small letters, and no colon follows.
    """
    written, before = (" ".join(word.text for word in part) for part in (words, above))
    if written.endswith(":") or (written.isupper() and not before.isupper()):
        return False
    room = ends - max(word.right for word in above)
    return words[-1].right <= ends + 0.5 and words[0].right - words[0].left + _SPACE * words[0].size > room
