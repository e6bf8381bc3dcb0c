"""Pictures of rows on paper: of a PDF alone, of findings alone, in the page alone, and the same each time."""

from __future__ import annotations

import base64
import io
import re
from pathlib import Path

import pytest
from PIL import Image

from speccheck.report.html.page import render_page
from speccheck.report.html.row_pictures import row_pictures
from speccheck.report.line_words import place_words
from tests.report.markup.building import ROWS, judged
from tests.schedule.formats.papers import write_docx, write_ruled_pdf, write_unruled_pdf

FAULTY = ["P-1", "P-3", "P-4", "P-5"]


def test_each_line_with_a_finding_has_the_picture_of_its_row(tmp_path: Path) -> None:
    """A picture is as high as a row of the table, as wide as the table, and has ink in it."""
    path = tmp_path / "schedule.pdf"
    write_ruled_pdf(path, ROWS, rows_on_a_page=3)
    pictures = row_pictures(path, judged(path))
    assert list(pictures) == FAULTY
    assert [picture.page for picture in pictures.values()] == [1, 1, 2, 2]
    for picture in pictures.values():
        image = Image.open(io.BytesIO(base64.b64decode(picture.address.partition(",")[2]))).convert("L")
        assert image.size == (picture.width, picture.height)
        assert 18 * 1.6 < picture.height < 27 * 1.6  # a row of the table is 18 points high, at 1.6 dots to the point
        assert image.getextrema()[0] < 64


@pytest.mark.parametrize("write", [write_ruled_pdf, write_unruled_pdf])
def test_the_page_shows_each_row_once(write: object, tmp_path: Path) -> None:
    """The row stands with the first finding on the line; the page is the same each time and loads nothing."""
    path = tmp_path / "schedule.pdf"
    write(path, ROWS)  # type: ignore[operator]
    matrix = judged(path)
    page = render_page(matrix, papers=(path,))
    assert sorted(re.findall(r'alt="the row of (P-\d) on page 1"', page)) == FAULTY
    assert page.count("data:image/png") == len(FAULTY)
    assert "img-src data:;" in page
    assert "In the schedule: page 1 table 1, A2." in page
    assert render_page(matrix, papers=(path,)) == page


def test_other_papers_have_no_pictures(tmp_path: Path) -> None:
    """The page of a Word schedule is as it was, and its policy allows no pictures."""
    path = tmp_path / "schedule.docx"
    write_docx(path, ROWS)
    matrix = judged(path)
    page = render_page(matrix, papers=(path,))
    assert page == render_page(matrix)
    assert "img-src" not in page
    assert place_words(matrix.schedule.lines[0].place) == "table 1, A2"
