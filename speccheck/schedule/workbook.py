"""Workbooks: an .xlsx file to one grid a sheet.

The values come from python-calamine, what it leaves out (formulas without results, errors, number formats) from
`sheet_marks`. Nothing is worked out here: of a formula only the saved result counts, and macros are never run.
"""

from __future__ import annotations

import datetime
import posixpath
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from html import unescape
from pathlib import Path
from typing import TYPE_CHECKING, Any

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.schedule import codes
from speccheck.schedule.grid import Block, Cell, Grid, column_letters, number_text
from speccheck.schedule.lettering import lettered_texts, struck_styles, unseen_styles
from speccheck.schedule.number_formats import attribute, formats_by_style
from speccheck.schedule.safety import MOST_CELLS, check_compound_file, check_parts, read_parts, refusal
from speccheck.schedule.sheet_marks import SheetMarks, WorkbookStyles, sheet_marks

if TYPE_CHECKING:
    from python_calamine import CalamineWorkbook

_SHEET = re.compile(r"<(?:\w+:)?sheet\b([^<>]*)>")
_RELATION = re.compile(r"<(?:\w+:)?Relationship\b([^<>]*)>")
_COMMENT = re.compile(r"<(?:\w+:)?(?:comment|threadedComment)\b([^<>]*)>")
_DRAWN_TEXT = re.compile(r"<(?:\w+:)?t>[^<]*\w")


def read_workbook(path: Path) -> tuple[list[Grid], list[Diagnostic]]:
    """Return a grid for each worksheet, in their order, and what is wrong with the file as a whole.

    An unusable file gives no grid and one error.
    """
    refused = check_compound_file(path) or check_parts(path)
    if refused is not None:
        return [], [refused]
    parts = read_parts(path)
    if isinstance(parts, Diagnostic):
        return [], [parts]
    sheets = _sheet_parts(parts)
    styles = _styles(parts)
    by_part = {part: sheet_marks(text, styles) for part, text in parts.items() if "sheetData" in text}
    for part, found in by_part.items():
        if found.rows * found.columns > MOST_CELLS:
            sheet = next((sheet for sheet, its_part in sheets.items() if its_part == part), part)
            return [], [_too_wide(path.name, sheet, found)]
    marks = {sheet: by_part.get(part, SheetMarks()) for sheet, part in sheets.items()}
    grids = _grids(path, marks)
    if isinstance(grids, Diagnostic):
        return [], [grids]
    comments = [note for grid in grids for note in _comments(grid, sheets.get(grid.sheet, ""), parts)]
    return grids, comments + _file_notes(path.name, parts)


def _styles(parts: Mapping[str, str]) -> WorkbookStyles:
    """Return what the workbook says for all its sheets."""
    styles = parts.get("xl/styles.xml", "")
    shared = next((text for part, text in parts.items() if part.lower() == "xl/sharedstrings.xml"), "")
    return WorkbookStyles(
        formats_by_style(styles), struck_styles(styles), unseen_styles(styles), lettered_texts(shared)
    )


def _sheet_parts(parts: Mapping[str, str]) -> dict[str, str]:
    """Return the name of the XML part of each sheet."""
    targets = {
        attribute(found[1], "Id"): _target(found[1], "xl")
        for found in _RELATION.finditer(parts.get("xl/_rels/workbook.xml.rels", ""))
    }
    sheets = (found[1] for found in _SHEET.finditer(parts.get("xl/workbook.xml", "")))
    return {unescape(attribute(sheet, "name")): targets.get(_relation_id(sheet), "") for sheet in sheets}


def _relation_id(attributes: str) -> str:
    """Return the identity of the relation that leads to a sheet, whatever prefix its name has."""
    found = re.search(r"""\w+:id\s*=\s*["']([^"']*)["']""", attributes)
    return found[1] if found else ""


def _too_wide(file: str, sheet: str, marks: SheetMarks) -> Diagnostic:
    """Say that a sheet reaches too far to be a schedule."""
    reach = f"{column_letters(marks.columns - 1)}{marks.rows}"
    message = f"sheet `{sheet}` reaches to {reach}, and no sheet with more than {MOST_CELLS:,} cells is read"
    return refusal(codes.TOO_LARGE, file, message, "delete what stands far outside the schedule")


def _grids(path: Path, marks: Mapping[str, SheetMarks]) -> list[Grid] | Diagnostic:
    """Return the grid of each worksheet, or why the workbook cannot be read."""
    from python_calamine import CalamineError, CalamineWorkbook, SheetTypeEnum, SheetVisibleEnum

    try:
        with CalamineWorkbook.from_path(str(path)) as workbook:
            return [
                _grid(path.name, workbook, meta.name, marks.get(meta.name), meta.visible != SheetVisibleEnum.Visible)
                for meta in workbook.sheets_metadata
                if meta.typ == SheetTypeEnum.WorkSheet
            ]
    except (CalamineError, OSError, ValueError):
        message = f"`{path.name}` is damaged and cannot be read as a workbook"
        help = "open the workbook in a spreadsheet program and save it again as .xlsx"
        return refusal(codes.DAMAGED, path.name, message, help)


