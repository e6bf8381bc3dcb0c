"""Make `schedule.xlsx` from `schedule.txt`: one sheet, a title above the table, numbers as a German office writes them.

Run `python examples/brewery/make_schedule.py` from the top folder of the repository.
"""

from __future__ import annotations

import datetime
from pathlib import Path

from openpyxl import Workbook
from openpyxl.styles import Alignment, Font

FOLDER = Path(__file__).parent
ALWAYS = datetime.datetime(2026, 11, 29, 9, 0, 0)
TITLE = "Dämmplan der erfundenen Brauerei Hopfenau / insulation schedule of the invented brewery"


def main() -> None:
    """Write the workbook beside the text."""
    rows = [[cell.strip() for cell in line.split("|")] for line in _lines()]
    book = Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.title = "Dämmplan"
    sheet.append([TITLE])
    sheet.append([])
    for number, row in enumerate(rows):
        sheet.append(row)
        for cell in sheet[sheet.max_row]:
            cell.font = Font(bold=number == 0)
            cell.alignment = Alignment(wrap_text=True, vertical="top")
    for column in range(1, len(rows[0]) + 1):
        sheet.column_dimensions[sheet.cell(3, column).column_letter].width = 18
    book.properties.created = book.properties.modified = ALWAYS
    book.save(FOLDER / "schedule.xlsx")


def _lines() -> list[str]:
    return [line for line in (FOLDER / "schedule.txt").read_text(encoding="utf-8").splitlines() if line]


if __name__ == "__main__":
    main()
