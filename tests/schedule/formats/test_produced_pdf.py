"""PDF tables without rules as programs print them, columns close together: a cell is read as it is written, or not."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from speccheck.schedule.formats.pdf_tables import read_pdf
from tests.schedule.formats.produced_tables import drawn, outcome_of
from tests.schedule.formats.producers import BROWSER, OFFICE
from tests.schedule.formats.table_programs import PROGRAMS

TABLES = int(os.environ.get("SPECCHECK_PRODUCED_PDFS", "8"))
NEEDS = {"Chromium": BROWSER, "Calc": OFFICE, "Writer": OFFICE}


@pytest.mark.parametrize("name", PROGRAMS)
def test_no_cell_is_read_as_another(name: str, tmp_path: Path) -> None:
    """Narrow padding, wrapped and hyphenated words, numbers on the right, raised fractions: nothing is read wrongly."""
    if not NEEDS.get(name, "here"):
        pytest.skip(f"{name} is not installed")
    first = 1000 * list(PROGRAMS).index(name)
    tables = {tmp_path / f"{seed}.pdf": drawn(seed) for seed in range(first, first + TABLES)}
    PROGRAMS[name](tables)
    outcomes = {path.stem: outcome_of(path, rows) for path, (rows, _) in tables.items()}
    assert {stem: one.wrong for stem, one in outcomes.items() if one.wrong} == {}
    filled, right = (sum(getattr(one, what) for one in outcomes.values()) for what in ("filled", "right"))
    assert right >= 0.9 * filled


FRACTIONS = {
    "1<super>1/2</super>": "1 1/2",
    "1<super>1</super>/<sub>2</sub>": "1 1/2",
    "<super>3</super>/<sub>4</sub>": "3/4",
    "2<super>1</super>": "2\u00b9",
    "3 ft<super>2</super>/h": "3 ft\u00b2/h",
    "11/2": "11/2",
}


def test_raised_figures_before_a_bar_are_of_a_fraction(tmp_path: Path) -> None:
    """One and a half is never eleven halves, however its figures are raised; the raised mark of a note stays one."""
    from reportlab.platypus import Paragraph, SimpleDocTemplate, Table

    rows = [["Mark", "Size"], *([f"P-{n}", Paragraph(text)] for n, text in enumerate(FRACTIONS))]
    SimpleDocTemplate(str(tmp_path / "t.pdf"), invariant=1).build([Table(rows, [80, 120])])
    (grid,) = read_pdf(tmp_path / "t.pdf")[0]
    assert [grid.text(row, 1) for row in range(1, len(rows))] == list(FRACTIONS.values())
