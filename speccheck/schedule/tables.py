"""Tables: one header and the rows under it, read into lines."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.language.vocabulary.values import BareUnits, NotGiven, read_value
from speccheck.quantities import Misread
from speccheck.schedule import codes
from speccheck.schedule.accounting import Account
from speccheck.schedule.columns import ColumnUse, column_diagnostics, understand_columns
from speccheck.schedule.constants import headings_above, with_constants
from speccheck.schedule.context import Facts, may_change, of_headers, with_facts
from speccheck.schedule.data import read_band, read_data
from speccheck.schedule.filling import Fillings, fill, row_list
from speccheck.schedule.grid import Grid
from speccheck.schedule.header import Header
from speccheck.schedule.header_words import HeaderReader
from speccheck.schedule.legends import with_legend_columns
from speccheck.schedule.lines import Column, Datum, Line, Remark
from speccheck.schedule.mapping import ScheduleMapping
from speccheck.schedule.rows import Row, RowKind, classify_rows
from speccheck.schedule.sections import section_note
from speccheck.schedule.sentences import in_sentences, with_sentences
from speccheck.schedule.siblings import without_strangers


@dataclass
class Understood:
    """What was understood of a sheet so far: lines, columns, texts that belong to no line, diagnostics, the account."""

    lines: list[Line] = field(default_factory=list)
    columns: list[Column] = field(default_factory=list)
    remarks: list[Remark] = field(default_factory=list)
    diagnostics: list[Diagnostic] = field(default_factory=list)
    account: Account = field(default_factory=Account)


def read_table(
    grid: Grid,
    header: Header,
    last: int,
    reader: HeaderReader,
    mapping: ScheduleMapping,
    units: str,
    facts: Facts | None = None,
) -> Understood:
    """Return what one table says: its header, and the rows under it up to `last`; `facts` hold for all its lines."""
    found = Understood()
    hidden = frozenset() if mapping.read_hidden else grid.hidden_rows
    headed = understand_columns(grid, header, frozenset(), reader, mapping, units)
    qualified, first = _qualified_bands(grid, header, headed, reader, mapping, last)
    rows = classify_rows(grid, first, last, headed, mapping, reader.headings.names, reader.names_term, hidden)
    lines = [row for row in rows if row.kind is RowKind.LINE]
    filled = Counter(column for row in lines for column in grid.columns_by_row[row.number])
    uses = understand_columns(grid, header, frozenset(filled), reader, mapping, units)
    uses = without_strangers(grid, [row.number for row in lines], uses, reader.vocabulary, mapping)
    uses = with_legend_columns(grid, [row.number for row in lines], uses, reader.vocabulary, mapping)
    uses = with_sentences(grid, [row.number for row in lines], uses, reader.vocabulary, mapping)
    found.columns += [use.column for use in uses]
    found.diagnostics += column_diagnostics(uses, reader.vocabulary, filled)
    fillings, problems = fill(grid, lines, uses, mapping.repeat_blanks)
    found.diagnostics += problems
    found.remarks += _remarks(grid, rows)
    found.diagnostics += _left_rows(grid, rows, frozenset(use.index for use in uses if use.is_read))
    data: dict[int, dict[str, Datum]] = {}
    for row in lines:
        data[row.number], problems = read_data(grid, row.number, uses, fillings, mapping, reader.vocabulary)
        found.diagnostics += problems
    found.diagnostics += _take_from_headings(grid, rows, data, uses, reader, found.account)
    above = headings_above(grid, header.first)
    facts = {**(facts or {}), **of_headers([use.column for use in uses], reader.headings, reader.vocabulary)}
    for row in lines:
        data[row.number] |= dict(with_facts(data[row.number], facts))
        over = (*above, *(text for section in row.sections for text in grid.texts_of(section)))
        made = [
            with_constants(line, over, mapping, reader.vocabulary)
            for whole in _lines_of(grid, row, uses, fillings, data[row.number], mapping, qualified, found)
            for line in in_sentences(whole, grid, row.number, uses, reader.vocabulary, mapping, found.diagnostics)
        ]
        found.lines += made
        found.account.line(grid, row.number, uses, made, mapping)
    found.account.header(grid, header, first, uses, filled)
    _account_rows(grid, rows, found, mapping)
    return found


def _qualified_bands(
    grid: Grid,
    header: Header,
    uses: Sequence[ColumnUse],
    reader: HeaderReader,
    mapping: ScheduleMapping,
    last: int,
) -> tuple[Mapping[int, Facts], int]:
    """Return what rows right below a header with bands say of each band, and the first row that is no such row.

    Such a row begins with the name of a term, and gives a value of it under each band: "Temp. (F) | 40-60 | 141-200".
    """
    facts: dict[int, Facts] = {index: {} for index in header.bands}
    row = header.last + 1
    while header.bands and row <= last and (columns := grid.columns_by_row.get(row, ())):
        first, *others = columns
        match = reader.match(grid.text(row, first))
        if match is None or match.term is None or first in header.bands or not others or match.term.proposed:
            break
        bare = BareUnits(match.unit, mapping.units)
        values = {column: read_value(grid.text(row, column).strip(), match.term, bare) for column in others}
        if any(column not in header.bands or isinstance(value, Misread) for column, value in values.items()):
            break
        for column, value in values.items():
            place = grid.place(row, column)
            note = f"from the header in {place.cell}"
            if not isinstance(value, Misread):
                facts[column][match.term.name] = Datum(
                    value, grid.text(row, column).strip(), place, note, inferred=True
                )
        row += 1
    return facts, row


def _lines_of(
    grid: Grid,
    row: Row,
    uses: Sequence[ColumnUse],
    fillings: Fillings,
    data: dict[str, Datum],
    mapping: ScheduleMapping,
    qualified: Mapping[int, Facts],
    found: Understood,
) -> Iterator[Line]:
    """Yield the lines of a row: one, or one for each band."""
    name, place = _name(grid, row.number, uses, fillings), _line_place(grid, row.number)
    bands = [(use, use.band) for use in uses if use.band is not None]
    if not bands:
        yield Line(name, data, place)
    for use, band in bands:
        own, problems = read_band(grid, row.number, use, band, fillings, mapping)
        found.diagnostics += problems
        qualities = dict(with_facts(data, qualified.get(use.index, {})))
        called = f"{name or _row_words(place)}, {' '.join(band.text.split())}"
        yield Line(called, {**data, **qualities, **own}, grid.place(row.number, use.index))


def _row_words(place: Place) -> str:
    """Return "row 12" for the place of a line."""
    return "row " + "".join(character for character in place.cell if character.isdecimal())


def _account_rows(grid: Grid, rows: Sequence[Row], found: Understood, mapping: ScheduleMapping) -> None:
    """Settle the rows that are no lines: some belong to no line by a rule, the others are for a person to read."""
    before: str = ""
    names = {line.place.cell: line.name for line in found.lines}
    by_row = {"".join(filter(str.isdecimal, cell)): name for cell, name in names.items()}
    for row in rows:
        if row.kind is RowKind.LINE:
            before = by_row.get(_row_words(_line_place(grid, row.number)).removeprefix("row "), "")
        elif row.kind is RowKind.TOTAL or (row.kind is RowKind.FURNITURE and len(grid.columns_by_row[row.number]) < 3):
            found.account.settle_row(grid, row.number)
        elif row.kind in (RowKind.NOTE, RowKind.MAPPED_NOTE, RowKind.WORDS, RowKind.FURNITURE):
            plain = row.kind is RowKind.NOTE and _is_title(grid, row.number)
            if plain:
                found.account.settle_row(grid, row.number)
            else:
                lines = (before,) if row.kind is RowKind.WORDS and before else ()
                found.account.remark_row(grid, row.number, mapping, lines)
        elif row.kind in (RowKind.OTHER_HEADER, RowKind.BEYOND):
            found.account.other_row(grid, row.number, mapping)


def _is_title(grid: Grid, row: int) -> bool:
    """Whether a row is the title of what comes next, or of nothing: a text alone, of few words that change nothing."""
    columns = grid.columns_by_row[row]
    text = grid.text(row, columns[0])
    return len(columns) == 1 and len(text.split()) <= 1 and not may_change(text)


def _remarks(grid: Grid, rows: Sequence[Row]) -> Iterator[Remark]:
    """Yield the texts of the rows that are no lines."""
    for row in rows:
        if row.kind is not RowKind.LINE:
            yield from remarks_of(grid, row.number)


def _left_rows(grid: Grid, rows: Sequence[Row], read: frozenset[int]) -> Iterator[Diagnostic]:
    """Yield a warning for each row that might have been meant as a line and was read as something else."""
    yield from _rows_not_shown(grid, rows)
    yield from _other_tables(grid, rows)
    for row in rows:
        columns = grid.columns_by_row[row.number]
        if row.kind is RowKind.WORDS:
            text = " ".join(grid.text(row.number, columns[0]).split())
            message = f"row {row.number + 1} holds words alone, `{text}`, and no line was made of it"
            help = "write the words on the line that they belong to"
            yield Diagnostic(codes.ROW_LEFT, Severity.NOTE, message, grid.place(row.number, columns[0]), help)
        if (
            row.kind in (RowKind.NOTE, RowKind.TOTAL, RowKind.FURNITURE)
            and sum(column in read for column in columns) > 1
        ):
            text = " ".join(grid.text(row.number, columns[0]).split())
            message = (
                f"row {row.number + 1}, which begins `{text}`, was read as a {row.kind}, and no line was made of it"
            )
            help = "move it above the notes, or fill more of its columns, if it is a line of the schedule"
            weight = Severity.NOTE if row.kind is RowKind.TOTAL else Severity.WARNING
            yield Diagnostic(codes.ROW_LEFT, weight, message, grid.place(row.number, columns[0]), help)


def _other_tables(grid: Grid, rows: Sequence[Row]) -> Iterator[Diagnostic]:
    """Yield a warning for the header of another table that was not understood, with what was not read under it."""
    for row in (row for row in rows if row.kind is RowKind.OTHER_HEADER):
        beyond = sum(other.kind is RowKind.BEYOND for other in rows)
        text = " | ".join(" ".join(grid.text(row.number, column).split()) for column in grid.columns_by_row[row.number])
        under = f"the {beyond} row{'' if beyond == 1 else 's'} under it {'was' if beyond == 1 else 'were'} not read"
        message = f"row {row.number + 1}, `{text}`, reads as a header whose words name no terms, and {under}"
        help = "name the columns as the table above does, or say in a mapping file which row is the header"
        place = grid.place(row.number, grid.columns_by_row[row.number][0])
        yield Diagnostic(codes.OTHER_TABLE, Severity.WARNING, message, place, help)


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
    grid: Grid,
    rows: Sequence[Row],
    data: Mapping[int, dict[str, Datum]],
    uses: Sequence[ColumnUse],
    reader: HeaderReader,
    account: Account,
) -> Iterator[Diagnostic]:
    """Give the lines under each section heading what it says and none of them states; yield a note on each heading.

    Besides its words, a heading says what stands beside them in the columns of the table. The innermost comes first.
    """
    for heading in reversed([row for row in rows if row.kind is RowKind.SECTION]):
        under = [row.number for row in rows if row.kind is RowKind.LINE and heading.number in row.sections]
        column, *others = grid.columns_by_row[heading.number]
        text, place = grid.text(heading.number, column).strip(), grid.place(heading.number, column)
        stated = {name for row in under for name, datum in data[row].items() if _states(datum)}
        said = reader.headings.facts(text.strip(" *†‡\n"))
        choices = {name: value for name, value in said.items() if name not in stated} if under else {}
        for row in under:
            for name, value in choices.items():
                if name not in data[row] or not _says_something(data[row][name]):
                    data[row][name] = Datum(value, text, place, "from the section heading", inferred=True)
        if said:
            account.settle(grid, heading.number, column)
        else:
            account.heading(grid, heading.number, column)
        _take_cells(grid, heading.number, others, under, data, uses, account)
        yield section_note(text, choices, reader.vocabulary, place, len(under))


def _take_cells(
    grid: Grid,
    heading: int,
    columns: Sequence[int],
    under: Sequence[int],
    data: Mapping[int, dict[str, Datum]],
    uses: Sequence[ColumnUse],
    account: Account,
) -> None:
    """Give the lines under a heading the values beside its words, where they state none themselves."""
    by_index = {use.index: use for use in uses}
    for column in columns:
        use = by_index.get(column)
        text, place = grid.text(heading, column).strip(), grid.place(heading, column)
        if use is None or use.term is None or use.term.proposed or grid.cells[heading, column].trouble:
            account.heading(grid, heading, column)
            continue
        value = read_value(text, use.term, use.bare)
        if isinstance(value, Misread | NotGiven) or (isinstance(value, str) and use.term.never_compared):
            account.heading(grid, heading, column)
            continue
        account.settle(grid, heading, column)
        for row in under:
            if not _says_something(data[row].get(use.term.name, Datum(NotGiven()))):
                data[row][use.term.name] = Datum(value, text, place, "from the section heading", inferred=True)


def _states(datum: Datum) -> bool:
    """Whether a datum stands on the line itself, be it a value or words in the place of one."""
    return _says_something(datum) and datum.note != "from the section heading"


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
