"""Marked PDF files: read back by pypdf, and their rectangles compared with the places of words by PDFium."""

from __future__ import annotations

import io
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import Any

import pypdfium2
import pytest
from pypdf import PdfReader, PdfWriter, Transformation
from pypdf.generic import RectangleObject

from tests.report.markup.building import FOUND, GIVEN, ROWS, marked, unmarked
from tests.schedule.formats.papers import write_ruled_pdf, write_separated, write_unruled_pdf
from tests.some import some

Writer = Callable[[Path], object]


def _ruled(path: Path, **others: Any) -> None:
    write_ruled_pdf(path, ROWS, "Pipe insulation", **others)


def _unruled(path: Path, **others: Any) -> None:
    write_unruled_pdf(path, ROWS, "Pipe insulation", gap=14, **others)


def _turned(path: Path, turned: int) -> None:
    """Write the unruled table on pages that are turned to be shown, whose paper begins off the origin."""
    _unruled(path)
    writer = PdfWriter(clone_from=path)
    for page in writer.pages:
        width, height = float(page.mediabox.width), float(page.mediabox.height)
        moved = {90: (height, 0.0), 180: (width, height), 270: (0.0, width)}[turned]
        page.add_transformation(Transformation().rotate(turned).translate(*moved).translate(13, 29))
        size = (height, width) if turned % 180 else (width, height)
        for box in ("mediabox", "cropbox", "trimbox", "bleedbox", "artbox"):
            setattr(page, box, RectangleObject((13, 29, 13 + size[0], 29 + size[1])))
        page.rotate(turned)
    writer.write(path)


WRITERS: dict[str, Writer] = {
    "ruled": _ruled,
    "pages": partial(_ruled, rows_on_a_page=3),
    "unruled": _unruled,
    "turned around": partial(_unruled, rotated=True),
    "shown turned by 90": partial(_turned, turned=90),
    "shown turned by 180": partial(_turned, turned=180),
    "shown turned by 270": partial(_turned, turned=270),
}


def _annotations(copy: bytes, kind: str) -> list[tuple[int, Any]]:
    """Return the annotations of a kind, each with its page from 0."""
    found = []
    for number, page in enumerate(PdfReader(io.BytesIO(copy)).pages):
        for one in page.get("/Annots") or ():
            if one.get_object()["/Subtype"] == kind:
                found.append((number, one.get_object()))
    return found


def _words_within(copy: bytes, number: int, rectangle: Sequence[float]) -> str:
    """Return the words within a rectangle of the space of a page, as PDFium finds them, the engine of a browser."""
    document = pypdfium2.PdfDocument(copy)
    text: str = document[number].get_textpage().get_text_bounded(*rectangle)
    return text.strip()


@pytest.mark.parametrize("name", WRITERS)
def test_each_comment_is_at_the_cell_that_it_speaks_of(name: str, tmp_path: Path) -> None:
    """A highlight with the comment lies on the words of the cell, on the right page, however the page is turned."""
    path = tmp_path / "schedule.pdf"
    WRITERS[name](path)
    copy, comments = marked(path, **GIVEN)
    assert {mark.tag: mark.place.cell for mark in comments.marks if name != "pages"} in (FOUND, {})
    notes = _annotations(copy, "/Highlight")
    assert [str(note["/Contents"]) for _, note in notes] == [mark.whole for mark in comments.marks]
    expected = {"1R": "1", "2R": "18", "3P": "TBD", "4R": "fiberglass"}
    for (number, note), mark in zip(notes, comments.marks, strict=True):
        found = _words_within(copy, number, [float(x) for x in note["/Rect"]])
        assert found == expected.get(mark.tag, ""), (mark.tag, found)  # 5P speaks of a blank cell


