"""A section in a PDF with text in it: its paragraphs, and its ruled tables where they stand on the sheet.

What stands at the head or the foot of most sheets is no part of the section. Between lines further apart than lines of
a paragraph are, a paragraph ends.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from pathlib import Path
from typing import Any

from speccheck.specification.blocks import RAISED, Block, Paragraph, ParagraphNumbers, SectionTable, paragraphs_of

# How far apart lines of one paragraph are at most, in heights of a line (common practice, no source).
APART = 1.9
# How small a raised figure is, how high above the foot of its neighbor, and how close to it, in heights of that one
# (common practice, no source).
_SMALL, _RAISED, _BESIDE = 0.9, 0.15, 0.3


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of a sheet: its words, where it begins and ends below the top, in points."""

    text: str
    top: float
    bottom: float


def read_pdf(path: Path) -> tuple[Block, ...]:
    """Return the blocks of a PDF. Raises what pdfplumber raises where the file is no such document."""
    import pdfplumber

    with pdfplumber.open(path) as document:
        sheets = [_sheet(page) for page in document.pages]
    repeated = _repeated([lines for lines, _ in sheets])
    return tuple(_blocks(sheets, repeated, path.name))


def _sheet(page: Any) -> tuple[list[_Line], list[tuple[float, tuple[tuple[str, ...], ...]]]]:
    """Return the lines of a sheet outside its tables, and its tables with where they begin below the top."""
    _set_down(page.chars)
    tables = [one for one in page.find_tables() if len(one.rows[0].cells) > 1]
    outside = page
    for table in tables:
        outside = outside.outside_bbox(table.bbox)
    lines = [_Line(one["text"], one["top"], one["bottom"]) for one in outside.extract_text_lines()]
    return lines, [(one.bbox[1], _rows(one.extract())) for one in tables]


def _set_down(characters: Sequence[dict[str, Any]]) -> None:
    """Set small raised figures on the line of the character before them, as raised figures: "kg/m³", "40¹".

    Where they stay as they are drawn, they become numbers of their own, on a line of their own or before the next one.
    """
    for before, one in pairwise(characters):
        height = before["bottom"] - before["top"]
        follows = -0.1 * height <= one["x0"] - before["x1"] <= _BESIDE * height
        is_small = one["bottom"] - one["top"] <= _SMALL * height
        is_raised = before["top"] - height <= one["top"] and one["bottom"] <= before["bottom"] - _RAISED * height
        if one["text"].isdigit() and follows and is_small and is_raised:
            one["text"] = one["text"].translate(RAISED)
            one.update({name: before[name] for name in ("top", "bottom", "doctop", "y0", "y1")})


def _rows(extracted: Sequence[Sequence[str | None]]) -> tuple[tuple[str, ...], ...]:
    """Return the cell texts of a table; a cell that is part of a merged one has the text left of it, or above it."""
    rows: list[tuple[str, ...]] = []
    for row in extracted:
        cells: list[str] = []
        for column, cell in enumerate(row):
            if cell is None:
                merged_down = column == 0 or row[column - 1] is None
                cell = rows[-1][column] if rows and merged_down else cells[-1] if cells else ""
            cells.append(" ".join(cell.split()))
        rows.append(tuple(cells))
    return tuple(rows)


def _repeated(sheets: Sequence[Sequence[_Line]]) -> frozenset[str]:
    """Return what the first or the last line of most sheets says, its numbers aside."""
    ends = Counter(_plain(line.text) for lines in sheets for line in {lines[0], lines[-1]} if lines)
    return frozenset(text for text, number in ends.items() if number > 1 and 2 * number >= len(sheets))


def _plain(text: str) -> str:
    return re.sub(r"\d+", "#", text)


def _blocks(
    sheets: Sequence[tuple[list[_Line], list[tuple[float, tuple[tuple[str, ...], ...]]]]],
    repeated: frozenset[str],
    name: str,
) -> Iterator[Block]:
    """Yield the blocks of all sheets; a paragraph and a table go on over the end of a sheet."""
    outline, last = ParagraphNumbers(), Paragraph("", "", name)
    waiting: list[str] = []
    table: SectionTable | None = None
    for sheet, line, rows in _in_order(sheets, repeated):
        if rows is None:
            if table is not None:
                yield table
                table = None
            waiting.append(line)
            continue
        found = list(paragraphs_of(waiting, name, outline))
        yield from found
        last, waiting = found[-1] if found else last, []
        if table is not None and len(table.rows[0]) == len(rows[0]):
            table = replace(table, rows=(*table.rows, *(row for row in rows if row not in table.rows[:1])))
            continue
        if table is not None:
            yield table
        table = SectionTable(rows, last.number, last.text, f"{name} page {sheet}")
    if table is not None:
        yield table
    yield from paragraphs_of(waiting, name, outline)


def _in_order(
    sheets: Sequence[tuple[list[_Line], list[tuple[float, tuple[tuple[str, ...], ...]]]]], repeated: frozenset[str]
) -> Iterator[tuple[int, str, tuple[tuple[str, ...], ...] | None]]:
    """Yield lines and tables from above, each with the number of its sheet; a blank line where a paragraph ends."""
    for number, (lines, tables) in enumerate(sheets, start=1):
        before: _Line | None = None
        left = sorted(tables, key=lambda one: one[0])
        for line in (one for one in lines if _plain(one.text) not in repeated):
            while left and left[0][0] < line.top:
                yield number, "", left.pop(0)[1]
            if before is not None and line.top - before.bottom > (APART - 1) * (before.bottom - before.top):
                yield number, "", None
            yield number, line.text, None
            before = line
        for _, rows in left:
            yield number, "", rows
