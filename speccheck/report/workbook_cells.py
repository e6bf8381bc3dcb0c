"""Cells and sheets of a workbook: text that stays text, widths, frozen panes, filters, the set-up for print.

Sheets come in as openpyxl worksheets and are filled in place.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import ceil
from typing import TYPE_CHECKING, cast

from speccheck.report.escaping import plain, starts_like_formula
from speccheck.report.workbook_styles import HEADER, TEXT

if TYPE_CHECKING:
    from openpyxl.cell import Cell
    from openpyxl.worksheet.worksheet import Worksheet

LINE_HEIGHT, MOST_HEIGHT = 13.0, 400.0  # points; the format allows 409
MOST_CHARACTERS = 32_767  # the most that a cell of the Office Open XML format holds


def put(sheet: Worksheet, row: int, column: int, text: str, style: str = TEXT) -> None:
    """Write `text` as text, whatever it starts with.

    The cell's type is string, so no program computes it. Where the text could be taken for a formula, the cell also
    has the quote-prefix mark, so that it stays text when somebody edits it.
    """
    cell = cast("Cell", sheet.cell(row, column))
    cell.style = style
    shown = plain(text)[:MOST_CHARACTERS]
    if shown:
        cell.value = shown
        cell.data_type = "s"
    if starts_like_formula(shown):
        cell.quotePrefix = True


def put_rows(sheet: Worksheet, headings: Sequence[tuple[str, float]], rows: Iterable[Sequence[str]]) -> None:
    """Fill a sheet with a table: headings with the width of their columns, frozen and with a filter, then the rows."""
    for column, (heading, _) in enumerate(headings, 1):
        put(sheet, 1, column, heading, HEADER)
    widths = [width for _, width in headings]
    set_widths(sheet, widths)
    set_height(sheet, 1, [heading for heading, _ in headings], widths)
    last = 1
    for last, row in enumerate(rows, 2):
        for column, text in enumerate(row, 1):
            put(sheet, last, column, text)
        set_height(sheet, last, row, widths)
    sheet.freeze_panes = "B2"
    finish(sheet, header_row=1, last_row=last, last_column=len(headings))


def set_widths(sheet: Worksheet, widths: Iterable[float]) -> None:
    """Set the widths of the columns from the first on, in characters."""
    from openpyxl.utils import get_column_letter

    for column, width in enumerate(widths, 1):
        sheet.column_dimensions[get_column_letter(column)].width = width


def set_height(sheet: Worksheet, row: int, texts: Sequence[str], widths: Sequence[float]) -> None:
    """Make a row as high as its longest text needs when it is wrapped; not every program does so by itself."""
    lines = max((ceil(len(text) * 1.1 / width) for text, width in zip(texts, widths, strict=True)), default=1)
    sheet.row_dimensions[row].height = min(LINE_HEIGHT * max(lines, 1) + 2, MOST_HEIGHT)


def finish(sheet: Worksheet, *, header_row: int, last_row: int, last_column: int) -> None:
    """Give a sheet its filter and its print set-up: landscape, as wide as the paper, header row on every page."""
    from openpyxl.utils import get_column_letter
    from openpyxl.worksheet.properties import PageSetupProperties

    sheet.auto_filter.ref = f"A{header_row}:{get_column_letter(last_column)}{max(last_row, header_row)}"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToWidth = 1
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    sheet.print_title_rows = f"{header_row}:{header_row}"
    if sheet.oddFooter is not None:
        sheet.oddFooter.left.text = "&A"
        sheet.oddFooter.right.text = "&P / &N"
