"""PDF files: struck and white words, raised figures, places, and files that cannot be read."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader, PdfWriter

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.schedule.formats.child import read_in_child
from speccheck.schedule.formats.opening import FormatKind, open_schedule
from speccheck.schedule.formats.pdf_tables import read_pdf
from speccheck.schedule.grid import Grid, GridCell
from speccheck.schedule.messages.cells import NOT_SHOWN, STRUCK, UNSURE_CELL
from tests.schedule.formats.papers import write_ruled_pdf, write_unruled_pdf


def canvas_of(path: Path) -> Any:
    """Return an empty page of letter size."""
    from reportlab.pdfgen.canvas import Canvas

    canvas = Canvas(str(path), pagesize=(612, 792), invariant=1)
    canvas.setFont("Helvetica", 10)
    return canvas


def test_struck_white_and_raised_words(tmp_path: Path) -> None:
    """A rule through a word strikes it, white letters are not seen, raised figures are notes or parts of fractions."""
    canvas = canvas_of(tmp_path / "t.pdf")
    for row in range(4):
        for column in range(3):
            canvas.rect(50 + 100 * column, 600 - 30 * row, 100, 30)
    for column, words in enumerate(("Mark", "Thk", "Temp")):
        canvas.drawString(55 + 100 * column, 610, words)
    canvas.drawString(55, 580, "P-1")
    canvas.drawString(155, 580, "2 in")
    canvas.line(154, 583, 175, 583)
    canvas.setFillColorRGB(1, 1, 1)
    canvas.drawString(255, 580, "180")
    canvas.setFillColorRGB(0, 0, 0)
    canvas.drawString(55, 550, "P-2")
    canvas.drawString(155, 550, "1")
    canvas.setFont("Helvetica", 6)
    canvas.drawString(161, 553, "1/2")
    canvas.drawString(266.5, 553, "1")
    canvas.setFont("Helvetica", 10)
    canvas.drawString(255, 550, "40")
    canvas.save()
    grids, diagnostics = read_pdf(tmp_path / "t.pdf")
    assert diagnostics == []
    cells = grids[0].cells
    assert cells[1, 1] == GridCell("2 in", STRUCK.code)
    assert cells[1, 2] == GridCell("180", NOT_SHOWN.code)
    assert cells[2, 1] == GridCell("1 1/2")
    assert cells[2, 2] == GridCell("40¹")


def test_a_text_at_a_slant_is_told_and_does_not_reach_into_the_cells_under_it(tmp_path: Path) -> None:
    """The table under a stamp across two pages is read as without it; what the stamp says a person has to see."""
    rows = [["Mark", "Thk"], *([f"P-{number}", "2 in"] for number in range(8))]
    write_ruled_pdf(tmp_path / "plain.pdf", rows, rows_on_a_page=4)
    stamp = canvas_of(tmp_path / "stamp.pdf")
    for _ in range(2):
        stamp.setFont("Helvetica-Bold", 60)
        stamp.translate(300, 450)
        stamp.rotate(40)
        stamp.drawCentredString(0, 0, "NOT TO USE")
        stamp.showPage()
    stamp.save()
    writer = PdfWriter(clone_from=tmp_path / "plain.pdf")
    for page, mark in zip(writer.pages, PdfReader(tmp_path / "stamp.pdf").pages, strict=True):
        page.merge_page(mark)
    writer.write(tmp_path / "stamped.pdf")
    (plain,), _ = read_pdf(tmp_path / "plain.pdf")
    (grid,), diagnostics = read_pdf(tmp_path / "stamped.pdf")
    message = "`NOT TO USE`, which runs across pages 1, 2 at a slant, was not read"
    help = "read it on the page, and have it written into the table where it matters"
    place = Place("stamped.pdf", sheet="page 1")
    assert diagnostics == [Diagnostic("S211", Severity.WARNING, message, place, help)]
    assert [one.text for one in grid.unread] == [message]
    assert grid.cells == plain.cells


def test_each_cell_keeps_its_rectangle(tmp_path: Path) -> None:
    """The rectangle of a cell is where the words were drawn, to a tenth of a point."""
    rows = [["Mark", "Thk"], ["P-1", "2"], ["P-2", "3"]]
    places = write_unruled_pdf(tmp_path / "t.pdf", rows, pitch=20)
    grid = open_schedule(tmp_path / "t.pdf")[0][0]
    for row, lefts in enumerate(places):
        for column, (left, right) in enumerate(lefts):
            spot = grid.spots[row, column]
            assert spot.page == 1
            assert (spot.left, spot.right) == pytest.approx((left, right), abs=0.1)
            assert spot.top < 612 - (560 - 20 * row) < spot.bottom


def test_heads_and_feet_of_pages_do_not_part_a_table(tmp_path: Path) -> None:
    """A table that goes on over three pages with its header is one grid."""
    rows = [["Mark", "Thk"], *([f"P-{number}", "2"] for number in range(1, 8))]
    write_ruled_pdf(tmp_path / "t.pdf", rows, rows_on_a_page=3)
    grids, _ = read_pdf(tmp_path / "t.pdf")
    assert [grid.sheet for grid in grids] == ["table 1"]
    assert {spot.page for spot in grids[0].spots.values()} == {1, 2, 3}


def test_a_scanned_page_is_refused_by_its_number(tmp_path: Path) -> None:
    """A page that is a picture is named; nothing is guessed from it."""
    from PIL import Image

    Image.new("L", (60, 80), 200).save(tmp_path / "scan.png")
    canvas = canvas_of(tmp_path / "scan.pdf")
    canvas.drawString(50, 700, "cover")
    canvas.showPage()
    for _ in range(2):
        canvas.drawImage(str(tmp_path / "scan.png"), 0, 0, 612, 792)
        canvas.showPage()
    canvas.save()
    message = "pages 2, 3 of `scan.pdf` are pictures without text"
    help = "ask for the file that was printed, or have its text recognised and check it"
    expected = Diagnostic("S114", Severity.ERROR, message, Place("scan.pdf"), help)
    assert open_schedule(tmp_path / "scan.pdf") == ([], [expected])


def test_a_locked_pdf(tmp_path: Path) -> None:
    """A PDF that a password locks is said to be so."""
    from pypdf import PdfWriter

    writer = PdfWriter()
    writer.add_blank_page(100, 100)
    writer.encrypt("secret")
    writer.write(tmp_path / "locked.pdf")
    message, help = "`locked.pdf` is locked by a password", "save a copy without the password"
    expected = Diagnostic("S103", Severity.ERROR, message, Place("locked.pdf"), help)
    assert open_schedule(tmp_path / "locked.pdf") == ([], [expected])


def test_too_many_pages(tmp_path: Path) -> None:
    """A PDF of thousands of pages is refused before any is read."""
    from pypdf import PdfWriter

    writer = PdfWriter()
    for _ in range(201):
        writer.add_blank_page(100, 100)
    writer.write(tmp_path / "long.pdf")
    message = "`long.pdf` has 201 pages, and the limit is 200"
    help = "leave only the pages of the schedule in the file"
    expected = Diagnostic("S105", Severity.ERROR, message, Place("long.pdf"), help)
    assert open_schedule(tmp_path / "long.pdf") == ([], [expected])


@pytest.mark.parametrize("content", [b"", b"%PDF-1.7", b"%PDF-1.7\n1 0 obj<</Type/Catalog/Pages 1 0 R>>endobj\n%%EOF"])
def test_damaged_pdfs(content: bytes, tmp_path: Path) -> None:
    """Nothing, a beginning, and pages that are their own parents are damaged, or hold no text."""
    (tmp_path / "d.pdf").write_bytes(content)
    grids, diagnostics = open_schedule(tmp_path / "d.pdf")
    assert (grids, len(diagnostics)) == ([], 1)
    assert diagnostics[0].code in ("S104", "S114")


def test_a_reader_that_does_not_end(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A child that takes too long is stopped, and the limit is told."""
    write_unruled_pdf(tmp_path / "t.pdf", [["Mark", "Thk"], ["P-1", "2"]])
    monkeypatch.setattr("speccheck.schedule.formats.child.MOST_SECONDS", 0)
    message = "`t.pdf` takes more than 0 seconds to read, which is the limit"
    help = "leave only the schedule in the file"
    expected = Diagnostic("S105", Severity.ERROR, message, Place("t.pdf"), help)
    assert read_in_child(FormatKind.PDF, tmp_path / "t.pdf") == ([], [expected])


