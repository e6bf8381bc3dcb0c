"""Whether a line of print in a table without rules is a row of its own, or cells of the row above it going on.

Spacing tells, where lines within a row stand closer than rows do; and so do words that nothing ends with, such as
"and". Where neither does, both pieces are unsure, and no value is read from them.
"""

from __future__ import annotations

import itertools
import re
import statistics
from collections.abc import Mapping, Sequence

from speccheck.schedule.formats.pdf_columns import Chunk, column_of
from speccheck.schedule.formats.pdf_words import Line, Word

CLOSE = 1.32
"""Sizes of letters up to which one line of print is set under another within a cell (common practice, no source)."""
_NEARLY_USUAL = 1.15
_LEAST = 0.9
"""Sizes of letters that lines of print within one column are apart at least."""
_OPEN = re.compile(r"(?:\b(?:and|or|to|with|of|for|by|per|w/)|[&,/(+])$", re.IGNORECASE)
_CONTINUING = re.compile(r"(?:and|or|to|with|of|for)\b|[&)/+]", re.IGNORECASE)
_SPACE = 0.25

RowCells = dict[int, tuple[tuple[Word, ...], bool]]
"""The cells of a row by their column: their words, and whether they are unsure."""


def rows_of(lines: Sequence[tuple[Line, Sequence[Chunk]]], columns: Sequence[tuple[float, float]]) -> list[RowCells]:
    """Return the rows of a table of which these are the lines."""
    pitches = [after.top - before.top for (before, _), (after, _) in itertools.pairwise(lines)]
    usual = statistics.median(pitches)
    first_ends = max((chunks[0].right for _, chunks in lines if len(chunks) > 1), default=0.0)
    rows: list[RowCells] = []
    tangled = _tangled([line for line, _ in lines], pitches)
    for number, (line, chunks) in enumerate(lines):
        cells: RowCells = {column_of(columns, chunk): (chunk.words, number in tangled) for chunk in chunks}
        before = rows[-1] if rows else {}
        pitch = pitches[number - 1] if number else 0.0
        if not before or not set(cells) <= set(before):
            rows.append(cells)
            continue
        close = pitch < CLOSE * line.size
        told_by_spacing = close and sum(other > pitch / 0.85 for other in pitches) > 1
        if told_by_spacing or (pitch <= _NEARLY_USUAL * usual and _told_by_words(before, cells)):
            _join(before, cells)
            continue
        few = len(cells) <= len(before) / 2 and len(before) > 1 and pitch < 1.6 * usual
        alone = set(cells) == {0} and len(before) > 1 and pitch <= _NEARLY_USUAL * usual
        if (0 not in cells and (close or few)) or (alone and _may_go_on(before[0][0], cells[0][0], first_ends)):
            before |= {column: (before[column][0], True) for column in cells}
            cells = {column: (words, True) for column, (words, _) in cells.items()}
        rows.append(cells)
    return rows


def _tangled(lines: Sequence[Line], pitches: Sequence[float]) -> set[int]:
    """Return the lines that stand among others which lie less than a line of print below each other.

    Cells of several lines that are set in the middle of their rows look so: no line of print is a row then.
    """
    found: set[int] = set()
    group = [0]
    for number, pitch in enumerate([*pitches, float("inf")]):
        if pitch < CLOSE * lines[number].size:
            group.append(number + 1)
            continue
        if any(pitches[one] < _LEAST * lines[one].size for one in group[:-1]):
            found.update(group)
        group = [number + 1]
    return found


def _join(before: RowCells, cells: RowCells) -> None:
    """Put the words of cells into those of the row above."""
    for column, (words, unsure) in cells.items():
        before[column] = (before[column][0] + words, before[column][1] or unsure)


def _told_by_words(before: RowCells, cells: Mapping[int, tuple[tuple[Word, ...], bool]]) -> bool:
    """Whether each of a few cells goes on from a word above that ends nothing, or with a word that begins nothing."""
    return len(cells) <= len(before) / 2 and all(
        _OPEN.search(before[column][0][-1].text) or _CONTINUING.match(words[0].text)
        for column, (words, _) in cells.items()
    )


def _may_go_on(above: Sequence[Word], words: Sequence[Word], ends: float) -> bool:
    """Whether words alone in the first column may be a text going on, and not a heading over the rows below.

    They lie within the column, of which the first cells of rows end at `ends`, the first of them had no room on the
    line above, they are no heading in capitals under small letters, and no colon follows.
    """
    written, before = (" ".join(word.text for word in part) for part in (words, above))
    if written.endswith(":") or (written.isupper() and not before.isupper()):
        return False
    room = ends - max(word.right for word in above)
    return words[-1].right <= ends + 0.5 and words[0].right - words[0].left + _SPACE * words[0].size > room
