"""Schedules in text files: separators, encodings, quotation marks, and JSON."""

from __future__ import annotations

import csv
from pathlib import Path

import pytest

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.language.vocabulary.values import NotGiven
from speccheck.schedule import read_schedule
from speccheck.schedule.formats.opening import open_schedule
from tests.schedule.building import FILES, small_vocabulary, written_columns, written_diagnostics, written_lines


def test_semicolons_quotation_marks_and_line_breaks_in_fields() -> None:
    """Semicolons part the fields; a field in quotation marks holds a line break; dittos, formulas, dates are seen."""
    schedule = read_schedule(FILES / "semicolons.csv", small_vocabulary())
    assert written_lines(schedule) == [
        "P-1: pipe size 2 in; thickness 1-1/2 in; service chilled water; notes first",
        "P-2: pipe size 4 in; thickness 1-1/2 in; service heating hot water; notes two\nlines; one field",
        "P-3: pipe size 1 in; thickness 1-1/2 in; service refrigerant suction; notes not given (=1+1)",
        "P-4: pipe size not given (3-Apr); thickness 1 in; service chilled water",
    ]
    assert written_diagnostics(schedule) == [
        "warning[S303]: the formula `=1+1` has no result in the file\n  at semicolons.csv E4\n"
        "  help: open the file in a spreadsheet program, let it calculate and save it, or write the value itself",
        "warning[S302]: `3-Apr` is a date, which `pipe size` cannot be\n  at semicolons.csv B5\n"
        "  help: format the cell as text and type the value again; programs turn 1/2 into a date",
    ]


def test_tabs_part_fields_and_inch_marks_stay_in_them() -> None:
    """In a file parted by tabs an inch mark at the end of a field is part of the value."""
    schedule = read_schedule(FILES / "tabs.csv", small_vocabulary())
    assert written_lines(schedule) == [
        "P-1: pipe size 2 in; thickness 1 in",
        "P-2: pipe size 2-1/2 in and over; thickness 2 in",
    ]
    assert schedule.diagnostics == ()


def test_lists_inside_the_cells_do_not_part_them(tmp_path: Path) -> None:
    """The separator is what parts the header too, and not what parts the values inside of one column."""
    path = tmp_path / "lists.csv"
    lines = "".join(f"P-{n},chilled water,valves; flanges; fittings; hangers; bolts\n" for n in range(3))
    path.write_text("Mark,Service,Notes\n" + lines, encoding="utf-8")
    schedule = read_schedule(path, small_vocabulary())
    assert written_lines(schedule)[0] == "P-0: service chilled water; notes valves; flanges; fittings; hangers; bolts"
    path.write_text("Mark;Service;Notes\n" + lines.replace(",", ";").replace("; ", ", "), encoding="utf-8")
    schedule = read_schedule(path, small_vocabulary())
    assert written_lines(schedule)[0] == "P-0: service chilled water; notes valves, flanges, fittings, hangers, bolts"


def test_a_file_that_says_its_separator_is_taken_at_its_word() -> None:
    """A first line `sep=,` names the separator and is no row."""
    schedule = read_schedule(FILES / "says_its_separator.csv", small_vocabulary())
    assert written_lines(schedule) == ["P-1: pipe size 2 in; thickness 1 in"]


def test_a_file_in_code_page_1252_is_read_and_says_so() -> None:
    """A file that is not UTF-8 is read in code page 1252, with a note, and ½ and ° come out right."""
    schedule = read_schedule(FILES / "code_page_1252.csv", small_vocabulary())
    assert written_lines(schedule) == ["P-1: pipe size 2 in; operating temperature 180 F; thickness 1-1/2 in"]
    assert schedule.diagnostics == (
        Diagnostic(
            "S108",
            Severity.NOTE,
            "the file is not UTF-8 and was read in the Western code page 1252",
            Place("code_page_1252.csv"),
            "check that signs such as ½ and ° look right, or save the file in UTF-8",
        ),
    )


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le"])
def test_the_encoding_of_unicode_is_found_out(encoding: str, tmp_path: Path) -> None:
    """UTF-8 and UTF-16, with the byte order marks that spreadsheet programs write, give the same line."""
    path = tmp_path / "lines.csv"
    mark = "\ufeff" if encoding == "utf-16-le" else ""
    path.write_bytes((mark + "Mark,Size,Thk\nP-1,2 in,1½ in\n").encode(encoding))
    assert written_lines(read_schedule(path, small_vocabulary())) == ["P-1: pipe size 2 in; thickness 1-1/2 in"]


