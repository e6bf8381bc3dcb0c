"""Every command that takes a schedule takes a submittal of several files, or its folder, and names files in places."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from openpyxl import load_workbook

import speccheck
from speccheck.cli import speccheck as program
from speccheck.inputs import UnusableInput
from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.review.messages.evidence import PRODUCT_DIFFERS
from tests.schedule.formats.papers import write_docx, write_xlsx

CLAUSES = """ruleset "small"
  speaks mechanical insulation
  units  inch-pound
  stocked thickness is one of 1 in, 1-1/2 in, 2 in

clause 1 "thick"
  where service is chilled water
  shall thickness be at least 1-1/2 in
"""
HEADER = ("Mark", "Service", "Product", "Density (lb/ft3)", "Thk (in)")


@pytest.fixture
def sent(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Stand beside a submittal: a workbook with a fault, its continuation in Word with the same marks, a data sheet."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "small.clauses").write_text(CLAUSES, encoding="utf-8")
    folder = tmp_path / "sent"
    folder.mkdir()
    write_xlsx(folder / "1.xlsx", [HEADER, ("P-1", "CHW", "Quillfoam A10", "3", "1"), ("P-2", "HHW", "", "", "2")])
    write_docx(folder / "2.docx", [HEADER, ("P-2", "CHW", "", "", "1"), ("P-3", "CHW", "", "", "2")])
    write_docx(folder / "quillfoam.docx", [("Property", "Value"), ("Density", "4 lb/ft3")], "Quillfoam A10")
    return folder


def run(*words: str) -> Result:
    """Run a command in this process."""
    return CliRunner().invoke(program, words, standalone_mode=False)


def words_of(result: Result) -> str:
    """Return what was printed, without line breaks."""
    assert result.exception is None, result.exception
    return " ".join(result.output.split())


AGAINST = ("--against", "small.clauses")


def test_read_shows_all_schedules_and_asks_once(sent: Path) -> None:
    """The column that no term is called by stands in both files: one question, one entry of the starter."""
    for name, write in (("1.xlsx", write_xlsx), ("2.docx", write_docx)):
        write(sent / name, [(*HEADER, "Oddity"), ("P-1", "CHW", "", "", "1", "green")])
    found = run("read", "sent", *AGAINST, "--starter", "map.toml")
    words = words_of(found)
    assert found.return_value == 2
    assert "1.xlsx: 1 line in 1 table" in words
    assert "2.docx: 1 line in 1 table" in words
    assert "Not read: 1 question, most lines first" in words
    starter = Path("map.toml").read_text(encoding="utf-8")
    assert starter.count('# "Oddity" = "?"') == 1
    assert "2 cells, F2 and F2 on Sheet of 1.xlsx, table 1 of 2.docx" in " ".join(starter.split())


def test_read_says_what_the_other_files_are(sent: Path) -> None:
    """The data sheet is told as one; nothing is open."""
    found = run("read", "sent", *AGAINST)
    assert found.return_value == 0
    assert "quillfoam.docx was read as a data sheet of Quillfoam A10" in words_of(found)


def test_reply_comments_on_all_files(sent: Path) -> None:
    """One reply has the comments on the lines of both files; lines of one name are told apart by their files."""
    assert run("reply", "sent", *AGAINST, "--page", "reply.html").return_value == 0
    page = Path("reply.html").read_text(encoding="utf-8")
    assert "P-1" in page
    assert "P-2 (2.docx)" in page


def test_explain_finds_a_line_of_any_file(sent: Path) -> None:
    """The place of the line and of each datum names the file."""
    found = run("explain", "sent", *AGAINST, "--line", "P-2 (2.docx)", "--clause", "1")
    assert found.return_value == 1
    assert "Line P-2 (2.docx): 2.docx, table 1, A2" in words_of(found)


def test_corrections_go_into_a_copy_of_each_workbook(sent: Path) -> None:
    """The folder is made for the copies; a document cannot be corrected, and that is said."""
    found = run("corrections", "sent", *AGAINST, "--workbook", "corrected")
    assert found.return_value == 3
    assert "`2.docx` is no workbook, and only a workbook can be corrected" in words_of(found)
    assert [path.name for path in Path("corrected").iterdir()] == ["1.xlsx"]
    sheet: Any = load_workbook(Path("corrected") / "1.xlsx").worksheets[0]
    assert [sheet.cell(row, 5).value for row in (2, 3)] == ["1-1/2 in", 2]


def test_compare_takes_the_folders_of_two_rounds(sent: Path, tmp_path: Path) -> None:
    """What is mended in one of the files is closed, what is not in the other is still open."""
    again = tmp_path / "again"
    again.mkdir()
    write_xlsx(again / "1.xlsx", [HEADER, ("P-1", "CHW", "", "", "1.5"), ("P-2", "HHW", "", "", "2")])
    (again / "2.docx").write_bytes((sent / "2.docx").read_bytes())
    found = run("compare", "sent", "again", *AGAINST, "--quiet")
    assert found.return_value == 1
    assert words_of(found) == "Findings: 1 still open, 1 closed. 2 changes not requested by the review."


def test_requirements_of_a_line_of_a_folder(sent: Path) -> None:
    """A line is taken from whichever file has it."""
    assert "at least 1-1/2 in" in words_of(run("requirements", "sent", "--line", "P-3", *AGAINST))


def test_a_script_checks_a_folder_as_the_command_does(sent: Path) -> None:
    """By folder and by files: the same findings, and the data sheet speaks against the density that is stated."""
    by_folder = speccheck.check(sent, against="small.clauses")
    by_files = speccheck.check(sorted(sent.iterdir()), against="small.clauses")
    assert [(one.line, one.place) for one in by_folder.findings] == [
        ("P-1", "1.xlsx, sheet Sheet, A2"),
        ("P-2 (2.docx)", "2.docx, table 1, A2"),
    ]
    assert [one.place for one in by_files.findings] == [one.place for one in by_folder.findings]
    assert [one.diagnostic.code for one in by_folder.matrix.observations] == [PRODUCT_DIFFERS.code]


def test_a_script_takes_data_sheets_and_fills_from_them(sent: Path) -> None:
    """Product data of a script may be a data sheet; only where it is asked for does it fill in what is left out."""
    write_xlsx(sent / "1.xlsx", [HEADER, ("P-1", "CHW", "Quillfoam A10", "", "2")])
    Path("dense.clauses").write_text(CLAUSES.replace("thickness be at least 1-1/2 in", "density be at least 2 lb/ft3"))
    asked = {"against": "dense.clauses", "products": [sent / "quillfoam.docx"]}
    left_out, filled = (
        speccheck.check(sent / "1.xlsx", fill_from_data=fill, **asked)  # type: ignore[arg-type]
        for fill in (False, True)
    )
    assert str(left_out["P-1", "1"].verdict) == "cannot be determined"
    assert str(filled["P-1", "1"].verdict) == "complies"
    assert [note.partition(" (")[0] for note in filled.matrix.cells[0][0].notes] == [
        "density 4 lb/ft3 from the product data of Quillfoam A10"
    ]


def test_files_of_one_name_cannot_be_told_apart(sent: Path, tmp_path: Path) -> None:
    """Places name the file alone, so that two of one name are refused."""
    write_xlsx(tmp_path / "1.xlsx", [HEADER, ("P-9", "CHW", "", "", "2")])
    with pytest.raises(UnusableInput) as ended:
        speccheck.check(["sent", "1.xlsx"], against="small.clauses")
    assert run("check", "sent", "1.xlsx", *AGAINST).exit_code == 3
    message = "2 files of the submittal are called `1.xlsx`, and places in them could not be told apart"
    expected = Diagnostic("S604", Severity.ERROR, message, Place("1.xlsx"), "give each file a name of its own")
    assert ended.value.diagnostics == (expected,)
