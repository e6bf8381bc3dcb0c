"""Cells of several lines in tables without rules, told by the order in which a page was drawn.

Programs that lay out tables draw them row by row, cell by cell, and a cell line by line. Where they go down within a
column and then up again, to the next cell on the right, the lines that they went down are those of one cell. That is
certain; where it is not, nothing is put together, and cells that stand across each other are marked as unsure.
"""

from __future__ import annotations

import itertools
import statistics
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from speccheck.schedule.formats.pdf_columns import Chunk, line_of, unsure
from speccheck.schedule.formats.pdf_words import SMALL, Edges, PrintedLine, PrintedWord
from speccheck.schedule.messages.cells import UNSURE_CELL

LineChunks = tuple[PrintedLine, list[Chunk]]
"""A line of print, or the lines of a row put together, with its chunks."""

_LEAST, _MOST = 0.8, 1.9
"""Sizes of letters that lines of print within a cell are apart at least and at most."""
_LEVEL = 0.25
"""Sizes of letters within which two heights are one."""
_SAME_PITCH = 0.06
_FEWEST_BLANKS = 3
_IN_COLUMNS = 4
"""Lines from which cells that all go down together are columns, drawn one after another."""


@dataclass(frozen=True, slots=True)
class _Piece:
    """A chunk, and the number of its line."""

    line: int
    chunk: Chunk

    @property
    def first(self) -> PrintedWord:
        """The word that was drawn first."""
        return min(self.chunk.words, key=lambda word: word.first)


@dataclass(frozen=True, slots=True)
class _Cell(Edges):
    """Pieces below each other, drawn one after another; `certain` where they are lines of one cell."""

    pieces: tuple[_Piece, ...]
    certain: bool = False

    @property
    def words(self) -> list[PrintedWord]:
        """The words of all pieces."""
        return [word for piece in self.pieces for word in piece.chunk.words]

    @property
    def size(self) -> float:
        """The size of its largest letters, in points."""
        return max(word.size for word in self.words)

    @property
    def middle(self) -> float:
        """The height of the middle, in points."""
        return (self.top + self.bottom) / 2

    @property
    def pitches(self) -> list[float]:
        """How far its lines are apart, in sizes of letters."""
        tops = [piece.chunk.top for piece in self.pieces]
        return [(after - before) / self.size for before, after in itertools.pairwise(tops)]


def rows_put_together(lines: Sequence[LineChunks]) -> list[LineChunks]:
    """Return lines with those put together that are of one row, as the order tells in which they were drawn."""
    pieces = [
        _Piece(number, part) for number, (_, chunks) in enumerate(lines) for one in chunks for part in _parts(one)
    ]
    pieces.sort(key=lambda piece: piece.first.first)
    cells = _told(list(_runs(pieces)))
    rows = [row for row in _rows(cells) if any(cell.certain for cell in row)]
    if not rows:
        return list(lines)
    return _put_together(lines, pieces, rows, *_ends_of_lines(cells))


def _parts(chunk: Chunk) -> Iterator[Chunk]:
    """Yield a chunk, parted where something on another line was drawn between two of its words."""
    part: list[PrintedWord] = []
    for word in chunk.words:
        if part and word.first > part[-1].last + 2 and word.size > SMALL * part[-1].size:
            yield Chunk(tuple(part))
            part = []
        part.append(word)
    yield Chunk(tuple(part))


def _runs(pieces: Sequence[_Piece]) -> Iterator[_Cell]:
    """Yield pieces that were drawn one after another, each below the one before."""
    run: list[_Piece] = []
    for piece in pieces:
        if run and not _goes_down(run[-1], piece):
            yield _Cell(tuple(run))
            run = []
        run.append(piece)
    if run:
        yield _Cell(tuple(run))


def _goes_down(above: _Piece, below: _Piece) -> bool:
    """Whether a piece stands below another, as near as lines of a cell do."""
    one, other = above.chunk, below.chunk
    size = one.words[0].size
    pitch = other.top - one.top
    beside = one.left < other.right and other.left < one.right
    return beside and _LEAST * size <= pitch <= _MOST * size and abs(size - other.words[0].size) < 0.1 * size


