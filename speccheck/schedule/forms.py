"""Forms: sheets on which the name of a term stands left of its value, one system below or beside another.

A form is turned into a table, whose cells keep the places that they have on the sheet.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from speccheck.schedule.grid import Grid, GridCell
from speccheck.schedule.header_words import HeaderReader

SERVICE = "service"
FEWEST_KEYS = 3
FEWEST_ROWS_OF_PAIRS = 2


@dataclass
class _System:
    """One system of a form: its values by key, each with its cell."""

    values: dict[str, tuple[int, int]] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class _Entry:
    """The name of a term in a cell, and the cells of its values right of it."""

    key: str
    row: int
    column: int
    values: tuple[int, ...]


def holds_pairs(grid: Grid, reader: HeaderReader) -> bool:
    """Whether a sheet is a form with several names in a row, each left of its value: `Service | CHW | Size | 2"`.

    Most of its rows are such pairs, two rows at least have more than one, and no name comes twice in a row.
    """
    rows = {row: _entries_of(grid, row, reader) for row in grid.columns_by_row}
    paired = [entries for entries in rows.values() if len(entries) > 1]
    filled = [row for row, columns in grid.columns_by_row.items() if len(columns) > 1]
    once = all(len({entry.key for entry in entries}) == len(entries) for entries in paired)
    return len(paired) >= FEWEST_ROWS_OF_PAIRS and once and sum(map(bool, rows.values())) * 2 > len(filled)


def form_as_table(grid: Grid, reader: HeaderReader) -> tuple[Grid, int] | None:
    """Return the table that a form comes to, with the row in which the form begins; None where a sheet is no form.

    A row belongs to the form where its first cell names a term and another follows. A system ends where a row is blank
    or a name comes again; where several cells follow the name, each column is a system. Several names in a row, each
    left of its value, belong to one system.
    """
    pairs = holds_pairs(grid, reader)
    entries = _entries(grid, reader)
    if len({entry.key for entry in entries}) < FEWEST_KEYS or not _in_columns(entries):
        return None
    systems: list[_System] = []
    open_systems: dict[int, _System] = {}
    previous = -2
    for entry in entries:
        again = any(entry.key in system.values for system in open_systems.values())
        if entry.row > previous + 1 or again:
            open_systems = {}
        for number, column in enumerate(entry.values):
            place = number if pairs else column
            if place not in open_systems:
                open_systems[place] = _System()
                systems.append(open_systems[place])
            open_systems[place].values[entry.key] = (entry.row, column)
        previous = entry.row
    return _table(grid, entries, systems), min(entry.row for entry in entries)


def with_labels_apart(grid: Grid, reader: HeaderReader) -> Grid | None:
    """Return a grid in which the names and values of lines such as "Thickness: 1 in" stand in cells of their own.

    A heading that names a service, above such lines, is the value of that name. None where lines of that kind are few.
    """
    cells: dict[tuple[int, int], GridCell] = {}
    pointers: dict[tuple[int, int], str] = {}
    keys: set[str] = set()
    for row, (column, *others) in grid.columns_by_row.items():
        text = " ".join(grid.text(row, column).split())
        label, colon, value = (part.strip() for part in text.partition(":"))
        match = reader.match(label) if colon and value and not others else None
        pair = (label, value) if match is not None and match.term is not None and not match.rest else None
        if pair is None and not others and SERVICE in reader.headings.facts(text):
            pair = (SERVICE, text)
        if pair is not None and not grid.cells[row, column].trouble:
            keys.add(pair[0])
            for at, part in zip(((row, 0), (row, 1)), pair, strict=True):
                cells[at], pointers[at] = GridCell(part), grid.place(row, column).cell
    if len(keys) < FEWEST_KEYS or len(cells) < len(grid.columns_by_row):
        return None
    return Grid(grid.file, grid.sheet, cells, pointers=pointers)


def _in_columns(entries: Sequence[_Entry]) -> bool:
    """Whether the first names of all rows stand in one column."""
    firsts = {entry.row: entry.column for entry in reversed(entries)}
    return len(set(firsts.values())) == 1


def _entries(grid: Grid, reader: HeaderReader) -> list[_Entry]:
    """Return the entries of a form, row by row: several in a row only where the sheet holds pairs."""
    if holds_pairs(grid, reader):
        return [entry for row in grid.columns_by_row for entry in _entries_of(grid, row, reader)]
    found = ((row, _key(grid, row, columns[0], reader)) for row, columns in grid.columns_by_row.items())
    return [
        _Entry(key, row, grid.columns_by_row[row][0], grid.columns_by_row[row][1:])
        for row, key in found
        if key and len(grid.columns_by_row[row]) > 1
    ]


def _entries_of(grid: Grid, row: int, reader: HeaderReader) -> list[_Entry]:
    """Return the entries of a row whose cells are by turns the name of a term and one value; none of any other row."""
    columns = grid.columns_by_row[row]
    if len(columns) % 2 or not _key(grid, row, columns[0], reader):
        return []
    keys = [_key(grid, row, column, reader) for column in columns[::2]]
    if not all(keys) or any(_key(grid, row, column, reader) for column in columns[1::2]):
        return []
    return [
        _Entry(key, row, column, (value,)) for key, column, value in zip(keys, columns[::2], columns[1::2], strict=True)
    ]


def _key(grid: Grid, row: int, column: int, reader: HeaderReader) -> str:
    """Return the name that stands in a cell and names a term, "" where none does."""
    text = " ".join(grid.text(row, column).split()).rstrip(":").strip()
    match = reader.match(text)
    return text if match is not None and not match.rest and not match.misfit else ""


def _table(grid: Grid, entries: Sequence[_Entry], systems: Sequence[_System]) -> Grid:
    """Return a grid with the keys as its header and a row for each system."""
    columns = {key: index for index, key in enumerate(dict.fromkeys(entry.key for entry in entries))}
    cells: dict[tuple[int, int], GridCell] = {}
    pointers: dict[tuple[int, int], str] = {}
    for entry in entries:
        at = (0, columns[entry.key])
        if at not in cells:
            cells[at] = GridCell(entry.key)
            pointers[at] = grid.place(entry.row, entry.column).cell
    for index, system in enumerate(systems, start=1):
        for key, origin in system.values.items():
            cells[index, columns[key]] = grid.cells[origin]
            pointers[index, columns[key]] = grid.place(*origin).cell
    return Grid(grid.file, grid.sheet, cells, pointers=pointers)


def key_cells(grid: Grid, reader: HeaderReader) -> set[tuple[int, int]]:
    """Return the cells of a form that hold the name of a term."""
    return {(entry.row, entry.column) for entry in _entries(grid, reader)}
