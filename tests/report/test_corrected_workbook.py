"""The corrected schedule: the contractor's workbook with changes marked, read and judged again."""

from __future__ import annotations

import io
from pathlib import Path
from typing import Any

from openpyxl import Workbook, load_workbook

from speccheck.judge import Verdict
from speccheck.language import parse_ruleset
from speccheck.report.workbook.corrected import ASKED, CHANGED, NOTES_SHEET, correct_workbook
from speccheck.review import Matrix, judge_schedule
from speccheck.review.corrections import mend_schedule
from speccheck.schedule import read_schedule

CLAUSES = """ruleset "small"
  speaks mechanical insulation
  stocked thickness is one of 1 in, 1-1/2 in, 2 in

clause 1 "thick"
  where service is chilled water
  shall thickness be at least 1-1/2 in

clause 2 "stops"
  shall vapor stop spacing be at most 15 ft

clause 3 "material"
  where location is outdoor
  shall insulation be cellular glass

clause 4 "conductivity"
  shall conductivity be at most 0.30 Btu.in/(h.ft2.F)
"""
HEADER = ("Mark", "Service", "Location", "Insulation", "Conductivity", "Thk (in)", "Vapor Stop Spacing (ft)")
ROWS: tuple[tuple[str | float | None, ...], ...] = (
    ("P-1", "CHW", "indoor", "fiberglass", "0.25 Btu.in/(h.ft2.F)", 1, 18),
    ("P-2", "HHW", "indoor", "fiberglass", "0.25 Btu.in/(h.ft2.F)", '"', 12),
    ("P-3", "CHW", "indoor", "fiberglass", "0.25 Btu.in/(h.ft2.F)", 1.5, "TBD"),
    ("P-4", "HHW", "outdoor", "fiberglass", "0.25 Btu.in/(h.ft2.F)", 1, 12),
    ("P-5", "HHW", "indoor", "fiberglass", "0.25 Btu.in/(h.ft2.F)", None, 12),
    ("P-6", "CHW", "indoor", "fiberglass", "0.25 Btu.in/(h.ft2.F)", 1, 12),
    ("P-7", "HHW", "indoor", "fiberglass", "0.25 Btu.in/(h.ft2.F)", None, 12),
)


def schedule_file(folder: Path) -> Path:
    """Write a schedule with a ditto mark, a merged cell and a formula that has to stay."""
    workbook = Workbook()
    sheet: Any = workbook.active
    sheet.title = "Piping"
    for row in (HEADER, *ROWS):
        sheet.append(row)
    sheet.merge_cells("F7:F8")
    sheet["J1"] = "=1+1"
    path = folder / "schedule.xlsx"
    workbook.save(path)
    return path


def judged(path: Path) -> Matrix:
    """Return the matrix of a workbook by the clauses above."""
    ruleset = parse_ruleset(CLAUSES).ruleset
    assert ruleset is not None
    return judge_schedule(read_schedule(path, ruleset.vocabulary), ruleset)


def corrected(folder: Path) -> tuple[Path, Any]:
    """Return the corrected workbook, written beside the schedule, and its sheet as openpyxl reads it."""
    path = schedule_file(folder)
    matrix = judged(path)
    found = correct_workbook(path, matrix, tuple(mend_schedule(matrix)))
    assert found.diagnostics == ()
    assert found.content is not None
    target = folder / "corrected.xlsx"
    target.write_bytes(found.content)
    return target, load_workbook(target)["Piping"]


def test_changed_cells_are_marked_and_say_why(tmp_path: Path) -> None:
    """A changed cell has the new value, a colour and a comment; everything else is as it was."""
    _, sheet = corrected(tmp_path)
    assert (sheet["F2"].value, sheet["G2"].value) == ("1-1/2 in", "15 ft")
    assert (sheet["F2"].fill.fgColor.rgb, sheet["B2"].fill.fill_type) == (CHANGED, None)
    assert sheet["F2"].comment.text == "revise thickness from 1 in to 1-1/2 in or more (clause 1 and 2)"
    assert (sheet["J1"].value, sheet["G3"].value) == ("=1+1", 12)


def test_other_lines_keep_what_they_took_from_a_changed_cell(tmp_path: Path) -> None:
    """A ditto mark below a changed cell, and the rest of a merged range, keep the value that they had."""
    _, sheet = corrected(tmp_path)
    assert sheet["F3"].value == 1
    assert (sheet["F7"].value, sheet["F8"].value) == ("1-1/2 in", 1)


def test_missing_datum_is_only_asked_for(tmp_path: Path) -> None:
    """The cell of what is not given stays as it is, with a comment that says what would comply."""
    _, sheet = corrected(tmp_path)
    assert (sheet["G4"].value, sheet["G4"].fill.fgColor.rgb) == ("TBD", ASKED)
    assert "15 ft or less would comply" in sheet["G4"].comment.text


def test_properties_of_what_is_replaced_are_taken_back(tmp_path: Path) -> None:
    """With another insulation the conductivity of the old one does not stay on the schedule."""
    _, sheet = corrected(tmp_path)
    assert (sheet["D5"].value, sheet["E5"].value) == ("cellular glass", "TBD")


def test_corrected_schedule_breaks_nothing(tmp_path: Path) -> None:
    """Read and judged again, no line fails, and the sheet of changes is not read as a schedule."""
    target, _ = corrected(tmp_path)
    matrix = judged(target)
    assert Verdict.FAILS not in matrix.counts
    assert [line.name for line in matrix.schedule.lines] == [str(row[0]) for row in ROWS]
    assert NOTES_SHEET in load_workbook(target).sheetnames


