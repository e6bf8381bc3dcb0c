"""Files that are read in a child process: the same as here, and a diagnostic whatever becomes of the child."""

from __future__ import annotations

import shutil
import stat
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.report.markup.copying import Marked
from speccheck.report.markup.copying import marked_copy as marked_copy_of
from speccheck.report.markup.marks import comments_of
from speccheck.report.reply.reply import reply_to
from speccheck.review.notes import Notes
from speccheck.schedule.formats.opening import FormatKind, open_schedule, read_within_limits, reader_of
from tests.report.markup.building import ROWS, judged
from tests.schedule.building import FILES
from tests.schedule.formats import hostile
from tests.schedule.formats.papers import write_docx, write_html, write_separated, write_xlsx
from tests.schedule.formats.parts import number, raw_workbook, row, text
from tests.some import some

SMALL: dict[str, Callable[[Path], object]] = {
    "a.xlsx": lambda path: raw_workbook(
        path,
        row(text("Mark"), text("Thk"), attributes='hidden="1"') + row(text("P-1"), number(1)),
        around='<cols><col min="2" max="2" hidden="1"/></cols>{}<mergeCells><mergeCell ref="A1:A2"/></mergeCells>',
    ),
    "b.docx": lambda path: write_docx(path, ROWS, "Chilled water"),
    "c.html": lambda path: write_html(path, ROWS),
    "d.csv": lambda path: write_separated(path, ROWS, separator=","),
    "e.json": lambda path: shutil.copy(FILES / "lines.json", path),
    "f.toml": lambda path: shutil.copy(FILES / "lines.toml", path),
}


