"""Marked workbooks: comments read back by openpyxl, and every other part compared with the original."""

from __future__ import annotations

import io
import re
import zipfile
from pathlib import Path
from typing import Any

import pytest
from openpyxl import Workbook, load_workbook
from openpyxl.comments import Comment
from openpyxl.formatting.rule import CellIsRule
from openpyxl.styles import PatternFill

from tests.report.markup.building import FOUND, GIVEN, ROWS, judged, marked
from tests.some import some


def _workbook(tmp_path: Path, *, commented: bool = False) -> Path:
    """Write a schedule with a formula, a format, a colour by condition, a second sheet and a print area."""
    book = Workbook()
    sheet: Any = book.active
    sheet.title = "Bob's piping"
    for row in ROWS:
        sheet.append([float(text) if text.replace(".", "").isdecimal() else text or None for text in row])
    sheet["J1"] = "=1+1"
    sheet["E2"].number_format = "0.00"
    sheet.conditional_formatting.add("E2:E9", CellIsRule("lessThan", ["1"], fill=PatternFill("solid", "FFFF00")))
    sheet.print_area = "A1:F6"
    book.create_sheet("Comments")["A1"] = "nothing of ours"
    if commented:
        sheet["E2"].comment = Comment("as agreed", "Contractor")
        sheet["A4"].comment = Comment("see detail", "Contractor")
    path = tmp_path / "schedule.xlsx"
    book.save(path)
    return path


def _comments(copy: bytes) -> dict[str, tuple[str, str]]:
    """Return the comments of the first sheet by cell: author and text."""
    sheet = load_workbook(io.BytesIO(copy)).worksheets[0]
    found = {}
    for row in sheet.iter_rows():
        for cell in row:
            if cell.comment is not None:
                found[cell.coordinate] = (cell.comment.author, cell.comment.text)
    return found


@pytest.mark.parametrize("commented", [False, True])
def test_each_comment_is_in_the_cell_that_it_speaks_of(commented: bool, tmp_path: Path) -> None:
    """A cell carries its comment; what the contractor wrote there stays, and ours follows it."""
    copy, comments = marked(_workbook(tmp_path, commented=commented), **GIVEN)
    found = _comments(copy)
    for mark in comments.marks:
        author, text = found[mark.place.cell]
        assert f"{mark.tag}. {mark.whole.partition('. ')[2]}" in text
        there = commented and mark.place.cell == "E2"
        assert author == ("Contractor" if there else "A. Reviewer")
        assert text.startswith("as agreed\n") is there
    assert {mark.tag: mark.place.cell for mark in comments.marks} == FOUND
    assert (found.get("A4") == ("Contractor", "see detail")) is commented


@pytest.mark.parametrize("commented", [False, True])
def test_nothing_else_of_the_workbook_differs(commented: bool, tmp_path: Path) -> None:
    """Parts that changed only lead to what was added; formulas, formats, styles are the same byte for byte."""
    path = _workbook(tmp_path, commented=commented)
    copy, _ = marked(path)
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(io.BytesIO(copy)) as new:
        before = {name: old.read(name) for name in old.namelist()}
        after = {name: new.read(name) for name in new.namelist()}
    sheet = re.sub(rb"<legacyDrawing xmlns:marked=[^>]*/>", b"", after["xl/worksheets/sheet1.xml"])
    assert sheet == before["xl/worksheets/sheet1.xml"]
    book = re.sub(rb"<sheet name=\"Comments 2\"[^>]*/>", b"", after["xl/workbook.xml"])
    assert book == before["xl/workbook.xml"]
    lists = {"[Content_Types].xml", "xl/_rels/workbook.xml.rels", "xl/worksheets/_rels/sheet1.xml.rels"}
    boxes = {name for name in before if "comments" in name or name.endswith(".vml")} if commented else set()
    changed = {name for name in before if before[name] != after[name]}
    assert changed <= lists | boxes | {"xl/workbook.xml", "xl/worksheets/sheet1.xml"}
    for name in lists & changed:  # what was there is there still, in front
        end = before[name].rindex(b"<")
        assert after[name].startswith(before[name][:end])


def test_the_copy_is_read_as_the_schedule_was(tmp_path: Path) -> None:
    """The lines and verdicts of the marked copy are those of the original; the list is taken for no schedule."""
    path = _workbook(tmp_path)
    copy, _ = marked(path)
    again = tmp_path / "again.xlsx"
    again.write_bytes(copy)
    first, second = judged(path), judged(again)
    assert [line.name for line in second.schedule.lines] == [line.name for line in first.schedule.lines]
    assert [[cell.verdict for cell in row] for row in second.cells] == [
        [cell.verdict for cell in row] for row in first.cells
    ]


def test_the_list_is_on_a_sheet_of_its_own(tmp_path: Path) -> None:
    """The list has each comment with a link to its cell, the action word that was given, and cautions."""
    copy, comments = marked(_workbook(tmp_path))
    sheet = load_workbook(io.BytesIO(copy)).worksheets[-1]
    assert sheet.title == "Comments 2"
    words = " ".join(str(cell.value) for row in sheet.iter_rows() for cell in row if cell.value)
    assert all(mark.text in words for mark in some(comments.marks))
    assert "Action: Revise and resubmit" in words
    assert "Hot surfaces, fire ratings" in words
    links = [cell.hyperlink.location for row in sheet.iter_rows() for cell in row if cell.hyperlink]
    assert links == [f"'Bob''s piping'!{cell}" for cell in FOUND.values()]


def test_the_copy_is_the_same_each_time_and_the_original_is_only_read(tmp_path: Path) -> None:
    """No clock goes into the copy."""
    path = _workbook(tmp_path)
    before = path.read_bytes()
    assert marked(path)[0] == marked(path)[0]
    assert path.read_bytes() == before


def test_a_comment_on_what_a_sentence_says_is_at_the_sentence(tmp_path: Path) -> None:
    """The thickness stands in words beside the service, and the comment in the cell of the words."""
    book = Workbook()
    sheet: Any = book.active
    for row in (("No.", "System", "What we propose"), (1, "Chilled water", '1" fiberglass w/ ASJ all sizes')):
        sheet.append(row)
    book.save(tmp_path / "words.xlsx")
    _, comments = marked(tmp_path / "words.xlsx")
    assert [mark.place.cell for mark in comments.marks if mark.tag.endswith("R")] == ["C2"]
