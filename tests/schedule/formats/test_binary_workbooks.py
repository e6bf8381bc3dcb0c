"""Workbooks in the formats .xlsb and .xls: their values, and what is merged, hidden and struck."""

from __future__ import annotations

from pathlib import Path

import pytest

from speccheck.schedule.formats.opening import open_schedule
from speccheck.schedule.formats.record_workbooks import looks_of_records
from speccheck.schedule.grid import Grid, MergedRange
from speccheck.schedule.messages.cells import STRUCK
from speccheck.schedule.messages.files import DAMAGED, TOO_LARGE
from tests.schedule.formats.binary_sheets import write_xlsb
from tests.schedule.formats.producers import OFFICE, Sheet, by_office

FILES = Path(__file__).parent.parent / "files"
SHEET = Sheet(
    "Lines",
    (
        ("Mark", "Service", "Size", "Thk"),
        ("P-1", "chilled water", "2", "1"),
        ("P-2", "", "4", "1.5"),
        ("P-3", "steam", '4"', "2"),
        ("P-4", "fiberglass, foam", "4", "3"),
        ("P-5", "mineral fiber or foam", "4", "3"),
    ),
    (MergedRange(1, 1, 2, 1),),
)


@pytest.fixture(scope="module")
def workbook(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a workbook with a merged range, a hidden row and column, and cells struck through, two in part."""
    path = tmp_path_factory.mktemp("binary") / "lines.xlsb"
    write_xlsb(
        path,
        [SHEET],
        hidden_rows=[3],
        hidden_columns=[2],
        struck=[(4, 3), (2, 0), (4, 1, "in part"), (5, 1, "in part, shared")],
    )
    return path


def grid_of(path: Path) -> Grid:
    """Return the only grid of a workbook."""
    (grid,) = open_schedule(path)[0]
    return grid


def test_what_a_binary_workbook_shows(workbook: Path) -> None:
    """Numbers and texts are read, and it is seen which range is merged, what is hidden and what is struck through."""
    grid = grid_of(workbook)
    texts = {
        at: text for row, line in enumerate(SHEET.rows) for column, text in enumerate(line) if (at := (row, column))
    }
    assert {at: cell.text for at, cell in grid.cells.items()} == {at: text for at, text in texts.items() if text}
    assert {at for at, cell in grid.cells.items() if cell.trouble == STRUCK.code} == {(4, 3), (2, 0), (4, 1), (5, 1)}
    assert (grid.blocks, grid.hidden_rows, grid.hidden_columns) == (SHEET.blocks, {3}, {2})


@pytest.mark.skipif(OFFICE is None, reason="LibreOffice is not installed")
def test_the_office_sees_the_same(workbook: Path, tmp_path: Path) -> None:
    """LibreOffice, which reads the format by code of its own, saves it as .xlsx with the same in it."""
    saved = by_office([workbook], ".xlsx", tmp_path)[workbook]
    ours, theirs = grid_of(workbook), grid_of(saved)
    assert ours.cells == theirs.cells
    assert (ours.blocks, ours.hidden_rows, ours.hidden_columns) == (
        theirs.blocks, theirs.hidden_rows, theirs.hidden_columns
    )  # fmt: skip


def test_what_the_format_does_not_show_is_said(workbook: Path) -> None:
    """Comments and what number formats show are not seen, which a person is told."""
    told = [str(one) for one in open_schedule(workbook)[1]]
    assert told == [
        "warning[S112]: comments and the units of number formats are not seen in this format\n  at lines.xlsb\n"
        "  help: check what the cells show beside their numbers, or save the workbook as .xlsx"
    ]


@pytest.mark.parametrize("keep", range(0, 100, 7))
def test_a_workbook_that_was_cut_off_is_told_to_be_damaged(workbook: Path, keep: int, tmp_path: Path) -> None:
    """A part that ends anywhere gives what is before the end, or one error; never a fault of the program."""
    import zipfile

    cut = tmp_path / "cut.xlsb"
    with zipfile.ZipFile(workbook) as whole, zipfile.ZipFile(cut, "w") as archive:
        for name in whole.namelist():
            data = whole.read(name)
            archive.writestr(name, data[: len(data) * keep // 100] if name.endswith(".bin") else data)
    grids, told = open_schedule(cut)
    assert bool(grids) != any(one.code in (DAMAGED.code, TOO_LARGE.code) for one in told)


def test_an_old_workbook_shows_what_is_hidden_and_struck() -> None:
    """In an .xls workbook that LibreOffice 7 wrote: a hidden row and column, a merged range, and struck cells."""
    (grid,), _ = open_schedule(FILES / "hidden.xls")
    assert (grid.hidden_rows, grid.hidden_columns) == ({2}, {4})
    assert grid.blocks == (MergedRange(4, 3, 5, 3),)
    struck = {at for at, cell in grid.cells.items() if cell.trouble == STRUCK.code}
    assert struck == {(3, 2), *((4, column) for column in range(5) if (4, column) in grid.cells)}


def test_an_old_workbook_that_is_broken_off_shows_its_values_alone(tmp_path: Path) -> None:
    """What its records say is not guessed: it is said that nothing of it is seen, or that the file is damaged."""
    whole = (FILES / "hidden.xls").read_bytes()
    for size in range(512, len(whole), 700):
        (tmp_path / "part.xls").write_bytes(whole[:size])
        looks_of_records(tmp_path / "part.xls")
        _, told = open_schedule(tmp_path / "part.xls")
        assert told
