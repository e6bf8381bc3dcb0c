"""The texts of a PDF for somebody who looks for facts in it: tables as grids, prose as paragraphs, column by column.

A schedule is read by `pdf_tables`, which keeps every word in its row. A data sheet has sentences, and often two columns
of them; here lines of one column become paragraphs, words that a hyphen parts are joined, and each keeps its page.
"""

from __future__ import annotations

import itertools
import statistics
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from speccheck.language.diagnostics import Diagnostic
from speccheck.schedule.formats.pdf_cell_texts import text_of
from speccheck.schedule.formats.pdf_ruled_tables import RuledTable, ruled_tables
from speccheck.schedule.formats.pdf_tables import opened
from speccheck.schedule.formats.pdf_unruled_tables import unruled_tables
from speccheck.schedule.formats.pdf_words import PrintedLine, PrintedWord, lines_of, words_of
from speccheck.schedule.grid import Grid, GridCell
from speccheck.schedule.lines import Spot

PROSE = "text"
_FEWEST_LINES = 5
_FULL = 0.7
_WORDS = 4


def read_pdf_texts(path: Path) -> tuple[list[Grid], list[Diagnostic]]:
    """Return a grid for each table of a PDF, and one of paragraphs for each page. Raises `Refused`."""
    return opened(path, _texts)


def _texts(document: Any, file: str) -> tuple[list[Grid], list[Diagnostic]]:
    """Return the grids of an open document."""
    grids: list[Grid] = []
    for number, page in enumerate(document.pages, start=1):
        words = words_of(page).words
        tables = ruled_tables(page, words)
        taken = {id(word) for table in tables for word in table.words}
        paragraphs: list[list[PrintedLine]] = []
        around, columns = _columns([word for word in words if id(word) not in taken])
        unruled, texts = unruled_tables(lines_of(around))
        tables += unruled
        for lines in (texts, *map(lines_of, columns)):
            paragraphs += _paragraphs(lines)
        grids += [_table(file, len(grids) + index, number, table) for index, table in enumerate(tables, start=1)]
        grids.append(_prose(file, number, paragraphs))
        page.close()
    return [grid for grid in grids if grid.cells], []


def _table(file: str, index: int, page: int, table: RuledTable) -> Grid:
    at = {(cell.row, cell.column): cell for cell in table.cells if cell.text.strip()}
    cells = {place: GridCell(cell.text, cell.trouble) for place, cell in at.items()}
    spots = {place: Spot(page, *cell.rectangle) for place, cell in at.items()}
    rows = {row: row + 1 for row in range(table.rows)}
    return Grid(file, f"table {index}", cells, spots=spots, table_rows=rows)


def _prose(file: str, page: int, paragraphs: Sequence[Sequence[PrintedLine]]) -> Grid:
    cells, spots = {}, {}
    for row, lines in enumerate(paragraphs):
        words = [word for line in lines for word in line.words]
        told = [text_of(line.words) for line in lines]
        cells[row, 0] = GridCell(
            _joined([text for text, _ in told]), next((trouble for _, trouble in told if trouble), "")
        )
        spots[row, 0] = Spot(
            page,
            min(word.left for word in words),
            min(word.top for word in words),
            max(word.right for word in words),
            max(word.bottom for word in words),
        )
    return Grid(file, PROSE, cells, spots=spots)


def _joined(lines: Sequence[str]) -> str:
    """Return lines as one text; a word that a hyphen parts at the end of a line is joined."""
    text = ""
    for line in lines:
        parted = text.endswith("-") and text[-2:-1].isalpha() and line[:1].islower()
        text = text[:-1] + line if parted else f"{text} {line}".strip()
    return text


def _paragraphs(lines: Sequence[PrintedLine]) -> Iterator[list[PrintedLine]]:
    """Yield the lines that follow each other closely, in letters of one size, as paragraphs."""
    paragraph: list[PrintedLine] = []
    for line in lines:
        before = paragraph[-1] if paragraph else None
        far = before is not None and (
            line.top - before.bottom > 0.8 * line.size or abs(line.size - before.size) > 0.6 or line.top < before.top
        )
        if before is not None and far:
            yield paragraph
            paragraph = []
        paragraph.append(line)
    if paragraph:
        yield paragraph


def _columns(words: Sequence[PrintedWord]) -> tuple[list[PrintedWord], list[list[PrintedWord]]]:
    """Return the words of a page that stand in no column of prose, and those of each such column."""
    lines = lines_of(words)
    gutter = _gutter(lines)
    if gutter is None:
        return list(words), []
    across: list[PrintedWord] = []
    left: list[PrintedWord] = []
    right: list[PrintedWord] = []
    for line in lines:
        if _crosses(line, gutter):
            across += line.words
        else:
            left += [word for word in line.words if word.right <= gutter]
            right += [word for word in line.words if word.left >= gutter]
    return across, [left, right]


def _gutter(lines: Sequence[PrintedLine]) -> float | None:
    """Return the middle of the gap between two columns of prose, None where there are none.

    Lines of prose are long on both sides of the gap; names and their values beside each other are not.
    """
    if not lines:
        return None
    first = min(line.words[0].left for line in lines)
    last = max(word.right for line in lines for word in line.words)
    found: dict[tuple[int, int], list[float]] = {}
    for step in range(70, 131):
        place = first + (last - first) * step / 200
        parted = [line for line in lines if _parts(line, place)]
        crossing = sum(_crosses(line, place) for line in lines)
        if len(parted) < _FEWEST_LINES or crossing > 0.5 * len(parted):
            continue
        sides = (
            [[word for word in line.words if word.right <= place] for line in parted],
            [[word for word in line.words if word.left >= place] for line in parted],
        )
        if all(map(_is_prose, sides)):
            found.setdefault((crossing, -len(parted)), []).append(place)
    return statistics.median_low(found[min(found)]) if found else None


def _crosses(line: PrintedLine, place: float) -> bool:
    """Whether a line has words on both sides of a place and no gap there."""
    return line.words[0].left < place < line.words[-1].right and not _parts(line, place)


def _parts(line: PrintedLine, place: float) -> bool:
    """Whether a line has words on both sides of a place, and a gap wider than between words there."""
    left = [word.right for word in line.words if word.right <= place]
    right = [word.left for word in line.words if word.left >= place]
    if not left or not right or len(left) + len(right) < len(line.words):
        return False
    return min(right) - max(left) > 0.9 * line.size


def _is_prose(lines: Sequence[Sequence[PrintedWord]]) -> bool:
    """Whether most lines fill their column with several words, and no gap parts them."""
    width = max(words[-1].right for words in lines) - min(words[0].left for words in lines)
    full = [(words[-1].right - words[0].left) / max(width, 1) for words in lines]
    parted = [
        any(after.left - before.right > 1.5 * before.size for before, after in itertools.pairwise(words))
        for words in lines
    ]
    words_each = statistics.mean(len(words) for words in lines)
    return statistics.median(full) > _FULL and words_each >= _WORDS and sum(parted) < 0.2 * len(lines)
