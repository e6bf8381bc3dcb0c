"""The commands that propose changes and write the reply, run as a person runs them."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from openpyxl import Workbook, load_workbook

from speccheck.cli import speccheck

CLAUSES = """ruleset "small"
  speaks mechanical insulation
  stocked thickness is one of 1 in, 1-1/2 in, 2 in

clause 1 "thick"
  shall thickness be at least 1-1/2 in
"""


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder with a ruleset and a schedule, in which the commands run."""
    (tmp_path / "small.clauses").write_text(CLAUSES, encoding="utf-8")
    workbook = Workbook()
    for row in (("Mark", "Service", "Thk (in)"), ("P-1", "CHW", 1), ("P-2", "CHW", 2)):
        workbook.worksheets[0].append(row)
    workbook.save(tmp_path / "schedule.xlsx")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*words: str) -> Result:
    """Run a command on the schedule."""
    return CliRunner().invoke(speccheck, [words[0], "schedule.xlsx", "--against", "small.clauses", *words[1:]])


def main_status(*words: str) -> int:
    """Return the status of a command run whole."""
    result = CliRunner().invoke(
        speccheck, [words[0], "schedule.xlsx", "--against", "small.clauses", *words[1:]], standalone_mode=False
    )
    return result.return_value if isinstance(result.return_value, int) else result.exit_code


def test_mend_prints_the_changes_and_writes_the_workbook(folder: Path) -> None:
    """The line that fails gets a proposal; the corrected workbook has it; the schedule is as it was."""
    before = (folder / "schedule.xlsx").read_bytes()
    result = run("corrections", "--workbook", "corrected.xlsx")
    assert "revise thickness from 1 in to 1-1/2 in or more" in result.output
    assert load_workbook(folder / "corrected.xlsx").worksheets[0]["C2"].value == "1-1/2 in"
    assert (folder / "schedule.xlsx").read_bytes() == before


def test_mend_says_what_came_of_it(folder: Path) -> None:
    """1 where changes were found, 2 where a line has none, 3 where the call cannot be used."""
    assert main_status("corrections") == 1
    assert main_status("corrections", "--keep", "thickness") == 2
    assert run("corrections", "--keep", "thiknes").exit_code != 0
    assert "did you mean `thickness`?" in run("corrections", "--keep", "thiknes").output
    assert main_status("corrections", "--workbook", "schedule.xlsx") == 3


def test_reply_is_written_and_notes_are_kept(folder: Path) -> None:
    """Page, document and the notes for the next round; the notes can be handed in again."""
    first = ("--page", "reply.html", "--word", "reply.docx", "--keep-notes", "next.toml", "--action", "Noted")
    assert main_status("reply", *first) == 0
    assert "Noted" in (folder / "reply.html").read_text(encoding="utf-8")
    assert (folder / "reply.docx").read_bytes()[:2] == b"PK"
    notes = (folder / "next.toml").read_text(encoding="utf-8")
    (folder / "next.toml").write_text(notes.replace('text = ""', 'text = "Call first."'), encoding="utf-8")
    assert main_status("reply", "--notes", "next.toml", "--page", "second.html") == 0
    assert "Call first." in (folder / "second.html").read_text(encoding="utf-8")


def test_reply_refuses_what_it_cannot_do(folder: Path) -> None:
    """Nothing to write, notes that cannot be read, and an input as the output end with a sentence."""
    assert "say what to write" in run("reply").output
    (folder / "bad.toml").write_text("note = 1", encoding="utf-8")
    assert run("reply", "--notes", "bad.toml", "--page", "a.html").exit_code == 3
    assert not (folder / "a.html").exists()
    assert main_status("reply", "--page", "schedule.xlsx") == 3