def _grid(file: str, workbook: CalamineWorkbook, name: str, marks: SheetMarks | None, hidden: bool) -> Grid:
    """Return the grid of one sheet."""
    marks = marks or SheetMarks()
    sheet = workbook.get_sheet_by_name(name)
    cells = _cells(sheet.to_python(skip_empty_area=False), marks)
    merged = (Block(*first, *last) for first, last in sheet.merged_cell_ranges or ())
    last_column = max((column for _, column in cells), default=-1)
    columns = (column for first, last in marks.hidden_columns for column in range(first, min(last, last_column) + 1))
    return Grid(
        file,
        name,
        cells,
        tuple(merged),
        hidden,
        hidden_rows=frozenset(marks.hidden_rows),
        hidden_columns=frozenset(columns),
    )


def _cells(rows: Sequence[Sequence[Any]], marks: SheetMarks) -> dict[tuple[int, int], Cell]:
    """Return the cells that are not blank."""
    cells = dict(marks.trouble)
    for row, values in enumerate(rows):
        for column, value in enumerate(values):
            if value == "" or value is None or (row, column) in cells:
                continue
            cell = _cell(value, (row, column), marks)
            if cell.text.strip():
                cells[row, column] = _marked(cell, (row, column), marks)
    return cells


def _marked(cell: Cell, place: tuple[int, int], marks: SheetMarks) -> Cell:
    """Return a cell with the trouble that its style makes: struck through, or white on white."""
    if place in marks.struck:
        return replace(cell, trouble=codes.STRUCK)
    return replace(cell, trouble=cell.trouble or codes.NOT_SHOWN) if place in marks.unseen else cell


def _cell(value: Any, place: tuple[int, int], marks: SheetMarks) -> Cell:
    """Return what a cell with this value shows."""
    if isinstance(value, bool):
        return Cell("TRUE" if value else "FALSE")
    if isinstance(value, float | int):
        shown = marks.formats.get(place)
        text = shown.shown(value) if shown is not None else number_text(value)
        return Cell(text) if text else Cell(number_text(value), codes.NOT_SHOWN)
    if isinstance(value, datetime.date | datetime.time | datetime.timedelta):
        return Cell(_date_text(value), codes.DATE)
    lettered = marks.lettered.get(place)
    if lettered is not None:
        return Cell(lettered.text, codes.STRUCK if lettered.struck else "")
    return Cell(str(value))


def _date_text(value: datetime.date | datetime.time | datetime.timedelta) -> str:
    """Return a date or a time as text; a date without a time of day as "2026-01-02"."""
    if isinstance(value, datetime.datetime) and value.time() == datetime.time():
        value = value.date()
    return str(value)


def _comments(grid: Grid, part: str, parts: Mapping[str, str]) -> Iterator[Diagnostic]:
    """Yield a warning where cells of a sheet carry comments."""
    folder, name = posixpath.split(part)
    cells = {
        attribute(comment[1], "ref")
        for relation in _RELATION.finditer(parts.get(f"{folder}/_rels/{name}.rels", ""))
        for comment in _COMMENT.finditer(parts.get(_target(relation[1], folder), ""))
    }
    if cells:
        listed = sorted(cells, key=lambda cell: (len(cell), cell))
        named = ", ".join(listed[:10]) + (" and more" if len(listed) > 10 else "")
        what = f"comment attached to {named} was" if len(listed) == 1 else f"comments attached to {named} were"
        message = f"the {what} not read"
        help = "write what matters into the cells themselves"
        place = replace(grid.sheet_place, cell=listed[0])
        yield Diagnostic(codes.COMMENTS, Severity.WARNING, message, place, help)


def _target(relation: str, folder: str) -> str:
    """Return the name of the part that a relation leads to."""
    return posixpath.normpath(posixpath.join("/" + folder, unescape(attribute(relation, "Target")))).removeprefix("/")


def _file_notes(file: str, parts: Mapping[str, str]) -> list[Diagnostic]:
    """Note what the workbook carries that is not read."""
    notes = []
    if any("/drawings/" in part and _DRAWN_TEXT.search(text) for part, text in parts.items()):
        message = "the workbook has text in drawings or text boxes, which is not read"
        help = "write what matters into the cells themselves"
        notes.append(Diagnostic(codes.COMMENTS, Severity.NOTE, message, Place(file), help))
    if file.lower().endswith(".xlsm"):
        message = "the workbook may hold macros, which are never run; its cells are read as they were last saved"
        notes.append(Diagnostic(codes.MACROS, Severity.NOTE, message, Place(file)))
    return notes