@pytest.mark.parametrize("name", SMALL)
def test_a_child_reads_what_is_read_here(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Of each kind of file: cells, what is merged and hidden, places and diagnostics come through unchanged."""
    path = tmp_path / name
    SMALL[name](path)
    here = open_schedule(path)
    assert here[0]
    monkeypatch.setattr("speccheck.schedule.formats.opening.MOST_BYTES_HERE", 0)
    assert open_schedule(path) == here


@pytest.mark.parametrize("name", ["b.docx", "w.xlsx"])
def test_a_child_marks_as_is_marked_here(name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The marked copy of a large file has the same bytes as that of a small one."""
    path = tmp_path / name
    (write_docx if name.endswith(".docx") else write_xlsx)(path, ROWS)
    here = copy_of(path)
    assert here.content
    monkeypatch.setattr("speccheck.schedule.formats.opening.MOST_BYTES_HERE", 0)
    assert copy_of(path) == here


def copy_of(path: Path, like: Path | None = None) -> Marked:
    """Return the marked copy of a file, with the comments on another one where it cannot be read."""
    matrix = judged(like or path)
    comments = comments_of(matrix, reply_to(matrix, Notes(), (), ""), author="A", date="2026-03-04")
    return marked_copy_of(path, matrix.schedule, comments)


@pytest.mark.skipif(sys.platform == "win32", reason="the stand-in for Python is a shell script")
@pytest.mark.parametrize("ending", ["kill -ABRT $$", "kill -KILL $$", "exit 134", "echo not JSON", "echo '[]'"])
@pytest.mark.parametrize("kind", list(FormatKind))
def test_whatever_becomes_of_the_child_is_a_diagnostic(
    ending: str, kind: FormatKind, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A child that is killed, aborts, fails or answers nonsense leaves one error, for every kind of file."""
    python = tmp_path / "python"
    python.write_text(f"#!/bin/sh\n{ending}\n")
    python.chmod(python.stat().st_mode | stat.S_IXUSR)
    monkeypatch.setattr(sys, "executable", str(python))
    monkeypatch.setattr("speccheck.schedule.formats.opening.MOST_BYTES_HERE", 0)
    path = tmp_path / "large.bin"
    path.write_bytes(b"x")
    message = "`large.bin` could not be read within 1000 MB of memory, or is damaged"
    help = "save it again with the program that wrote it, with the schedule alone"
    assert read_within_limits(kind, path) == ([], [Diagnostic("S104", Severity.ERROR, message, Place(path.name), help)])


MERGED = row(*[text(str(column)) for column in range(400)])
OVER_EACH_OTHER = "".join(f'<mergeCell ref="A{one}:NN{one + 400}"/>' for one in range(1, 401))
WIDE_COLUMNS = "".join(f'<col min="{one}" max="16384" hidden="1"/>' for one in range(1, 15_000))


def test_merged_cells_over_each_other_are_refused(tmp_path: Path) -> None:
    """Ranges that cover more cells than there are would take minutes, and nobody could say what they show."""
    rows = MERGED + row(text("end"), attributes='r="801"')
    path = raw_workbook(tmp_path / "m.xlsx", rows, around=f"{{}}<mergeCells>{OVER_EACH_OTHER}</mergeCells>")
    message, help = (
        "`Lines` has merged cells that lie over each other",
        "save the file again with the program that wrote it",
    )
    assert open_schedule(path) == ([], [Diagnostic("S104", Severity.ERROR, message, Place("m.xlsx"), help)])


def thousands_of_merged_rows(path: Path) -> Path:
    """Write a Word table whose only column is merged downwards over thousands of rows, again and again."""
    cells = (
        "<w:tc><w:tcPr><w:vMerge{}/></w:tcPr></w:tc>".format(' w:val="restart"' if n % 2 else "") for n in range(9_000)
    )
    return hostile.document(path, f"<w:tbl>{''.join(f'<w:tr>{cell}</w:tr>' for cell in cells)}</w:tbl>")


SLOW: Sequence[tuple[str, Callable[[Path], object]]] = (
    ("rows.docx", thousands_of_merged_rows),
    ("columns.xlsx", lambda path: raw_workbook(path, MERGED, around=f"<cols>{WIDE_COLUMNS}</cols>{{}}")),
    ("paragraphs.docx", lambda path: hostile.document(path, "<w:p/>" * 160_000)),
    ("cells.docx", lambda path: hostile.document(path, f"<w:tbl><w:tr>{'<w:tc/>' * 130_000}</w:tr></w:tbl>")),
    ("tables.docx", lambda path: hostile.document(path, "<w:tbl/>" * 120_000)),
    ("brackets.html", lambda path: path.write_text("<table><tr><td>" * 60_000)),
    ("commas.csv", lambda path: path.write_text("," * 1_000_000)),
    ("quotes.csv", lambda path: path.write_text('"' * 1_000_000)),
    ("lists.json", lambda path: path.write_text("[" * 1_000_000)),
    ("names.toml", lambda path: path.write_text(".".join("a" * 250_000) + " = 1")),
    ("tables.toml", lambda path: path.write_text("[[a]]\n" * 160_000)),
)


@pytest.mark.parametrize(("name", "write"), SLOW)
def test_what_is_read_in_this_process_ends(name: str, write: Callable[[Path], object], tmp_path: Path) -> None:
    """The largest files that no child reads, each made to be slow: a reader with a square in it would not come back."""
    path = tmp_path / name
    write(path)
    grids, diagnostics = open_schedule(path)
    assert len(grids) + len(diagnostics) < 10


def test_documents_that_nest_without_end_are_not_marked(tmp_path: Path) -> None:
    """Marking hears parts that reading does not; it refuses the same things."""
    write_docx(tmp_path / "like.docx", ROWS)
    deep = copy_of(hostile.deep_document(tmp_path / "deep.docx"), tmp_path / "like.docx")
    bomb = copy_of(hostile.entity_bomb(tmp_path / "bomb.docx"), tmp_path / "like.docx")
    help = "save it again with the program that wrote it"
    assert [(one.content, *one.diagnostics) for one in (deep, bomb)] == [
        (None, Diagnostic("R110", Severity.ERROR, message, Place(file), help))
        for file, message in (
            ("deep.docx", "a part of `deep.docx` nests more than 250 elements"),
            ("bomb.docx", "a part of `bomb.docx` declares XML entities, which no spreadsheet and no document does"),
        )
    ]


def test_each_kind_has_its_reader() -> None:
    """No kind of file is without one."""
    assert all(callable(reader_of(kind)) for kind in some(FormatKind))


@pytest.mark.parametrize(
    ("name", "content", "what"),
    [
        ("rows.csv", "Mark,Thk\n" + "P,1\n" * 50_001, "50,000 filled rows"),
        ("cells.csv", ("1," * 500 + "\n") * 401, "200,000 filled cells"),
        ("lines.json", f"[{','.join(['{}'] * 50_001)}]", "50,000 lines"),
    ],
)
def test_texts_have_the_limits_of_workbooks(name: str, content: str, what: str, tmp_path: Path) -> None:
    """Separated text and JSON are refused where a sheet of as many rows and cells would be."""
    path = tmp_path / name
    path.write_text(content)
    message = f"`{name}` has more than {what}, which is the limit"
    expected = Diagnostic("S105", Severity.ERROR, message, Place(name), "leave only the schedule in the file")
    assert open_schedule(path) == ([], [expected])
