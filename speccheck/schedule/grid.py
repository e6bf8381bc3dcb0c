"""Grids: the cells of a sheet as a reader sees them, each with its place, and the ranges that are merged."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from speccheck.language.diagnostics import Place
from speccheck.schedule.lines import Spot, Unread


@dataclass(frozen=True, slots=True)
class GridCell:
    """One cell that is not blank: the text that it shows, and the code of what is wrong with it ("" if nothing).

    A cell in trouble (a date, an error, a formula without a result, struck text) is never read as a value.
    """

    text: str
    trouble: str = ""


@dataclass(frozen=True, slots=True)
class MergedRange:
    """A merged range, rows and columns from 0, both ends in it."""

    top: int
    left: int
    bottom: int
    right: int


@dataclass(frozen=True)
class Grid:
    """The cells of one sheet by row and column, both from 0; blank cells are left out.

    `pointers` holds the places of a file that has no cells (JSON); otherwise places are "B12". `hidden` says that the
    sheet is not shown, `hidden_rows` and `hidden_columns` which of its rows and columns are not, `unread` what it
    carries beside its cells, `spots` where its cells stand on paper. `table_rows` has the number, from 1, that each row
    of a table in a document has in that table; the other rows are paragraphs around it. Without it rows are counted
    as they come. `beside` says that it is one of several blocks of a sheet that stand side by side, and `page_titles`
    what is printed at the top, at the foot and across its pages. `fields` counts those of each row of separated text,
    blank ones too.
    """

    file: str
    sheet: str
    cells: Mapping[tuple[int, int], GridCell]
    blocks: tuple[MergedRange, ...] = ()
    hidden: bool = False
    pointers: Mapping[tuple[int, int], str] = field(default_factory=dict)
    hidden_rows: frozenset[int] = frozenset()
    hidden_columns: frozenset[int] = frozenset()
    unread: tuple[Unread, ...] = ()
    spots: Mapping[tuple[int, int], Spot] = field(default_factory=dict)
    table_rows: Mapping[int, int] = field(default_factory=dict)
    beside: bool = False
    page_titles: tuple[str, ...] = ()
    fields: Mapping[int, int] = field(default_factory=dict)

    @cached_property
    def columns_by_row(self) -> Mapping[int, tuple[int, ...]]:
        """The columns that are filled, in order, for each row that has any, in order."""
        found: dict[int, list[int]] = {}
        for row, column in sorted(self.cells):
            found.setdefault(row, []).append(column)
        return {row: tuple(columns) for row, columns in found.items()}

    @property
    def overlaps(self) -> bool:
        """Whether the merged ranges cover more cells than there are, so that some must lie over others."""
        rows = max((row for row, _ in self.cells), default=-1) + 1
        columns = max((column for _, column in self.cells), default=-1) + 1
        covered = (
            max(min(block.bottom + 1, rows) - block.top, 0) * max(min(block.right + 1, columns) - block.left, 0)
            for block in self.blocks
        )
        return sum(covered) > rows * columns

    @cached_property
    def _blocks_by_cell(self) -> Mapping[tuple[int, int], MergedRange]:
        """The merged range over each cell, as far as the sheet is filled."""
        last_row = max((row for row, _ in self.cells), default=-1)
        last_column = max((column for _, column in self.cells), default=-1)
        return {
            (row, column): block
            for block in self.blocks
            for row in range(block.top, min(block.bottom, last_row) + 1)
            for column in range(block.left, min(block.right, last_column) + 1)
        }

    @cached_property
    def _page_of_row(self) -> Mapping[int, int]:
        """The page on which each row stands on paper, blank cells included."""
        return {row: spot.page for (row, _), spot in self.spots.items()}

    def block_at(self, row: int, column: int) -> MergedRange | None:
        """Return the merged range over a cell."""
        return self._blocks_by_cell.get((row, column))

    def text(self, row: int, column: int) -> str:
        """Return what a cell shows by itself; "" for a blank one."""
        cell = self.cells.get((row, column))
        return cell.text if cell is not None else ""

    def texts_of(self, row: int) -> tuple[str, ...]:
        """Return the texts of the filled cells of a row, in order."""
        return tuple(self.text(row, column) for column in self.columns_by_row.get(row, ()))

    def origin(self, row: int, column: int) -> tuple[int, int]:
        """Return the cell that holds what stands here: the first one of a merged range, or the cell itself."""
        block = self.block_at(row, column)
        return (block.top, block.left) if block is not None else (row, column)

    def place(self, row: int, column: int) -> Place:
        """Return the place of a cell."""
        number = self.table_rows.get(row, row + 1)
        cell = self.pointers.get((row, column)) or f"{column_letters(column)}{number}"
        page = self._page_of_row.get(row)
        sheet = f"text around {self.sheet}" if self.table_rows and row not in self.table_rows else self.sheet
        sheet = f"page {page} {sheet}" if page is not None else sheet
        return Place(self.file, sheet=sheet, cell=cell)

    @property
    def sheet_place(self) -> Place:
        """The place of the sheet as a whole."""
        return Place(self.file, sheet=self.sheet)


def column_letters(column: int) -> str:
    """Return the letters of a column that is counted from 0: 0 is "A", 26 is "AA"."""
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def column_number(letters: str) -> int:
    """Return the column, from 0, that goes by `letters`."""
    number = 0
    for letter in letters.upper():
        number = number * 26 + ord(letter) - ord("A") + 1
    return number - 1


def number_text(number: float) -> str:
    """Return a plain number as a spreadsheet shows it: "2" for 2.0, 15 digits at most, without float dust."""
    if isinstance(number, int) or (number.is_integer() and abs(number) < 1e15):
        return str(int(number))
    return f"{number:.15g}"
