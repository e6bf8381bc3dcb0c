"""Marked copies opened and saved again by LibreOffice: every comment is still at its cell, with its author."""

from __future__ import annotations

from pathlib import Path

import docx
import pytest
from openpyxl import load_workbook

from speccheck.report.paper_places import spot_of
from tests.report.markup.building import FOUND, GIVEN, ROWS, judged, marked
from tests.schedule.formats.papers import write_docx, write_ruled_pdf, write_xlsx
from tests.schedule.formats.producers import OFFICE, by_office

pytestmark = pytest.mark.skipif(OFFICE is None, reason="LibreOffice opens the copies")
W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"


def saved_again(path: Path, folder: Path) -> Path:
    """Return the marked copy of a schedule as LibreOffice saves it."""
    copy = folder / f"marked{path.suffix}"
    copy.write_bytes(marked(path, **GIVEN)[0])
    return by_office([copy], path.suffix, folder / "again")[copy]


def test_a_workbook(tmp_path: Path) -> None:
    """Five cells carry their comments, and the list is the last sheet, its numbers links to the cells."""
    write_xlsx(tmp_path / "s.xlsx", ROWS)
    book = load_workbook(saved_again(tmp_path / "s.xlsx", tmp_path))
    comments = [cell.comment for row in book.worksheets[0].iter_rows() for cell in row if cell.comment]
    cells = {one.text.partition(".")[0].split()[-1]: one.parent.coordinate for one in comments}
    assert cells == FOUND
    assert book.worksheets[-1].title == "Comments"
    links = {cell.hyperlink.location for row in book.worksheets[-1].iter_rows() for cell in row if cell.hyperlink}
    assert {link.replace("$", "").rpartition("!")[2].rpartition(".")[2] for link in links} == set(FOUND.values())


def test_a_document(tmp_path: Path) -> None:
    """Five comments of the reviewer are in the cells that they speak of."""
    write_docx(tmp_path / "s.docx", ROWS)
    document = docx.Document(str(saved_again(tmp_path / "s.docx", tmp_path)))
    tags = {one.comment_id: (one.author, one.text.partition(".")[0]) for one in document.comments}
    found = {}
    for row, cells in enumerate(document.tables[0].rows, start=1):
        for column, cell in zip("ABCDEF", cells.cells, strict=True):
            for start in cell._tc.iter(f"{W}commentReference"):
                author, tag = tags[int(start.get(f"{W}id"))]
                assert author == "A. Reviewer"
                found[tag] = f"{column}{row}"
    assert found == FOUND


def test_a_pdf_in_draw(tmp_path: Path) -> None:
    """LibreOffice knows no way of blending, and still shows the words under the marks: dark dots in each cell."""
    from PIL import Image

    write_ruled_pdf(tmp_path / "s.pdf", ROWS)
    content, comments = marked(tmp_path / "s.pdf", **GIVEN)
    (tmp_path / "marked.pdf").write_bytes(content)
    picture = by_office([tmp_path / "marked.pdf"], ".png", tmp_path / "drawn").get(tmp_path / "marked.pdf")
    if picture is None:
        pytest.skip("the part of LibreOffice that draws is not installed")
    schedule = judged(tmp_path / "s.pdf").schedule
    image = Image.open(picture).convert("L")
    scale = image.width / 792 if image.width > image.height else image.width / 612
    for mark in comments.marks:
        spot = spot_of(schedule, mark.place)
        assert spot is not None
        inside = tuple(round(scale * edge) for edge in (spot.left + 3, spot.top + 4, spot.right - 3, spot.bottom - 4))
        assert (image.crop(inside).getextrema()[0] < 120) is (mark.tag != "5P")  # whose cell is blank
