"""Tables on a page of a PDF that have no rules, by the columns in which words stand.

Where it is not certain which cell a word belongs to, the cell is marked as unsure and is never read as a value.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from speccheck.schedule.formats.pdf_cell_texts import text_of
from speccheck.schedule.formats.pdf_columns import (
    Chunk,
    blanks_are_drawn,
    chunks_of,
    column_gap,
    column_of,
    doubted,
    grown,
    line_of,
    numbers_joined,
    numbers_parted,
    perhaps_of_two,
    stretched_over,
    touched,
    unsure,
)
from speccheck.schedule.formats.pdf_doubtful_rows import FAR_APART, may_go_on, shape_of
from speccheck.schedule.formats.pdf_drawn_cells import LineChunks
from speccheck.schedule.formats.pdf_drawn_rows import rows_put_together
from speccheck.schedule.formats.pdf_ruled_tables import RuledTable, TableCell
from speccheck.schedule.formats.pdf_words import PrintedLine, around
from speccheck.schedule.formats.pdf_wrapped_lines import CLOSEST, rows_of
from speccheck.schedule.messages.cells import UNSURE_CELL

_FAR = 4.0
_VERY_FAR = 8.0
"""Sizes of letters from which a gap between lines ends a table, the second where as many pieces stand in its columns
as tell that they do not by chance."""
_FEWEST_IN_PLACE = 4
_FEWEST_OF_ROW = 3
"""Pieces that a line has at least that is a row, and no name with its value, as title blocks have."""


_MOST_LINES_UNDER_TITLE = 4
"""Lines that a table has at most when its first one is found to be a title."""
_HEADER_ROWS = 3
"""Rows at the head of a table among which the fullest has the names of its columns."""


@dataclass(slots=True)
class _Rows:
    """A table without rules while its lines are read: the rows of chunks, and the columns that they fill so far.

    `above` is a line of headers over the first row, some of which stretch over several columns.
    """

    rows: list[LineChunks]
    columns: list[tuple[float, float]]
    above: LineChunks | None = None


def unruled_tables(lines: Sequence[PrintedLine]) -> tuple[list[RuledTable], list[PrintedLine]]:
    """Return the tables without rules among the lines of a page, and the lines that belong to none."""
    tables: list[_Rows] = []
    texts: list[PrintedLine] = []
    pending: list[LineChunks] = []
    gap = column_gap(lines)
    for line, chunks in rows_put_together(list(zip(lines, _chunked(lines, gap), strict=True))):
        if len(chunks) < 2:
            if tables:
                pending.append((line, chunks))
            else:
                texts.append(line)
            continue
        wider = grown(tables[-1].columns, chunks, _chunks_of(tables[-1])) if tables else None
        if tables and wider is None and not pending and (begun := _without_title(tables[-1], chunks)) is not None:
            texts.append(_lines(tables[-1])[0][0])
            tables[-1], wider = begun, grown(begun.columns, chunks)
        if tables and wider is not None and _near(tables[-1], pending, line, chunks):
            tables[-1].columns = wider
            tables[-1].rows += [*pending, (line, chunks)]
        else:
            headed = _under_headers(tables[-1], line, chunks) if tables and not pending else None
            if headed is not None:
                tables[-1] = headed
                continue
            texts += _wrapped_off(tables, pending)
            tables.append(_Rows([(line, chunks)], _extents(chunks)))
        pending = []
    texts += _wrapped_off(tables, pending)
    kept = [table for table in tables if len(table.rows) > 1 and len(table.columns) > 1]
    texts += [_stranded(*one) for table in tables if table not in kept for one in _lines(table)]
    for table in kept:
        _doubt_first(table, texts)
    like_rows = [table for table in tables if table in kept or len(table.rows[0][1]) >= _FEWEST_OF_ROW]
    for before, table in itertools.pairwise(like_rows):
        _doubt_parted(before, table)
    return [_table(table) for table in kept], sorted(texts, key=lambda line: line.top)


def _chunked(lines: Sequence[PrintedLine], gap: float) -> Iterator[list[Chunk]]:
    """Yield the chunks of each line; numbers are parted from the next column by the lines that stand near."""
    blanks = blanks_are_drawn(lines)
    some = blanks or any(word.spaced and word.first for line in lines for word in line.words)
    near: list[list[Chunk]] = []
    for before, line in zip([None, *lines], lines, strict=False):
        if before is not None and line.top - before.bottom > _FAR * max(line.size, before.size):
            yield from _sure_or_not(near, some)
            near = []
        near.append(chunks_of(line, gap, blanks))
    yield from _sure_or_not(near, some)


def _sure_or_not(rows: Sequence[Sequence[Chunk]], blanks: bool) -> Iterator[list[Chunk]]:
    """Yield the chunks of lines, numbers parted from the next column, those in doubt that may be of two."""
    for row in numbers_parted(rows):
        yield [doubted(chunk, blanks) for chunk in row]


def _lines(table: _Rows) -> list[LineChunks]:
    """Return the lines of a table with the headers above."""
    return [*([table.above] if table.above is not None else []), *table.rows]


def _chunks_of(table: _Rows) -> list[list[Chunk]]:
    """Return the chunks of the lines of a table with the headers above."""
    return [chunks for _, chunks in _lines(table)]


def _extents(chunks: Sequence[Chunk]) -> list[tuple[float, float]]:
    return [(chunk.left, chunk.right) for chunk in chunks]


def _without_title(table: _Rows, chunks: Sequence[Chunk]) -> _Rows | None:
    """Return a table of a few lines without the first, where a line fits under the others alone.

    The first was a title then, its words far apart: where more than one line follows it, it has fewer pieces than the
    next, and stands further off than these from each other.
    """
    lines = _lines(table)
    if not 2 <= len(lines) <= _MOST_LINES_UNDER_TITLE:
        return None
    gaps = [after.top - before.bottom for (before, _), (after, _) in itertools.pairwise(lines)]
    apart = len(lines[0][1]) < len(lines[1][1]) and gaps[0] > max(gaps[1:], default=0.0)
    if len(lines) > 2 and not apart:
        return None
    columns: list[tuple[float, float]] | None = _extents(lines[1][1])
    for _, own in lines[2:]:
        columns = grown(columns, own) if columns is not None else None
    if columns is None or grown(columns, chunks) is None:
        return None
    return _Rows(lines[1:], columns)


def _under_headers(above: _Rows, line: PrintedLine, chunks: list[Chunk]) -> _Rows | None:
    """Return a table that begins with a line under headers of which some stretch over several of its columns."""
    header, spans = above.rows[0]
    if len(above.rows) > 1 or above.above is not None or line.top - header.bottom > 2 * line.size:
        return None
    columns = stretched_over(spans, chunks)
    return _Rows([(line, chunks)], columns, (header, spans)) if columns is not None else None


def _wrapped_off(tables: Sequence[_Rows], pending: Sequence[LineChunks]) -> list[PrintedLine]:
    """Return the lines of text below a table that are none of its cells going on; those that may be are put into it.

    One that is closer than lines of print below each other is of a cell that is set in the middle beside others.
    """
    left = list(pending)
    while tables and left:
        (line, chunks), rows = left[0], tables[-1].rows
        over, (last, cells) = touched(tables[-1].columns, chunks[0]), rows[-1]
        if line.top - last.last_top < CLOSEST * line.size:
            cells[:], chunks[:] = [unsure(one) for one in cells], [unsure(one) for one in chunks]
            left[0] = line_of(chunks), chunks
        if line.top - last.last_top >= FAR_APART * line.size or len(over) != 1:
            break
        if over == [0] and not may_go_on(cells[0].words, chunks[0].words, tables[-1].columns[0][1]):
            break
        rows.append(left.pop(0))
    return [line for line, _ in left]


def _doubt_first(table: _Rows, texts: Sequence[PrintedLine]) -> None:
    """Mark as unsure what stands in the first row of a table near under a text in its column: it may go on there."""
    line, chunks = table.rows[0]
    above = [text for text in texts if 0 < line.top - text.last_top < FAR_APART * line.size]
    for text in above if table.above is None else ():
        over = touched(table.columns, Chunk(text.words))
        if len(over) == 1 and over != [0]:
            chunks[:] = [unsure(one) if over == touched(table.columns, one) else one for one in chunks]


def _doubt_parted(above: _Rows, below: _Rows) -> None:
    """Mark as unsure the last row of a table and the first one of the next where they are as near as lines of a row."""
    (last, cells), (first, chunks) = above.rows[-1], _lines(below)[0]
    if not (last.is_row and first.is_row) and 0 < first.top - last.last_top < FAR_APART * first.size:
        cells[:] = [unsure(one) for one in cells]
        chunks[:] = [unsure(one) for one in chunks]


def _stranded(line: PrintedLine, chunks: Sequence[Chunk]) -> PrintedLine:
    """Return a line that fits in no table as a text; what looks like a row says nothing of others, and is unsure."""
    if len(chunks) < _FEWEST_OF_ROW:
        return line
    return line_of([unsure(chunk) for chunk in chunks])


def _near(table: _Rows, pending: Sequence[LineChunks], line: PrintedLine, chunks: Sequence[Chunk]) -> bool:
    """Whether a line follows on the rows of a table: at most two lines of text stand between, and no wide gap.

    How wide the gap may be depends on whether it begins in the columns of the table.
    """
    last = table.rows[-1][0]
    lines = [last, *(one for one, _ in pending), line]
    gaps = [after.top - before.bottom for before, after in itertools.pairwise(lines)]
    far = _FAR if len(chunks) < _FEWEST_IN_PLACE or not _in_place(table.columns, chunks) else _VERY_FAR
    return len(pending) <= 2 and max(gaps) < far * max(line.size, last.size)


def _in_place(columns: Sequence[tuple[float, float]], chunks: Sequence[Chunk]) -> bool:
    """Whether chunks begin where columns do."""
    lefts = [left for left, _ in columns]
    return all(min(abs(chunk.left - left) for left in lefts) < 0.1 * chunk.words[0].size for chunk in chunks)


def _table(table: _Rows) -> RuledTable:
    """Return a table without rules: wrapped lines put together where spacing tells them, else marked as unsure."""
    columns = numbers_joined(_headers_joined(table), [chunks for _, chunks in table.rows])
    rows = rows_of(table.rows, columns)
    header = max(rows[:_HEADER_ROWS], key=len)
    cells = list(_header_cells(table))
    for number, row in enumerate(rows, start=int(table.above is not None)):
        for column, (words, is_unsure) in sorted(row.items()):
            text, trouble = text_of(words)
            is_unsure = is_unsure or (number > 0 and perhaps_of_two(words, column, row, header))
            trouble = trouble or (UNSURE_CELL.code if is_unsure else "")
            cells.append(TableCell(number, column, number, column, text, trouble, around(words)))
    lines = _lines(table)
    words = tuple(word for line, _ in lines for word in line.words)
    middles = [(before[1] + after[0]) / 2 for before, after in itertools.pairwise(columns)]
    gaps = [after[0] - before[1] for before, after in itertools.pairwise(columns)]
    count = len(rows) + int(table.above is not None)
    return RuledTable(tuple(cells), words, count, lines[0][0].top, tuple(middles), max(gaps, default=0) / 2)


def _header_cells(table: _Rows) -> Iterator[TableCell]:
    """Yield headers above the first row, each over the columns that it stretches over.

    A row that has a mark, be there a text right behind it, or begins as the others do, is no header; its cells run
    together.
    """
    above = table.above[1] if table.above is not None else []
    marks = tuple(_marks(table.rows))
    is_row = any(shape_of(word).startswith(marks) for chunk in above for word in chunk.words)
    first = {shape_of(chunks[0].words[0]) for _, chunks in table.rows} - {""}
    for chunk in above:
        over = touched(table.columns, chunk)
        text, trouble = text_of(chunk.words)
        trouble = trouble or (UNSURE_CELL.code if is_row or shape_of(chunk.words[0]) in first else "")
        yield TableCell(0, over[0], 0, over[-1], text, trouble, around(chunk.words))


def _marks(rows: Sequence[LineChunks]) -> set[str]:
    """Return the shapes, with letters and a number, with which cells of rows begin, in whatever column marks stand."""
    shapes = {shape_of(chunk.words[0]) for _, chunks in rows for chunk in chunks}
    return {shape for shape in shapes if any(map(str.isalpha, shape))}


def _headers_joined(table: _Rows) -> list[tuple[float, float]]:
    """Return the columns; one that only the first line fills is joined with a neighbour that it leaves blank.

    A header on the left of its column and numbers on the right of it need not stand above each other. They may be of
    the header on their other side as well, where no line fills both.
    """
    columns = list(table.columns)
    if table.above is not None:
        return columns
    filled = [{column_of(columns, chunk) for chunk in chunks} for _, chunks in table.rows if len(chunks) > 1]
    first = {column_of(columns, chunk) for chunk in table.rows[0][1]}
    later = set().union(*filled[1:])
    for index in sorted(first - later, reverse=True):
        beside = [one for one in (index - 1, index + 1) if one in later - first]
        beyond = [one for one in (2 * other - index for other in beside) if one in first]
        is_other = any(not any({one, *beside} <= row for row in filled) for one in beyond)
        if len(beside) == 1 and not is_other:
            low, high = sorted((index, beside[0]))
            columns[low : high + 1] = [(columns[low][0], columns[high][1])]
            return _headers_joined(_Rows(table.rows, columns))
    return columns
