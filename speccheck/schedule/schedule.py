"""The whole way from a schedule file to a `Schedule`."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from pathlib import Path
from typing import Any

from speccheck.english import agree, count, meant, nearest
from speccheck.language.diagnostics import Diagnostic, Place, Severity, has_errors, in_order
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.schedule.constants import unused_tables, with_constants
from speccheck.schedule.context import Around, Facts, around, of_sheet
from speccheck.schedule.formats.opening import open_schedule
from speccheck.schedule.forms import form_as_table, holds_pairs, key_cells, with_labels_apart
from speccheck.schedule.grid import Grid, column_number
from speccheck.schedule.header import Header, find_headers
from speccheck.schedule.header_spellings import heads_no_proposal
from speccheck.schedule.header_words import HeaderReader
from speccheck.schedule.headings import above_the_header, perhaps_not_proposed, tables_in_doubt
from speccheck.schedule.legends import with_legends
from speccheck.schedule.lines import Column, Schedule, Unread, UnreadKind
from speccheck.schedule.mapping import ScheduleMapping, settled
from speccheck.schedule.messages.cells import ANOTHER_LINE_OF_NAME
from speccheck.schedule.messages.files import FILE_WITHOUT_SHEETS, NO_SUCH_SHEET
from speccheck.schedule.messages.settled import NO_COLUMN_OF_ENTRY
from speccheck.schedule.messages.tables import (
    HEADER_REST,
    HEADER_UNIT,
    NO_HEADER_FOUND,
    NO_LINE_UNDER_HEADER,
    SAME_TERM,
    SHEET_IS_HIDDEN,
    SHEET_NOT_ASKED_FOR,
    SHEET_WITHOUT_HEADER,
)
from speccheck.schedule.note_marks import attach_notes, marked_by_notes, marks_of_notes
from speccheck.schedule.outlines import outline_of
from speccheck.schedule.parts import parts_of_sheet
from speccheck.schedule.rows import FURNITURE
from speccheck.schedule.rows_without_lines import remarks_of
from speccheck.schedule.sections import SERVICE
from speccheck.schedule.settling import settle_lines
from speccheck.schedule.tables import Understood, read_table

_CELL = re.compile(r"([A-Z]+)([0-9]+)")


def read_schedule(
    path: Path,
    vocabulary: Vocabulary,
    mapping: ScheduleMapping | None = None,
    *,
    units: str = "",
    usual_units: str = "",
    sheet: str = "",
    reader: HeaderReader | None = None,
) -> Schedule:
    """Return what a schedule file says in the terms of a vocabulary.

    `mapping` settles what the file leaves open; `units` ("inch-pound" or "metric") is the system of numbers for which
    nothing states a unit; `sheet` is the only sheet to read. Both win over the mapping. `usual_units` are those of the
    ruleset, which count where nothing else states any. `reader` is one of the same
    vocabulary, for somebody who reads many schedules: headers that it has met before cost nothing. Mistakes of the
    file are diagnostics of the schedule; an unusable file gives a schedule without lines and at least one error.
    """
    mapping = settled(mapping, units, usual_units, sheet)
    return read_with_grids(path, mapping, reader or HeaderReader(vocabulary))[0]


def read_with_grids(path: Path, mapping: ScheduleMapping, reader: HeaderReader) -> tuple[Schedule, tuple[Grid, ...]]:
    """Return what a schedule file says, and its sheets as they came; `mapping` has the units and the sheet already."""
    grids, problems = open_schedule(path)
    return read_grids(path.name, grids, problems, reader, mapping), tuple(grids)


def read_objects(
    objects: Sequence[Mapping[str, Any]],
    name: str,
    vocabulary: Vocabulary,
    mapping: ScheduleMapping | None = None,
    *,
    units: str = "",
    usual_units: str = "",
) -> Schedule:
    """Return what rows of plain values, by column header, say in the terms of a vocabulary, as those of a file do.

    `name` is what the schedule is called; the rest is as in `read_schedule`.
    """
    from speccheck.schedule.formats.json_lines import grid_of_objects

    mapping = settled(mapping, units, usual_units)
    return read_grids(name, *grid_of_objects(list(objects), name), HeaderReader(vocabulary), mapping)


def read_grids(
    name: str, grids: list[Grid], problems: list[Diagnostic], reader: HeaderReader, mapping: ScheduleMapping
) -> Schedule:
    """Return what the sheets of a schedule say; errors leave it without lines."""
    found = Understood(diagnostics=problems)
    mapping = replace(with_legends(mapping, grids, reader.vocabulary), note_marks=marks_of_notes(grids))
    if not has_errors(problems):
        _read_sheets(name, grids, reader, mapping, found)
        found.lines = [with_constants(line, (), mapping, reader.vocabulary) for line in found.lines]
        found.lines, told = settle_lines(found.lines, reader.vocabulary, mapping)
        found.diagnostics = [old for old in found.diagnostics if (old.code, old.place) not in told.settled]
        found.diagnostics += told.diagnostics
        found.account.settled |= {(place.sheet, place.cell) for place in told.read}
        found.account.settled -= {(place.sheet, place.cell) for place in told.doubted}
    found.account.partly_read(found.lines, found.diagnostics)
    found.diagnostics, found.account.unread = attach_notes(
        found.lines, found.remarks, found.diagnostics, found.account.unread
    )
    diagnostics = in_sheet_order(found.diagnostics)
    lines = () if has_errors(diagnostics) else tuple(found.lines)
    beside = [one for grid in grids for one in grid.unread if not mapping.has_seen(one.text)]
    found.account.leave_out_seen(mapping)
    unread = (*beside, *found.account.unread) if lines else ()
    cells = found.account.count(grids) if lines else None
    spots = {grid.place(*at): spot for grid in grids for at, spot in grid.spots.items()}
    return Schedule(name, lines, tuple(found.columns), tuple(found.remarks), diagnostics, unread, cells, spots)


def in_sheet_order(diagnostics: Iterable[Diagnostic]) -> tuple[Diagnostic, ...]:
    """Return the diagnostics without repeats, in the order in which a reader meets them: by sheet, then by row."""
    return tuple(sorted(in_order(diagnostics), key=lambda found: (found.place.sheet, *_row_and_column(found.place))))


def _row_and_column(place: Place) -> tuple[int, int, str]:
    """Return what orders places within a sheet: the row, the column of a cell, and for JSON the pointer."""
    found = _CELL.fullmatch(place.cell)
    if found is not None:
        return int(found[2]), column_number(found[1]), ""
    pointer = place.cell.split("/")
    return (int(pointer[1]) + 1 if len(pointer) > 1 and pointer[1].isdecimal() else 0), 0, place.cell


def _read_sheets(
    file: str, grids: Sequence[Grid], reader: HeaderReader, mapping: ScheduleMapping, found: Understood
) -> None:
    """Read the sheets that are asked for, or all that are shown and have a table; say what became of the others."""
    names = [grid.sheet for grid in grids]
    if mapping.sheet and mapping.sheet not in names:
        found.diagnostics.append(_no_sheet(file, mapping.sheet, names))
        return
    tables = 0
    for grid in grids:
        if found.account.is_lists(grid, reader.vocabulary):
            found.account.settle_sheet(grid)
            continue
        reason = _left_out(grid, reader, mapping, found)
        parts = [] if reason is not None or not grid.cells else parts_of_sheet(grid, reader, mapping)
        read = [part for part, headers in parts if _read_part(part, headers, reader, mapping, found)]
        tables += len(read)
        titles = (*grid.page_titles, *([grid.sheet] if grid.sheet != mapping.sheet else []))
        for title in filter(heads_no_proposal, titles if read else ()):
            _doubt_title(title, grid.sheet_place, mapping, found)
        if grid.cells and (reason is not None or not read):
            found.diagnostics.append(reason or _no_header(grid))
            if found.account.is_guide(grid):
                found.account.settle_sheet(grid)
    found.diagnostics += marked_by_notes(found.lines, found.columns, found.remarks)
    _name_lines(found)
    if not tables:
        found.diagnostics.append(NO_HEADER_FOUND.at(Place(file)))
    elif not found.lines:
        found.diagnostics.append(NO_LINE_UNDER_HEADER.at(Place(file)))
    found.diagnostics += _unused_entries(mapping, found.columns)
    found.diagnostics += unused_tables(mapping, names, found.remarks)


def _doubt_title(text: str, place: Place, mapping: ScheduleMapping, found: Understood) -> None:
    """Leave a title, of a table or a sheet, that says that what is under it is no proposal for a person to see."""
    if mapping.has_seen(text):
        return
    found.diagnostics.append(perhaps_not_proposed(text, place))
    if all(one.place != place for one in found.account.unread):
        found.account.unread.append(Unread(UnreadKind.REMARK, " ".join(text.split()), place, ()))


def _read_part(
    part: Grid, headers: Sequence[Header], reader: HeaderReader, mapping: ScheduleMapping, found: Understood
) -> bool:
    """Read one part of a sheet, with its headers a table, else a form; return whether there was any."""
    if headers and not holds_pairs(part, reader):
        _read_sheet(part, headers, reader, mapping, found)
        return True
    form = form_as_table(part, reader)
    if form is None and _read_sentences(part, reader, mapping, found):
        return True
    if form is None:
        labels = with_labels_apart(part, reader)
        if labels is None or not _read_part(labels, (), reader, mapping, found):
            return False
        for row in (row for row in part.columns_by_row if row not in labels.columns_by_row):
            found.remarks += remarks_of(part, row)
            found.account.remark_row(part, row, mapping)
        return True
    table, first = form
    facts = around(part, (row for row in part.columns_by_row if row < first), {}, reader)
    _enter_around(part, facts, mapping, found)
    for row, column in key_cells(part, reader):
        found.account.settle(part, row, column)
    _read_sheet(table, find_headers(table, reader, mapping), reader, mapping, found, facts.facts)
    return True


def _read_sentences(part: Grid, reader: HeaderReader, mapping: ScheduleMapping, found: Understood) -> bool:
    """Read the rows that propose systems in words, with their headings; every other text is for a person to read."""
    outline = outline_of(part, reader, mapping)
    lines = outline.lines
    for row in part.columns_by_row if lines else ():
        if row in lines or row in outline.settled:
            found.lines += lines.get(row, [])
            found.account.settle_row(part, row)
        else:
            found.remarks += remarks_of(part, row)
            found.account.remark_row(part, row, mapping)
    return bool(lines)


def _enter_around(grid: Grid, found_around: Around, mapping: ScheduleMapping, found: Understood) -> None:
    """Enter what stands above a table into the account."""
    for row, column in found_around.settled:
        found.account.settle(grid, row, column)
    for row, column in found_around.remarks:
        found.account.remark(grid, row, column, mapping)


def _left_out(grid: Grid, reader: HeaderReader, mapping: ScheduleMapping, found: Understood) -> Diagnostic | None:
    """Return why a sheet is not to be read, or None where it is; a hidden schedule is worth more than a note."""
    if mapping.sheet or mapping.leaves_out(grid.sheet):
        if grid.sheet == mapping.sheet:
            return None
        found.account.settle_sheet(grid)
        return SHEET_NOT_ASKED_FOR.at(grid.sheet_place, sheet=grid.sheet, cells=_cells_of(grid))
    if grid.hidden:
        schedule = bool(find_headers(grid, reader, mapping))
        if schedule:
            found.account.unread.append(Unread(UnreadKind.HIDDEN_SHEET, grid.sheet, grid.sheet_place))
        else:
            found.account.settle_sheet(grid)
        severity = Severity.WARNING if schedule else Severity.NOTE
        return SHEET_IS_HIDDEN.weighing(severity).at(grid.sheet_place, sheet=grid.sheet, cells=_cells_of(grid))
    return None


def _cells_of(grid: Grid) -> str:
    """Count the filled cells of a sheet, with the verb that goes with them."""
    filled = len(grid.cells)
    return f"its {count(filled, 'filled cell')} {agree(filled, 'was', 'were')}"


def _no_header(grid: Grid) -> Diagnostic:
    """Note that a sheet has no table."""
    what = f"sheet `{grid.sheet}`" if grid.sheet else "the file"
    return SHEET_WITHOUT_HEADER.at(grid.sheet_place, what=what, cells=_cells_of(grid))


def _no_sheet(file: str, wanted: str, names: Sequence[str]) -> Diagnostic:
    """Say that the sheet that was asked for is not there."""
    near = meant(nearest(wanted, names), "")
    question, sheets = f"{near} " if near else "", ", ".join(name for name in names if name)
    if not sheets:
        return FILE_WITHOUT_SHEETS.at(Place(file), sheet=wanted, question=question)
    return NO_SUCH_SHEET.at(Place(file), sheet=wanted, question=question, sheets=sheets)


def _read_sheet(
    grid: Grid,
    headers: Sequence[Header],
    reader: HeaderReader,
    mapping: ScheduleMapping,
    found: Understood,
    outer: Facts | None = None,
) -> None:
    """Read all tables of a sheet, with what stands around them; `outer` is what holds for the whole sheet."""
    for row in grid.columns_by_row:
        if row < headers[0].first:
            found.remarks += remarks_of(grid, row)
    found.diagnostics += above_the_header(grid, headers[0])
    own = _heading_rows(grid, headers[0], -1)
    over = (row for row in grid.columns_by_row if row < headers[0].first and row not in own)
    over = (row for row in over if (grid.sheet, row) not in mapping.legend_rows)
    title = around(grid, over, {**of_sheet(grid, reader.headings), **(outer or {})}, reader)
    first = around(grid, own, title.facts, reader, names_systems=_names_no_system(headers[0]))
    _enter_around(grid, title, mapping, found)
    _enter_around(grid, first, mapping, found)
    for row, column in tables_in_doubt(grid, headers):
        _doubt_title(grid.text(row, column), grid.place(row, column), mapping, found)
    last_row = max(grid.columns_by_row)
    facts = first.facts
    for index, header in enumerate(headers):
        last = headers[index + 1].first - 1 if index + 1 < len(headers) else last_row
        own_heading = _heading_rows(grid, headers[index + 1], header.last) if index + 1 < len(headers) else ()
        table = read_table(
            grid, header, own_heading[0] - 1 if own_heading else last, reader, mapping, mapping.units, facts
        )
        again = any(header.repeats(earlier) for earlier in headers[:index])
        if again:
            for row in range(header.first, header.last + 1):
                found.remarks += remarks_of(grid, row)
        listed = {(_letters(column), column.term) for column in found.columns}
        found.columns += [
            column
            for column in table.columns
            if not again or not column.header or (not column.term and (_letters(column), "") not in listed)
        ]
        found.lines += table.lines
        found.remarks += table.remarks
        found.account += table.account
        found.diagnostics += [note for note in table.diagnostics if not again or not _of_header(note, table.columns)]
        if own_heading:
            for row in own_heading:
                found.remarks += remarks_of(grid, row)
            nameless = _names_no_system(headers[index + 1])
            heading = around(grid, own_heading, title.facts, reader, names_systems=nameless)
            _enter_around(grid, heading, mapping, found)
            facts = heading.facts
        elif index + 1 < len(headers) and not headers[index + 1].repeats(header):
            facts = first.facts


def _names_no_system(header: Header) -> bool:
    """Whether no column of a table, and nothing across it, names the systems of its lines."""
    return not header.across and all(match.name != SERVICE for match in header.matches.values())


def _letters(column: Column) -> str:
    """Return the letters of a column, whatever row its header stands in."""
    return column.place.cell.rstrip("0123456789")


def _heading_rows(grid: Grid, header: Header, after: int) -> tuple[int, ...]:
    """Return the rows above a header, after another row, that hold one text each: the block next to it, from the top.

    Blank rows may part them from the header, if they part them from what is above too. The numbers of pages are no
    heading: the table goes on.
    """
    row = header.first - 1
    while row > after and row not in grid.columns_by_row:
        row -= 1
    rows: list[int] = []
    while row > after and len(grid.columns_by_row.get(row, ())) == 1:
        rows.insert(0, row)
        row -= 1
    parted = rows and rows[-1] < header.first - 1
    if parted and row > after and row in grid.columns_by_row:
        return ()  # rows below the lines of another table, with a gap behind them, are notes of that one
    texts = (grid.text(row, grid.columns_by_row[row][0]).strip() for row in rows)
    return () if all(FURNITURE.match(text) for text in texts) else tuple(rows)


def _of_header(note: Diagnostic, columns: Sequence[Column]) -> bool:
    """Whether a diagnostic is about a column as a whole, and so was told at the first header already."""
    told = (SAME_TERM.code, HEADER_UNIT.code, HEADER_REST.code)
    return note.code in told and any(note.place == column.place for column in columns)


def _name_lines(found: Understood) -> None:
    """Give each line a name of its own: the row where it has none, and the row behind a name that came before."""
    several = len({line.place.sheet for line in found.lines}) > 1
    taken: Counter[str] = Counter()
    named = []
    for line in found.lines:
        row = _row_name(line.place, several)
        name = line.name or row
        if taken[name]:
            note = ANOTHER_LINE_OF_NAME.at(line.place, name=name, row=row)
            found.diagnostics.append(note)
            name = f"{name} ({row})"
        taken[name] += 1
        named.append(replace(line, name=name))
    found.lines = named


def _row_name(place: Place, with_sheet: bool) -> str:
    """Return "row 12", after the name of the sheet where there are several; "line 3" for JSON."""
    if place.cell.startswith("/"):
        return f"line {int(place.cell.split('/')[1]) + 1}"
    row = "row " + "".join(character for character in place.cell if character.isdecimal())
    return f"{place.sheet} {row}" if with_sheet else row


def _unused_entries(mapping: ScheduleMapping, columns: Sequence[Column]) -> Iterator[Diagnostic]:
    """Yield a warning for each column of the mapping file that the schedule does not have."""
    used = set()
    for column in columns:
        cell = _CELL.fullmatch(column.place.cell)
        key = mapping.key_of(column.header, column_number(cell[1]) if cell else None)
        used.add(key)
    for key in dict.fromkeys((*mapping.columns, *mapping.ignore)):
        if key not in used:
            yield NO_COLUMN_OF_ENTRY.at(
                Place(mapping.file), near=nearest(key, (column.header for column in columns)), column=key
            )
