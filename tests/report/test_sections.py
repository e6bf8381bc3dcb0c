"""What a review finds beside the verdicts, in every report: deviations, design list, product data, the round before."""

from __future__ import annotations

import datetime
import io
import json
from dataclasses import replace

import pytest
from openpyxl import load_workbook
from rich.console import Console

from speccheck.language.diagnostics import Place
from speccheck.report.html.page import render_page
from speccheck.report.json.report import render_json
from speccheck.report.markdown.report import render_markdown
from speccheck.report.sections import ReportTable, sections, to_be_read
from speccheck.report.terminal.report import print_matrix
from speccheck.report.wording import mark
from speccheck.report.workbook.report import render_workbook
from speccheck.review.accepting import accept_deviations
from speccheck.review.conditions import read_condition
from speccheck.review.deviations import Deviation, Register
from speccheck.review.matrix import Matrix
from speccheck.review.reviewing import review_matrix
from speccheck.review.rounds import compare_rounds
from speccheck.schedule import Schedule
from speccheck.schedule.lines import Unread, UnreadKind
from tests.report.page_reader import read_page
from tests.review.rounds import line_of, line_with, matrix_of, plant, ruleset, value
from tests.some import some


@pytest.fixture(name="reviewed", scope="module")
def reviewed_once() -> Matrix:
    """The plant's second round, reviewed for all these tests."""
    return second_round()


def second_round() -> Matrix:
    """The plant's second round: P-2 mended, P-4 accepted, P-1 changed silently, P-9 without a system."""
    condition = read_condition("pipe size is 4 in and orientation is vertical", ruleset(), Place())
    assert not isinstance(condition, tuple)
    deviation = Deviation("D-1", "1.2", condition, "as read", "Short <risers>", "RFI 12", datetime.date(2026, 6, 30))
    mended = line_with(line_of("P-2"), thickness=value("thickness", "1 in"))
    changed = line_with(line_of("P-1"), vapor_stop_spacing=value("vapor stop spacing", "12 ft"))
    lines = [changed, mended, *plant()[2:]]
    design = Schedule("design.csv", tuple(line for line in plant() if line.name != "P-9"))
    products = Schedule("products.toml", (line_of("P-5"),))
    matrix = accept_deviations(matrix_of(lines), Register("deviations.toml", (deviation,)), datetime.date(2026, 3, 4))
    matrix = review_matrix(matrix, design=design, products=products)
    return compare_rounds(matrix_of(plant(), "round-1.csv"), matrix)


def titles(found: tuple[ReportTable, ...]) -> list[str]:
    """Return the titles of sections."""
    return [section.title for section in found]


def test_sections_are_those_that_have_something_to_tell(reviewed: Matrix) -> None:
    """Nothing is told of what was not asked about, and no section is empty."""
    assert titles(sections(matrix_of(plant()))) == []
    assert titles(sections(reviewed)) == [
        "Accepted deviations",
        "Design list",
        "Product data",
        "Findings since the round before",
        "Changes not requested",
        "Findings closed",
        "Changes that were asked for",
    ]
    assert all(section.rows and len(section.title) <= 31 for section in some(sections(reviewed)))


def test_what_a_person_has_to_read_stands_first() -> None:
    """A remark, with its lines and its place, comes before every finding, in all reports."""
    remark = Unread(UnreadKind.REMARK, "valves left <bare>", Place("plant.csv", cell="R3"), ("P-2", "P-3"))
    matrix = matrix_of(plant())
    matrix = replace(matrix, schedule=replace(matrix.schedule, unread=(remark,)))
    (section,) = to_be_read(matrix.schedule)
    assert section.rows == (("remark", "valves left <bare>", "on P-2, P-3", "R3"),)
    console = Console(record=True, width=100, file=io.StringIO())
    print_matrix(matrix, console)
    page = render_page(matrix)
    for text in (console.export_text(), render_markdown(matrix), page[page.index("<main>") :]):
        after = text.rindex("For a person to read", 0, text.index("not read as data and may"))
        assert after < text.index("valves left") < text.index("P-1")
    assert load_workbook(io.BytesIO(render_workbook(matrix))).sheetnames[:2] == ["Matrix", "For a person to read"]
    assert json.loads(render_json(matrix))["schedule"]["unread"] == [
        {
            "kind": "remark",
            "text": "valves left <bare>",
            "place": {"file": "plant.csv", "line": 0, "column": 0, "sheet": "", "cell": "R3"},
            "lines": ["P-2", "P-3"],
        }
    ]
    assert to_be_read(matrix_of(plant()).schedule) == ()


