"""Tables: one header and the rows under it, read into lines."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.language.vocabulary.values import NotGiven
from speccheck.schedule import codes
from speccheck.schedule.columns import ColumnUse, column_diagnostics, understand_columns
from speccheck.schedule.data import read_data
from speccheck.schedule.filling import Fillings, fill, row_list
from speccheck.schedule.grid import Grid
from speccheck.schedule.header import Header
from speccheck.schedule.header_words import HeaderReader
from speccheck.schedule.lines import Column, Datum, Line, Remark
from speccheck.schedule.mapping import ScheduleMapping
from speccheck.schedule.rows import Row, RowKind, classify_rows
from speccheck.schedule.sections import section_choice, section_note


@dataclass
class Understood:
    """What was understood of a sheet so far: lines, columns, texts that belong to no line, diagnostics."""

    lines: list[Line] = field(default_factory=list)
    columns: list[Column] = field(default_factory=list)
    remarks: list[Remark] = field(default_factory=list)
    diagnostics: list[Diagnostic] = field(default_factory=list)


def read_table(
    grid: Grid, header: Header, last: int, reader: HeaderReader, mapping: ScheduleMapping, units: str
) -> Understood:
    """Return what one table says: its header, and the rows under it up to `last`."""
    found = Understood()
    first = header.last + 1
    headed = understand_columns(grid, header, frozenset(), reader, mapping, units)
    rows = classify_rows(grid, first, last, headed, frozenset() if mapping.read_hidden else grid.hidden_rows)
    lines = [row for row in rows if row.kind is RowKind.LINE]
    filled = Counter(column for row in lines for column in grid.columns_by_row[row.number])
    uses = understand_columns(grid, header, frozenset(filled), reader, mapping, units)
    found.columns += [use.column for use in uses]
    found.diagnostics += column_diagnostics(uses, reader.vocabulary, filled)
    fillings, problems = fill(grid, lines, uses, mapping.repeat_blanks)
    found.diagnostics += problems
    found.remarks += _remarks(grid, rows)
    found.diagnostics += _left_rows(grid, rows, frozenset(use.index for use in uses if use.is_read))
    data: dict[int, dict[str, Datum]] = {}
    for row in lines:
        data[row.number], problems = read_data(grid, row.number, uses, fillings, mapping)
        found.diagnostics += problems
    found.diagnostics += _take_from_headings(grid, rows, data, reader)
    found.lines += [
        Line(_name(grid, row.number, uses, fillings), data[row.number], _line_place(grid, row.number)) for row in lines
    ]
    return found


def _remarks(grid: Grid, rows: Sequence[Row]) -> Iterator[Remark]:
    """Yield the texts of the rows that are no lines."""
    for row in rows:
        if row.kind is not RowKind.LINE:
            yield from remarks_of(grid, row.number)


def _left_rows(grid: Grid, rows: Sequence[Row], read: frozenset[int]) -> Iterator[Diagnostic]:
    """Yield a warning for each row that might have been meant as a line and was read as something else."""
    yield from _rows_not_shown(grid, rows)
    for row in rows:
        columns = grid.columns_by_row[row.number]
        if row.kind is RowKind.WORDS:
            text = " ".join(grid.text(row.number, columns[0]).split())
            message = f"row {row.number + 1} holds words alone, `{text}`, and no line was made of it"
            help = "write the words on the line that they belong to"
            yield Diagnostic(codes.ROW_LEFT, Severity.NOTE, message, grid.place(row.number, columns[0]), help)
        if row.kind in (RowKind.NOTE, RowKind.TOTAL) and sum(column in read for column in columns) > 1:
            text = " ".join(grid.text(row.number, columns[0]).split())
            message = (
                f"row {row.number + 1}, which begins `{text}`, was read as a {row.kind}, and no line was made of it"
            )
            help = "move it above the notes, or fill more of its columns, if it is a line of the schedule"
            weight = Severity.WARNING if row.kind is RowKind.NOTE else Severity.NOTE
            yield Diagnostic(codes.ROW_LEFT, weight, message, grid.place(row.number, columns[0]), help)


def _rows_not_shown(grid: Grid, rows: Sequence[Row]) -> Iterator[Diagnostic]:
    """Yield a warning on the hidden rows of a table, and one on those that are struck through."""
    for kind, code, what, help in (
        (RowKind.HIDDEN, codes.HIDDEN_CELLS, "hidden", "show such rows, or delete them if they are not submitted"),
        (RowKind.STRUCK, codes.STRUCK_ROW, "struck through", "delete such rows if they were taken back"),
    ):
        found = [row.number for row in rows if row.kind is kind]
        if found:
            verb = "is" if len(found) == 1 else "are"
            message = f"{row_list(found)} {verb} {what}, and no line was made of {'it' if len(found) == 1 else 'them'}"
            place = grid.place(found[0], grid.columns_by_row[found[0]][0])
            yield Diagnostic(code, Severity.WARNING, message, place, help)


def remarks_of(grid: Grid, row: int) -> Iterator[Remark]:
    """Yield the text of each cell of a row that belongs to no line."""
    for column in grid.columns_by_row.get(row, ()):
        yield Remark(grid.text(row, column).strip(), grid.place(row, column))


def _take_from_headings(
    grid: Grid, rows: Sequence[Row], data: Mapping[int, dict[str, Datum]], reader: HeaderReader
) -> Iterator[Diagnostic]:
    """Give the lines under each section heading what it says and none of them states; yield a note on each heading."""
    for heading in (row for row in rows if row.kind is RowKind.SECTION):
        under = [row.number for row in rows if row.kind is RowKind.LINE and row.section == heading.number]
        column = grid.columns_by_row[heading.number][0]
        text, place = grid.text(heading.number, column).strip(), grid.place(heading.number, column)
        stated = {name for row in under for name, datum in data[row].items() if _says_something(datum)}
        choice = section_choice(text, reader.vocabulary, stated) if under else None
        if choice is not None:
            for row in under:
                data[row][choice[0]] = Datum(choice[1], text, place, "from the section heading")
        yield section_note(text, choice, place, len(under))


def _says_something(datum: Datum) -> bool:
    """Whether a datum has any words, be they a value or in the place of one."""
    return not isinstance(datum.value, NotGiven) or bool(datum.value.text)


def _name(grid: Grid, row: int, uses: Sequence[ColumnUse], fillings: Fillings) -> str:
    """Return the name that the schedule gives a line, or "" where it gives none."""
    for use in uses:
        if use.names_lines and (row, use.index) in fillings:
            return " ".join(grid.text(*fillings[row, use.index].origin).split())
    return ""


def _line_place(grid: Grid, row: int) -> Place:
    """Return the place of a line: its first filled cell."""
    return grid.place(row, grid.columns_by_row[row][0])
