"""The styles of the workbook by name: each verdict has its own frame and letters, so that none needs its colour."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from speccheck.engine.judgement import Verdict

if TYPE_CHECKING:
    from openpyxl.styles import Alignment, Border, Font, NamedStyle, PatternFill
    from openpyxl.workbook import Workbook

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
