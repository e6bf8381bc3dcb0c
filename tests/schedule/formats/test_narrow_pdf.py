"""PDF tables that are too narrow for what they say: a cell is read as a reader sees it, or it is not read."""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

import pytest

from speccheck.schedule.formats.pdf_tables import read_pdf
from speccheck.schedule.grid import Grid
from speccheck.schedule.messages.cells import UNSURE_CELL
from tests.schedule.formats.narrow_tables import drawn, write

SEEDS = int(os.environ.get("SPECCHECK_NARROW_PDFS", "40"))
FOUND = (
    64, 68, 74, 91, 106, 108, 120, 125, 165, 201, 203, 207, 266, 271, 330, 370, 393, 410, 460, 473, 501,
    50772, 51720, 700800,
)  # fmt: skip
"""Tables of which a cell was once read as another."""


def wrong_in(path: Path, rows: Sequence[Sequence[str]], options: Mapping[str, Any]) -> list[str]:
    """Write a table, read it, and return what was read as another value than is seen."""
    seen = [[_plain(text, options) for text in row] for row in write(path, rows, dict(options))]
    headers = dict(zip(seen[0], rows[0], strict=True))
    truth = [dict(zip(rows[0], row, strict=True)) for row in seen[1:]]
    return [told for grid in read_pdf(path)[0] for told in _wrong(grid, headers, truth, options)]


def _plain(text: str, options: Mapping[str, Any]) -> str:
    """Return a text as it is compared: words that are broken are compared without blanks."""
    text = " ".join(text.split()).replace("\ufb01", "fi")
    return text.replace(" ", "") if options["spill"] == "broken" else text


def _wrong(
    grid: Grid, headers: Mapping[str, str], truth: Sequence[Mapping[str, str]], options: Mapping[str, Any]
) -> list[str]:
    """Return the rows of a grid, once its header was met, that hold what no row of the table holds."""
    names: dict[int, str] = {}
    found = []
    for row, columns in grid.columns_by_row.items():
        texts = {column: _plain(grid.text(row, column), options) for column in columns}
        sure = {column: text for column, text in texts.items() if not grid.cells[row, column].trouble}
        if row not in grid.table_rows:
            continue
        if not names and headers.get("Mark", "Mark") in texts.values():
            names = {column: headers[text] for column, text in sure.items() if text in headers}
            continue
        said = {names[column]: text for column, text in sure.items() if column in names}
        if said and not any(said.items() <= line.items() for line in truth):
            found.append(f"row {row}: {said}")
    return found


@pytest.mark.parametrize("seed", sorted({*range(SEEDS), *FOUND}))
def test_no_cell_is_read_as_another(seed: int, tmp_path: Path) -> None:
    """Words wrapped, broken, run over the next column or cut off, set high or low, drawn in any order."""
    assert wrong_in(tmp_path / "t.pdf", *drawn(seed)) == []


PLAIN: dict[str, Any] = {
    "font": "Helvetica", "size": 8, "gap": 12, "narrow": 0.5, "leading": 1.2, "between": 6, "level": "top",
    "right_aligned": (), "spill": "wrapped", "order": "cells", "blanks": True, "heading": "",
}  # fmt: skip
ROWS = [
    ["Mark", "Service", "Size (in)", "Thk (in)"],
    ["P-1", "domestic hot water supply", "1/2 to 1 1/2", "1"],
    ["P-2", "steam condensate", "2", "1 1/2"],
]


def read(path: Path, **options: Any) -> list[list[str]]:
    """Return the rows of the table as they are read, with a mark before what is unsure."""
    write(path, ROWS, PLAIN | options)
    (grid,) = read_pdf(path)[0]
    return [
        [("? " if grid.cells[row, column].trouble else "") + grid.text(row, column) for column in columns]
        for row, columns in grid.columns_by_row.items()
    ]


@pytest.mark.parametrize("level", ["top", "middle"])
@pytest.mark.parametrize("between", [0, 6])
def test_wrapped_cells_are_put_together_as_they_were_drawn(level: str, between: float, tmp_path: Path) -> None:
    """Lines are as far apart as rows: that the page went down and up again alone tells that they are of one cell."""
    assert read(tmp_path / "t.pdf", level=level, between=between) == [
        ["Mark", "Service", "Size\n(in)", "Thk\n(in)"],
        ["P-1", "domestic hot\nwater supply", "1/2 to\n1 1/2", "1"],
        ["P-2", "steam\ncondensate", "2", "1\n1/2"],
    ]


def test_wrapped_cells_drawn_line_by_line_are_not_read(tmp_path: Path) -> None:
    """Where nothing tells whether a line is a row of its own, no part of a value is read as the whole."""
    told = [text for row in read(tmp_path / "t.pdf", order="lines", between=0)[1:] for text in row]
    assert {text for text in told if not text.startswith("?")} <= {"P-1", "P-2", "1", "2", "steam\ncondensate"}
    assert "? 1/2 to" in told


def test_text_over_the_next_column_is_unsure(tmp_path: Path) -> None:
    """The letters of both columns stand mixed, and neither is read."""
    told = [text for row in read(tmp_path / "t.pdf", spill="over", gap=1)[1:] for text in row]
    assert [text for text in told if "s" in text and not text.startswith("?")] == []


def test_letters_that_are_printed_twice_are_read_once(tmp_path: Path) -> None:
    """Some programs make letters bold by printing them again a little to the right: 1 in is not 11 in."""
    from reportlab.pdfgen.canvas import Canvas

    canvas = Canvas(str(tmp_path / "bold.pdf"), invariant=1)
    for number, row in enumerate([["Mark", "Size", "Thk"], ["P-1", "2", "1"], ["P-2", "4", "11"]]):
        for shift in (0, 0.3):
            for column, text in enumerate(row):
                canvas.drawString(50 + 80 * column + shift, 700 - 30 * number, text)
    canvas.save()
    (grid,) = read_pdf(tmp_path / "bold.pdf")[0]
    assert [grid.text(row, 2) for row in range(3)] == ["Thk", "1", "11"]
    assert UNSURE_CELL.code not in {cell.trouble for cell in grid.cells.values()}