def drawn(path: Path, pages: list[list[tuple[float, float, str]]], rules: list[list[tuple[float, ...]]]) -> Grid:
    """Write texts at places, with rules around cells (left, bottom, width, height), page by page; return the grid."""
    canvas = canvas_of(path)
    for texts, boxes in zip(pages, rules, strict=True):
        canvas.setFont("Courier", 10)  # whose letters are 6 points wide
        for x, y, text in texts:
            canvas.drawString(x, y, text)
        for box in boxes:
            canvas.rect(*box)
        canvas.showPage()
    canvas.save()
    return open_schedule(path)[0][0]


def test_words_that_break_within_a_cell(tmp_path: Path) -> None:
    """`Insulated` is too wide for 52 points, `Carbon steel` breaks between words, and `up` is a word of its own."""
    texts = [
        (12, 168, "Insulate"), (12, 156, "d Item"), (72, 168, "Material"), (142, 168, "Seam"),
        (12, 128, "pipe"), (72, 128, "Carbon"), (72, 116, "steel"), (142, 128, "facing"), (142, 116, "up"),
    ]  # fmt: skip
    boxes = [(x, y, width, 40) for x, width in ((10, 52), (62, 70), (132, 50)) for y in (150, 110)]
    grid = drawn(tmp_path / "t.pdf", [texts], [boxes])
    assert [grid.text(0, column) for column in range(3)] == ["Insulated Item", "Material", "Seam"]
    assert [grid.text(1, column) for column in range(3)] == ["pipe", "Carbon\nsteel", "facing\nup"]


