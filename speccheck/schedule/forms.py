"""Forms: sheets on which the name of a term stands left of its value, one system below or beside another.

A form is turned into a table, whose cells keep the places that they have on the sheet.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from speccheck.schedule.grid import Cell, Grid
from speccheck.schedule.header_words import HeaderReader

FEWEST_KEYS = 3


@dataclass
class _System:
    """One system of a form: its values by key, each with its cell."""

    values: dict[str, tuple[int, int]] = field(default_factory=dict)


def form_as_table(grid: Grid, reader: HeaderReader) -> tuple[Grid, int] | None:
    """Return the table that a form comes to, with the row in which the form begins; None where a sheet is no form.

    A row belongs to the form where its first cell names a term and another follows. A system ends where a row is blank
    or a name comes again; where several cells follow the name, each column is a system.
    """
    keys = {row: key for row in grid.columns_by_row if (key := _key(grid, row, reader))}
    if len(set(keys.values())) < FEWEST_KEYS or len({grid.columns_by_row[row][0] for row in keys}) > 1:
        return None
    systems: list[_System] = []
    open_systems: dict[int, _System] = {}
    previous = -2
    for row, key in keys.items():
        begins = row != previous + 1 or any(key in system.values for system in open_systems.values())
        open_systems = {} if begins else open_systems
        for column in grid.columns_by_row[row][1:]:
            if column not in open_systems:
                open_systems[column] = _System()
                systems.append(open_systems[column])
            open_systems[column].values[key] = (row, column)
        previous = row
    return _table(grid, keys, systems), min(keys)


def _key(grid: Grid, row: int, reader: HeaderReader) -> str:
    """Return the name that stands in the first cell of a row and names a term, "" where none does."""
    columns = grid.columns_by_row[row]
    text = " ".join(grid.text(row, columns[0]).split()).rstrip(":").strip()
    match = reader.match(text) if len(columns) > 1 else None
    return text if match is not None and not match.rest and not match.misfit else ""


def _table(grid: Grid, keys: dict[int, str], systems: Sequence[_System]) -> Grid:
    """Return a grid with the keys as its header and a row for each system."""
    columns = {key: index for index, key in enumerate(dict.fromkeys(keys.values()))}
    cells: dict[tuple[int, int], Cell] = {}
    pointers: dict[tuple[int, int], str] = {}
    for row, key in keys.items():
        at = (0, columns[key])
        if at not in cells:
            cells[at] = Cell(key)
            pointers[at] = grid.place(row, grid.columns_by_row[row][0]).cell
    for index, system in enumerate(systems, start=1):
        for key, origin in system.values.items():
            cells[index, columns[key]] = grid.cells[origin]
            pointers[index, columns[key]] = grid.place(*origin).cell
    return Grid(grid.file, grid.sheet, cells, pointers=pointers)


def key_cells(grid: Grid, reader: HeaderReader) -> set[tuple[int, int]]:
    """Return the cells of a form that hold the name of a term."""
    return {(row, grid.columns_by_row[row][0]) for row in grid.columns_by_row if _key(grid, row, reader)}
