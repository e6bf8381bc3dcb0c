"""Workbooks in other formats (.xls, .xlsb, .ods) to one grid a sheet, read by python-calamine.

The library reads values alone. What .ods and .xlsb say beside them, merged, hidden and struck cells, `open_document`
and `binary_workbooks` read; in .xls whether rows are hidden and what is struck through is not seen, and in none what
units number formats show. A warning says so, and a person has to look before the schedule can be told to comply.
"""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path
from typing import Any

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.schedule import codes
from speccheck.schedule.formats.binary_workbooks import looks_of_binary
from speccheck.schedule.formats.open_document import CONTENT, looks_of_open_document
from speccheck.schedule.formats.safety import AGAIN, MOST_CELLS, MOST_FILLED_CELLS, MOST_SHEETS, Refused, refusal
from speccheck.schedule.formats.sheet_looks import SheetLooks, as_it_looks
from speccheck.schedule.grid import Block, Cell, Grid, number_text
from speccheck.schedule.lines import Unread, UnreadKind

_VALUES_ALONE = "hidden rows, struck-out text, comments and the units of number formats are not seen in this format"
_LOOK = "check that nothing on the sheets is hidden or struck through, or save the workbook as .xlsx"
_NO_FORMATS = "comments and the units of number formats are not seen in this format"
_LOOK_AT_FORMATS = "check what the cells show beside their numbers, or save the workbook as .xlsx"


def read_old_workbook(path: Path) -> tuple[list[Grid], list[Diagnostic]]:
    """Return a grid for each worksheet, and the warning about what these formats do not show.

    Raises `Refused` where the file is damaged, locked or too large.
    """
    from python_calamine import CalamineError, CalamineWorkbook, PasswordError, SheetTypeEnum, SheetVisibleEnum

    name, looks = path.name, _looks_of(path)
    try:
        with CalamineWorkbook.from_path(str(path)) as workbook:
            sheets = [meta for meta in workbook.sheets_metadata if meta.typ == SheetTypeEnum.WorkSheet]
            if len(sheets) > MOST_SHEETS:
                raise _too_large(name, f"`{name}` has {len(sheets)} sheets, and the limit is {MOST_SHEETS}")
            grids = [
                _grid(name, workbook.get_sheet_by_name(meta.name), meta.visible != SheetVisibleEnum.Visible)
                for meta in sheets
            ]
            grids = grids if looks is None else [as_it_looks(grid, looks.get(grid.sheet)) for grid in grids]
    except PasswordError as error:
        raise Refused(
            refusal(codes.LOCKED, name, f"`{name}` is locked by a password", "save a copy without the password")
        ) from error
    except (CalamineError, OSError, ValueError) as error:
        message = f"`{name}` is damaged and cannot be read as a workbook"
        raise Refused(refusal(codes.DAMAGED, name, message, AGAIN)) from error
    message, help = (_VALUES_ALONE, _LOOK) if looks is None else (_NO_FORMATS, _LOOK_AT_FORMATS)
    unread = Unread(UnreadKind.OTHER, message, Place(name))
    grids[:1] = [replace(grid, unread=(unread,)) for grid in grids[:1]]
    return grids, [Diagnostic(codes.NOT_SEEN, Severity.WARNING, message, Place(name), help)]


def _looks_of(path: Path) -> Mapping[str, SheetLooks] | None:
    """Return how the cells of each sheet look; None where the format is one of which that is not read."""
    import zipfile

    if not zipfile.is_zipfile(path):
        return None
    with zipfile.ZipFile(path) as archive:
        is_open_document = CONTENT in archive.namelist()
    return looks_of_open_document(path) if is_open_document else looks_of_binary(path)


def _too_large(name: str, message: str) -> Refused:
    return Refused(refusal(codes.TOO_LARGE, name, message, "leave only the sheets of the schedule in the file"))


def _grid(file: str, sheet: Any, hidden: bool) -> Grid:
    """Return the grid of one sheet."""
    if sheet.total_height * sheet.total_width > MOST_CELLS:
        raise _too_large(file, f"sheet `{sheet.name}` has more than {MOST_CELLS:,} cells, which is the limit")
    rows = sheet.to_python(skip_empty_area=False)
    found = (((row, column), _cell(value)) for row, values in enumerate(rows) for column, value in enumerate(values))
    cells = {at: cell for at, cell in found if cell is not None and cell.text.strip()}
    if len(cells) > MOST_FILLED_CELLS:
        message = f"sheet `{sheet.name}` has more than {MOST_FILLED_CELLS:,} filled cells, which is the limit"
        raise _too_large(file, message)
    blocks = tuple(Block(*first, *last) for first, last in sheet.merged_cell_ranges or ())
    return Grid(file, sheet.name, cells, blocks, hidden)


def _cell(value: Any) -> Cell | None:
    """Return what a cell with this value shows; None for a blank one."""
    if value is None or value == "":
        return None
    if isinstance(value, bool):
        return Cell("TRUE" if value else "FALSE")
    if isinstance(value, float | int):
        return Cell(number_text(value))
    if isinstance(value, datetime.datetime) and value.time() == datetime.time():
        return Cell(str(value.date()), codes.DATE)
    if isinstance(value, datetime.date | datetime.time | datetime.timedelta):
        return Cell(str(value), codes.DATE)
    text = str(value)
    return Cell(text, codes.ERROR_VALUE if text.startswith("#") and text.rstrip("!?").isupper() else "")
