"""PDF tables without rules, drawn at random: a cell is read as it is written, or it is not read; never as another."""

from __future__ import annotations

import os
import random
from collections.abc import Sequence
from pathlib import Path

import pytest

from speccheck.schedule.formats.pdf_tables import read_pdf
from tests.schedule.formats.papers import write_unruled_pdf

SEEDS = int(os.environ.get("SPECCHECK_RANDOM_PDFS", "40"))
CELLS = (
    ("Service", ["chilled water", "heating hot water", "domestic\nhot water", "steam", ""]),
    ("Size (in)", ["1/2", "1 1/2", "2", "2 to 4", "1/2 to\n1 1/2", "12"]),
    ("Thk (in)", ["1", "1.5", "1 1/2", "2", "3", ""]),
    ("Op. temp (F)", ["42", "180", "350", "40 to 60"]),
    ("Insulation", ["fiberglass", "elasto-\nmeric", "cellular glass", "mineral\nfiber"]),
    ("Jacket", ["PVC", "aluminum 0.016 in", "none", ""]),
    ("Location", ["plenum", "outdoor", "mechanical room"]),
)


def drawn(seed: int) -> tuple[list[list[str]], dict[str, object]]:
    """Return a random table, each line with a mark of its own, and how it is set."""
    chance = random.Random(seed)
    columns = chance.sample(CELLS, chance.randint(2, len(CELLS)))
    wraps = chance.random() < 0.4

    def cell(choices: Sequence[str]) -> str:
        text = chance.choice(choices)
        return text if wraps else text.replace("-\n", "").replace("\n", " ")

    rows = [["Mark", *(header for header, _ in columns)]]
    rows += [[f"P-{n}", *(cell(choices) for _, choices in columns)] for n in range(1, chance.randint(3, 14))]
    options: dict[str, object] = {
        "font": chance.choice(["Helvetica", "Times-Roman", "Courier", "Vera"]),
        "size": chance.choice([6, 7, 8]),
        "gap": chance.choice([5, 7, 10, 16, 24]),
        "pitch": chance.choice([9, 11, 14, 20]),
        "right_aligned": tuple(chance.sample(range(len(rows[0])), chance.randint(0, 2))),
        "heading": chance.choice(["", "PIPE INSULATION", "Schedule of   piping   at the dairy"]),
    }
    if options["font"] == "Courier":
        options["gap"] = 12  # a gap that is no wider than a space cannot be determined from one
    if options["font"] == "Vera":
        rows = [[text.replace("fi", "\ufb01") for text in row] for row in rows]
    return rows, {**options, "raised": chance.random() < 0.4}


def _plain(text: str) -> str:
    """Return a text in one line: what breaks off at a hyphen goes on right behind it, and ligatures are letters."""
    return " ".join(text.replace("-\n", "-").replace("\ufb01", "fi").split())


def outcome_of(rows: Sequence[Sequence[str]], path: Path) -> tuple[int, list[str]]:
    """Return how many filled cells of the table were read as they are written, and those that were read as others."""
    grids, diagnostics = read_pdf(path)
    assert [str(one) for one in diagnostics] == []
    truth = {row[0]: {header: _plain(cell) for header, cell in zip(rows[0], row, strict=True)} for row in rows[1:]}
    right, wrong = 0, []
    for grid in grids:
        headers: dict[int, str] = {}
        for row, columns in grid.columns_by_row.items():
            texts = {column: " ".join(grid.text(row, column).split()) for column in columns}
            if "Mark" in texts.values():
                headers = texts
            line = truth.get(texts.get(min(texts), ""))
            for column, text in texts.items():
                if line is None or grid.cells[row, column].trouble or headers.get(column) not in line:
                    continue
                if text == line[headers[column]]:
                    right += 1
                else:
                    wrong.append(f"{texts[min(texts)]} {headers[column]}: {text!r}, not {line[headers[column]]!r}")
    return right, wrong


TITLES_APART = (301128,)
"""Tables under a title whose words stand as far apart as columns: it once took lines from the table."""


@pytest.mark.parametrize("seed", [*range(SEEDS), *TITLES_APART])
def test_no_cell_is_read_as_another(seed: int, tmp_path: Path) -> None:
    """Columns close together, wrapped cells, numbers on the right, three fonts: nothing is read that is not there."""
    rows, options = drawn(seed)
    write_unruled_pdf(tmp_path / "t.pdf", rows, **options)  # type: ignore[arg-type]
    _, wrong = outcome_of(rows, tmp_path / "t.pdf")
    assert wrong == []


def test_nearly_all_cells_are_read(tmp_path: Path) -> None:
    """Of the cells of forty tables at most one in ten is left unread."""
    right = filled = 0
    for seed in range(40):
        rows, options = drawn(seed)
        write_unruled_pdf(tmp_path / "t.pdf", rows, **options)  # type: ignore[arg-type]
        right += outcome_of(rows, tmp_path / "t.pdf")[0]
        filled += sum(bool(cell) for row in rows[1:] for cell in row)
    assert right >= 0.9 * filled
