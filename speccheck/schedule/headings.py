"""What stands above the headers of a sheet: title blocks, and headings that say what a table is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from speccheck.language.diagnostics import Diagnostic, Severity
from speccheck.schedule import codes
from speccheck.schedule.grid import Grid
from speccheck.schedule.header import Header
from speccheck.schedule.header_spellings import heads_something_else

FEWEST_CELLS_OF_A_TABLE = 4
_ROWS_ABOVE = 2


def above_the_header(grid: Grid, first: Header) -> Iterator[Diagnostic]:
    """Yield a note on each row above the first header that fills as many cells as a line of a table does."""
    for row, columns in grid.columns_by_row.items():
        if row < first.first and len(columns) >= FEWEST_CELLS_OF_A_TABLE:
            text = " ".join(grid.text(row, columns[0]).split())
            message = f"row {row + 1}, which begins `{text}`, stands above the first header, and no line was made of it"
            help = "say in a mapping file which row is the header, if it is part of a table"
            yield Diagnostic(codes.ROW_LEFT, Severity.NOTE, message, grid.place(row, columns[0]), help)


def tables_in_doubt(grid: Grid, headers: Sequence[Header], beside: bool) -> Iterator[tuple[int, int]]:
    """Yield the heading of each of several tables that speaks of what is specified or existing: its row and column.

    The tables stand below one another, or `beside` each other.
    """
    for header in headers if len(headers) > 1 or beside else ():
        rows = range(header.first - _ROWS_ABOVE, header.first)
        alone = [row for row in rows if len(grid.columns_by_row.get(row, ())) == 1]
        for row in alone[-1:]:
            column = grid.columns_by_row[row][0]
            if heads_something_else(grid.text(row, column)):
                yield row, column


def perhaps_not_proposed(grid: Grid, row: int, column: int) -> Diagnostic:
    """Return the warning that the table under a heading is perhaps not what is proposed."""
    text = " ".join(grid.text(row, column).split())
    message = f"the table under `{text}` is perhaps not what is proposed, and was read like any other"
    help = "delete it, or say in a mapping file which row is the header, if it is not proposed"
    return Diagnostic(codes.OTHER_TABLE, Severity.WARNING, message, grid.place(row, column), help)
