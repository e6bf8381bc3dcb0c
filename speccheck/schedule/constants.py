"""Constants: what a mapping file says of all lines, of a sheet or of a table, where a line does not state it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.language.vocabulary.values import BareUnits, NotGiven, read_value
from speccheck.quantities import Misread
from speccheck.schedule.grid import Grid
from speccheck.schedule.lines import Datum, Line, Remark
from speccheck.schedule.mapping import ScheduleMapping, matches
from speccheck.schedule.messages.settled import NO_HEADING_OF_ENTRY, NO_SHEET_OF_ENTRY

MOST_CELLS_OF_A_HEADING = 2


def with_constants(line: Line, headings: Sequence[str], mapping: ScheduleMapping, vocabulary: Vocabulary) -> Line:
    """Return a line with what the mapping file says of its sheet and of a table under these headings.

    What the line states, or what stands around it says, comes first; a blank cell states nothing.
    """
    added: dict[str, Datum] = {}
    for name, text, entry in mapping.constants_of(line.place.sheet, headings):
        stated = line.data.get(name)
        if stated is not None and (stated.text or not isinstance(stated.value, NotGiven)):
            continue
        value = read_value(text, vocabulary.terms[name], BareUnits(system=mapping.units))
        if not isinstance(value, Misread):
            added[name] = Datum(value, text, Place(mapping.file), f"from `{entry}` in the mapping file", inferred=True)
    return replace(line, data={**line.data, **added}) if added else line


def headings_above(grid: Grid, row: int) -> tuple[str, ...]:
    """Return the texts that stand above a header, up to the lines of another table."""
    found: list[str] = []
    for above in sorted((one for one in grid.columns_by_row if one < row), reverse=True):
        columns = grid.columns_by_row[above]
        if len(columns) > MOST_CELLS_OF_A_HEADING:
            break
        found += [grid.text(above, column) for column in columns]
    return tuple(found)


def unused_tables(mapping: ScheduleMapping, sheets: Sequence[str], remarks: Sequence[Remark]) -> Iterator[Diagnostic]:
    """Yield a warning for each entry of tables that the schedule does not have."""
    for table in mapping.tables:
        if table.sheet and not any(matches(table.sheet, sheet) for sheet in sheets):
            yield NO_SHEET_OF_ENTRY.at(Place(mapping.file), sheet=table.sheet)
        elif table.heading and not any(matches(table.heading, remark.text) for remark in remarks):
            yield NO_HEADING_OF_ENTRY.at(Place(mapping.file), heading=table.heading)
