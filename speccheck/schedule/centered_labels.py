"""Labels that stand on the middle row of their block, as if its cells were merged, though they are not.

That a label holds for the lines above and below it is certain only where the labels of a column part all lines that
stand together into blocks, each with its label in the middle, and the sizes of each block rise from line to line, as
they do for one system: no other column that tells systems apart says two things in a block.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import groupby, pairwise

from speccheck.language.vocabulary.terms import Form
from speccheck.language.vocabulary.values import read_value
from speccheck.quantities import Interval, NominalSize
from speccheck.schedule.columns import ColumnUse
from speccheck.schedule.grid import Grid
from speccheck.schedule.rows import Row

FEWEST_LINES = 3


def centered_labels(
    grid: Grid, lines: Sequence[Row], labels: ColumnUse, uses: Sequence[ColumnUse]
) -> Mapping[int, int]:
    """Return, by the row of each line whose cell in the column of `labels` is blank, the row of the label it has.

    `lines` are the line rows of one table from the top down. Nothing is returned where a label may be one that only
    the lines below it repeat, or where the sizes do not bear the blocks out.
    """
    size = next((use for use in uses if use.term is not None and use.term.kind.form is Form.SIZE), None)
    if size is None or size.across is not None:
        return {}
    found: dict[int, int] = {}
    for _, together in groupby(lines, key=lambda row: row.run):
        rows = [row.number for row in together]
        blocks = list(_blocks(rows, lambda row: (row, labels.index) in grid.cells))
        if not blocks or len(rows) < FEWEST_LINES or any(not _rise(grid, block, size) for _, block in blocks):
            return {}
        if any(not _are_of_one_system(grid, block, uses, labels, size) for _, block in blocks):
            return {}
        found |= {row: label for label, block in blocks for row in block if row != label}
    return found if any(row < label for row, label in found.items()) else {}


def _blocks(rows: Sequence[int], has_label: Callable[[int], bool]) -> Iterator[tuple[int, Sequence[int]]]:
    """Yield the rows in blocks with the label in the middle of each; none where that does not come out even."""
    blocks: list[tuple[int, Sequence[int]]] = []
    start = 0
    while start < len(rows):
        middle = next((place for place in range(start, len(rows)) if has_label(rows[place])), None)
        if middle is None:
            return
        end = 2 * middle - start + 1
        if end > len(rows) or any(has_label(rows[place]) for place in range(middle + 1, end)):
            return
        blocks.append((rows[middle], rows[start:end]))
        start = end
    yield from blocks


def _are_of_one_system(
    grid: Grid, rows: Sequence[int], uses: Sequence[ColumnUse], labels: ColumnUse, size: ColumnUse
) -> bool:
    """Whether no column beside labels and sizes that tells systems apart says two things in some rows."""
    beside = [use for use in uses if use.term is not None and use.term.tells_apart and use.term.of_choices]
    beside = [use for use in beside if use is not labels and use is not size]
    said = ({grid.text(row, use.index).strip().casefold() for row in rows} - {""} for use in beside)
    return all(len(texts) <= 1 for texts in said)


def _rise(grid: Grid, rows: Sequence[int], use: ColumnUse) -> bool:
    """Whether the sizes of some rows rise from row to row."""
    sizes = [_lower_end(grid.text(row, use.index).strip(), use) for row in rows]
    known = [size for size in sizes if size is not None]
    return len(known) == len(sizes) and all(one < next_ for one, next_ in pairwise(known))


def _lower_end(text: str, use: ColumnUse) -> float | None:
    """Return the lower end of the sizes that a cell states, in inches; 0 for "up to", None for no sizes."""
    value = read_value(text, use.term, use.bare) if use.term is not None else None
    low = value.low if isinstance(value, Interval) else value
    if isinstance(value, Interval) and low is None:
        return 0.0
    return (
        low.rank + (0.01 if isinstance(value, Interval) and not value.low_closed else 0.0)
        if isinstance(low, NominalSize)
        else None
    )
