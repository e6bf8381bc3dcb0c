"""What was drawn on a page of a PDF as one cell: lines below each other, drawn one after another.

A narrow column breaks a word for which it has no room; it is put together where blanks tell that it is one.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from speccheck.schedule.formats.pdf_columns import Chunk
from speccheck.schedule.formats.pdf_words import SMALL, PrintedLine, PrintedWord
from speccheck.schedule.messages.cells import UNSURE_CELL

LineChunks = tuple[PrintedLine, list[Chunk]]
"""A line of print, or the lines of a row put together, with its chunks."""

LEAST = 0.8
_MOST = 1.9
"""Sizes of letters that lines of print within a cell are apart at least and at most."""
_FEWEST_BLANKS = 3


@dataclass(frozen=True, slots=True)
class DrawnPiece:
    """A chunk, the number of its line, its upper edge, raised figures aside, and whether it is raised figures alone."""

    line: int
    chunk: Chunk
    top: float
    is_small: bool

    @property
    def first(self) -> PrintedWord:
        """The word that was drawn first."""
        return min(self.chunk.words, key=lambda word: word.first)

    @property
    def size(self) -> float:
        """The size of its largest letters, in points."""
        return max(word.size for word in self.chunk.words)

    @property
    def has_small(self) -> bool:
        """Whether some of its figures are raised or lowered."""
        return any(word.size <= SMALL * self.size for word in self.chunk.words)


@dataclass(frozen=True, slots=True)
class DrawnCell:
    """Pieces below each other, drawn one after another; `place` counts cells in the order in which they were drawn."""

    pieces: tuple[DrawnPiece, ...]
    place: int = 0

    @property
    def top(self) -> float:
        """The upper edge of the first line, in points."""
        return self.pieces[0].top

    @property
    def last(self) -> float:
        """The upper edge of the last line, in points."""
        return self.pieces[-1].top

    @property
    def middle(self) -> float:
        """The height midway between these, in points."""
        return (self.top + self.last) / 2

    @property
    def left(self) -> float:
        """The left edge, in points."""
        return min(piece.chunk.left for piece in self.pieces)

    @property
    def right(self) -> float:
        """The right edge, in points."""
        return max(piece.chunk.right for piece in self.pieces)

    @property
    def size(self) -> float:
        """The size of its largest letters, in points."""
        return max(piece.size for piece in self.pieces)

    @property
    def has_small(self) -> bool:
        """Whether some of its figures are raised or lowered."""
        return any(piece.has_small for piece in self.pieces)

    @property
    def is_of_lines(self) -> bool:
        """Whether it has several lines."""
        return len(self.pieces) > 1

    @property
    def pitches(self) -> list[float]:
        """How far its lines are apart, in sizes of letters."""
        return [(below.top - above.top) / self.size for above, below in itertools.pairwise(self.pieces)]


def drawn_cells(lines: Sequence[LineChunks]) -> list[DrawnCell]:
    """Return what goes down in the order in which a page was drawn, as far as lines of a cell do."""
    pieces = [
        DrawnPiece(number, part, *_top(part, line))
        for number, (line, chunks) in enumerate(lines)
        for one in chunks
        for part in _parts(one)
    ]
    pieces.sort(key=lambda piece: piece.first.first)
    return counted(_runs(pieces))


def _top(chunk: Chunk, line: PrintedLine) -> tuple[float, bool]:
    """Return the upper edge of a chunk, in points, or that of its line where it is raised figures alone, and that."""
    large = [word.top for word in chunk.words if word.size > SMALL * line.size]
    return min(large or [word.top for word in line.words if word.size > SMALL * line.size]), not large


def _parts(chunk: Chunk) -> Iterator[Chunk]:
    """Yield a chunk, parted where something on another line was drawn between two of its words."""
    part: list[PrintedWord] = []
    for word in chunk.words:
        if part and word.first > part[-1].last + 2 and word.size > SMALL * part[-1].size:
            yield Chunk(tuple(part))
            part = []
        part.append(word)
    yield Chunk(tuple(part))


def _runs(pieces: Sequence[DrawnPiece]) -> Iterator[DrawnCell]:
    """Yield pieces that were drawn one after another, each below the one before."""
    run: list[DrawnPiece] = []
    for piece in pieces:
        if run and not _goes_down(run[-1], piece):
            yield DrawnCell(tuple(run))
            run = []
        run.append(piece)
    if run:
        yield DrawnCell(tuple(run))


def _goes_down(above: DrawnPiece, below: DrawnPiece) -> bool:
    """Whether a piece stands below another, as near as lines of a cell do."""
    pitch = below.top - above.top
    beside = above.chunk.left < below.chunk.right and below.chunk.left < above.chunk.right
    alike = min(above.size, below.size) > 0.9 * max(above.size, below.size) or above.is_small or below.is_small
    return beside and alike and LEAST * above.size <= pitch <= _MOST * above.size


def counted(cells: Iterable[DrawnCell]) -> list[DrawnCell]:
    """Return cells with the places that they have among each other."""
    return [replace(cell, place=place) for place, cell in enumerate(cells)]


def blanks_at_ends(cells: Sequence[DrawnCell]) -> bool:
    """Whether blanks are drawn at the ends of lines within cells, so that a line without one may end within a word.

    A narrow column breaks a word for which it has no room, and which stands alone on its line.
    """
    spaced = [below.first.spaced for cell in cells for below in cell.pieces[1:]]
    return sum(spaced) >= max(_FEWEST_BLANKS, 0.2 * len(spaced))


def words_joined(cell: DrawnCell, blanks: bool) -> DrawnCell:
    """Return a cell in which each word that may go on at the beginning of the next line stands there, and is unsure.

    A blank for which there is no room may be left out at the end of a line, so that it may be two words as well. Where
    `blanks` are drawn at the ends of lines words of letters may be broken, and numbers anywhere.
    """
    lines = [list(piece.chunk.words) for piece in cell.pieces]
    widest = max(line[-1].right - line[0].left for line in lines)
    for above, line in itertools.pairwise(lines):
        letter = (line[0].right - line[0].left) / len(line[0].text)
        full = above[-1].right - above[0].left + letter > widest
        if len(above) == 1 and full and _breaks(above[0], line[0], blanks):
            whole = above.pop()
            line[0] = replace(line[0], text=whole.text + line[0].text, trouble=whole.trouble or UNSURE_CELL.code)
    pieces = [replace(p, chunk=Chunk(tuple(words))) for p, words in zip(cell.pieces, lines, strict=True) if words]
    return replace(cell, pieces=tuple(pieces))


def _breaks(above: PrintedWord, word: PrintedWord, blanks: bool) -> bool:
    """Whether a number goes on with figures, or letters with small ones, and no blank was drawn between."""
    if word.spaced:
        return False
    number = above.text[-1:].isdigit() and word.text[:1].isdigit()
    return number or (blanks and above.text[-1:].isalpha() and word.text[:1].islower())
