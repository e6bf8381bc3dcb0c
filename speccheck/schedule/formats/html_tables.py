"""Pages of HTML, which many programs write and call .xls, to one grid a table, read by the standard library."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser
from pathlib import Path

from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.schedule.formats.comma_separated import encoding_of
from speccheck.schedule.formats.safety import MOST_FILLED_CELLS
from speccheck.schedule.grid import Grid, GridCell, MergedRange
from speccheck.schedule.messages.cells import STRUCK
from speccheck.schedule.messages.files import PAGE_OF_HTML, TOO_MANY_CELLS

_STRIKING = ("s", "strike", "del")
_SILENT = ("script", "style", "title", "head")
_BREAKING = ("br", "p", "div", "li")
_MOST_SPAN = 1_000
_MOST_DEPTH = 500


@dataclass
class _Table:
    """A table while it is read: its cells, its merged ranges, and the places that these cover."""

    cells: dict[tuple[int, int], GridCell] = field(default_factory=dict)
    blocks: list[MergedRange] = field(default_factory=list)
    covered: set[tuple[int, int]] = field(default_factory=set)
    hidden_rows: set[int] = field(default_factory=set)
    row: int = -1
    column: int = 0


class _Page(HTMLParser):
    """Hears a page: tables, and the texts that stand between them."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.tables: list[_Table] = []
        self._open: list[str] = []
        self._nested = 0
        self._between: list[str] = []
        self._words: list[str] | None = None
        self._struck = False
        self._spans = (1, 1)
        self._table: _Table | None = None

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        attributes = {name: value or "" for name, value in attrs}
        if tag in _BREAKING:
            self.handle_data("\n")
        if tag in (*_STRIKING, *_SILENT) and len(self._open) < _MOST_DEPTH:
            self._open.append(tag)
        if tag == "table":
            self._nested += 1
            if self._nested == 1:
                self._end_between()
                self._table = _Table()
                self.tables.append(self._table)
        if self._table is None or self._nested != 1:
            return
        if tag == "tr":
            self._end_cell()
            self._table.row, self._table.column = self._table.row + 1, 0
            if _is_hidden(attributes):
                self._table.hidden_rows.add(self._table.row)
        elif tag in ("td", "th"):
            self._end_cell()
            self._words, self._struck = [], "line-through" in attributes.get("style", "")
            self._spans = _span(attributes.get("rowspan", "")), _span(attributes.get("colspan", ""))

    def handle_endtag(self, tag: str) -> None:
        if tag in self._open:
            del self._open[len(self._open) - 1 - self._open[::-1].index(tag) :]
        if tag == "table" and self._nested:
            self._nested -= 1
            if not self._nested:
                self._end_cell()
                self._table = None
        elif tag in ("td", "th", "tr") and self._nested == 1:
            self._end_cell()

    def handle_data(self, data: str) -> None:
        if any(tag in _SILENT for tag in self._open):
            return
        if self._words is not None:
            self._words.append(data)
            self._struck = self._struck or (bool(data.strip()) and any(tag in _STRIKING for tag in self._open))
        elif self._table is None:
            self._between.append(data)

    def close(self) -> None:
        super().close()
        self._end_cell()
        self._end_between()

    def _end_cell(self) -> None:
        """Keep the cell that is open, to the right of those that merged ranges cover."""
        table, words = self._table, self._words
        self._words = None
        if table is None or words is None:
            return
        table.row = max(table.row, 0)
        while (table.row, table.column) in table.covered:
            table.column += 1
        rows, columns = self._spans
        text = "\n".join(line for line in (" ".join(line.split()) for line in "".join(words).split("\n")) if line)
        if text:
            table.cells[table.row, table.column] = GridCell(text, STRUCK.code if self._struck else "")
        if rows * columns > 1:
            block = MergedRange(table.row, table.column, table.row + rows - 1, table.column + columns - 1)
            table.blocks.append(block)
            table.covered |= {
                (block.top + down, block.left + right) for down in range(rows) for right in range(columns)
            }
        table.column += columns

    def _end_between(self) -> None:
        """Keep the texts that stand between tables, a row for each line, as a table of their own."""
        lines = [" ".join(line.split()) for line in "".join(self._between).split("\n")]
        self._between = []
        cells = {(row, 0): GridCell(line) for row, line in enumerate(line for line in lines if line)}
        if cells:
            self.tables.append(_Table(cells))


def _span(text: str) -> int:
    """Return over how many rows or columns a cell stretches."""
    return min(max(int(text), 1), _MOST_SPAN) if text.strip().isdecimal() and len(text) < 6 else 1


def _is_hidden(attributes: dict[str, str]) -> bool:
    """Whether an element is not shown."""
    style = attributes.get("style", "").replace(" ", "").lower()
    return "hidden" in attributes or "display:none" in style or "visibility:hidden" in style


def read_html(path: Path) -> tuple[list[Grid], list[Diagnostic]]:
    """Return one grid for all tables of a page, one below the other with the texts between them, and a note."""
    page = _Page()
    page.feed(path.read_bytes().decode(encoding_of(path) or "cp1252", errors="replace"))
    page.close()
    cells: dict[tuple[int, int], GridCell] = {}
    blocks: list[MergedRange] = []
    hidden: set[int] = set()
    for first, table in _stacked(page.tables):
        cells |= {(first + row, column): cell for (row, column), cell in table.cells.items()}
        blocks += [MergedRange(first + one.top, one.left, first + one.bottom, one.right) for one in table.blocks]
        hidden |= {first + row for row in table.hidden_rows}
        if len(cells) > MOST_FILLED_CELLS:
            return [], [TOO_MANY_CELLS.at(Place(path.name), file=path.name, most=MOST_FILLED_CELLS)]
    note = PAGE_OF_HTML.at(Place(path.name))
    return [Grid(path.name, "", cells, tuple(blocks), hidden_rows=frozenset(hidden))], [note]


def _stacked(tables: list[_Table]) -> Iterator[tuple[int, _Table]]:
    """Yield each table with the row at which it begins, a blank row between two."""
    first = 0
    for table in tables:
        yield first, table
        first += max((row for row, _ in table.cells), default=0) + 2
