"""One schedule as every kind of paper: the lines are the same, and only their places differ in form."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest

from speccheck.language.diagnostics import Severity
from speccheck.schedule import read_schedule
from speccheck.schedule.lines import Schedule
from tests.schedule.building import FILES, small_vocabulary, written_lines
from tests.schedule.formats.papers import (
    write_docx,
    write_html,
    write_ods,
    write_ruled_pdf,
    write_separated,
    write_unruled_pdf,
    write_xlsx,
)

ROWS = (
    ("Mark", "Service", "Size (in)", "Thk (in)", "Op. temp (F)", "Location"),
    ("P-1", "chilled water", "1 1/2", "1", "42", "plenum"),
    ("P-2", "chilled water", "2 to 4", "1.5", "42", "outdoor"),
    ("P-3", "heating hot water", "8", "3", "350", "plenum"),
    ("P-4", "chilled water", "3/4", "TBD", "42", "plenum"),
    ("P-5", "heating hot water", "2", "2 1/2", "350", "outdoor"),
)
WRITERS: dict[str, Callable[..., object]] = {
    "a.xlsx": write_xlsx,
    "b.docx": write_docx,
    "ruled.pdf": write_ruled_pdf,
    "pages.pdf": partial(write_ruled_pdf, rows_on_a_page=2),
    "unruled.pdf": write_unruled_pdf,
    "rotated.pdf": partial(write_unruled_pdf, rotated=True),
    "courier.pdf": partial(write_unruled_pdf, font="Courier", gap=12, right_aligned=(2, 3, 4)),
    "page.xls": write_html,
    "tabs.xls": write_separated,
    "sixteen.csv": partial(write_separated, encoding="utf-16"),
    "mark.csv": partial(write_separated, encoding="utf-8-sig", separator=","),
    "d.ods": write_ods,
}


def schedule_of(path: Path) -> Schedule:
    """Return a schedule that reads without errors."""
    schedule = read_schedule(path, small_vocabulary())
    assert [one for one in schedule.diagnostics if one.severity is Severity.ERROR] == []
    return schedule


@pytest.fixture(scope="module")
def expected(tmp_path_factory: pytest.TempPathFactory) -> list[str]:
    """Return the lines as plain comma-separated text gives them."""
    path = tmp_path_factory.mktemp("plain") / "plain.csv"
    write_separated(path, ROWS, separator=",")
    lines = written_lines(schedule_of(path))
    assert lines[1].startswith("P-2: service chilled water; pipe size 2 in through 4 in; thickness 1-1/2 in")
    assert lines[3].startswith("P-4: service chilled water; pipe size 3/4 in; thickness not given (TBD)")
    return lines


@pytest.mark.parametrize("name", WRITERS)
@pytest.mark.parametrize("heading", ["", "Pipe insulation schedule of the dairy"])
def test_the_lines_are_the_same(name: str, heading: str, expected: list[str], tmp_path: Path) -> None:
    """Workbooks old and new, Word, HTML, tabs, UTF-16, PDF with and without rules, over pages and turned around."""
    path = tmp_path / name
    WRITERS[name](path, ROWS, heading)
    assert written_lines(schedule_of(path)) == expected


def test_a_workbook_in_the_old_format() -> None:
    """An .xls workbook that LibreOffice 7 wrote is read, and it is said what its format does not show."""
    schedule = schedule_of(FILES / "old.xls")
    assert written_lines(schedule) == [
        "P-1: pipe size 1-1/2 in; thickness 1 in; location plenum",
        "P-2: pipe size 2 in; thickness 1-1/2 in; location outdoor",
    ]
    assert [str(one) for one in schedule.diagnostics] == [
        "warning[S112]: text struck out in part, comments and the units of number formats are not seen in this format\n"
        "  at old.xls\n  help: check what is struck through within cells and what they show beside their numbers, or "
        "save the workbook as .xlsx",
        "warning[S214]: the table under `old` is perhaps not what is proposed, and was read like any other\n"
        "  at old.xls sheet old\n"
        "  help: delete it, or say in a mapping file which row is the header, if it is not proposed",
    ]


@pytest.mark.parametrize("name", ["ruled.pdf", "pages.pdf", "unruled.pdf"])
def test_data_of_a_pdf_keep_their_page(name: str, tmp_path: Path) -> None:
    """The place of a line names the page on which it stands."""
    WRITERS[name](tmp_path / name, ROWS)
    places = [str(line.place) for line in schedule_of(tmp_path / name).lines]
    assert places[0] == f"{name} page 1 table 1 A2"
    assert places[4] == (f"{name} page 3 table 1 A2" if name == "pages.pdf" else f"{name} page 1 table 1 A6")


@pytest.mark.parametrize("name", ["b.docx", "ruled.pdf", "unruled.pdf"])
@pytest.mark.parametrize("heading", ["", "Pipe insulation schedule of the dairy"])
def test_rows_are_counted_within_the_table(name: str, heading: str, tmp_path: Path) -> None:
    """The first line stands in row 2 of its table on paper, whatever paragraphs stand above it."""
    path = tmp_path / name
    WRITERS[name](path, ROWS, heading)
    assert [line.place.cell for line in schedule_of(path).lines] == ["A2", "A3", "A4", "A5", "A6"]


def test_a_table_over_pages_is_counted_on_each_page(tmp_path: Path) -> None:
    """A row is looked for on its own page: the count begins again where the table goes on."""
    path = tmp_path / "pages.pdf"
    WRITERS["pages.pdf"](path, ROWS, "")
    lines = schedule_of(path).lines
    assert len({line.place.sheet for line in lines}) > 1
    assert max(int(line.place.cell[1:]) for line in lines) < len(ROWS)
