"""Cells: their names, the numbers in them, and what number formats show beside these."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from openpyxl.styles.numbers import BUILTIN_FORMATS
from openpyxl.utils import get_column_letter

from speccheck.schedule.formats.number_formats import BUILT_IN, parse_format
from speccheck.schedule.grid import column_letters, column_number, number_text


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
        ("0.0", 1.9685, "2"),
        ("0.0", 0.25, "0.3"),
        ("0", 1.5, "2"),
        ("#,##0", 1234.4, "1234"),
        ("0,", 12000.0, "12"),
        ("# ?/?", 1.3333, "1 1/3"),
        ("# ?/8", 0.87, "7/8"),
        ("# ?/8", 1.5, "1.5"),
        ('0;-0;"-"', 0.0, "-"),
        ("0;(0)", -4.0, "-4"),
        ('[<1]0.00" in";0" in"', 0.256, "0.26 in"),
        ('[<1]0.00" in";0" in"', 1.6, "2 in"),
        ("0.00E+00", 12345.6, "12345.6"),
        ("[" * 900, 3.0, ""),
        ("[" * 5000, 3.0, "3"),
    ],
)
def test_what_a_number_format_shows(code: str, number: float, shown: str) -> None:
    """Literal text and percent signs of a format belong to what the reader sees; colours and blanks do not."""
    assert parse_format(code).shown(number) == shown


def test_built_in_formats() -> None:
    """The formats that have a number and no text are those that openpyxl lists, as far as numbers are shown by them."""
    plain = (0, 1, 2, 3, 4, 9, 10, 11, 12, 13, 49)
    assert {number: BUILT_IN[str(number)] for number in plain} == {number: BUILTIN_FORMATS[number] for number in plain}
    dates = (14, 15, 16, 17, 18, 19, 20, 21, 22, 45, 46, 47)
    assert all(parse_format(BUILT_IN[str(number)]).is_date for number in dates)
    assert all(parse_format(BUILTIN_FORMATS[number]).is_date for number in dates)


@pytest.mark.parametrize("code", ["yyyy-mm-dd", "d/m/yy", "[h]:mm", "mm:ss.0", "[$-409]mmm d", 'h" o\'clock"'])
def test_formats_of_dates(code: str) -> None:
    """Letters of days and hours outside quotation marks make a date of a number."""
    assert parse_format(code).is_date


@pytest.mark.parametrize("code", ["General", '0" days"', "0.0", "[Red]0", "@", '"dry"', "# ?/?", "\\d0"])
def test_formats_that_are_no_dates(code: str) -> None:
    """Quoted and escaped letters, colours and digits are no dates."""
    assert not parse_format(code).is_date
