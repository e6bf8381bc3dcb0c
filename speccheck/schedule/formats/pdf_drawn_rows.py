"""Rows of tables without rules, told by the order in which a page was drawn.

Programs that lay out tables draw them row by row, cell by cell, and a cell line by line; some draw the cells of one
line first and those of several after. So what is drawn going down within a column is one cell, where all of a row
agrees: no two of its cells stand over each other, all are set at the top, in the middle or at the bottom of it, and no
other row is drawn in between. Where that is not so, nothing is put together.
"""

from __future__ import annotations

import itertools
import statistics
from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from speccheck.schedule.formats.pdf_columns import Chunk, line_of, unsure
from speccheck.schedule.formats.pdf_drawn_cells import (
    LEAST,
    DrawnCell,
    LineChunks,
    blanks_at_ends,
    counted,
    drawn_cells,
    words_joined,
)
from speccheck.schedule.formats.pdf_words import SMALL

_LEVEL = 0.25
"""Sizes of letters within which two heights are one."""
_SAME_PITCH = 0.14
_SAME_PLACE = 0.12
"""Sizes of letters within which the lines of a cell are equally far apart, and begin or end under each other; browsers
set lines at whole pixels."""
_HIGHER = 0.6
"""Sizes of letters by which a line with raised figures may be further from the next."""
_FEWEST_ROWS = 2

_Row = list[DrawnCell]
_HEIGHTS: dict[str, Callable[[DrawnCell], float]] = {
    "top": lambda cell: cell.top,
    "middle": lambda cell: cell.middle,
    "bottom": lambda cell: cell.last,
}
"""Where cells are set in their rows, and the height that those of a row then share."""


def rows_put_together(lines: Sequence[LineChunks]) -> list[LineChunks]:
    """Return lines with those put together that are of one row, as the order tells in which they were drawn."""
    cells = drawn_cells(lines)
    rows = list(_rows(cells))
    usual = _usual_pitch(rows)
    rows = list(_rows(counted(_parted(rows, "", usual))))
    level = _level(rows)
    for _ in range(2):  # what is parted may part others
        rows = list(_rows(counted(_parted(rows, level, usual))))
    good = [row for row in rows if len(row) > 1 and _agrees(row, level, usual)]
    if level == "bottom" and _are_close(rows, usual):
        good = [row for row in good if not _may_have_heading(row)]
    good = _not_between(good)
    if not _by_cells(rows, good):
        return list(lines)
    return _put_together(lines, rows, good)


def _rows(cells: Sequence[DrawnCell]) -> Iterator[_Row]:
    """Yield cells that stand beside each other, from above: the highest of a row reaches over all of it."""
    row: _Row = []
    bottom = 0.0
    for cell in sorted(cells, key=lambda cell: cell.top):
        if row and cell.top >= bottom:
            yield row
            row = []
        bottom = max(cell.last + LEAST * cell.size, bottom) if row else cell.last + LEAST * cell.size
        row.append(cell)
    if row:
        yield row


def _level(rows: Sequence[_Row]) -> str:
    """Return where cells are set in their rows, by those that have more lines than others; "" if that is not told."""
    votes = dict.fromkeys(_HEIGHTS, 0)
    for row in rows:
        if len({len(cell.pieces) for cell in row}) > 1:
            for level, height in _HEIGHTS.items():
                votes[level] += _are_level(list(map(height, row)), row[0].size)
    most = max(votes, key=lambda level: votes[level])
    return most if votes[most] > 2 * (sum(votes.values()) - votes[most]) else ""


def _are_level(heights: Sequence[float], size: float) -> bool:
    """Whether heights are one."""
    return max(heights) - min(heights) <= _LEVEL * size


def _parted(rows: Sequence[_Row], level: str, usual: float) -> list[DrawnCell]:
    """Return the cells of rows in the order in which they were drawn, parted where another cell of the row begins, and
    where lines are not as far apart as usual.

    Where cells are set at the top, all of a row begin on its first line, and where at the bottom, all end on its last.
    What stands above or below is a heading, or of another row.
    """
    found: list[DrawnCell] = []
    for row in rows:
        for cell in row:
            others = [one for one in row if one is not cell]
            start = 0
            for number in range(1, len(cell.pieces)):
                above, top = cell.pieces[number - 1].top, cell.pieces[number].top
                begins = level == "top" and any(_are_level([top, one.top], cell.size) for one in others)
                ends = level == "bottom" and any(_are_level([above, one.last], cell.size) for one in others)
                if begins or ends or not _is_usual(cell.pitches[number - 1], usual, cell.has_small):
                    found.append(replace(cell, pieces=cell.pieces[start:number]))
                    start = number
            found.append(replace(cell, pieces=cell.pieces[start:]))
    return sorted(found, key=lambda cell: cell.pieces[0].first.first)


def _usual_pitch(rows: Sequence[_Row]) -> float:
    """Return how far lines within cells are apart mostly, in sizes of letters."""
    pitches = [pitch for row in rows if len(row) > 1 for cell in row for pitch in cell.pitches]
    return statistics.median(pitches) if pitches else 0.0


