"""Workbooks in other formats (.xls, .xlsb, .ods) to one grid a sheet, read by python-calamine.

The library reads values alone. What .ods, .xlsb and .xls say beside them, merged, hidden and struck cells,
`open_document`, `binary_workbooks` and `record_workbooks` read; in .xls what is struck through in part is not seen, in
those older than 1997 nothing of it, and in none what units number formats show. A warning says so, and a person has to
look before the schedule can be told to comply.
"""

from __future__ import annotations

import datetime
import zipfile
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from speccheck.language.diagnostic_rules import Wording
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.schedule.formats.binary_workbooks import looks_of_binary
from speccheck.schedule.formats.open_document import CONTENT, looks_of_open_document
from speccheck.schedule.formats.record_workbooks import looks_of_records
from speccheck.schedule.formats.safety import AGAIN, MOST_CELLS, MOST_FILLED_CELLS, MOST_SHEETS, Refused
from speccheck.schedule.formats.sheet_looks import SheetLooks, as_it_looks
from speccheck.schedule.grid import Grid, GridCell, MergedRange, number_text
from speccheck.schedule.lines import Unread, UnreadKind
from speccheck.schedule.messages.cells import DATE_IN_CELL, ERROR_VALUE
from speccheck.schedule.messages.files import (
    FORMATS_NOT_SEEN,
    PARTS_AND_FORMATS_NOT_SEEN,
    PARTS_OF_NO_WORKBOOK,
    SHEET_OF_TOO_MANY_CELLS,
    SHEET_OF_TOO_MANY_FILLED,
    TOO_MANY_SHEETS,
    VALUES_ALONE_SEEN,
    WORKBOOK_LOCKED,
)


def read_old_workbook(path: Path) -> tuple[list[Grid], list[Diagnostic]]:
    """Return a grid for each worksheet, and the warning about what these formats do not show.

    Raises `Refused` where the file is damaged, locked or too large.
    """
    from python_calamine import CalamineError, CalamineWorkbook, PasswordError, SheetTypeEnum, SheetVisibleEnum

    name = path.name
    looks, not_seen = _looks_of(path)
    try:
        with CalamineWorkbook.from_path(str(path)) as workbook:
            sheets = [meta for meta in workbook.sheets_metadata if meta.typ == SheetTypeEnum.WorkSheet]
            if len(sheets) > MOST_SHEETS:
                raise Refused(TOO_MANY_SHEETS.at(Place(name), file=name, number=len(sheets), most=MOST_SHEETS))
            grids = [
                _grid(name, workbook.get_sheet_by_name(meta.name), meta.visible != SheetVisibleEnum.Visible)
                for meta in sheets
            ]
            grids = grids if looks is None else [as_it_looks(grid, looks.get(grid.sheet)) for grid in grids]
    except PasswordError as error:
        raise Refused(WORKBOOK_LOCKED.at(Place(name), file=name)) from error
    except (CalamineError, OSError, ValueError) as error:
        raise Refused(PARTS_OF_NO_WORKBOOK.at(Place(name), file=name, advice=AGAIN)) from error
    told = not_seen.at(Place(name))
    unread = Unread(UnreadKind.OTHER, told.message, Place(name))
    grids[:1] = [replace(grid, unread=(unread,)) for grid in grids[:1]]
    return grids, [told]


def _looks_of(path: Path) -> tuple[Mapping[str, SheetLooks] | None, Wording]:
    """Return how the cells of each sheet look, and what is said of what the format does not show.

    The first is None where the format is one of which that is not read.
    """
    if not zipfile.is_zipfile(path):
        looks = looks_of_records(path)
        return looks, VALUES_ALONE_SEEN if looks is None else PARTS_AND_FORMATS_NOT_SEEN
    with zipfile.ZipFile(path) as archive:
        is_open_document = CONTENT in archive.namelist()
    return looks_of_open_document(path) if is_open_document else looks_of_binary(path), FORMATS_NOT_SEEN


def _grid(file: str, sheet: Any, hidden: bool) -> Grid:
    """Return the grid of one sheet."""
    if sheet.total_height * sheet.total_width > MOST_CELLS:
        raise Refused(SHEET_OF_TOO_MANY_CELLS.at(Place(file), sheet=sheet.name, most=MOST_CELLS))
    rows = sheet.to_python(skip_empty_area=False)
    found = (((row, column), _cell(value)) for row, values in enumerate(rows) for column, value in enumerate(values))
    cells = {at: cell for at, cell in found if cell is not None and cell.text.strip()}
    if len(cells) > MOST_FILLED_CELLS:
        raise Refused(SHEET_OF_TOO_MANY_FILLED.at(Place(file), sheet=sheet.name, most=MOST_FILLED_CELLS))
    blocks = tuple(MergedRange(*first, *last) for first, last in sheet.merged_cell_ranges or ())
    return Grid(file, sheet.name, cells, blocks, hidden)


def _cell(value: Any) -> GridCell | None:
    """Return what a cell with this value shows; None for a blank one."""
    if value is None or value == "":
        return None
    if isinstance(value, bool):
        return GridCell("TRUE" if value else "FALSE")
    if isinstance(value, float | int):
        return GridCell(number_text(value))
    if isinstance(value, datetime.datetime) and value.time() == datetime.time():
        return GridCell(str(value.date()), DATE_IN_CELL.code)
    if isinstance(value, datetime.date | datetime.time | datetime.timedelta):
        return GridCell(str(value), DATE_IN_CELL.code)
    text = str(value)
    return GridCell(text, ERROR_VALUE.code if text.startswith("#") and text.rstrip("!?").isupper() else "")
