"""Tables on a page of a PDF: by their rules, or, where there are none, by the columns in which words stand.

Where it is not certain which cell a word belongs to, the cell is marked as unsure and is never read as a value.
"""

from __future__ import annotations

import itertools
import statistics
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from speccheck.schedule import codes
from speccheck.schedule.formats.pdf_words import Line, Word, text_of

_SAME_EDGE = 3.0
_COLUMN_GAP = 0.6
_MONOSPACED_GAP = 0.9
_MOST_COLUMNS = 100
_CLOSE = 1.32
"""Sizes of letters up to which one line of print is set under another within a cell (common practice, no source)."""


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
class Table:
    """A table on one page: its cells, the words in them, how many rows it has, and where its columns are.

    `edges` are the vertical rules, or the middles of the gaps between columns; `tolerance` is how far these may move
    from page to page.
    """

    cells: tuple[TableCell, ...]
    words: tuple[Word, ...]
    rows: int
    top: float
    edges: tuple[float, ...]
    tolerance: float = _SAME_EDGE


def ruled_tables(page: Any, words: Sequence[Word]) -> list[Table]:
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
            text, trouble = text_of(held) if held else ("", "")
            left, right = _index(across, box[0]), _index(across, box[2]) - 1
            top, bottom = _index(down, box[1]), _index(down, box[3]) - 1
            cells.append(TableCell(top, left, bottom, right, text, trouble, tuple(box)))
        found.append(Table(tuple(cells), tuple(inside), len(down) - 1, down[0], tuple(across)))
    return sorted(found, key=lambda table: table.top)


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


def _holds(box: tuple[float, float, float, float], word: Word) -> bool:
    """Whether the middle of a word lies in a box."""
    x, y = word.middle
    return box[0] <= x <= box[2] and box[1] <= y <= box[3]


@dataclass(frozen=True, slots=True)
class _Chunk:
    """Words that stand close together on one line."""

    words: tuple[Word, ...]

    @property
    def left(self) -> float:
        return self.words[0].left

    @property
    def right(self) -> float:
        return max(word.right for word in self.words)


@dataclass(slots=True)
class _Rows:
    """A table without rules while its lines are read: the rows of chunks, and the columns that they fill so far."""

    rows: list[tuple[Line, list[_Chunk]]]
    columns: list[tuple[float, float]]


def unruled_tables(lines: Sequence[Line]) -> tuple[list[Table], list[Line]]:
    """Return the tables without rules among the lines of a page, and the lines that belong to none."""
    tables: list[_Rows] = []
    texts: list[Line] = []
    pending: list[Line] = []
    gap = _gap(lines)
    for line in lines:
        chunks = _chunks(line, gap)
        if len(chunks) < 2:
            (pending if tables else texts).append(line)
            continue
        grown = _grown(tables[-1].columns, chunks) if tables else None
        if tables and grown is not None and _near(tables[-1], pending, line):
            for heading in pending:
                tables[-1].rows.append((heading, _chunks(heading, gap)))
            tables[-1].columns = grown
            tables[-1].rows.append((line, chunks))
        else:
            texts += _wrapped_off(tables, pending, gap)
            tables.append(_Rows([(line, chunks)], [(chunk.left, chunk.right) for chunk in chunks]))
        pending = []
    texts += _wrapped_off(tables, pending, gap)
    kept = [table for table in tables if len(table.rows) > 1 and len(table.columns) > 1]
    texts += [line for table in tables if table not in kept for line, _ in table.rows]
    return [_table(table) for table in kept], sorted(texts, key=lambda line: line.top)


def _wrapped_off(tables: Sequence[_Rows], pending: Sequence[Line], gap: float) -> list[Line]:
    """Return the lines of text below a table that are none of its cells going on; those that may be are put into it."""
    left = list(pending)
    while tables and left:
        line, rows = left[0], tables[-1].rows
        chunk = _chunks(line, gap)[0]
        inside = [low < chunk.right and chunk.left < high for low, high in tables[-1].columns]
        if line.top - rows[-1][0].top >= _CLOSE * line.size or sum(inside) != 1 or inside[0]:
            break
        rows.append((left.pop(0), [chunk]))
    return left


def _near(table: _Rows, pending: Sequence[Line], line: Line) -> bool:
    """Whether a line follows on the rows of a table: at most two lines of text stand between, and no wide gap."""
    last = table.rows[-1][0]
    lines = [last, *pending, line]
    gaps = [after.top - before.bottom for before, after in itertools.pairwise(lines)]
    return len(pending) <= 2 and max(gaps) < 4 * max(line.size, last.size)


def _chunks(line: Line, gap: float) -> list[_Chunk]:
    """Return the words of a line, parted where the gap is wider than `gap` sizes of its letters."""
    chunks: list[list[Word]] = []
    for word in line.words:
        if chunks and word.left - max(one.right for one in chunks[-1]) <= gap * line.size:
            chunks[-1].append(word)
        else:
            chunks.append([word])
    return [_Chunk(tuple(chunk)) for chunk in chunks]