def _told(cells: Sequence[_Cell]) -> list[_Cell]:
    """Return cells, those parted of which some lines are of another row, and those marked that are certain."""
    is_middle = _is_middle(cells)
    found: list[_Cell] = []
    for before, cell, following in zip([None, *cells], cells, [*cells[1:], None], strict=False):
        first = None
        if len(cell.pieces) > 1 and following is not None:
            first = _first_of_cell(cell, following, is_middle)
        if len(cell.pieces) > 1 and before is not None and first is None and _ends_with(before, cell):
            first = 0
        if first is None:
            found.append(cell)
            continue
        found += [_Cell((piece,)) for piece in cell.pieces[:first]]
        found.append(_Cell(cell.pieces[first:], certain=len(cell.pieces) - first > 1))
    return _last_ones_told(found, bool(is_middle))


def _is_middle(cells: Sequence[_Cell]) -> bool | None:
    """Whether cells of a row have their middles on one level, and not their first lines; None where both is seen."""
    seen = set()
    for cell, following in itertools.pairwise(cells):
        beside = following.left > cell.left and following.top < cell.bottom
        if len(cell.pieces) == 2 and len(following.pieces) == 1 and beside:
            if abs(following.top - cell.top) <= _LEVEL * cell.size:
                seen.add(False)
            elif abs(following.middle - cell.middle) <= _LEVEL * cell.size:
                seen.add(True)
    return seen.pop() if len(seen) == 1 else None


def _first_of_cell(cell: _Cell, following: _Cell, is_middle: bool | None) -> int | None:
    """Return the line with which a cell begins whose last lines these are, going by the next cell of the row.

    None where the next cell is not to the right of it, or on no level that tells.
    """
    near = _LEVEL * cell.size
    last = cell.pieces[-1].chunk.top
    if following.left <= cell.left or following.top > last - near:
        return None
    if abs(following.top - cell.top) <= near:
        return 0
    if is_middle and abs(following.middle - cell.middle) <= near:
        return 0
    if is_middle is False:
        tops = [piece.chunk.top for piece in cell.pieces]
        return next((number for number, top in enumerate(tops) if abs(following.top - top) <= near), None)
    return None


def _ends_with(before: _Cell, cell: _Cell) -> bool:
    """Whether a cell begins above the one on its left that was drawn before it, and ends on a level with it."""
    near = _LEVEL * cell.size
    return before.left < cell.left and before.top > cell.top + near and abs(before.bottom - cell.bottom) <= near


def _last_ones_told(cells: Sequence[_Cell], is_middle: bool) -> list[_Cell]:
    """Return cells, those marked as certain too that are the last of their row and as close as other cells' lines."""
    pitches = [pitch for cell in cells if cell.certain for pitch in cell.pitches]
    if not pitches:
        return list(cells)
    usual, leftmost = statistics.median(pitches), min(cell.left for cell in cells)
    found = []
    for before, cell, after in zip([None, *cells], cells, [*cells[1:], None], strict=False):
        close = all(abs(pitch - usual) <= _SAME_PITCH for pitch in cell.pitches)
        own = before is not None and before.left < cell.left and _is_level(before, cell, is_middle)
        goes_on = after is not None and after.left > cell.left and after.top < cell.bottom
        if len(cell.pieces) > 1 and close and own and not goes_on and cell.left > leftmost + cell.size:
            cell = replace(cell, certain=True)
        found.append(cell)
    return found


def _ends_of_lines(cells: Sequence[_Cell]) -> tuple[bool, bool]:
    """Return whether blanks are drawn at the ends of lines within cells, and whether none is where there is no room.

    Where they are, a line without one ends within a word: a narrow column breaks a word for which it has no room, and
    which stands alone on its line.
    """
    pairs = [pair for cell in cells if cell.certain for pair in itertools.pairwise(cell.pieces)]
    spaced = [below.first.spaced for _, below in pairs]
    drawn = sum(spaced) >= max(_FEWEST_BLANKS, 0.2 * len(spaced))
    return drawn, any(len(above.chunk.words) > 1 and _breaks(above.chunk.words, below.first) for above, below in pairs)


def _breaks(above: Sequence[PrintedWord], word: PrintedWord) -> bool:
    """Whether a line of letters goes on with small letters, and no blank was drawn between."""
    return not word.spaced and above[-1].text[-1:].isalpha() and word.text[:1].islower()


