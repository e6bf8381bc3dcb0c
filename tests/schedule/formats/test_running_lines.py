"""Lines that run from page to page are no rows, and no row is lost as one of them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from speccheck.schedule.formats.pdf_tables import read_pdf


def pages(path: Path, rows: list[list[str]], repeat: int, head: str) -> None:
    """Write a table without rules over several pages, each with a head that has its number and a foot with a date."""
    from reportlab.platypus import SimpleDocTemplate, Table

    def around(canvas: Any, document: Any) -> None:
        canvas.setFont("Helvetica", 8)
        if head:
            canvas.drawString(40, 825, f"{head} {document.page}")
            canvas.drawString(40, 12, "Issued 2026-03-04")

    document = SimpleDocTemplate(str(path), topMargin=36, bottomMargin=36, invariant=1)
    document.build([Table(rows, [80, 120, 80, 80], repeatRows=repeat)], onFirstPage=around, onLaterPages=around)


@pytest.mark.parametrize("repeat", [0, 1])
@pytest.mark.parametrize("head", ["", "The dairy, page"])
@pytest.mark.parametrize("mark", ["P-{}", "{}"])
def test_rows_that_are_alike_are_all_read(repeat: int, head: str, mark: str, tmp_path: Path) -> None:
    """Each page has rows where other pages have some that are alike but for their marks: none of them is left out."""
    marks = [mark.format(number) for number in range(1, 121)]
    rows = [["Mark", "Service", "Size (in)", "Thk (in)"], *([one, "steam", "2", "1"] for one in marks)]
    pages(tmp_path / "t.pdf", rows, repeat, head)
    grids = read_pdf(tmp_path / "t.pdf")[0]
    read = [grid.text(row, 0) for grid in grids for row in grid.table_rows]
    assert [text for text in read if text in marks] == marks


def test_alike_rows_without_marks_are_all_read(tmp_path: Path) -> None:
    """Even rows that are the same to the letter on every page."""
    rows = [
        ["Insulation", "Service", "Size (in)", "Thk (in)"],
        *(["fiberglass", "steam", "2", "1"] for _ in range(120)),
    ]
    pages(tmp_path / "t.pdf", rows, 0, "")
    grids = read_pdf(tmp_path / "t.pdf")[0]
    assert sum(grid.text(row, 0) == "fiberglass" for grid in grids for row in grid.table_rows) == 120
