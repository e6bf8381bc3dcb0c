"""The workbook: text stays text, the sheets are ready to use, the bytes are the same each time."""

from __future__ import annotations

import io
import re
import zipfile
from pathlib import Path

import openpyxl
import pytest
import python_calamine
from hypothesis import given, settings
from hypothesis import strategies as st
from openpyxl.workbook import Workbook

from speccheck.report.workbook.cells import TEXT, add_styles, put
from speccheck.report.workbook.report import render_workbook, without_clock
from speccheck.report.workbook.streaming import StreamedSheet, StreamedWorkbook
from speccheck.review.matrix import Matrix
from tests.report.small_matrix import large_matrix
from tests.some import some


@pytest.fixture(scope="module")
def workbook(plant: Matrix) -> Workbook:
    """The workbook of the small plant, opened again."""
    return openpyxl.load_workbook(io.BytesIO(render_workbook(plant)))


def rows(workbook: Workbook, sheet: str) -> list[tuple[str, ...]]:
    """Return the rows of a sheet as text, blanks as ""."""
    return [tuple(str(value or "") for value in row) for row in workbook[sheet].iter_rows(values_only=True)]


def test_sheets(workbook: Workbook) -> None:
    """The workbook has the matrix first, then the lists."""
    assert workbook.sheetnames == [
        "Matrix",
        "Findings",
        "Information needed",
        "Recommendations",
        "How it was read",
        "Cautions",
    ]


def test_matrix_sheet_has_the_data_of_the_line_beside_its_marks(workbook: Workbook) -> None:
    """A row holds what the contractor wrote, then one mark for each clause, in words that need no colour."""
    header, *lines = rows(workbook, "Matrix")[3:]
    assert header[:4] == ("Line", "service", "pipe size", "operating temperature")
    assert header[-4:] == (
        "2.1.A Minimum thickness, heating hot water",
        "3.4.C Vapor stops",
        "3.6.B Outdoor jackets",
        "3.9 Colour of jackets",
    )
    assert lines[0] == ("CHW-1", "CHW", "2 in through 4 in", "42 F", "1 in", "TBD", "", "–", "info", "–", "–")
    assert lines[2][-4:] == ("FAIL", "–", "ok*", "–")


def test_findings_sheet_has_one_row_a_finding_to_paste_into_a_reply(workbook: Workbook) -> None:
    """What does not comply comes first; place, wording and source stand in the row; the last column is for a note."""
    header, *found = rows(workbook, "Findings")
    assert header[-1] == "Reviewer's note"
    assert found[0] == (
        "HHW-1",
        "sheet Piping, A6",
        "heating hot water",
        "2.1.A",
        "Minimum thickness, heating hot water",
        "does not comply",
        "the thickness is 1-1/2 in, and at least 2 in is asked for",
        "2 in",
        "Insulate heating hot water piping to the thickness scheduled.",
        "ASHRAE 90.1, Table 6.8.3-1",
        "second hand",
        "",
    )
    assert [row[0] for row in found] == ["HHW-1", "CHW-1", "CHW-2"]
    assert [row[5] for row in found] == ["does not comply", "cannot be determined", "cannot be determined"]


def test_missing_data_sheet_says_what_stands_in_the_place_of_the_datum(workbook: Workbook) -> None:
    """ "TBD" and a column that is not there are told apart, and the clauses that wait are named."""
    assert [row[3:6] for row in rows(workbook, "Information needed")[1:]] == [
        ("vapor stop spacing", "TBD (to be settled later)", "3.4.C"),
        ("vapor stop spacing", "not stated", "3.4.C"),
    ]


def test_advice_and_reading_have_sheets_of_their_own(workbook: Workbook) -> None:
    """Advice is kept out of the findings; what was not understood is told with sheet and cell."""
    assert [row[5:7] for row in rows(workbook, "Recommendations")[1:]] == [
        ("does not comply", "the jacket is 0.016 in thick, and at least 0.024 in is advised"),
        ("cannot be determined", "the colour is not given"),
    ]
    assert ("column", "sheet Piping, D3", "Rmk by PM", "no term", "", "") in rows(workbook, "How it was read")


def test_sheets_are_ready_for_screen_and_paper(workbook: Workbook) -> None:
    """Panes are frozen, filters set, paper is landscape and one page wide, and headers repeat."""
    matrix = workbook["Matrix"]
    assert matrix.freeze_panes == "D5", "line, service and pipe size stay in sight"
    assert (matrix.auto_filter.ref, matrix.print_title_rows, matrix.print_title_cols) == ("A4:K8", "$4:$4", "$A:$A")
    folded = [letter for letter, column in matrix.column_dimensions.items() if column.hidden]
    assert folded == ["D", "E", "F", "G"], "the other data are folded, so that the marks stand beside the line"
    assert {matrix.column_dimensions[letter].outlineLevel for letter in folded} == {1}, "and can be unfolded"
    for sheet in workbook.worksheets:
        assert sheet.page_setup.orientation == "landscape"
        assert (sheet.page_setup.fitToWidth, sheet.page_setup.fitToHeight) == (1, 0)
        assert sheet.auto_filter.ref


