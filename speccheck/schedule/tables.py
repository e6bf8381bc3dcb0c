"""Tables: one header and the rows under it, read into lines."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import product

from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.language.vocabulary.values import BareUnits, NotGiven, read_value
from speccheck.quantities import Misread
from speccheck.schedule.accounting import Account
from speccheck.schedule.columns import ColumnUse, column_diagnostics, understand_columns
from speccheck.schedule.columns_by_cells import with_columns_by_cells
from speccheck.schedule.constants import headings_above, with_constants
from speccheck.schedule.context import Facts, of_captions, of_headers, with_facts
from speccheck.schedule.cross_tables import CrossColumn
from speccheck.schedule.data import read_across, read_data
from speccheck.schedule.fill_down import Fillings, fill
from speccheck.schedule.grid import Grid
from speccheck.schedule.header import Header, captions_of
from speccheck.schedule.header_words import HeaderReader
from speccheck.schedule.legends import with_legend_columns
from speccheck.schedule.lines import Column, Datum, Line, Remark
from speccheck.schedule.mapping import ScheduleMapping
from speccheck.schedule.marked_columns import with_marks_as_values
from speccheck.schedule.range_columns import with_range_columns
from speccheck.schedule.rows import Row, RowKind, classify_rows
from speccheck.schedule.rows_without_lines import account_rows, left_rows, remarks_of_rows
from speccheck.schedule.sentences import in_sentences, with_sentences
from speccheck.schedule.shifted_rows import with_shifted_rows
from speccheck.schedule.siblings import without_strangers
from speccheck.schedule.under_headings import take_from_headings


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
    grid = with_shifted_rows(grid, header, last)
    grid, header = with_marks_as_values(grid, header, last, reader)
    hidden = frozenset() if mapping.read_hidden else grid.hidden_rows
    headed = understand_columns(grid, header, frozenset(), reader, mapping, units)
    qualified, first = _said_of_columns(grid, header, headed, reader, mapping, last)
    rows = classify_rows(grid, first, last, headed, mapping, reader, hidden)
    lines = [row for row in rows if row.kind is RowKind.LINE]
    filled = Counter(column for row in lines for column in grid.columns_by_row[row.number])
    uses = understand_columns(grid, header, frozenset(filled), reader, mapping, units)
    uses = without_strangers(grid, [row.number for row in lines], uses, reader.vocabulary, mapping)
    uses = with_range_columns(uses, reader, mapping, units)
    uses = with_legend_columns(grid, [row.number for row in lines], uses, reader.vocabulary, mapping)
    told = {
        *(facts or {}),
        *(name for row in rows if row.kind is RowKind.SECTION for name in _named(grid, row, reader)),
    }
    numbers = [row.number for row in lines]
    uses = with_sentences(grid, numbers, uses, reader, mapping, told)
    uses = with_columns_by_cells(grid, numbers, uses, reader.vocabulary, mapping, told)
    found.columns += [use.column for use in uses]
    found.diagnostics += column_diagnostics(uses, reader.vocabulary, filled)
    fillings, problems = fill(grid, lines, uses, mapping.repeat_blanks)
    found.diagnostics += problems
    found.remarks += remarks_of_rows(grid, rows)
    found.diagnostics += left_rows(grid, rows, frozenset(use.index for use in uses if use.is_read))
    data: dict[int, dict[str, Datum]] = {}
    for row in lines:
        data[row.number], problems = read_data(grid, row.number, uses, fillings, mapping, reader.vocabulary)
        found.diagnostics += problems
    found.diagnostics += take_from_headings(grid, rows, data, uses, reader, mapping, found.account)
    above = headings_above(grid, header.first)
    captions = of_captions(grid, captions_of(grid, range(header.first, header.last + 1), reader), reader)
    facts = {
        **(facts or {}),
        **captions,
        **of_headers(_sure_columns(grid, header, uses), reader.headings, reader.vocabulary),
    }
    for row in lines:
        data[row.number] |= dict(with_facts(data[row.number], facts))
        over = (*above, *(text for section in row.sections for text in grid.texts_of(section)))
        made = [
            with_constants(line, over, mapping, reader.vocabulary)
            for whole in _lines_of(
                grid, row, uses, fillings, data[row.number], mapping, qualified, reader.vocabulary, found
            )
            for line in in_sentences(whole, grid, row.number, uses, reader, mapping, found.diagnostics)
        ]
        found.lines += made
        found.account.line(grid, row.number, uses, made, mapping)
    found.account.header(grid, header, first, uses, filled)
    account_rows(grid, rows, found.account, found.lines, mapping)
    return found


def _named(grid: Grid, heading: Row, reader: HeaderReader) -> frozenset[str]:
    """Return the names of the terms of which a section heading gives a value."""
    return reader.headings.names(grid.text(heading.number, grid.columns_by_row[heading.number][0]))


def _said_of_columns(
    grid: Grid,
    header: Header,
    uses: Sequence[ColumnUse],
    reader: HeaderReader,
    mapping: ScheduleMapping,
    last: int,
) -> tuple[Mapping[int, Facts], int]:
    """Return what rows right below the header of a cross table say of each column, and the first other row.

    Such a row begins with the name of a term, and gives a value of it in each column: "Temp. (F) | 40-60 | 141-200".
    """
    facts: dict[int, Facts] = {index: _beside(grid, column) for index, column in header.across.items()}
    row = header.last + 1
    while header.across and row <= last and (columns := grid.columns_by_row.get(row, ())):
        first, *others = columns
        match = reader.match(grid.text(row, first))
        if match is None or match.term is None or first in header.across or not others or match.term.proposed:
            break
        bare = BareUnits(match.unit, mapping.units)
        values = {column: read_value(grid.text(row, column).strip(), match.term, bare) for column in others}
        if any(column not in header.across or isinstance(value, Misread) for column, value in values.items()):
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


def _sure_columns(grid: Grid, header: Header, uses: Sequence[ColumnUse]) -> list[Column]:
    """Return the columns of which no header is in trouble: one that may go on elsewhere says nothing of all lines."""
    cells = [at for at, cell in grid.cells.items() if header.first <= at[0] <= header.last and cell.trouble]
    troubled = {column for _, column in cells}
    return [use.column for use in uses if use.index not in troubled]


def _beside(grid: Grid, column: CrossColumn) -> Facts:
    """Return what the header of a column of a cross table states beside the value that it stands for."""
    place = grid.place(*column.origin)
    note = f"from the header in {place.cell}"
    return {name: Datum(value, column.text, place, note, inferred=True) for name, value in column.beside}


def _lines_of(
    grid: Grid,
    row: Row,
    uses: Sequence[ColumnUse],
    fillings: Fillings,
    data: dict[str, Datum],
    mapping: ScheduleMapping,
    qualified: Mapping[int, Facts],
    vocabulary: Vocabulary,
    found: Understood,
) -> Iterator[Line]:
    """Yield the lines of a row: one, or in a cross table one for each column."""
    name, place = _name(grid, row.number, uses, fillings), _line_place(grid, row.number)
    columns = [use for use in uses if use.across is not None]
    if not columns:
        yield Line(name, data, place)
        return
    read: dict[int, dict[str, Datum]] = {}
    for use in columns:
        read[use.index], problems = read_across(grid, row.number, use, fillings, mapping, vocabulary)
        found.diagnostics += problems
    for together in _combined([use for use in columns if not _is_left_blank(use, read, columns)]):
        own, called = dict(data), name or _row_words(place)
        for use in together:
            own |= dict(with_facts(data, qualified.get(use.index, {})))
        for use in together:
            own |= read[use.index]
        words = dict.fromkeys(" ".join(use.across.text.split()) for use in together if use.across is not None)
        yield Line(", ".join((called, *words)), own, grid.place(row.number, together[0].index))


def _is_left_blank(use: ColumnUse, read: Mapping[int, Mapping[str, Datum]], columns: Sequence[ColumnUse]) -> bool:
    """Whether a column is one of several proposals beside one another, and this row does not make it."""

    def blank(one: ColumnUse) -> bool:
        value = read[one.index][one.across.measured.name].value if one.across is not None else None
        return isinstance(value, NotGiven) and not value.text

    chosen = use.across is not None and use.across.axis.proposed
    return chosen and blank(use) and not all(map(blank, columns))


def _combined(columns: Sequence[ColumnUse]) -> Iterator[tuple[ColumnUse, ...]]:
    """Yield the columns of each line of a row: of each family of columns those that stand for one and the same value.

    Columns of one term, and columns that stand for values of one term, are a family: sizes across with two finishes
    give a line for each size and finish.
    """
    families: list[tuple[set[str], dict[str, list[ColumnUse]]]] = []
    for use in columns:
        if use.across is None:
            continue
        terms = {use.across.measured.name, use.across.axis.name}
        family = next((each for each in families if each[0] & terms), None)
        if family is None:
            family = (set(), {})
            families.append(family)
        family[0].update(terms)
        family[1].setdefault(f"{use.across.axis.name} {use.across.value} {use.across.beside}", []).append(use)
    for chosen in product(*(list(values.values()) for _, values in families)):
        yield tuple(use for uses in chosen for use in uses)


def _row_words(place: Place) -> str:
    """Return "row 12" for the place of a line."""
    return "row " + "".join(character for character in place.cell if character.isdecimal())


def _name(grid: Grid, row: int, uses: Sequence[ColumnUse], fillings: Fillings) -> str:
    """Return the name that the schedule gives a line, or "" where it gives none."""
    for use in uses:
        if use.names_lines and (row, use.index) in fillings:
            return " ".join(grid.text(*fillings[row, use.index].origin).split())
    return ""


def _line_place(grid: Grid, row: int) -> Place:
    """Return the place of a line: its first filled cell."""
    return grid.place(row, grid.columns_by_row[row][0])
