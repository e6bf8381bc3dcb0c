"""Rows without lines: what becomes of the rows of a table of which no line was made, and what is told of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from speccheck.english import agree, count
from speccheck.language.diagnostics import Diagnostic, Severity
from speccheck.schedule.accounting import Account
from speccheck.schedule.context import may_change
from speccheck.schedule.fill_down import row_list
from speccheck.schedule.grid import Grid
from speccheck.schedule.lines import Line, Remark
from speccheck.schedule.mapping import ScheduleMapping
from speccheck.schedule.messages.tables import (
    HEADER_OF_NO_TERMS,
    ROW_OF_WORDS,
    ROW_READ_AS_OTHER,
    ROWS_HIDDEN,
    ROWS_STRUCK,
)
from speccheck.schedule.rows import Row, RowKind


def remarks_of_rows(grid: Grid, rows: Sequence[Row]) -> Iterator[Remark]:
    """Yield the texts of the rows that are no lines."""
    for row in rows:
        if row.kind is not RowKind.LINE:
            yield from remarks_of(grid, row.number)


def remarks_of(grid: Grid, row: int) -> Iterator[Remark]:
    """Yield the text of each cell of a row that belongs to no line."""
    for column in grid.columns_by_row.get(row, ()):
        yield Remark(grid.text(row, column).strip(), grid.place(row, column))


def account_rows(
    grid: Grid, rows: Sequence[Row], account: Account, lines: Sequence[Line], mapping: ScheduleMapping
) -> None:
    """Settle the rows that are no lines: some belong to no line by a rule, the others are for a person to read."""
    before: str = ""
    by_row = {"".join(filter(str.isdecimal, line.place.cell)): line.name for line in lines}
    for row in rows:
        if row.kind is RowKind.LINE:
            before = by_row.get(str(row.number + 1), "")
        elif row.kind is RowKind.TOTAL or (row.kind is RowKind.FURNITURE and len(grid.columns_by_row[row.number]) < 3):
            account.settle_row(grid, row.number)
        elif row.kind in (RowKind.NOTE, RowKind.MAPPED_NOTE, RowKind.WORDS, RowKind.FURNITURE):
            plain = row.kind is RowKind.NOTE and _is_title(grid, row.number)
            if plain:
                account.settle_row(grid, row.number)
            else:
                above = (before,) if row.kind is RowKind.WORDS and before else ()
                account.remark_row(grid, row.number, mapping, above)
        elif row.kind in (RowKind.OTHER_HEADER, RowKind.BEYOND):
            account.other_row(grid, row.number, mapping)


def _is_title(grid: Grid, row: int) -> bool:
    """Whether a row is the title of what comes next, or of nothing: a text alone, of few words that change nothing."""
    columns = grid.columns_by_row[row]
    text = grid.text(row, columns[0])
    return len(columns) == 1 and len(text.split()) <= 1 and not may_change(text)


def left_rows(grid: Grid, rows: Sequence[Row], read: frozenset[int]) -> Iterator[Diagnostic]:
    """Yield a warning for each row that might have been meant as a line and was read as something else."""
    yield from _rows_not_shown(grid, rows)
    yield from _other_tables(grid, rows)
    for row in rows:
        columns = grid.columns_by_row[row.number]
        if row.kind is RowKind.WORDS:
            text = " ".join(grid.text(row.number, columns[0]).split())
            yield ROW_OF_WORDS.at(grid.place(row.number, columns[0]), number=row.number + 1, text=text)
        if (
            row.kind in (RowKind.NOTE, RowKind.TOTAL, RowKind.FURNITURE)
            and sum(column in read for column in columns) > 1
        ):
            text = " ".join(grid.text(row.number, columns[0]).split())
            weight = Severity.NOTE if row.kind is RowKind.TOTAL else Severity.WARNING
            yield ROW_READ_AS_OTHER.weighing(weight).at(
                grid.place(row.number, columns[0]), number=row.number + 1, text=text, kind=row.kind
            )


def _other_tables(grid: Grid, rows: Sequence[Row]) -> Iterator[Diagnostic]:
    """Yield a warning for the header of another table that was not understood, with what was not read under it."""
    for row in (row for row in rows if row.kind is RowKind.OTHER_HEADER):
        beyond = sum(other.kind is RowKind.BEYOND for other in rows)
        text = " | ".join(" ".join(grid.text(row.number, column).split()) for column in grid.columns_by_row[row.number])
        under = f"{count(beyond, 'row')} under it {agree(beyond, 'was', 'were')}"
        place = grid.place(row.number, grid.columns_by_row[row.number][0])
        yield HEADER_OF_NO_TERMS.at(place, number=row.number + 1, text=text, rows=under)


def _rows_not_shown(grid: Grid, rows: Sequence[Row]) -> Iterator[Diagnostic]:
    """Yield a warning on the hidden rows of a table, and one on those that are struck through."""
    for kind, said in ((RowKind.HIDDEN, ROWS_HIDDEN), (RowKind.STRUCK, ROWS_STRUCK)):
        found = [row.number for row in rows if row.kind is kind]
        if found:
            place = grid.place(found[0], grid.columns_by_row[found[0]][0])
            are, them = agree(len(found), "is", "are"), agree(len(found), "it", "them")
            yield said.at(place, rows=row_list(found), are=are, them=them)
