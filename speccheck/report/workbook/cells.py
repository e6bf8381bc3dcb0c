"""Cells, sheets and styles of a workbook: text that stays text, a frame and letters for each verdict, the set-up for
print.

Sheets come in as openpyxl worksheets and are filled in place.
"""

from __future__ import annotations

from collections.abc import Iterable
from copy import copy
from typing import TYPE_CHECKING, Any, Literal, cast
from weakref import WeakKeyDictionary

from speccheck.judge.judgement import Verdict
from speccheck.report.escaping import plain, starts_like_formula

if TYPE_CHECKING:
    from openpyxl.cell import Cell
    from openpyxl.styles import Alignment, Border, Font, NamedStyle, PatternFill
    from openpyxl.workbook import Workbook
    from openpyxl.worksheet.worksheet import Worksheet


TEXT, HEADER, CLAUSE_HEADER = "schedule text", "table heading", "clause heading"
TITLE, SUBTITLE = "sheet title", "sheet subtitle"

_INK, _QUIET, _WARM, _COOL = "FF23272B", "FF5C6065", "FF8C3A1D", "FF23566B"
_ON_WARM, _COOL_WASH, _PAPER = "FFFFF9F4", "FFE4EEF1", "FFF1ECE2"


def add_styles(workbook: Workbook) -> None:
    """Give a workbook the styles: those named above, and one for each verdict under the verdict's own words."""
    for style in (*_text_styles(), *_verdict_styles()):
        workbook.add_named_style(style)


def _text_styles() -> tuple[NamedStyle, ...]:
    """Return the styles of text and headings."""
    from openpyxl.styles import Alignment, Border

    ink, bold = _font(_INK), _font(_INK, bold=True)
    level = Alignment(vertical="center")
    wrapped = Alignment(vertical="top", wrap_text=True)
    upright = Alignment(horizontal="center", vertical="bottom", text_rotation=90, wrap_text=True)
    return (
        _style(TEXT, ink, _frame("hair", _QUIET), wrapped),
        _style(TITLE, _font(_INK, bold=True, size=14), Border(), level),
        _style(SUBTITLE, ink, Border(), level),
        _style(HEADER, bold, _frame("thin", _QUIET), wrapped, _PAPER),
        _style(CLAUSE_HEADER, bold, _frame("thin", _QUIET), upright, _PAPER),
    )


def _verdict_styles() -> tuple[NamedStyle, ...]:
    """Return the styles of the marks."""
    from openpyxl.styles import Alignment

    centre = Alignment(horizontal="center", vertical="center")
    fails, asks = _font(_ON_WARM, bold=True), _font(_COOL)
    return (
        _style(Verdict.FAILS, fails, _frame("medium", _WARM), centre, _WARM),
        _style(Verdict.CANNOT_TELL, asks, _frame("dashed", _COOL), centre, _COOL_WASH),
        _style(Verdict.ACCEPTED, _font(_INK, bold=True), _frame("thin", _QUIET), centre, _PAPER),
        _style(Verdict.COMPLIES, _font(_INK), _frame("hair", _QUIET), centre),
        _style(Verdict.NOT_CHECKED, _font(_COOL), _frame("hair", _QUIET), centre),
        _style(Verdict.NOT_APPLICABLE, _font(_QUIET), _frame("hair", _QUIET), centre),
    )


def _font(colour: str, *, bold: bool = False, size: float = 10) -> Font:
    """Return the font of the workbook, a plain one that every system has or replaces by its like."""
    from openpyxl.styles import Font

    return Font(name="Arial", size=size, bold=bold, color=colour)


def _frame(style: Literal["hair", "thin", "medium", "dashed"], colour: str) -> Border:
    """Return a border that is alike on all four sides."""
    from openpyxl.styles import Border, Side

    side = Side(style=style, color=colour)
    return Border(left=side, right=side, top=side, bottom=side)


def _style(name: str, font: Font, border: Border, alignment: Alignment, colour: str = "") -> NamedStyle:
    """Return a named style out of its parts; `colour` fills the cell."""
    from openpyxl.styles import NamedStyle, PatternFill

    fill: PatternFill = PatternFill("solid", fgColor=colour) if colour else PatternFill()
    return NamedStyle(str(name), font=font, border=border, alignment=alignment, fill=fill)


LINE_HEIGHT, MOST_HEIGHT = 13.0, 400.0  # points; the format allows 409
MOST_CHARACTERS = 32_767  # the most that a cell of the Office Open XML format holds


def put(sheet: Worksheet, row: int, column: int, text: str, style: str = TEXT) -> None:
    """Write `text` as text, whatever it starts with.

    The cell's type is string, so no program computes it. Where the text could be read as a formula, the cell also
    has the quote-prefix mark, so that it stays text when somebody edits it.
    """
    cell = cast("Cell", sheet.cell(row, column))
    _set_style(cell, style)
    shown = cell_text(text)
    if shown:
        cell.value = shown
        cell.data_type = "s"
    if starts_like_formula(shown):
        _apart(cell)
        cell.quotePrefix = True


def cell_text(text: str) -> str:
    """Return what of a text a cell holds."""
    return plain(text)[:MOST_CHARACTERS]


def _set_style(cell: Any, style: str) -> None:
    """Give a cell a named style; cells of one style share what the library looks up for the first of them in a file."""
    known = _STYLES.setdefault(cell.parent.parent, {})
    if style not in known:
        cell.style = style
        known[style] = cell._style
    cell._style = known[style]


def _apart(cell: Any) -> None:
    """Give a cell a style of its own, of which something is to be changed."""
    cell._style = copy(cell._style)


_STYLES: WeakKeyDictionary[object, dict[str, Any]] = WeakKeyDictionary()
"""The styles that cells share, by workbook and name."""


def set_widths(sheet: Worksheet, widths: Iterable[float]) -> None:
    """Set the widths of the columns from the first on, in characters."""
    from openpyxl.utils import get_column_letter

    for column, width in enumerate(widths, 1):
        sheet.column_dimensions[get_column_letter(column)].width = width


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
