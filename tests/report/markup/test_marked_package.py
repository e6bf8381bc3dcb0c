"""Several files marked as one submittal: one copy each, with comments that are numbered through."""

from __future__ import annotations

import io
from pathlib import Path

import docx
import pytest
from click.testing import CliRunner, Result
from openpyxl import load_workbook

from speccheck.cli.markup import command
from tests.report.markup.building import CLAUSES, ROWS
from tests.schedule.formats.papers import write_docx, write_xlsx


@pytest.fixture
def sent(tmp_path: Path) -> Path:
    """Return a folder with a workbook, its continuation in Word, and a cover letter."""
    folder = tmp_path / "sent"
    folder.mkdir()
    write_xlsx(folder / "first.xlsx", ROWS[:4])
    write_docx(folder / "second.docx", [ROWS[0], *ROWS[4:]])
    write_docx(folder / "letter.docx", [("Please find", "our schedule")])
    (tmp_path / "small.clauses").write_text(CLAUSES, encoding="utf-8")
    return folder


def run(*words: str | Path) -> Result:
    """Run the command."""
    return CliRunner().invoke(command, [str(word) for word in words], standalone_mode=False)


def test_each_schedule_has_its_copy(sent: Path, tmp_path: Path) -> None:
    """The third comment is the last on the workbook, the fourth the first on the document; the letter has no copy."""
    result = run(sent, "--against", tmp_path / "small.clauses", "--into", tmp_path / "marked")
    assert result.return_value == 0, result.output
    assert sorted(path.name for path in (tmp_path / "marked").iterdir()) == ["first.xlsx", "second.docx"]
    sheet = load_workbook(tmp_path / "marked" / "first.xlsx").worksheets[0]
    found = {cell.coordinate: cell.comment.text for row in sheet.iter_rows() for cell in row if cell.comment}
    assert {cell: text.partition(".")[0] for cell, text in found.items()} == {"E2": "1R", "F2": "2R", "F4": "3P"}
    copy = docx.Document(io.BytesIO((tmp_path / "marked" / "second.docx").read_bytes()))
    assert [one.text.partition(".")[0] for one in copy.comments] == ["4R", "5P"]
    assert any(one.text == "Comments on second.docx" for one in copy.paragraphs)
    assert "letter.docx is no schedule, and was not marked" in result.output


def test_the_copies_go_into_a_folder(sent: Path, tmp_path: Path) -> None:
    """A file cannot hold the copies of several, and what was sent is not written over."""
    (tmp_path / "marked.xlsx").write_text("", encoding="utf-8")
    with_file = run(sent, "--against", tmp_path / "small.clauses", "--into", tmp_path / "marked.xlsx")
    assert str(with_file.exception) == "--into marked.xlsx has to name a folder, for several files were given"
    before = (sent / "first.xlsx").read_bytes()
    over = run(sent, "--against", tmp_path / "small.clauses", "--into", sent, "--replace")
    assert over.return_value == 3
    assert (sent / "first.xlsx").read_bytes() == before