def test_no_text_becomes_a_formula(hostile: Matrix) -> None:
    """Opened again, each text that starts like a formula is a string with the quote prefix; no cell holds a formula."""
    content = render_workbook(hostile)
    opened = openpyxl.load_workbook(io.BytesIO(content))
    cells = [cell for sheet in opened.worksheets for row in sheet.iter_rows() for cell in row if cell.value is not None]
    assert {cell.data_type for cell in cells} == {"s"}
    doubtful = [cell for cell in cells if re.match(r"\s*[=+\-@]", str(cell.value))]
    assert {str(cell.value) for cell in doubtful} >= {
        '=HYPERLINK("http://invalid.invalid","x")',
        "-2+3",
        "@cmd",
        "=2+5+cmd|' /C calc'!A0",
        "@SUM(A1:A9)",
        " =1+1",
    }
    assert all(cell.quotePrefix for cell in some(doubtful))
    assert not [cell.value for cell in cells if cell.quotePrefix and cell not in doubtful]
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        sheets = [archive.read(name) for name in archive.namelist() if "worksheets/" in name]
    assert not [sheet for sheet in sheets if b"<f>" in sheet or b"<f " in sheet]


def test_another_reader_sees_the_same_text(hostile: Matrix) -> None:
    """python-calamine, which shares no code with the writer, reads the same strings, without control codes."""
    read = python_calamine.load_workbook(io.BytesIO(render_workbook(hostile)))
    texts = {cell for row in read.get_sheet_by_name("Findings").to_python() for cell in row}
    assert '=HYPERLINK("http://invalid.invalid","x")' in texts
    assert "+1 [31mred [0m" in texts
    assert not [text for text in texts if re.search(r"[\x00-\x1f\x7f]", str(text))]


def test_bytes_are_the_same_each_time_and_carry_no_clock(plant: Matrix) -> None:
    """All dates inside are one fixed day, so that two runs give the same file."""
    content = render_workbook(plant)
    assert content == render_workbook(plant)
    with zipfile.ZipFile(io.BytesIO(content)) as archive:
        assert {entry.date_time for entry in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
        core = archive.read("docProps/core.xml").decode()
    assert re.findall(r"\d{4}-\d\d-\d\dT[\d:]+Z", core) == ["1980-01-01T00:00:00Z"] * 2


def test_long_text_is_cut_at_what_a_cell_holds(plant: Matrix, tmp_path: Path) -> None:
    """A cell of the Office Open XML format holds 32,767 characters (ECMA-376, 18.18.90 and the makers' limits)."""
    from dataclasses import replace

    clause = replace(plant.ruleset.clauses[0], wording="x" * 40_000)
    ruleset = replace(plant.ruleset, clauses=(clause, *plant.ruleset.clauses[1:]))
    target = tmp_path / "report.xlsx"
    target.write_bytes(render_workbook(Matrix(plant.schedule, ruleset, plant.cells)))
    assert len(rows(openpyxl.load_workbook(target), "Findings")[1][8]) == 32_767


def test_wide_matrix(tmp_path: Path) -> None:
    """Many clauses only make the matrix wider; the file opens again with all of them."""
    opened = openpyxl.load_workbook(io.BytesIO(render_workbook(large_matrix(10, 60))))
    assert (opened["Matrix"].max_row, opened["Matrix"].max_column) == (14, 65)


@settings(max_examples=50, deadline=None)
@given(st.lists(st.lists(st.text(max_size=12), min_size=1, max_size=5), min_size=1, max_size=5))
def test_streamed_rows_read_back_as_they_were(drawn: list[list[str]]) -> None:
    """Whatever the texts of a row are, openpyxl reads from the streamed sheet what it reads from its own cells."""
    plainly, book = openpyxl.Workbook(), openpyxl.Workbook()
    sheet = StreamedSheet(book.worksheets[0], StreamedWorkbook(book.worksheets[0]))
    for one in (plainly, book):
        add_styles(one)
    for number, row in enumerate(drawn, 1):
        sheet.add(row, [TEXT] * len(row))
        for column, text in enumerate(row, 1):
            put(plainly.worksheets[0], number, column, text)
    sheet.measure()
    opened = []
    for one in (plainly, book):
        one.save(written := io.BytesIO())
        rows_of = {} if one is plainly else {"xl/worksheets/sheet1.xml": sheet.rows}
        opened.append(openpyxl.load_workbook(io.BytesIO(without_clock(written.getvalue(), rows_of))).worksheets[0])
    read = [[[(cell.value, cell.style, cell.quotePrefix) for cell in row] for row in one.iter_rows()] for one in opened]
    assert read[0] == read[1]
    assert [len(row) for row in read[0]] == [max(map(len, drawn))] * len(drawn)
