"""Cells: their names, the numbers in them, and what number formats show beside these."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl.styles.numbers import BUILTIN_FORMATS
from openpyxl.utils import get_column_letter

from speccheck.schedule.grid import column_letters, column_number, number_text
from speccheck.schedule.number_formats import NumberFormat, formats_by_style, parse_format


@given(st.integers(0, 16383))
def test_columns_have_the_letters_that_spreadsheets_give_them(column: int) -> None:
    """Letters of columns agree with openpyxl's for every column of a workbook, and lead back to the column."""
    assert column_letters(column) == get_column_letter(column + 1)
    assert column_number(column_letters(column)) == column


@pytest.mark.parametrize(
    ("number", "text"),
    [(2.0, "2"), (1.5, "1.5"), (0.1 + 0.2, "0.3"), (-20.0, "-20"), (0.0, "0"), (1e20, "1e+20"), (0.016, "0.016")],
)
def test_numbers_show_without_float_dust(number: float, text: str) -> None:
    """A number shows 15 significant digits at most, as spreadsheet programs do (common practice, no source)."""
    assert number_text(number) == text


@pytest.mark.parametrize(
    ("code", "number", "shown"),
    [
        ("General", 1.5, "1.5"),
        ('0"°F"', 180.0, "180°F"),
        ('# ?/?\\"', 1.5, '1.5"'),
        ('0.0 "in"', 1.5, "1.5in"),
        ('"R-"0', 6.0, "R-6"),
        ("0%", 0.9, "90 %"),
        ("0.00%", 0.905, "90.5 %"),
        ('[Red]0" mm";[Blue]-0" mm"', 25.0, "25 mm"),
        ('_(* #,##0.00_);_(* (#,##0.00);_(* "-"??_);_(@_)', 2.0, "2"),
        ("[$-409]0", 3.0, "3"),
        (";;;", 3.0, ""),
        ('"by others"', 3.0, "by others"),
        ("", 3.0, "3"),
    ],
)
def test_what_a_number_format_shows(code: str, number: float, shown: str) -> None:
    """Literal text and percent signs of a format belong to what the reader sees; colours and blanks do not."""
    assert parse_format(code).shown(number) == shown


def test_formats_of_cells_by_their_style() -> None:
    """Styles lead to built-in and to custom formats; the built-in percentages are those that openpyxl lists."""
    assert (BUILTIN_FORMATS[9], BUILTIN_FORMATS[10]) == ("0%", "0.00%")
    styles = (
        '<styleSheet><numFmts count="1"><numFmt formatCode="0&quot; in&quot;" numFmtId="164"/></numFmts>'
        '<cellStyleXfs><xf numFmtId="9"/></cellStyleXfs>'
        '<cellXfs count="4"><xf numFmtId="0"/><xf numFmtId="9"/><xf numFmtId="164"/><xf numFmtId="10"/></cellXfs>'
        "</styleSheet>"
    )
    assert formats_by_style(styles) == {
        1: NumberFormat("", " %", True),
        2: NumberFormat("", " in", False),
        3: NumberFormat("", " %", True),
    }
