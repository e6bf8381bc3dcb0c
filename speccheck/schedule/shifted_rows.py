"""Rows of separated text that have more fields than their header: a comma within a cell has moved what follows.

Nobody can say from which field on, so that no cell of such a row is a value.
"""

from __future__ import annotations

from dataclasses import replace

from speccheck.schedule.grid import Grid, GridCell
from speccheck.schedule.header import Header
from speccheck.schedule.messages.cells import SHIFTED


def with_shifted_rows(grid: Grid, header: Header, last: int) -> Grid:
    """Return the grid with the cells of shifted rows under a header, up to `last`, in trouble."""
    width = max((grid.fields.get(row, 0) for row in range(header.first, header.last + 1)), default=0)
    columns = grid.columns_by_row
    rows = (row for row in range(header.last + 1, last + 1) if grid.fields.get(row, 0) > width > 0)
    shifted = {row for row in rows if columns.get(row, (0,))[-1] >= width}
    if not shifted:
        return grid
    cells = {
        at: GridCell(cell.text, cell.trouble or SHIFTED.code) if at[0] in shifted else cell
        for at, cell in grid.cells.items()
    }
    return replace(grid, cells=cells)
