"""Random tables without rules as programs print them: reportlab, LibreOffice, Chromium, word processors.

Columns stand as close together as these programs set them: with the padding of a cell that a person can choose, down to
one point or pixel. Cells wrap at the width of their column, numbers stand on the right, fractions are raised, words are
hyphenated where they may be. What a program does to a text is its own; nothing here draws what none would.
"""

from __future__ import annotations

import random
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from speccheck.schedule.formats.pdf_tables import read_pdf
from speccheck.schedule.grid import Grid

SOFT = "\u00ad"
MARKS = ("Mark", "Tag", "System", "Item")
CELLS = (
    (("Service", "System served", "Fluid"), ["chilled water", "heating hot water", "domestic hot water supply",
     "steam condensate", "steam", "condenser water, outdoor", "refrig\u00aderant suction", "specified fluid", ""]),
    (("Size (in)", "Pipe size (in)", "NPS"), ["1/2", "1 1/2", "2", "2 to 4", "1/2 to 1 1/2", "12",
     "2 1/2 and larger", "3/4"]),
    (("Thk (in)", "Insulation thickness (in)", "Thickness"), ["1", "1.5", "1 1/2", "2", "3", "1/2", ""]),
    (("Op. temp (F)", "Operating temperature (F)", "Temp."), ["42", "180", "350", "40 to 60", "140 to 180", "-20"]),
    (("Insulation", "Insulation type", "Material"), ["fiberglass", "elasto\u00admeric", "cellular glass",
     "mineral fiber", "flexible elasto\u00admeric, closed cell"]),
    (("Jacket", "Jacket / finish"), ["PVC", "aluminum 0.016 in", "none", "", "all service jacket", "canvas & mastic"]),
    (("Location", "Where installed"), ["plenum", "outdoor", "mechanical room", "above ceiling, not plenum", "tunnel"]),
    (("Length (ft)", "Qty"), ["10", "125", "1,250", "40", ""]),
    (("Notes", "Remarks"), ["", "", "see detail 3", "by others, under another section", "2 layers, staggered"]),
)  # fmt: skip


@dataclass(frozen=True)
class Setting:
    """How a table is set: padding in points beside a text, sizes of letters, widths and alignment of its columns."""

    font: str
    size: float
    padding: float
    widths: tuple[float, ...]
    right_aligned: tuple[int, ...]
    level: str
    fractions: str
    title: str
    note: str


def drawn(seed: int) -> tuple[list[list[str]], Setting]:
    """Return a random table, each line with a mark of its own, and how it is set."""
    chance = random.Random(seed)
    columns = chance.sample(CELLS, chance.randint(2, len(CELLS)))
    rows = [[chance.choice(MARKS), *(chance.choice(headers) for headers, _ in columns)]]
    prefix = chance.choice(["P-", "CHW-", "S", "A1-", ""])
    rows += [
        [f"{prefix}{number}", *(chance.choice(texts) for _, texts in columns)]
        for number in range(1, chance.randint(3, 16))
    ]
    if prefix and chance.random() < 0.2:  # marks are not always first
        place = chance.randrange(len(rows[0]))
        rows = [[*row[1 : place + 1], row[0], *row[place + 1 :]] for row in rows]
    size = chance.choice([6, 7, 8, 9, 10])
    narrow = chance.choice([0.45, 0.6, 0.8, 1, 1])
    return rows, Setting(
        font=chance.choice(["Helvetica", "Times-Roman"]),
        size=size,
        padding=chance.choice([1, 1.5, 2, 3, 4, 6]),
        widths=tuple(_width(column, size, narrow) for column in zip(*rows, strict=True)),
        right_aligned=tuple(chance.sample(range(1, len(rows[0])), chance.randint(0, 2))),
        level=chance.choice(["top", "top", "middle", "bottom"]),
        fractions=chance.choice(["plain", "plain", "raised", "built"]),
        title=chance.choice(["", "PIPE INSULATION", "Schedule of piping at the dairy"]),
        note=chance.choice(["", "", "Note: all seams are sealed."]),
    )


def _width(texts: Sequence[str], size: float, narrow: float) -> float:
    """Return how wide the texts of a column may be, in points: a part of the longest, and never less than a word."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    def width(text: str) -> float:
        return float(stringWidth(text.replace(SOFT, ""), "Helvetica-Bold", size))

    words = [word for text in texts for word in text.split()]
    return max(narrow * max(map(width, texts)), *(width(word) for word in words), size) + 1


@dataclass(frozen=True)
class Outcome:
    """How many filled cells below the headers a table has, how many were read, and what was read as another value."""

    filled: int
    right: int
    wrong: tuple[str, ...]


def outcome_of(path: Path, rows: Sequence[Sequence[str]]) -> Outcome:
    """Return what is read of a printed table."""
    headers = {_plain(text): text for text in rows[0]}
    truth = [dict(zip(rows[0], map(_plain, row), strict=True)) for row in rows[1:]]
    grids, diagnostics = read_pdf(path)
    assert [str(one) for one in diagnostics] == []
    told = [one for grid in grids for one in _told(grid, headers, truth, _plain(_mark_header(rows)))]
    filled = sum(bool(text) for row in rows[1:] for text in row)
    return Outcome(filled, sum(right for right, _ in told), tuple(what for _, what in told if what))


def _mark_header(rows: Sequence[Sequence[str]]) -> str:
    return next(text for text in rows[0] if text in MARKS)


def _told(
    grid: Grid, headers: Mapping[str, str], truth: Sequence[Mapping[str, str]], mark: str
) -> Iterator[tuple[int, str]]:
    """Yield for each row of a grid how many cells are read as written, or what is read that no row of the table has."""
    names: dict[int, str] = {}
    for row, columns in grid.columns_by_row.items():
        if row not in grid.table_rows:
            continue
        texts = {column: _plain(grid.text(row, column)) for column in columns}
        sure = {column: text for column, text in texts.items() if not grid.cells[row, column].trouble}
        if mark in texts.values():
            names = {column: headers[text] for column, text in sure.items() if text in headers}
            odd = [text for text in sure.values() if text not in headers]
            yield 0, f"headers {odd}" if odd else ""
            continue
        said = {names[column]: text for column, text in sure.items() if column in names}
        line = next((line for line in truth if said.items() <= line.items()), None)
        if said and line is None:
            yield 0, f"row {row}: {said}"
        elif said.get(headers[mark]):
            yield len(said), ""


def _plain(text: str) -> str:
    """Return a text in one line, without the hyphens at which its words may be broken."""
    told = " ".join(text.replace("\ufb01", "fi").replace("\u2044", "/").split())
    return told.replace(SOFT, "").replace("elasto-meric", "elastomeric").replace("refrig-erant", "refrigerant")
