"""Marked Word documents: comments read back by python-docx, and the rest compared with the original."""

from __future__ import annotations

import io
import re
import zipfile
from pathlib import Path

import docx
import pytest
from docx.oxml import parse_xml

from tests.report.markup.building import FOUND, GIVEN, ROWS, marked
from tests.schedule.formats.papers import write_docx
from tests.some import some

W = "{http://schemas.openxmlformats.org/wordprocessingml/2006/main}"


def _document(tmp_path: Path) -> Path:
    path = tmp_path / "schedule.docx"
    write_docx(path, ROWS, "Pipe insulation")
    return path


def _cells_of_comments(copy: bytes) -> dict[str, str]:
    """Return for each comment, by its tag, the cell in which its range lies."""
    document = docx.Document(io.BytesIO(copy))
    tags = {one.comment_id: one.text.partition(".")[0] for one in document.comments}
    found = {}
    for row, cells in enumerate(document.tables[0].rows, start=1):
        for column, cell in zip("ABCDEF", cells.cells, strict=True):
            for start in cell._tc.iter(f"{W}commentRangeStart"):
                found[tags[int(start.get(f"{W}id"))]] = f"{column}{row}"
    return found


def test_each_comment_is_in_the_cell_that_it_speaks_of(tmp_path: Path) -> None:
    """A comment with its words, author and date stands around the words of its cell, also of a blank one."""
    copy, comments = marked(_document(tmp_path), **GIVEN)
    assert _cells_of_comments(copy) == FOUND
    found = list(docx.Document(io.BytesIO(copy)).comments)
    assert [one.text for one in found] == [
        f"{mark.tag}. {mark.whole.partition('. ')[2]} To the list." for mark in comments.marks
    ]
    assert {(one.author, one.initials, str(one.timestamp)) for one in found} == {
        ("A. Reviewer", "AR", "2026-03-04 00:00:00+00:00")
    }


def test_nothing_else_of_the_document_differs(tmp_path: Path) -> None:
    """Without the marks of comments and the list, every byte of every part is that of the original."""
    path = _document(tmp_path)
    copy, _ = marked(path, **GIVEN)
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(io.BytesIO(copy)) as new:
        changed = {name for name in old.namelist() if old.read(name) != new.read(name)}
        assert changed == {"[Content_Types].xml", "word/_rels/document.xml.rels", "word/document.xml"}
        assert set(new.namelist()) - set(old.namelist()) == {"word/comments1.xml"}
        text = new.read("word/document.xml").decode()
        marks = r"<w:(bookmarkStart|bookmarkEnd|commentRangeStart|commentRangeEnd) [^>]*/>"
        text = re.sub(r"<w:r [^>]*><w:commentReference [^>]*/></w:r>", "", text)
        first = text.index("<w:p xmlns:w=")
        text = text[:first] + text[text.index("<w:sectPr", first) :]
        bare = re.sub(marks, "", text)
        original = re.sub(r"<(w:p)/>", r"<\1></\1>", old.read("word/document.xml").decode())
        assert re.sub(r"<(w:p)/>", r"<\1></\1>", bare) == original


def test_the_list_leads_to_the_cells_and_back(tmp_path: Path) -> None:
    """Each entry has a link to the bookmark of its cell, each comment one to the bookmark of its entry."""
    copy, comments = marked(_document(tmp_path))
    with zipfile.ZipFile(io.BytesIO(copy)) as archive:
        text, notes = (archive.read(f"word/{name}.xml").decode() for name in ("document", "comments1"))
    for mark in comments.marks:
        for name, place in ((f"cell_of_comment_{mark.number}", text), (f"comment_{mark.number}", notes)):
            assert f'w:name="{name}"' in text
            assert f'w:anchor="{name}"' in place
    words = "\n".join(one.text for one in docx.Document(io.BytesIO(copy)).paragraphs)
    assert "Action: Revise and resubmit" in words
    assert "Hot surfaces, fire ratings" in words
    assert all(mark.text in words for mark in some(comments.marks))


def test_comments_that_are_there_stay(tmp_path: Path) -> None:
    """Comments of the contractor keep their numbers and words; ours come after them."""
    path = _document(tmp_path)
    document = docx.Document(str(path))
    run = document.paragraphs[0].runs[0]
    document.add_comment([run], text="for information", author="Contractor", initials="C")
    document.save(str(path))
    copy, comments = marked(path)
    found = [(one.author, one.text.split(",")[0]) for one in docx.Document(io.BytesIO(copy)).comments]
    assert found[0] == ("Contractor", "for information")
    assert [author for author, _ in found[1:]] == ["reviewer"] * len(comments.marks)
    assert _cells_of_comments(copy) == FOUND


@pytest.mark.parametrize("name", ["x", "w"])
def test_documents_of_other_programs(name: str, tmp_path: Path) -> None:
    """The prefix of the elements, and merged, nested and empty cells, are as a program writes them."""
    path = tmp_path / "schedule.docx"
    rows = [*ROWS[:-1], ("P-5", "CHW", "indoor", "fiberglass", "", "12")]
    write_docx(path, rows)
    document = docx.Document(str(path))
    document.tables[0].cell(1, 0).merge(document.tables[0].cell(2, 0))
    document.tables[0].cell(3, 2).add_table(1, 1)
    document.save(str(path))
    if name != "w":
        parts = {}
        with zipfile.ZipFile(path) as archive:
            parts = {entry: archive.read(entry) for entry in archive.namelist()}
        text = parts["word/document.xml"]
        for old, new in ((b"<w:", b"<x:"), (b"</w:", b"</x:"), (b" w:", b" x:"), (b"xmlns:w=", b"xmlns:x=")):
            text = text.replace(old, new)
        parts["word/document.xml"] = text
        with zipfile.ZipFile(path, "w") as archive:
            for entry, content in parts.items():
                archive.writestr(entry, content)
    copy, _ = marked(path)
    parse_xml(zipfile.ZipFile(io.BytesIO(copy)).read("word/document.xml"))
    assert _cells_of_comments(copy) == FOUND