def _agrees(row: _Row, level: str, usual: float) -> bool:
    """Whether cells may be those of one row: none over another, all set alike, their lines in place."""
    placed = sorted(row, key=lambda cell: cell.left)
    heights = [height for name, height in _HEIGHTS.items() if name == level or not level]
    large = [cell for cell in row if cell.size > SMALL * max(one.size for one in row)]  # others are raised figures
    return (
        all(before.right <= after.left + _SAME_PLACE for before, after in itertools.pairwise(placed))
        and all(_are_level(list(map(height, large)), large[0].size) for height in heights)
        and all(_lines_in_place(cell, usual) for cell in row)
    )


def _are_close(rows: Sequence[_Row], usual: float) -> bool:
    """Whether some rows are no further apart than lines within cells."""
    gaps = [
        (min(cell.top for cell in below) - max(cell.last for cell in above)) / above[0].size
        for above, below in itertools.pairwise(rows)
    ]
    return min(gaps, default=0.0) <= usual + _SAME_PITCH


def _may_have_heading(row: _Row) -> bool:
    """Whether the first cell of a row alone has the most lines, of which the first may be a heading."""
    first, *others = sorted(row, key=lambda cell: cell.left)
    return all(len(cell.pieces) < len(first.pieces) for cell in others)


def _lines_in_place(cell: DrawnCell, usual: float) -> bool:
    """Whether the lines of a cell begin, end or have their middles under each other, and are as far apart as others."""
    near = _SAME_PLACE * cell.size
    chunks = [piece.chunk for piece in cell.pieces]
    edges: tuple[list[float], ...] = (
        [chunk.left for chunk in chunks],
        [chunk.right for chunk in chunks],
        [(chunk.left + chunk.right) / 2 for chunk in chunks],
    )
    in_place = any(max(places) - min(places) <= near for places in edges)
    return in_place and all(_is_usual(pitch, usual, cell.has_small) for pitch in cell.pitches)


def _is_usual(pitch: float, usual: float, has_small: bool) -> bool:
    """Whether lines are as far apart as lines of cells mostly are; raised figures set them further apart."""
    return abs(pitch - usual) <= (_HIGHER if has_small else _SAME_PITCH)


def _not_between(rows: Sequence[_Row]) -> list[_Row]:
    """Return the rows of which no cell was drawn between those of another.

    Where all cells of one line were drawn before those of several, that is asked of both apart.
    """
    single, several = [[[c.place for c in row if c.is_of_lines == of_lines] for row in rows] for of_lines in (0, 1)]
    apart = any(several) and max(map(max, filter(None, single)), default=0) < min(map(min, filter(None, several)))
    kinds = [single, several] if apart else [[[cell.place for cell in row] for row in rows]]
    between: set[int] = set()
    for places in kinds:
        ranges = sorted((min(own), max(own), number) for number, own in enumerate(places) if own)
        for (_, end, one), (start, _, other) in itertools.pairwise(ranges):
            between |= {one, other} if start < end else set()
    return [row for number, row in enumerate(rows) if number not in between]


def _by_cells(rows: Sequence[_Row], good: Sequence[_Row]) -> bool:
    """Whether a page was drawn cell by cell: up again beside a cell of several lines; some cells have one line.

    Line by line it would go down alone, and column by column rows would look like cells.
    """
    drawn = sorted((cell for row in rows for cell in row), key=lambda cell: cell.place)
    own = {cell.place for row in good for cell in row if cell.is_of_lines}
    up = any(
        (before.place in own or after.place in own) and after.top < before.last - _LEVEL * before.size
        for before, after in itertools.pairwise(drawn)
    )
    return up and sum(not all(cell.is_of_lines for cell in row) for row in good) >= _FEWEST_ROWS


def _put_together(lines: Sequence[LineChunks], rows: Sequence[_Row], good: Sequence[_Row]) -> list[LineChunks]:
    """Return lines with those of each good row put together; of others with cells of several lines all is unsure."""
    blanks = blanks_at_ends([cell for row in good for cell in row])
    told: dict[int, LineChunks] = {}
    doubtful: set[int] = set()
    kept = {id(row) for row in good}
    for row in rows:
        numbers = {piece.line for cell in row for piece in cell.pieces}
        if id(row) in kept and not numbers & told.keys():
            told |= dict.fromkeys(numbers, _one_line([words_joined(cell, blanks) for cell in row]))
        elif len(row) > 1 and any(cell.is_of_lines for cell in row):
            doubtful |= numbers
    found, given = [], set()
    for number, (line, chunks) in enumerate(lines):
        if number not in told:
            found.append(_doubted(chunks) if number in doubtful else (line, chunks))
        elif id(told[number]) not in given:
            given.add(id(told[number]))
            found.append(told[number])
    return found


def _one_line(row: _Row) -> LineChunks:
    """Return a row as one line that is told to be one, each cell a chunk."""
    chunks = [Chunk(tuple(word for piece in cell.pieces for word in piece.chunk.words)) for cell in row]
    chunks.sort(key=lambda chunk: chunk.left)
    return replace(line_of(chunks), is_row=True), chunks


def _doubted(chunks: Sequence[Chunk]) -> LineChunks:
    """Return a line of which every word is unsure."""
    doubted = [unsure(chunk) for chunk in chunks]
    return line_of(doubted), doubted
