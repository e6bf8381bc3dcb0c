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
from speccheck.schedule.formats.pdf_doubtful_rows import (
    FAR_APART,
    RowCells,
    begins_with_mark,
    doubt,
    doubt_what_may_go_on,
    key_of,
    make_unsure,
    may_go_on,
    shape_of,
)
from speccheck.schedule.formats.pdf_words import PrintedLine, PrintedWord

CLOSE = 1.32
"""Sizes of letters up to which one line of print is set under another within a cell (common practice, no source)."""
_NEARLY_USUAL = 1.15
CLOSEST = 0.9
"""Sizes of letters that lines of print within one column are apart at least."""
_OPEN = re.compile(r"(?:\b(?:and|or|to|with|of|for|by|per|w/)|[&,/(+])$", re.IGNORECASE)
_CONTINUING = re.compile(r"(?:and|or|to|with|of|for)\b|[&)/+]", re.IGNORECASE)


def rows_of(
    lines: Sequence[tuple[PrintedLine, Sequence[Chunk]]], columns: Sequence[tuple[float, float]]
) -> list[RowCells]:
    """Return the rows of a table of which these are the lines.

    Where some were put together by the order in which they were drawn, no others are: what stays is a row or a doubt.
    """
    pitches = [after.top - before.last_top for (before, _), (after, _) in itertools.pairwise(lines)]
    usual = statistics.median(pitches)
    rows: list[RowCells] = []
    nears: list[bool] = []
    marks = {shape_of(chunks[0].words[0]) for _, chunks in lines if len(chunks) > 1} - {""}
    tangled = _tangled([line for line, _ in lines], pitches)
    key = key_of([_cells(chunks, columns, False, set()) for _, chunks in lines])
    told_by_order = any(line.is_row for line, _ in lines)
    spacing_tells = not told_by_order and _spacing_tells(lines, pitches, columns)
    ends = max((chunks[0].right for _, chunks in lines if len(chunks) > 1), default=0.0)
    for number, (line, chunks) in enumerate(lines):
        cells = _cells(chunks, columns, number in tangled, marks)
        before = rows[-1] if rows else {}
        pitch = pitches[number - 1] if number else 0.0
        rows_both = number > 0 and line.is_row and lines[number - 1][0].is_row
        near = bool(before) and not rows_both and pitch < FAR_APART * line.size
        is_row = line.is_row or begins_with_mark(before, cells, *key)
        if before and not is_row and set(cells) <= set(before):
            close = pitch < CLOSE * line.size
            told_by_spacing = spacing_tells and close and sum(other > pitch / 0.85 for other in pitches) > 1
            by_words = pitch <= _NEARLY_USUAL * usual and _told_by_words(before, cells)
            if told_by_spacing or (by_words and not told_by_order):
                _join(before, cells)
                continue
            few = len(cells) <= len(before) / 2 and len(before) > 1 and pitch < 1.6 * usual
            alone = set(cells) == {0} and len(before) > 1 and pitch <= _NEARLY_USUAL * usual
            own = few or close if 0 not in cells else near and few and len(cells) > 1
            if own or by_words or (alone and may_go_on(before[0][0], cells[0][0], ends)):
                doubt(before, cells)
        rows.append(cells)
        nears.append(near)
    doubt_what_may_go_on(rows, nears, columns, ends)
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
        if len(inside) > 1 or len(inside) == len(rest) or shape_of(first) in marks:
            make_unsure(cells, cells)
    return cells


def _spacing_tells(
    lines: Sequence[tuple[PrintedLine, Sequence[Chunk]]],
    pitches: Sequence[float],
    columns: Sequence[tuple[float, float]],
) -> bool:
    """Whether lines that stand close under others fill fewer columns than these: rows in groups stand close too."""
    filled = [{column_of(columns, chunk) for chunk in chunks} for _, chunks in lines]
    close = [number for number, pitch in enumerate(pitches, start=1) if pitch < CLOSE * lines[number][0].size]
    full = sum(filled[number] >= filled[number - 1] for number in close)
    return full <= len(close) / 2


def _tangled(lines: Sequence[PrintedLine], pitches: Sequence[float]) -> set[int]:
    """Return the lines that stand among others which lie less than a line of print below each other.

    Cells of several lines that are set in the middle of their rows look so: no line of print is a row then.
    """
    found: set[int] = set()
    group = [0]
    for number, pitch in enumerate([*pitches, float("inf")]):
        told = lines[number].is_row or (number < len(pitches) and lines[number + 1].is_row)
        if pitch < CLOSE * lines[number].size and not told:
            group.append(number + 1)
            continue
        if any(pitches[one] < CLOSEST * lines[one].size for one in group[:-1]):
            found.update(group)
        group = [number + 1]
    return found


def _join(before: RowCells, cells: RowCells) -> None:
    """Put the words of cells into those of the row above."""
    for column, (words, unsure) in cells.items():
        before[column] = (before[column][0] + words, before[column][1] or unsure)


def _told_by_words(before: RowCells, cells: Mapping[int, tuple[tuple[PrintedWord, ...], bool]]) -> bool:
    """Whether each of a few cells goes on from a word above that ends nothing, or with a word that begins nothing."""
    return len(cells) <= len(before) / 2 and all(
        _OPEN.search(before[column][0][-1].text) or _CONTINUING.match(words[0].text)
        for column, (words, _) in cells.items()
    )