def test_accepted_deviation_is_never_shown_as_complying(reviewed: Matrix) -> None:
    """Page, workbook, JSON and Markdown have a mark of its own in the cell, and the reason for accepting it."""
    row = [line.name for line in reviewed.schedule.lines].index("P-4")
    column = [clause.label for clause in reviewed.ruleset.clauses].index("1.2")
    assert mark(reviewed.cells[row][column]) == "dev"
    accepted = json.loads(render_json(reviewed))
    cell = next(one for one in accepted["cells"] if (one["line"], one["clause"]) == (row, column))
    assert cell["verdict"] == "accepted deviation"
    assert accepted["deviations"][0]["accepted_on"] == [row]
    page = read_page(render_page(reviewed))
    plain = [one.text for one in page.named("tr") if "noscript" in one.inside]
    assert "accepted deviation" in plain[0]
    assert "1.2" in next(one for one in plain if one.startswith("P-4"))
    table = next(one.text for one in page.named("script") if one.attributes.get("id") == "details")
    marks = [json.loads(table)["texts"][kind[3]] for kind in json.loads(table)["kinds"]]
    assert marks.count("dev") == 1
    sheet = load_workbook(io.BytesIO(render_workbook(reviewed)))["Accepted deviations"]
    assert [cell.value for cell in sheet[2]][:2] == ["P-4", "1.2 Vapor stops"]
    assert "Short <risers> (RFI 12, until 2026-06-30)" in str(sheet["D2"].value)


def test_every_report_tells_every_section(reviewed: Matrix) -> None:
    """Each title and each text of each row stands in the page, the workbook and the Markdown."""
    page = " ".join(one.text for one in read_page(render_page(reviewed)).named("section"))
    markdown = render_markdown(reviewed)
    workbook = load_workbook(io.BytesIO(render_workbook(reviewed)))
    for section in some(sections(reviewed)):
        assert section.title in page
        assert f"## {section.title}" in markdown
        told = {str(cell) for row in workbook[section.title].iter_rows(values_only=True) for cell in row if cell}
        for row in some(section.rows):
            assert {text for text in row if text} <= told
            assert all(text.replace("`", "") in page for text in some(row))


def test_terminal_tells_what_somebody_has_to_look_at(reviewed: Matrix) -> None:
    """Within 80 columns the terminal has the deviation, the omission, the silent change; what is closed is counted."""
    console = Console(file=io.StringIO(), width=80)
    print_matrix(reviewed, console)
    assert isinstance(console.file, io.StringIO)
    printed = console.file.getvalue()
    assert max(map(len, printed.splitlines())) <= 80
    words = " ".join(printed.split())
    assert "P-4 1.2 Vapor stops vapor stop spacing is 18 ft, but must be at most 15 ft" in words
    assert "the design has nothing for line `P-9`" in words
    assert "P-1 vapor stop spacing then: 15 ft now: 12 ft" in words
    assert "Findings closed Findings of the round before that are met now, or accepted as deviations. 2 rows" in words


def test_json_follows_findings_and_changes(reviewed: Matrix) -> None:
    """The comparison of the JSON report has each finding with its fate and each change with its kind."""
    found = json.loads(render_json(reviewed))["comparison"]
    fates = {(one["line"], one["clause"]): one["fate"] for one in found["findings"]}
    assert fates["P-2", "1.1"] == "closed"
    assert fates["P-4", "1.2"] == "accepted as a deviation"
    assert fates["P-6", "1.1"] == "still open"
    assert {(one["line"], one["term"], one["kind"]) for one in found["changes"]} == {
        ("P-1", "vapor stop spacing", "no finding asked for it"),
        ("P-2", "thickness", "a finding asked for it"),
    }
    assert (found["then"], found["now"]) == ("round-1.csv", "schedule.xlsx")


def test_report_without_anything_beside_it_says_so_in_json() -> None:
    """A plain check has no deviations, no observations and no comparison."""
    report = json.loads(render_json(matrix_of(plant())))
    assert (report["deviations"], report["observations"], report["comparison"]) == ([], [], None)


def test_text_of_others_stays_text() -> None:
    """Names that look like formulas or markup, in a design list or a register, come out as text in every report."""
    evil = "=1+1 <script>alert(1)</script> | *x*"
    design = Schedule("design.csv", (replace(line_with(line_of("P-1"), service="glycol"), name=evil),))
    matrix = review_matrix(matrix_of(plant()), design=design)
    assert "<script>alert" not in render_page(matrix)
    assert evil in " ".join(one.text for one in read_page(render_page(matrix)).named("td"))
    cells = [
        cell
        for row in load_workbook(io.BytesIO(render_workbook(matrix)))["Design list"].iter_rows()
        for cell in row
        if cell.value is not None
    ]
    assert any(evil in str(cell.value) for cell in cells)
    assert {cell.data_type for cell in cells} == {"s"}
    assert "\\<script" in render_markdown(matrix) or "&lt;script" in render_markdown(matrix)


def test_same_review_gives_the_same_bytes(reviewed: Matrix) -> None:
    """All reports are the same to the byte at each run."""
    again = second_round()
    assert again is not reviewed
    for render in (render_page, render_workbook, render_json, render_markdown):
        assert render(reviewed) == render(again)
