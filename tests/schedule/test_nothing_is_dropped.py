"""Nothing is dropped without a word: every filled cell of a sheet ends up somewhere that a reader can see."""

from __future__ import annotations

import re
import tempfile
from pathlib import Path

import openpyxl
from hypothesis import given, settings
from openpyxl.utils import get_column_letter

from speccheck.schedule import Schedule, read_schedule
from tests.schedule.building import small_vocabulary
from tests.strategies.schedules import messy_sheets

Sheet = tuple[list[list[str]], list[tuple[int, int, int, int]]]


def told_cells(schedule: Schedule) -> set[str]:
    """Return the names of all cells that a schedule speaks of, in data and their notes, remarks and diagnostics."""
    texts = [remark.place.cell for remark in schedule.remarks]
    for line in schedule.lines:
        for datum in line.data.values():
            texts += [datum.place.cell, datum.note]
    for found in schedule.diagnostics:
        texts += [found.place.cell, found.message]
    return {cell for text in texts for cell in re.findall(r"\b[A-Z]+[0-9]+\b", text)}


def is_told(schedule: Schedule, cell: str, text: str, told: set[str]) -> bool:
    """Whether a filled cell went into a datum, a remark, a header, the name of a line or a diagnostic."""
    letters = cell.rstrip("0123456789")
    shown = " ".join(text.split())
    if cell in told or any(line.place.cell == cell and line.name.startswith(shown) for line in schedule.lines):
        return True
    for column in schedule.columns:
        if column.place.cell.rstrip("0123456789") == letters and (shown in column.header or not column.term):
            return True  # a word of its header, or a column that was told not to be understood
    return any(shown in column.header.split(" / ") for column in schedule.columns) or any(
        found.code in ("S201", "S202", "S208") for found in schedule.diagnostics
    )


@settings(max_examples=250, deadline=None)
@given(messy_sheets())
def test_every_filled_cell_ends_up_somewhere(sheet: Sheet) -> None:
    """Whatever stands in a sheet, each filled cell is a datum, part of a header, a remark, or told in a diagnostic."""
    rows, merged = sheet
    book = openpyxl.Workbook()
    page = book.active
    assert page is not None
    for row in rows:
        page.append([text or None for text in row])
    for top, left, bottom, right in merged:
        page.merge_cells(start_row=top, start_column=left, end_row=bottom, end_column=right)
    filled = {
        f"{get_column_letter(cell.column)}{cell.row}": str(cell.value)
        for line in page.iter_rows()
        for cell in line
        if cell.value is not None
    }
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "messy.xlsx"
        book.save(path)
        schedule = read_schedule(path, small_vocabulary())
    told = told_cells(schedule)
    assert [cell for cell, text in filled.items() if not is_told(schedule, cell, text, told)] == []