def test_original_stays_and_output_is_always_the_same(tmp_path: Path) -> None:
    """The schedule itself is not touched, and the same schedule gives the same bytes."""
    path = schedule_file(tmp_path)
    before = path.read_bytes()
    matrix = judged(path)
    mendings = tuple(mend_schedule(matrix))
    first, second = (correct_workbook(path, matrix, mendings).content for _ in range(2))
    assert first == second
    assert path.read_bytes() == before


def test_text_file_is_refused(tmp_path: Path) -> None:
    """A schedule that is no workbook has no cells to mark."""
    path = tmp_path / "schedule.csv"
    path.write_text("Mark,Service\nP-1,CHW\n", encoding="utf-8")
    found = correct_workbook(path, judged(path), ())
    assert found.content is None
    assert [str(one) for one in found.diagnostics] == [
        "error[R105]: `schedule.csv` is no workbook, and only a workbook can be corrected\n"
        "  at schedule.csv\n  help: save it as .xlsx"
    ]


def test_workbook_that_cannot_be_opened_for_writing_is_told(tmp_path: Path) -> None:
    """A workbook that the library refuses is read for judging; correcting it ends with what to do, no fault."""
    import zipfile

    path = schedule_file(tmp_path)
    matrix = judged(path)
    with zipfile.ZipFile(path) as parts:
        content = {name: parts.read(name) for name in parts.namelist()}
    content["xl/workbook.xml"] = content["xl/workbook.xml"].replace(b"<sheets>", b"<sheets><sheet/>")
    with zipfile.ZipFile(path, "w") as parts:
        for name, part in content.items():
            parts.writestr(name, part)
    found = correct_workbook(path, matrix, tuple(mend_schedule(matrix)))
    assert found.content is None
    (problem,) = found.diagnostics
    assert (problem.code, problem.help) == ("R105", "save it once more as .xlsx, and run again")
    assert problem.message.startswith(f"`{path.name}` was read, but cannot be opened for writing (")


PRODUCTS = """ruleset "products"
  speaks mechanical insulation

clause 1 "fire"
  shall flame spread be at most 25 and smoke developed be at most 50

clause 2 "solvents"
  shall sealant VOC content be at most 80 g/L

clause 3 "thick"
  shall thickness be at least 1 in
"""


def test_what_was_measured_on_a_product_stays(tmp_path: Path) -> None:
    """A smoke index of 200 and a sealant of 250 g/L stay on the schedule; the comment asks for another product.

    What the contractor chooses, the thickness, is corrected as ever.
    """
    ruleset = parse_ruleset(PRODUCTS).ruleset
    assert ruleset is not None
    path = tmp_path / "schedule.xlsx"
    workbook = Workbook()
    sheet: Any = workbook.active
    sheet.append(("Mark", "Insulation", "Flame spread", "Smoke developed", "Sealant VOC (g/L)", "Thickness (in)"))
    sheet.append(("P-1", "fiberglass", 25, 200, 250, 0.5))
    workbook.save(path)
    matrix = judge_schedule(read_schedule(path, ruleset.vocabulary), ruleset)
    content = correct_workbook(path, matrix, tuple(mend_schedule(matrix))).content
    assert content is not None
    sheet = load_workbook(io.BytesIO(content)).worksheets[0]
    assert [cell.value for cell in sheet[2]][:5] == ["P-1", "fiberglass", 25, 200, 250]
    assert sheet["F2"].value == "1 in"
    assert [sheet[cell].fill.fgColor.rgb for cell in ("D2", "E2", "F2")] == [ASKED, ASKED, CHANGED]
    assert sheet["D2"].comment.text.startswith(
        "propose another insulation with smoke developed of at most 50 (submitted: 200)"
    )
    assert sheet["E2"].comment.text.startswith(
        "propose another product with sealant VOC content of at most 80 g/L (submitted: 250 g/L)"
    )


def corrected_cells(folder: Path, rows: list[tuple[str, ...]]) -> tuple[dict[str, str], list[str]]:
    """Return the cells that the corrected copy of a sheet has changed, by their place, and what could not be put in."""
    workbook = Workbook()
    sheet: Any = workbook.active
    sheet.title = "Piping"
    for row in rows:
        sheet.append(row)
    path = folder / "free.xlsx"
    workbook.save(path)
    before = {cell.coordinate: cell.value for row in sheet.iter_rows() for cell in row}
    matrix = judged(path)
    found = correct_workbook(path, matrix, tuple(mend_schedule(matrix)))
    assert found.content is not None
    after = load_workbook(io.BytesIO(found.content))["Piping"]
    cells = {cell.coordinate: cell.value for row in after.iter_rows() for cell in row}
    changed = {at: text for at, text in cells.items() if text != before.get(at)}
    return changed, [one.message for one in found.diagnostics]


def test_a_form_is_changed_beside_its_label(tmp_path: Path) -> None:
    """Of two systems on forms below each other, the value beside "Thickness" of the one that fails is replaced."""
    form = [("Service:", "CHW"), ("Insulation:", "Fiberglass"), ("Thickness:", "2 in"), ()]
    rows = [*form, ("Service:", "CHW"), ("Insulation:", "Fiberglass"), ("Thickness:", "1 in")]
    assert corrected_cells(tmp_path, rows) == ({"B7": "1-1/2 in"}, [])


def test_a_sentence_is_left_to_its_writer(tmp_path: Path) -> None:
    """A cell that says more than what is changed stays as it is, and that is told."""
    rows = [("Chilled water",), ('1" fiberglass up to 2"',), ('1-1/2" fiberglass over 2"',)]
    message = "`thickness` of line `row 2` stands in no column of its own and was not changed"
    assert corrected_cells(tmp_path, rows) == ({}, [message])