@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
def test_what_the_csv_module_writes_is_read_back(separator: str, tmp_path: Path) -> None:
    """Rows written by Python's csv module (RFC 4180 quoting) with any separator are read as they were."""
    path = tmp_path / "lines.csv"
    rows = [["Mark", "Size", "Notes"], ["P-1", '2"', f'a "quoted" word{separator} and a rest'], ["P-2", "3 in", '"']]
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, delimiter=separator).writerows(rows)
    schedule = read_schedule(path, small_vocabulary())
    assert written_lines(schedule) == [
        f'P-1: pipe size 2 in; notes a "quoted" word{separator} and a rest',
        f'P-2: pipe size 3 in; notes a "quoted" word{separator} and a rest',
    ]


def test_json_lines_with_places_as_pointers() -> None:
    """Objects are lines, keys are headers, null is not given, a list is a set; places are JSON Pointers (RFC 6901)."""
    schedule = read_schedule(FILES / "lines.json", small_vocabulary())
    assert written_lines(schedule) == [
        "P-1: pipe size 2 in; thickness 1-1/2 in; concealed yes; vapor stop locations valves, flanges",
        "P-2: pipe size 2 in; thickness 0 in; concealed no; vapor stop locations none",
        "line 3: pipe size not given (7 in); thickness 1 in",
    ]
    assert written_columns(schedule)[2] == "key thk (in) thk (in) = thickness in in"
    assert written_diagnostics(schedule) == [
        "warning[S204]: the header `colour` names no term of the vocabulary, and the 1 filled cell under it was not "
        "read\n  at lines.json key colour\n"
        "  help: say in a mapping file what the column is, or add it to `ignore`",
        "warning[S301]: `pipe size`: there is no nominal pipe size `7 in`\n  at lines.json /2/size\n"
        "  help: the nearest sizes are 6 in and 8 in",
    ]


@pytest.mark.parametrize("digits", [40, 400, 4000])
def test_a_number_of_many_digits_is_a_value_that_cannot_be_read(digits: int, tmp_path: Path) -> None:
    """A number that no calculation can hold is told at its place, and is no fault of the program."""
    path = tmp_path / "lines.json"
    path.write_text(f'[{{"mark": "P-1", "thk (in)": {"9" * digits}}}]', encoding="utf-8")
    schedule = read_schedule(path, small_vocabulary())
    assert isinstance(schedule.lines[0].data["thickness"].value, NotGiven)
    assert {found.place.cell for found in schedule.diagnostics} == {"/0/thk (in)"}


def test_text_and_pages_under_the_ending_of_a_workbook_are_read_as_what_they_are(tmp_path: Path) -> None:
    """Programs write separated text or a page of HTML and call it .xls; a note says as what it was read."""
    (tmp_path / "text.xls").write_text("Mark\tService\nP-1\tsteam\n", encoding="utf-8")
    rows = "<tr><td>Mark</td><td>Service</td></tr><tr><td>P-1</td><td>steam</td></tr>"
    (tmp_path / "page.xls").write_text(f"<html><table>{rows}</table></html>", encoding="utf-8")
    told = [str(found) for name in ("text.xls", "page.xls") for found in open_schedule(tmp_path / name)[1]]
    assert told == [
        "note[S113]: the file is separated text and was read as such\n  at text.xls",
        "note[S113]: the file is a page of HTML and was read as one; its rows are counted through all its tables\n"
        "  at page.xls",
    ]
