"""Parts of a sheet: blocks that stand side by side, parted by empty columns, each a table of its own."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from speccheck.schedule.grid import Grid
from speccheck.schedule.header import Header, find_headers
from speccheck.schedule.header_words import HeaderReader, folded
from speccheck.schedule.mapping import ScheduleMapping

FEWEST_TITLES = 2


def parts_of_sheet(grid: Grid, reader: HeaderReader, mapping: ScheduleMapping) -> list[tuple[Grid, list[Header]]]:
    """Return the parts of a sheet from the left, each with its headers: the sheet as it is, or its blocks where they
    repeat one header.

    A column that is empty from the header down parts blocks where a title of the block before it comes again behind
    it; without such a column the titles have to repeat as a whole. A title above the header that begins over the gap
    belongs to the block behind it.
    """
    headers = find_headers(grid, reader, mapping)
    if mapping.header_rows or not headers:
        return [(grid, headers)]
    titles = {column: folded(grid.text(*at)) for column, at in sorted(headers[0].places.items())}
    filled = sorted({column for row, column in grid.cells if row >= headers[0].first})
    starts = _starts(titles, filled)
    if len(starts) == 1:
        return [(grid, headers)]
    firsts = [min(column for _, column in grid.cells)]
    firsts += [1 + max(column for column in filled if column < start) for start in starts[1:]]
    ends = [*(first - 1 for first in firsts[1:]), max(column for _, column in grid.cells)]
    blocks = [_columns(grid, first, end) for first, end in zip(firsts, ends, strict=True)]
    return [(block, find_headers(block, reader, mapping)) for block in blocks]


def _starts(titles: Mapping[int, str], filled: Sequence[int]) -> list[int]:
    """Return the first column of each block, from the left."""
    starts = [filled[0]]
    for column in filled:
        if column - 1 not in filled and column > starts[0] and _comes_again(titles, starts[-1], column):
            starts.append(column)
    columns, words = list(titles), list(titles.values())
    for length in range(FEWEST_TITLES, len(words) // 2 + 1) if len(starts) == 1 else ():
        again = len(words) % length == 0 and words == words[:length] * (len(words) // length)
        if again and len(set(words[:length])) == length:
            return columns[::length]
    return starts


def _comes_again(titles: Mapping[int, str], start: int, column: int) -> bool:
    """Whether two columns or more from `start` on have titles that come again from `column` on."""
    before = {title for index, title in titles.items() if start <= index < column}
    after = {title for index, title in titles.items() if index >= column}
    return len(before & after) >= FEWEST_TITLES


def _columns(grid: Grid, first: int, last: int) -> Grid:
    """Return some columns of a grid; every cell keeps its place."""
    return replace(
        grid,
        beside=True,
        cells={at: cell for at, cell in grid.cells.items() if first <= at[1] <= last},
        blocks=tuple(block for block in grid.blocks if first <= block.left and block.right <= last),
    )