def _gap(lines: Sequence[Line]) -> float:
    """Return how wide a gap between columns is, in sizes of letters: wider where all letters have one width."""
    words = [word for line in lines for word in line.words if len(word.text) > 1]
    widths = [(word.right - word.left) / len(word.text) / word.size for word in words]
    return _MONOSPACED_GAP if widths and max(widths) - min(widths) < 0.02 else _COLUMN_GAP


def _grown(columns: Sequence[tuple[float, float]], chunks: Sequence[_Chunk]) -> list[tuple[float, float]] | None:
    """Return columns that also hold the chunks of a line; None where a chunk reaches over two, or two into one."""
    grown = list(columns)
    used: set[int] = set()
    for chunk in chunks:
        touched = [i for i, (left, right) in enumerate(grown) if chunk.left < right and left < chunk.right]
        if len(touched) > 1:
            return None
        if touched:
            index = touched[0]
            if index in used:
                return None
            grown[index] = min(grown[index][0], chunk.left), max(grown[index][1], chunk.right)
        else:
            index = sum(left < chunk.left for left, _ in grown)
            grown.insert(index, (chunk.left, chunk.right))
            used = {one + (one >= index) for one in used}
        used.add(index)
    if any(after[0] <= before[1] for before, after in itertools.pairwise(grown)):
        return None
    return grown


def _table(table: _Rows) -> Table:
    """Return a table without rules: wrapped lines put together where spacing tells them, else marked as unsure."""
    columns = _headers_joined(table)
    rows = list(_rows(table, columns))
    cells = []
    for number, row in enumerate(rows):
        for column, (words, unsure) in sorted(row.items()):
            text, trouble = text_of(words)
            rectangle = (
                min(word.left for word in words),
                min(word.top for word in words),
                max(word.right for word in words),
                max(word.bottom for word in words),
            )
            trouble = trouble or (codes.UNSURE_CELL if unsure else "")
            cells.append(TableCell(number, column, number, column, text, trouble, rectangle))
    words = tuple(word for line, _ in table.rows for word in line.words)
    middles = [(before[1] + after[0]) / 2 for before, after in itertools.pairwise(columns)]
    gaps = [after[0] - before[1] for before, after in itertools.pairwise(columns)]
    return Table(tuple(cells), words, len(rows), table.rows[0][0].top, tuple(middles), max(gaps, default=0) / 2)


def _headers_joined(table: _Rows) -> list[tuple[float, float]]:
    """Return the columns; one that only the first line fills is joined with a neighbour that it leaves blank.

    A header on the left of its column and numbers on the right of it need not stand above each other.
    """
    columns = list(table.columns)
    first = {_column(columns, chunk) for chunk in table.rows[0][1]}
    later = {_column(columns, chunk) for _, chunks in table.rows[1:] if len(chunks) > 1 for chunk in chunks}
    for index in sorted(first - later, reverse=True):
        beside = [one for one in (index - 1, index + 1) if one in later - first]
        if len(beside) == 1:
            low, high = sorted((index, beside[0]))
            columns[low : high + 1] = [(columns[low][0], columns[high][1])]
            return _headers_joined(_Rows(table.rows, columns))
    return columns


def _column(columns: Sequence[tuple[float, float]], chunk: _Chunk) -> int:
    """Return the column in which a chunk begins: the first that it touches, else the one behind which it stands."""
    for index, (left, right) in enumerate(columns):
        if chunk.left < right and left < chunk.right:
            return index
    return max(sum(left < chunk.left for left, _ in columns) - 1, 0)


def _rows(table: _Rows, columns: Sequence[tuple[float, float]]) -> Iterator[dict[int, tuple[tuple[Word, ...], bool]]]:
    """Yield the rows, each with the words of its cells and whether they are unsure."""
    pitches = [after.top - before.top for (before, _), (after, _) in zip(table.rows, table.rows[1:], strict=False)]
    usual = statistics.median(pitches)
    rows: list[dict[int, tuple[tuple[Word, ...], bool]]] = []
    for number, (line, chunks) in enumerate(table.rows):
        cells = {_column(columns, chunk): (chunk.words, False) for chunk in chunks}
        before = rows[-1] if rows else {}
        fits = bool(before) and set(cells) <= set(before)
        pitch = pitches[number - 1] if number else 0.0
        close = pitch < _CLOSE * line.size
        if fits and close and sum(other > pitch / 0.85 for other in pitches) > 1:
            for column, (words, unsure) in cells.items():
                before[column] = (before[column][0] + words, before[column][1] or unsure)
            continue
        few = len(cells) <= len(before) / 2 and len(before) > 1 and pitch < 1.6 * usual
        if fits and 0 not in cells and (close or few):
            before |= {column: (before[column][0], True) for column in cells}
            cells = {column: (words, True) for column, (words, _) in cells.items()}
        rows.append(cells)
    return iter(rows)
