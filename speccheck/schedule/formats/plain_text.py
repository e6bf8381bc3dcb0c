"""Plain text (.txt) that no separator parts: tables set in columns by blanks, and sentences, a line of text a row.

A column ends where every line of its table has two blanks or more. A line that does not fit is a row with one text,
so that a word never stands in the column beside its own.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from speccheck.schedule.grid import GridCell

FEWEST_COLUMNS = 3
_GAP = re.compile(r"\s{2,}")
_RULER = re.compile(r"[\s|+:=_*-]*[|+:=_*-]{3}[\s|+:=_*-]*")

Span = tuple[int, int]


@dataclass
class _Table:
    """A table while it grows: its lines by number, and the texts that go across it, with what is blank in all lines."""

    lines: dict[int, str] = field(default_factory=dict)
    across: dict[int, str] = field(default_factory=dict)

    def columns_with(self, line: str) -> tuple[Span, ...]:
        """Return the columns that the table would have with a further line."""
        return columns_of([*self.lines.values(), line])


def is_ruler(line: str) -> bool:
    """Whether a line is drawn: dashes and the like under a header or around a table."""
    return _RULER.fullmatch(line) is not None


def columns_of(lines: Sequence[str]) -> tuple[Span, ...]:
    """Return the first and the last position, the latter not in it, of each column of lines that stand in a table."""
    width = max(map(len, lines), default=0)
    filled = [any(line[at : at + 1].strip() for line in lines) for at in range(width)]
    spans: list[Span] = []
    for at in (at for at in range(width) if filled[at]):
        if spans and at - spans[-1][1] < 2:
            spans[-1] = (spans[-1][0], at + 1)
        else:
            spans.append((at, at + 1))
    return tuple(spans)


def cells_of_text(text: str) -> dict[tuple[int, int], GridCell]:
    """Return the cells of a text by row, which is the number of the line from 0, and column."""
    cells: dict[tuple[int, int], GridCell] = {}
    table = _Table()
    for number, line in enumerate(text.expandtabs().splitlines()):
        if not line.strip() or is_ruler(line):
            continue
        pieces = len(_GAP.split(line.strip()))
        if len(table.lines) < 2 and pieces >= FEWEST_COLUMNS and len(table.columns_with(line)) < FEWEST_COLUMNS:
            cells |= _cells_of(table)
            table = _Table({number: line})
        elif not table.lines and pieces < FEWEST_COLUMNS:
            cells[number, 0] = GridCell(line.strip())
        elif _fits(table, line):
            table.lines[number] = line
        elif pieces < FEWEST_COLUMNS:
            table.across[number] = line
        else:
            cells |= _cells_of(table)
            table = _Table({number: line})
    return cells | _cells_of(table)


def _fits(table: _Table, line: str) -> bool:
    """Whether a line keeps the columns apart that the lines above it have."""
    columns = table.columns_with(line)
    before = columns_of(list(table.lines.values()))
    return len({start for start, end in columns for first, _ in before if start <= first < end}) == len(before)


def _cells_of(table: _Table) -> dict[tuple[int, int], GridCell]:
    """Return the cells of a table; of one line alone, that line as one text."""
    across = table.across if len(table.lines) > 1 else {**table.lines, **table.across}
    cells = {(number, 0): GridCell(line.strip()) for number, line in across.items()}
    for number, line in table.lines.items() if len(table.lines) > 1 else ():
        for column, (start, end) in enumerate(columns_of(list(table.lines.values()))):
            if words := line[start:end].strip():
                cells[number, column] = GridCell(words)
    return cells
