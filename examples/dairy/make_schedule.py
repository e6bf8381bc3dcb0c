"""Write schedule.xlsx from schedule.txt, the picture of it in plain text: `python examples/dairy/make_schedule.py`.

In: schedule.txt, whose first lines say how it is written. Out: schedule.xlsx beside it, the same bytes at every run of
the same libraries. The workbook is as messy as the picture; the styles only make it look like one that was sent.
"""

from __future__ import annotations

import datetime
import io
import re
import sys
from collections.abc import Iterator
from pathlib import Path

from openpyxl import Workbook
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.worksheet import Worksheet

from speccheck.report.workbook.report import without_clock

FOLDER = Path(__file__).parent
ALWAYS = datetime.datetime(2026, 3, 4, 9, 0, 0)
SHEET = "-- sheet "
NUMBER = re.compile(r"-?\d+(\.\d+)?")
LINE = Side(style="thin", color="808080")
WIDEST = 24

Rows = list[list[str] | str]


def main() -> int:
    """Write the workbook beside this file and say so."""
    picture = (FOLDER / "schedule.txt").read_text(encoding="utf-8")
    (FOLDER / "schedule.xlsx").write_bytes(workbook_bytes(picture))
    print("schedule.xlsx written")
    return 0


def workbook_bytes(picture: str) -> bytes:
    """Return the workbook that a picture shows, as bytes with nothing in them that changes from run to run."""
    workbook = Workbook()
    workbook.remove(workbook.worksheets[0])
    workbook.properties.creator = "invented for a demonstration"
    workbook.properties.created = ALWAYS
    for name, rows in sheets(picture):
        draw(workbook.create_sheet(name), rows)
    written = io.BytesIO()
    workbook.save(written)
    return without_clock(written.getvalue())


def sheets(picture: str) -> Iterator[tuple[str, Rows]]:
    """Yield the name and the rows of each sheet: a list of cells, or the text of a row merged over the whole width."""
    for part in picture.split(SHEET)[1:]:
        name, *lines = part.rstrip("\n").split("\n")
        yield name, [line if line.startswith("= ") else [cell.strip() for cell in line.split("|")] for line in lines]


def draw(sheet: Worksheet, rows: Rows) -> None:
    """Put the rows into a sheet, merge what the picture merges, and give it the look of an office's schedule."""
    width = max(len(row) for row in rows if isinstance(row, list))
    for number, row in enumerate(rows, start=1):
        if isinstance(row, str):
            draw_heading(sheet, number, width, row.removeprefix("= "))
            continue
        for column, text in enumerate(row, start=1):
            draw_cell(sheet, number, column, text, in_table=len(row) > 2)
    for top, left, bottom, right in merged(rows):
        sheet.merge_cells(start_row=top, start_column=left, end_row=bottom, end_column=right)
    for column in range(1, width + 1):
        longest = max(len(row[column - 1]) for row in rows if isinstance(row, list) and len(row) >= min(column, width))
        sheet.column_dimensions[get_column_letter(column)].width = min(longest, WIDEST) + 2


def draw_heading(sheet: Worksheet, row: int, width: int, text: str) -> None:
    """Write a text over the whole width of the table."""
    cell = sheet.cell(row, 1, text)
    cell.font = Font(bold=True)
    cell.fill = PatternFill("solid", fgColor="D9E2EC")
    sheet.merge_cells(start_row=row, start_column=1, end_row=row, end_column=width)


def draw_cell(sheet: Worksheet, row: int, column: int, text: str, *, in_table: bool) -> None:
    """Write one cell: plain numbers as numbers, all else as text."""
    cell = sheet.cell(row, column)
    if in_table:
        cell.border = Border(LINE, LINE, LINE, LINE)
        cell.alignment = Alignment(wrap_text=True, vertical="top")
    if text and text not in ("^", "<"):
        cell.value = float(text) if NUMBER.fullmatch(text) else text


def merged(rows: Rows) -> Iterator[tuple[int, int, int, int]]:
    """Yield each merged range, from 1: top, left, bottom, right. A range goes to the right or down, never both."""
    cells = {
        (number, column): text
        for number, row in enumerate(rows, start=1)
        if isinstance(row, list)
        for column, text in enumerate(row, start=1)
    }
    for (row, column), text in cells.items():
        if text in ("^", "<"):
            continue
        bottom, right = row, column
        while cells.get((bottom + 1, column)) == "^":
            bottom += 1
        while cells.get((row, right + 1)) == "<":
            right += 1
        if (bottom, right) != (row, column):
            yield row, column, bottom, right


if __name__ == "__main__":
    sys.exit(main())
