"""Parts of a sheet: blocks that stand side by side, parted by empty columns, each a table of its own."""

from __future__ import annotations

from dataclasses import replace

from speccheck.schedule.grid import Grid
from speccheck.schedule.header import Header, find_headers
from speccheck.schedule.header_words import HeaderReader, folded
from speccheck.schedule.mapping import ScheduleMapping


def parts_of_sheet(grid: Grid, reader: HeaderReader, mapping: ScheduleMapping) -> list[tuple[Grid, list[Header]]]:
    """Return the parts of a sheet from the left, each with its headers: the sheet as it is, or its blocks where they
    repeat one header.

    Only an empty column parts blocks, and only where a title of the block before it comes again behind it.
    """
    headers = find_headers(grid, reader, mapping)
    if mapping.header_rows or not headers:
        return [(grid, headers)]
    filled = {column for _, column in grid.cells}
    starts = [min(filled)]
    for column in sorted(filled):
        if column - 1 not in filled and column > starts[0] and _comes_again(headers[0], starts[-1], column):
            starts.append(column)
    ends = [*(start - 1 for start in starts[1:]), max(filled)]
    if len(starts) == 1:
        return [(grid, headers)]
    blocks = [_columns(grid, start, end) for start, end in zip(starts, ends, strict=True)]
    return [(block, find_headers(block, reader, mapping)) for block in blocks]


def _comes_again(header: Header, start: int, column: int) -> bool:
    """Whether two columns or more from `start` on have titles that come again from `column` on."""
    before = {folded(title) for index, title in header.titles.items() if start <= index < column}
    after = [folded(title) for index, title in header.titles.items() if index >= column]
    return len(before & set(after)) > 1


def _columns(grid: Grid, first: int, last: int) -> Grid:
    """Return some columns of a grid; every cell keeps its place."""
    return replace(
        grid,
        cells={at: cell for at, cell in grid.cells.items() if first <= at[1] <= last},
        blocks=tuple(block for block in grid.blocks if first <= block.left and block.right <= last),
    )
