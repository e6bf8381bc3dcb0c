"""PDF files to one grid a table, read by pdfplumber: ruled tables by rules, others by words that stand in columns.

A table that goes on over pages is one grid. What stands above a table is put into rows above it. Each cell keeps the
page and the rectangle in which it stands. A page that is a picture is refused: nothing is guessed from a picture.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

from speccheck.english import agree, noun
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.schedule.formats.pdf_cell_texts import text_of
from speccheck.schedule.formats.pdf_paragraphs import paragraphs_of
from speccheck.schedule.formats.pdf_ruled_tables import RuledTable, ruled_tables
from speccheck.schedule.formats.pdf_running_lines import PageLines, repeated_lines
from speccheck.schedule.formats.pdf_unruled_tables import unruled_tables
from speccheck.schedule.formats.pdf_words import PrintedLine, PrintedWord, around, lines_of, words_of
from speccheck.schedule.formats.safety import MOST_FILLED_CELLS, Refused
from speccheck.schedule.grid import Grid, GridCell, MergedRange
from speccheck.schedule.lines import Spot, Unread, UnreadKind
from speccheck.schedule.messages.files import (
    NO_TEXT_AT_ALL,
    PAGES_ARE_PICTURES,
    PDF_DAMAGED,
    TOO_MANY_CELLS,
    TOO_MANY_PAGES,
    WORKBOOK_LOCKED,
)
from speccheck.schedule.messages.tables import PICTURE_ON_PAGE, TEXT_ACROSS_PAGES, TEXT_UP_THE_PAGE

MOST_PAGES = 200
_CONTINUED = re.compile(r"\b(?:cont|contd|cont'd|continued|continuation)\b", re.IGNORECASE)
_ENDS_NOTHING = re.compile(r"(?:\b(?:and|or|to|with|of|for|by|per)|[&,/(+])$", re.IGNORECASE)


@dataclass
class _Growing:
    """A grid while pages are read."""

    name: str
    cells: dict[tuple[int, int], GridCell] = field(default_factory=dict)
    spots: dict[tuple[int, int], Spot] = field(default_factory=dict)
    blocks: list[MergedRange] = field(default_factory=list)
    unread: list[Unread] = field(default_factory=list)
    edges: tuple[float, ...] = ()
    header: tuple[str, ...] = ()
    row: int = 0
    table_rows: dict[int, int] = field(default_factory=dict)
    counted: dict[int, int] = field(default_factory=dict)

    def add_text(self, line: PrintedLine, page: int) -> None:
        """Add a line of text as a row of its own."""
        text, trouble = text_of(line.words)
        self._add(0, 0, text, trouble, Spot(page, *around(line.words)))
        self.row += 1

    def add_table(self, table: RuledTable, page: int) -> None:
        """Add the rows of a table; the first of them may be the rest of a row that the page before did not hold."""
        rest = self._rest_of_last_row(table) if page not in self.counted else {}
        for at, text in rest.items():
            self.cells[at] = replace(self.cells[at], text=f"{self.cells[at].text}\n{text}")
        if rest:
            below = [replace(cell, row=cell.row - 1, last_row=cell.last_row - 1) for cell in table.cells if cell.row]
            table = replace(table, cells=tuple(below), rows=table.rows - 1)
        for cell in table.cells:
            self._add(cell.row, cell.column, cell.text, cell.trouble, Spot(page, *cell.rectangle))
            if cell.last_row > cell.row or cell.last_column > cell.column:
                block = MergedRange(self.row + cell.row, cell.column, self.row + cell.last_row, cell.last_column)
                self.blocks.append(block)
        counted = self.counted.get(page, 0)
        self.table_rows |= {self.row + row: counted + row + 1 for row in range(table.rows)}
        self.counted[page] = counted + table.rows
        self.row += table.rows
        self.edges = table.edges
        self.header = self.header or _header(table)

    def _rest_of_last_row(self, table: RuledTable) -> dict[tuple[int, int], str]:
        """Return what the cells of the last row go on with in the first one of a table, by their places.

        They do where few cells are filled, and each goes on from a text of the row above that ends nothing, or with a
        small letter beside one that does.
        """
        last = {column: cell.text for (row, column), cell in self.cells.items() if row == self.row - 1}
        rest = {cell.column: cell.text for cell in table.cells if cell.row == 0 and cell.text.strip()}
        if not rest or min(rest) <= min(last, default=0) or len(rest) > len(last) / 2:
            return {}
        open_ones = {column for column in rest if _ENDS_NOTHING.search(last.get(column, "."))}
        if open_ones and all(column in open_ones or text[0].islower() for column, text in rest.items()):
            return {(self.row - 1, column): text for column, text in rest.items() if column in last}
        return {}

    def _add(self, row: int, column: int, text: str, trouble: str, spot: Spot) -> None:
        self.spots[self.row + row, column] = spot
        if text.strip():
            self.cells[self.row + row, column] = GridCell(text, trouble)


Reading = tuple[list[Grid], list[Diagnostic]]


def read_pdf(path: Path) -> Reading:
    """Return a grid for each table of a PDF, and what is wrong with it. Raises `Refused` where it cannot be used."""
    return opened(path, _read)


def opened(path: Path, read: Callable[[Any, str], Reading]) -> Reading:
    """Return what a reader makes of an open PDF. Raises `Refused` where it is locked, damaged or too long."""
    import logging

    import pdfplumber
    from pdfminer.pdfdocument import PDFPasswordIncorrect

    logging.disable(logging.CRITICAL)
    name = path.name
    try:
        with pdfplumber.open(path) as document:
            if len(document.pages) > MOST_PAGES:
                raise Refused(TOO_MANY_PAGES.at(Place(name), file=name, number=len(document.pages), most=MOST_PAGES))
            return read(document, name)
    except Refused:
        raise
    except Exception as error:  # whatever the library stumbles over in a malformed file ends here as one diagnostic
        locked = any(isinstance(one, PDFPasswordIncorrect) for one in (error, *error.args, error.__cause__))
        raise Refused((WORKBOOK_LOCKED if locked else PDF_DAMAGED).at(Place(name), file=name)) from error


def _read(document: Any, file: str) -> tuple[list[Grid], list[Diagnostic]]:
    """Return the grids of an open document."""
    pages: list[_Page] = []
    scanned: list[int] = []
    sideways: list[int] = []
    pictures: list[int] = []
    across: list[tuple[int, str]] = []
    for number, page in enumerate(document.pages, start=1):
        words, others, slanted = words_of(page)
        if page.images and not words and not others:
            scanned.append(number)
        if others:
            sideways.append(number)
        across += [(number, text) for text in slanted]
        if page.images and words:
            pictures.append(number)
        corner = (float(page.mediabox[0]), float(page.mediabox[1]))
        pages.append(_Page(number, float(page.height), corner, words, ruled_tables(page, words)))
        page.close()
    if scanned:
        raise Refused(
            PAGES_ARE_PICTURES.at(
                Place(file), pages=_pages(scanned), file=file, are=agree(len(scanned), "is a picture", "are pictures")
            )
        )
    if not any(page.words for page in pages):
        raise Refused(NO_TEXT_AT_ALL.at(Place(file), file=file))
    grids = _grids(file, pages)
    beside = [
        *((UnreadKind.OTHER, TEXT_UP_THE_PAGE.at(_page(file, number), page=number)) for number in sideways),
        *((UnreadKind.PICTURE, PICTURE_ON_PAGE.at(_page(file, number), page=number)) for number in pictures),
        *((UnreadKind.OTHER, told) for told in _slanted(file, across)),
    ]
    unread = [Unread(kind, told.message, told.place) for kind, told in beside]
    grids = [_with_unread(grid, unread if not index else []) for index, grid in enumerate(grids)]
    return grids, [told for _, told in beside]


def _with_unread(grid: Grid, unread: Sequence[Unread]) -> Grid:
    return replace(grid, unread=tuple(unread))


def _page(file: str, page: int) -> Place:
    return Place(file, sheet=f"page {page}")


def _slanted(file: str, across: Sequence[tuple[int, str]]) -> Iterator[Diagnostic]:
    """Yield each text that runs across pages at a slant, with its pages."""
    for text in dict.fromkeys(text for _, text in across):
        pages = list(dict.fromkeys(number for number, one in across if one == text))
        yield TEXT_ACROSS_PAGES.at(_page(file, pages[0]), text=text, pages=_pages(pages))


def _pages(numbers: Sequence[int]) -> str:
    """Write "page 2" or "pages 2, 3, 7"."""
    return f"{noun(len(numbers), 'page')} {', '.join(map(str, numbers))}"


@dataclass
class _Page:
    """A page: its height, its upper left corner as the library counts, its words, and its ruled tables."""

    number: int
    height: float
    corner: tuple[float, float]
    words: list[PrintedWord]
    ruled: list[RuledTable]


def _grids(file: str, pages: Sequence[_Page]) -> list[Grid]:
    """Return the grids of all pages, those of tables that go on put together."""
    repeated = repeated_lines([PageLines(page.number, page.height, lines_of(page.words)) for page in pages])
    growing: list[_Growing] = []
    waiting: list[tuple[PrintedLine, int]] = []
    for page in pages:
        in_tables = {id(word) for table in page.ruled for word in table.words}
        rest = list(lines_of([word for word in page.words if id(word) not in in_tables]))
        rest = [line for line in rest if page.number == 1 or not _is_any(line, repeated[page.number])]
        tables, texts = unruled_tables(rest)
        items: list[tuple[float, RuledTable | PrintedLine]] = [(table.top, table) for table in (*page.ruled, *tables)]
        items += [(line.top, line) for line in paragraphs_of(texts)]
        for _, item in sorted(items, key=lambda item: item[0]):
            if isinstance(item, PrintedLine):
                waiting.append((item, page.number))
                continue
            if growing and _goes_on(growing[-1], item) and not _begins_anew(growing[-1], item, waiting):
                table = growing[-1]
            else:
                table = _Growing(f"table {len(growing) + 1}")
                growing.append(table)
            for line, number in waiting:
                table.add_text(line, number)
            waiting = []
            table.add_table(item, page.number)
    if not growing:
        growing.append(_Growing("text"))
    for line, number in waiting:
        growing[-1].add_text(line, number)
    if sum(len(one.cells) for one in growing) > MOST_FILLED_CELLS:
        raise Refused(TOO_MANY_CELLS.at(Place(file), file=file, most=MOST_FILLED_CELLS))
    corners = {page.number: page.corner for page in pages}
    return [
        Grid(
            file,
            one.name,
            one.cells,
            tuple(one.blocks),
            spots={at: _from_corner(spot, *corners[spot.page]) for at, spot in one.spots.items()},
            table_rows=one.table_rows,
        )
        for one in growing
    ]


def _is_any(line: PrintedLine, others: Sequence[PrintedLine]) -> bool:
    """Whether a line is one of others, or a part of it."""
    return any(set(line.words) <= set(other.words) for other in others)


def _from_corner(spot: Spot, left: float, top: float) -> Spot:
    """Return a spot counted from the corner of its page, to a tenth of a point."""
    edges = (spot.left - left, spot.top - top, spot.right - left, spot.bottom - top)
    return Spot(spot.page, *(round(edge, 1) for edge in edges))


def _goes_on(table: _Growing, following: RuledTable) -> bool:
    """Whether a table stands in the columns of the one before, or begins with the same header."""
    edges = following.edges
    if len(edges) != len(table.edges):
        return False
    near = (abs(one - other) <= following.tolerance for one, other in zip(table.edges, edges, strict=True))
    return all(near) or _header(following) == table.header


def _begins_anew(table: _Growing, following: RuledTable, between: Sequence[tuple[PrintedLine, int]]) -> bool:
    """Whether a table with the header of the one before stands under texts of its own, which say what it is about."""
    texts = [text_of(line.words)[0] for line, _ in between]
    return _header(following) == table.header and bool(texts) and not any(map(_CONTINUED.search, texts))


def _header(table: RuledTable) -> tuple[str, ...]:
    """Return the texts of the first row of a table that has more than one; a title may stand in the rows above it."""
    rows: dict[int, list[str]] = {}
    for cell in table.cells:
        rows.setdefault(cell.row, []).append(cell.text)
    return next((tuple(texts) for _, texts in sorted(rows.items()) if sum(map(bool, texts)) > 1), ())