def _words_joined(cell: _Cell, dropped: bool) -> _Cell:
    """Return a cell in which each word that goes on at the beginning of the next line stands there as a whole.

    Where blanks may have been `dropped`, it may be two words, and is unsure.
    """
    lines = [list(piece.chunk.words) for piece in cell.pieces]
    widest = max(line[-1].right - line[0].left for line in lines)
    for above, line in itertools.pairwise(lines if cell.certain else ()):
        letter = (line[0].right - line[0].left) / len(line[0].text)
        full = above[-1].right - above[0].left + letter > widest
        if len(above) == 1 and full and _breaks(above, line[0]):
            whole = above.pop()
            trouble = whole.trouble or line[0].trouble or (UNSURE_CELL.code if dropped else "")
            line[0] = replace(line[0], text=whole.text + line[0].text, trouble=trouble)
    pieces = [replace(p, chunk=Chunk(tuple(words))) for p, words in zip(cell.pieces, lines, strict=True) if words]
    return replace(cell, pieces=tuple(pieces))


def _is_level(before: _Cell, cell: _Cell, is_middle: bool) -> bool:
    """Whether the first lines of two cells are on one level, or their middles where these are."""
    near = _LEVEL * cell.size
    return abs(before.top - cell.top) <= near or (is_middle and abs(before.middle - cell.middle) <= near)


def _rows(cells: Sequence[_Cell]) -> Iterator[list[_Cell]]:
    """Yield cells that were drawn one after another, each to the right of the one before and beside it."""
    row: list[_Cell] = []
    for cell in cells:
        top, bottom = (min(one.top for one in row), max(one.bottom for one in row)) if row else (0.0, 0.0)
        beside = row and cell.left > row[-1].left and min(bottom, cell.bottom) - max(top, cell.top) > 0.3 * cell.size
        if row and not beside:
            yield row
            row = []
        row.append(cell)
    if row:
        yield row


def _put_together(
    lines: Sequence[LineChunks], pieces: Sequence[_Piece], rows: Sequence[list[_Cell]], blanks: bool, dropped: bool
) -> list[LineChunks]:
    """Return lines with those of each row put together; where others stand across a row, all of them are unsure.

    `blanks` says whether a line of a cell that has no blank behind it ends within a word,
    and `dropped` whether it need not.
    """
    taken: dict[int, LineChunks] = {}
    doubtful: set[int] = set()
    for row in rows:
        numbers = {piece.line for cell in row for piece in cell.pieces}
        own = {id(piece) for cell in row for piece in cell.pieces}
        others = [piece for piece in pieces if piece.line in numbers and id(piece) not in own]
        if _in_columns(row):
            doubtful |= numbers if len(numbers) < _IN_COLUMNS else set()
        elif numbers & taken.keys() or _across(row, others) or not all(c.certain or len(c.pieces) == 1 for c in row):
            doubtful |= numbers
        else:
            taken |= dict.fromkeys(
                numbers, _one_line([_words_joined(one, dropped) if blanks else one for one in row], others)
            )
    found, given = [], set()
    for number, (line, chunks) in enumerate(lines):
        if number not in taken:
            found.append(_doubted(chunks) if number in doubtful else (line, chunks))
        elif id(taken[number][0]) not in given:
            given.add(id(taken[number][0]))
            found.append(taken[number])
    return found


def _in_columns(row: Sequence[_Cell]) -> bool:
    """Whether all cells go down over the same lines, as columns do that are drawn one after another."""
    return len({tuple(piece.line for piece in cell.pieces) for cell in row}) == 1


def _across(row: Sequence[_Cell], others: Sequence[_Piece]) -> bool:
    """Whether other pieces on the lines of a row are none of its cells: on several lines, or where it has some."""
    own = {piece.line for cell in row if len(cell.pieces) == 1 for piece in cell.pieces}
    theirs = {piece.line for piece in others}
    over = any(cell.left < piece.chunk.right and piece.chunk.left < cell.right for cell in row for piece in others)
    return over or len(theirs) > 1 or bool(own and theirs - own)


def _one_line(row: Sequence[_Cell], others: Sequence[_Piece]) -> LineChunks:
    """Return a row as one line, each cell a chunk."""
    chunks = [Chunk(tuple(cell.words)) for cell in row] + [piece.chunk for piece in others]
    chunks.sort(key=lambda chunk: chunk.left)
    return line_of(chunks), chunks


def _doubted(chunks: Sequence[Chunk]) -> LineChunks:
    """Return a line of which every word is unsure."""
    doubted = [unsure(chunk) for chunk in chunks]
    return line_of(doubted), doubted
