"""What was read: what each table and each column of a schedule became, with counts, and the questions left open."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path

from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.language.vocabulary.values import NotGiven
from speccheck.schedule.accounting import UNDERSTOOD
from speccheck.schedule.grid import Grid, column_letters, column_number
from speccheck.schedule.kept_readings import read_once_with_grids
from speccheck.schedule.lines import Column, Datum, Line, Schedule
from speccheck.schedule.mapping import ScheduleMapping, settled
from speccheck.schedule.sentences import NOTE as SENTENCES

_CELL = re.compile(r"([A-Z]+)([0-9]+)")


@dataclass(frozen=True, slots=True)
class ColumnRead:
    """What one column became, how many of its cells on lines are filled, and how many of these were not read.

    `texts` are those of the filled cells, from the top down, each with its place and the lines that it stands on.
    """

    column: Column
    filled: int
    unread: int
    texts: tuple[tuple[str, Place], ...] = ()

    @property
    def letters(self) -> str:
        """The letters of the column, "" where the file has no columns."""
        found = _CELL.fullmatch(self.column.place.cell)
        return found[1] if found else ""


@dataclass(frozen=True, slots=True)
class TableRead:
    """What one table became: where its header stands, its columns, and its lines."""

    sheet: str
    header: str
    columns: tuple[ColumnRead, ...]
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class WhatWasRead:
    """A schedule with what each of its tables became, and the sheets as they came."""

    schedule: Schedule
    tables: tuple[TableRead, ...]
    grids: tuple[Grid, ...]
    vocabulary: Vocabulary


def what_was_read(
    path: Path,
    vocabulary: Vocabulary,
    mapping: ScheduleMapping | None = None,
    *,
    units: str = "",
    usual_units: str = "",
    sheet: str = "",
) -> WhatWasRead:
    """Return what a schedule file was read as; the arguments are those of `read_schedule`."""
    mapping = settled(mapping, units, usual_units, sheet)
    return _of(*read_once_with_grids(path, vocabulary, mapping), vocabulary)


def _of(schedule: Schedule, grids: Sequence[Grid], vocabulary: Vocabulary) -> WhatWasRead:
    return WhatWasRead(schedule, tuple(_tables(schedule, grids)), tuple(grids), vocabulary)


def is_open(datum: Datum) -> bool:
    """Whether words stand where a value should, and were not understood as saying nothing."""
    return isinstance(datum.value, NotGiven) and bool(datum.text) and datum.value.why not in UNDERSTOOD


def _tables(schedule: Schedule, grids: Sequence[Grid]) -> Iterator[TableRead]:
    """Yield the tables, each with the lines below its header and above the next one."""
    groups = list(_by_table(schedule.columns))
    by_sheet = {grid.sheet: grid for grid in grids}
    starts: dict[str, list[int]] = defaultdict(list)
    for columns in groups:
        starts[columns[0].place.sheet].append(_row(columns[0].place))
    for columns in groups:
        sheet, first = columns[0].place.sheet, _row(columns[0].place)
        end = min((start for start in starts[sheet] if start > first), default=0)
        lines = [
            line
            for line in schedule.lines
            if line.place.sheet == sheet and first <= _row(line.place) and (not end or _row(line.place) < end)
        ]
        grid = by_sheet.get(sheet)
        read = tuple(_column_read(column, lines, grid) for column in columns)
        yield TableRead(sheet, f"row {first}" if first else "", read, tuple(lines))


def _by_table(columns: Sequence[Column]) -> Iterator[list[Column]]:
    """Yield the columns of each table: they go from left to right, on one sheet."""
    table: list[Column] = []
    for column in columns:
        if table and (column.place.sheet != table[0].place.sheet or _number(column) < _number(table[-1])):
            yield table
            table = []
        table.append(column)
    if table:
        yield table


def _column_read(column: Column, lines: Sequence[Line], grid: Grid | None) -> ColumnRead:
    """Return what became of the cells of one column on the lines of its table."""
    number = _number(column)
    rows = sorted({_row(line.place) for line in lines})
    texts = [
        (grid.text(row - 1, number), grid.place(row - 1, number))
        for row in rows
        if grid is not None and (row - 1, number) in grid.cells and _CELL.fullmatch(column.place.cell)
    ]
    stated = [line.data[column.term] for line in lines if column.term in line.data]
    own = [datum for datum in stated if datum.text and _letters(datum.place) in (_letters(column.place), "")]
    cells = {datum.place: datum for datum in own}
    open_cells = sum(map(is_open, cells.values()))
    filled = len(texts) or len(cells)
    if column.note == SENTENCES:
        unread = {datum.place for line in lines for datum in line.data.values() if is_open(datum)}
        open_cells = sum(place in unread for _, place in texts)
    return ColumnRead(column, filled, open_cells if column.term or column.note == SENTENCES else filled, tuple(texts))


def _letters(place: Place) -> str:
    found = _CELL.fullmatch(place.cell)
    return found[1] if found else ""


def _number(column: Column) -> int:
    """Return the column, from 0; its order within the header where the file has no columns."""
    letters = _letters(column.place)
    return column_number(letters) if letters else 1_000_000


def _row(place: Place) -> int:
    found = _CELL.fullmatch(place.cell)
    return int(found[2]) if found else 0


def header_key(read: ColumnRead, table: TableRead) -> str:
    """Return the key under which a mapping file names a column: its header, or its letters where that is not enough."""
    title = read.column.header
    alike = sum(other.column.header == title for other in table.columns)
    if title.strip() and alike == 1:
        return title
    return read.letters or column_letters(_number(read.column))
