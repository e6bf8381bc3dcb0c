"""Plain text without separators: tables set by blanks, lists in words, and rows that a comma has moved."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.schedule import Schedule, read_schedule
from speccheck.schedule.formats.comma_separated import read_comma_separated
from speccheck.schedule.formats.plain_text import cells_of_text
from tests.schedule.building import small_vocabulary, written_lines


def read(folder: Path, name: str, text: str) -> Schedule:
    """Read a schedule out of a text file."""
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return read_schedule(path, small_vocabulary())


def words(text: str) -> dict[int, list[str]]:
    """Return the texts of each row, with "" for each blank cell before the last."""
    found: dict[int, list[str]] = {}
    for (row, column), cell in sorted(cells_of_text(text).items()):
        line = found.setdefault(row, [])
        line += [""] * (column - len(line)) + [cell.text]
    return found


def test_a_table_set_in_columns_by_blanks_is_read(tmp_path: Path) -> None:
    """Blank cells stay in their column, numbers may be set on the right, a ruler and a title are no lines."""
    text = (
        "Schedule of piping, second issue\n\n"
        "Size        Service         Thk\n"
        "----------  --------------  ------\n"
        "2 in        chilled water    1 in\n"
        "3 in                       1.5 in\n"
    )
    assert written_lines(read(tmp_path, "set.txt", text)) == [
        "row 5: pipe size 2 in; service chilled water; thickness 1 in",
        "row 6: pipe size 3 in; thickness 1-1/2 in",
    ]


@pytest.mark.parametrize(
    ("text", "rows"),
    [
        ("a  b  c\n1  2  3", {0: ["a", "b", "c"], 1: ["1", "2", "3"]}),
        ("a  b  c\n1     3", {0: ["a", "b", "c"], 1: ["1", "", "3"]}),
        ("a  b  c\nGroup one\n1  2  3", {0: ["a", "b", "c"], 1: ["Group one"], 2: ["1", "2", "3"]}),
        ("a  b  c\n1  2  3\n1 long one  3  4", {0: ["a", "b", "c"], 1: ["1", "2", "3"], 2: ["1 long one  3  4"]}),
        ("a  b  c", {0: ["a  b  c"]}),
        ("one\ntwo, three", {0: ["one"], 1: ["two, three"]}),
    ],
)
def test_a_word_never_stands_in_the_column_beside_its_own(text: str, rows: dict[int, list[str]]) -> None:
    """A line that keeps the columns apart is a row of cells; one that runs across them is one text."""
    assert words(text) == rows


def test_a_list_in_words_is_not_parted_by_its_commas(tmp_path: Path) -> None:
    """Commas that part half of the lines or fewer stand in sentences: each line is one text, as in a document."""
    text = 'Submitted for approval\n\nPiping, 3 pages\nall of it\nCHW 2": 1" fiberglass, fire rated\n'
    (tmp_path / "list.txt").write_text(text, encoding="utf-8")
    (grid,), _ = read_comma_separated(tmp_path / "list.txt")
    assert [cell.text for cell in grid.cells.values()] == text.replace("\n\n", "\n").splitlines()


def test_a_row_with_more_fields_than_its_header_is_read_in_none(tmp_path: Path) -> None:
    """The comma of `Fiberglass, rigid` moves what follows by a column; a blank field more moves nothing."""
    text = "Size,Insulation,Thk\n2 in,fiberglass,1 in,\n3 in,fiberglass, rigid,2 in\n"
    schedule = read(tmp_path, "moved.csv", text)
    assert written_lines(schedule) == [
        "row 2: pipe size 2 in; insulation fiberglass; thickness 1 in",
        "row 3: pipe size not given (3 in); insulation not given (fiberglass); thickness not given (rigid)",
    ]
    message = "the row has more fields than its header, so that each may stand in the place of another"
    help = "put a cell that holds the separator, such as a comma, between quotation marks"
    place = Place("moved.csv", cell="A3")
    assert Diagnostic("S319", Severity.WARNING, message, place, help) in schedule.diagnostics


def test_the_ruler_of_a_table_in_marks_is_no_line(tmp_path: Path) -> None:
    """Rows of dashes between bars part a header from its lines and say nothing."""
    text = "| Size | Thk |\n|------|:---:|\n| 2 in | 1 in |\n"
    assert written_lines(read(tmp_path, "bars.txt", text)) == ["row 3: pipe size 2 in; thickness 1 in"]


@pytest.mark.parametrize(("limit", "what"), [("MOST_FILLED_ROWS", "rows"), ("MOST_FILLED_CELLS", "cells")])
def test_too_long_a_text_is_refused(limit: str, what: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Plain text has the limits of separated text, which are set lower here."""
    monkeypatch.setattr(f"speccheck.schedule.formats.comma_separated.{limit}", 2)
    path = tmp_path / "long.txt"
    path.write_text("one\ntwo\nthree\n", encoding="utf-8")
    message = f"`long.txt` has more than 2 filled {what}, which is the limit"
    place = Place("long.txt")
    told = Diagnostic("S105", Severity.ERROR, message, place, "leave only the schedule in the file")
    assert read_comma_separated(path) == ([], [told])
