"""What stands above the headers of a sheet: title blocks, and headings that say what a table is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.schedule.grid import Grid
from speccheck.schedule.header import Header
from speccheck.schedule.header_spellings import heads_no_proposal, heads_something_else
from speccheck.schedule.labelled import is_title_block
from speccheck.schedule.messages.tables import ROW_ABOVE_HEADER, TABLE_PERHAPS_NOT_PROPOSED

FEWEST_CELLS_OF_A_TABLE = 4
_ROWS_ABOVE = 2


def above_the_header(grid: Grid, first: Header) -> Iterator[Diagnostic]:
    """Yield a note on each row above the first header that fills as many cells as a line of a table does."""
    for row, columns in grid.columns_by_row.items():
        if row < first.first and len(columns) >= FEWEST_CELLS_OF_A_TABLE and not is_title_block(grid, row):
            text = " ".join(grid.text(row, columns[0]).split())
            yield ROW_ABOVE_HEADER.at(grid.place(row, columns[0]), row=row + 1, text=text)


def tables_in_doubt(grid: Grid, headers: Sequence[Header]) -> Iterator[tuple[int, int]]:
    """Yield the heading of each table that is perhaps not what is proposed: its row and column.

    Of several tables, below one another or beside each other, that is one that speaks of what is specified or
    existing; of an only one, one that says nothing else or that it was taken back.
    """
    several = len(headers) > 1 or grid.beside
    for header in headers:
        rows = range(header.first - _ROWS_ABOVE if several else 0, header.first)
        alone = [row for row in rows if len(grid.columns_by_row.get(row, ())) == 1]
        for row in alone[-1:] if several else alone:
            column = grid.columns_by_row[row][0]
            text = grid.text(row, column)
            if heads_no_proposal(text) or (several and heads_something_else(text)):
                yield row, column


def perhaps_not_proposed(text: str, place: Place) -> Diagnostic:
    """Return the warning that the table under a heading, or on a sheet, is perhaps not what is proposed."""
    return TABLE_PERHAPS_NOT_PROPOSED.at(place, heading=" ".join(text.split()))