def test_a_row_that_goes_on_over_the_page(tmp_path: Path) -> None:
    """A text that ends with a comma goes on in the first row of the next page; a row of its own stays one."""
    columns = ((10, 60), (70, 100), (170, 60))
    boxes = [[(x, y, width, 30) for x, width in columns for y in (60, 30)] for _ in range(2)]
    pages = [
        [
            (12, 78, "Mark"),
            (72, 78, "Stops at"),
            (172, 78, "Thk"),
            (12, 48, "P-1"),
            (72, 48, "valves,"),
            (172, 48, "1"),
        ],
        [(72, 78, "fittings"), (12, 48, "P-2"), (72, 48, "valves"), (172, 48, "2")],
    ]
    grid = drawn(tmp_path / "t.pdf", pages, boxes)
    assert [[grid.text(row, column) for column in range(3)] for row in range(4)] == [
        ["Mark", "Stops at", "Thk"],
        ["P-1", "valves,\nfittings", "1"],
        ["P-2", "valves", "2"],
        ["", "", ""],
    ]


def test_numbers_beside_the_texts_of_the_next_column_are_unsure(tmp_path: Path) -> None:
    """Spreadsheets set numbers on the right, a space from the next column: what may be of two columns is not read."""
    canvas = canvas_of(tmp_path / "t.pdf")
    for x, text in ((12, "Mark"), (60, "Mean Temp"), (130, "Least Temp"), (200, "Spacing"), (260, "Jacket")):
        canvas.drawString(x, 168, text)
    for y, mark in ((150, "P-1"), (136, "P-2")):
        canvas.drawString(12, y, mark)
        canvas.drawRightString(128, y, "75")
        canvas.drawString(130, y, "-40")
        canvas.drawRightString(258, y, "0.05")
        canvas.drawString(260, y, "none")
    canvas.save()
    grid = open_schedule(tmp_path / "t.pdf")[0][0]
    glued = [cell for cell in grid.cells.values() if "75" in cell.text]
    assert [(cell.text, cell.trouble) for cell in glued] == [("75 -40", UNSURE_CELL.code)] * 2
    assert [grid.text(row, 4) for row in (1, 2)] == ["none", "none"]