def test_author_and_date_are_those_that_were_given(tmp_path: Path) -> None:
    """Without an author and a date the annotations have none: nothing is taken from the machine or its clock."""
    path = tmp_path / "schedule.pdf"
    _ruled(path)
    given = [note for _, note in _annotations(marked(path, **GIVEN)[0], "/Highlight")]
    assert {(note["/T"], note["/M"]) for note in given} == {("A. Reviewer", "D:20260304")}
    bare = [note for _, note in _annotations(marked(path)[0], "/Highlight")]
    assert all("/T" not in note and "/M" not in note for note in some(bare))


def test_the_list_is_on_a_page_of_its_own_and_linked_both_ways(tmp_path: Path) -> None:
    """Each comment leads from its tag to its entry in the list, and from the entry to the page of its cell."""
    path = tmp_path / "schedule.pdf"
    _ruled(path, rows_on_a_page=3)
    copy, comments = marked(path, **GIVEN)
    reader = PdfReader(io.BytesIO(copy))
    assert len(reader.pages) == 3
    text = " ".join(reader.pages[2].extract_text().split())
    for mark in comments.marks:
        assert f"{mark.tag} " in text
        assert mark.text in text
    assert "Revise and resubmit" in text
    assert "Hot surfaces, fire ratings" in text
    numbers = {page.indirect_reference.idnum: number for number, page in enumerate(reader.pages)}  # type: ignore[union-attr]
    targets = [
        (number, numbers[link["/Dest"][0].indirect_reference.idnum]) for number, link in _annotations(copy, "/Link")
    ]
    pages = {"1R": 0, "2R": 0, "3P": 0, "4R": 1, "5P": 1}  # three lines stand on the first page
    assert sorted(targets) == sorted([(page, 2) for page in pages.values()] + [(2, page) for page in pages.values()])


def test_marks_differ_without_colour(tmp_path: Path) -> None:
    """What does not comply has a whole frame and R, what is missing a dashed frame and P."""
    path = tmp_path / "schedule.pdf"
    _ruled(path)
    copy, _ = marked(path)
    tags = [str(tag["/Contents"]) for _, tag in _annotations(copy, "/FreeText")]
    assert tags == list(FOUND)
    dashes = {
        str(note["/Contents"])[:1]: b"[]" in note["/AP"]["/N"].get_object().get_data()
        for _, note in _annotations(copy, "/Highlight")
    }
    assert dashes == {"1": True, "2": True, "3": False, "4": True, "5": False}


def test_the_copy_begins_with_the_original_and_is_the_same_each_time(tmp_path: Path) -> None:
    """The bytes of the contractor's file are all there, in front; the file itself is not touched."""
    path = tmp_path / "schedule.pdf"
    _ruled(path)
    before = path.read_bytes()
    copy, _ = marked(path, **GIVEN)
    assert copy.startswith(before)
    assert path.read_bytes() == before
    assert marked(path, **GIVEN)[0] == copy


def test_several_comments_on_one_cell(tmp_path: Path) -> None:
    """Each comment has a highlight of its own on the cell; where their tags have no room, one says how many more."""
    rows = (ROWS[0][:4], ("P-1", "CHW", "outdoor", "fiberglass"), ("P-2", "CHW", "indoor", "fiberglass"))
    path = tmp_path / "schedule.pdf"
    write_ruled_pdf(path, rows)
    copy, comments = marked(path)
    assert [(mark.tag, mark.place.cell) for mark in comments.marks] == [
        ("1P", "A2"), ("2P", "A2"), ("3R", "D2"), ("4P", "A3"), ("5P", "A3"),
    ]  # fmt: skip
    assert len(_annotations(copy, "/Highlight")) == 5
    assert [str(tag["/Contents"]) for _, tag in _annotations(copy, "/FreeText")] == ["1P", "2P", "3R", "4P", "5P"]


def test_text_carries_no_marks(tmp_path: Path) -> None:
    """A file of separated text has no place for comments, and the message says what to do."""
    path = tmp_path / "schedule.csv"
    write_separated(path, ROWS, separator=",")
    assert unmarked(path) == [
        "error[R109]: `schedule.csv` is of a kind that cannot carry marks\n  at schedule.csv\n"
        "  help: save it as .pdf, .docx or .xlsx, and mark that"
    ]
