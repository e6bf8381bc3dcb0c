"""TOML files: an array of tables is read as a list of JSON objects is."""

from __future__ import annotations

import datetime
from pathlib import Path

import pytest

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.schedule import read_schedule
from tests.schedule.building import FILES, small_vocabulary, write_workbook, written_diagnostics, written_lines

SHAPE = "write one array of tables, such as [[product]], with a text, a number, true or false for each term"


def test_tables_of_an_array_are_lines() -> None:
    """Keys are headers, values are cells, lists are sets, and a date is the text of the date."""
    schedule = read_schedule(FILES / "lines.toml", small_vocabulary())
    assert written_lines(schedule) == [
        "P-1: pipe size 2 in; thickness 1-1/2 in; concealed yes; vapor stop locations valves, flanges; "
        "notes 2024-05-17",
        "P-2: pipe size 2 in; thickness 0 in",
    ]
    assert written_diagnostics(schedule) == []
    assert schedule.lines[0].data["pipe size"].place == Place("lines.toml", cell="/0/size")


@pytest.mark.parametrize(
    ("text", "message", "line"),
    [
        ('[[line]]\nmark = "P-1\n', "this is not toml: illegal character '\\n'", 2),
        ('mark = "P-1"\n', "`bad.toml` is not one array of tables", 1),
        ('[[a]]\nsize = "2 in"\n[[b]]\nsize = "2 in"\n', "`bad.toml` is not one array of tables", 3),
    ],
)
def test_other_shapes_are_refused(text: str, message: str, line: int, tmp_path: Path) -> None:
    """Text that is no TOML, and TOML that is not one array, are each one error with what to write instead."""
    path = tmp_path / "bad.toml"
    path.write_text(text, encoding="utf-8")
    (found,) = read_schedule(path, small_vocabulary()).diagnostics
    assert (found.code, found.severity, found.help) == ("S111", Severity.ERROR, SHAPE)
    assert found.message.casefold() == message
    assert (found.place.file, found.place.line) == ("bad.toml", line)


def test_array_of_something_else_is_refused_as_in_json(tmp_path: Path) -> None:
    """An array that does not hold tables has the shape of no schedule."""
    path = tmp_path / "bad.toml"
    path.write_text("line = [1, 2]\n", encoding="utf-8")
    help = "write a list of objects, one for each line, with a text, a number, true, false or null for each term"
    expected = Diagnostic("S109", Severity.ERROR, "this is not a list of objects", Place("bad.toml", cell="/0"), help)
    assert read_schedule(path, small_vocabulary()).diagnostics == (expected,)


def test_text_that_is_not_utf_8_is_refused(tmp_path: Path) -> None:
    """TOML is UTF-8 by its definition."""
    path = tmp_path / "bad.toml"
    path.write_bytes(b'[[line]]\nmark = "\xff"\n')
    expected = Diagnostic(
        "S111",
        Severity.ERROR,
        "`bad.toml` is not text in UTF-8",
        Place("bad.toml"),
        "save it as text in UTF-8",
    )
    assert read_schedule(path, small_vocabulary()).diagnostics == (expected,)


def test_date_in_a_workbook_is_the_text_of_a_text_term(tmp_path: Path) -> None:
    """A cell with a date states a text term as year, month, day, and still states no size."""
    path = tmp_path / "lines.xlsx"
    dates = {"C2": datetime.date(2024, 5, 17), "B3": datetime.date(2026, 1, 2)}
    write_workbook(path, [{"rows": "Mark|Size|Notes\nP-1|2 in|\nP-2||later", "dates": dates}])
    schedule = read_schedule(path, small_vocabulary())
    assert schedule.lines[0].data["notes"].value == "2024-05-17"
    assert [found.code for found in schedule.diagnostics] == ["S302"]
