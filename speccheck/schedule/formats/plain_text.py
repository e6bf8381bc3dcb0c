"""Plain text (.txt) that no separator parts: tables set in columns by blanks, and sentences, a line of text a row.

A column ends where every line of its table has two blanks or more. A line that does not fit is a row with one text,
so that a word never stands in the column beside its own.
"""

from __future__ import annotations

import re
from collections.abc import Set
from dataclasses import dataclass, field

from speccheck.schedule.grid import GridCell

FEWEST_COLUMNS = 3
_GAP = re.compile(r"\s{2,}")
_RULER = re.compile(r"[\s|+:=_*-]*[|+:=_*-]{3}[\s|+:=_*-]*")

Span = tuple[int, int]


@dataclass
class _Table:
    """A table while it grows: its lines by number, the places that any of them fills, and the texts across it."""

    lines: dict[int, str] = field(default_factory=dict)
    filled: set[int] = field(default_factory=set)
    across: dict[int, str] = field(default_factory=dict)

    @property
    def columns(self) -> tuple[Span, ...]:
        """The columns that its lines leave apart."""
        return _columns_of(self.filled)

    def columns_with(self, line: str) -> tuple[Span, ...]:
        """Return the columns that the table would have with a further line."""
        return _columns_of(self.filled | _filled_in(line))

    def add(self, number: int, line: str) -> None:
        """Take a further line into the table."""
        self.lines[number] = line
        self.filled |= _filled_in(line)


def is_ruler(line: str) -> bool:
    """Whether a line is drawn: dashes and the like under a header or around a table."""
    return _RULER.fullmatch(line) is not None


def _filled_in(line: str) -> set[int]:
    """Return the places of a line that are not blank."""
    return {at for at, sign in enumerate(line) if not sign.isspace()}


def _columns_of(filled: Set[int]) -> tuple[Span, ...]:
    """Return the first and the last position, the latter not in it, of each column of lines that fill some places."""
    spans: list[Span] = []
    for at in sorted(filled):
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
            table = _Table()
            table.add(number, line)
        elif not table.lines and pieces < FEWEST_COLUMNS:
            cells[number, 0] = GridCell(line.strip())
        elif _fits(table, line):
            table.add(number, line)
        elif pieces < FEWEST_COLUMNS:
            table.across[number] = line
        else:
            cells |= _cells_of(table)
            table = _Table()
            table.add(number, line)
    return cells | _cells_of(table)


def _fits(table: _Table, line: str) -> bool:
    """Whether a line keeps the columns apart that the lines above it have."""
    columns = table.columns_with(line)
    before = table.columns
    return len({start for start, end in columns for first, _ in before if start <= first < end}) == len(before)


def _cells_of(table: _Table) -> dict[tuple[int, int], GridCell]:
    """Return the cells of a table; of one line alone, that line as one text."""
    across = table.across if len(table.lines) > 1 else {**table.lines, **table.across}
    cells = {(number, 0): GridCell(line.strip()) for number, line in across.items()}
    columns = table.columns
    for number, line in table.lines.items() if len(table.lines) > 1 else ():
        for column, (start, end) in enumerate(columns):
            if words := line[start:end].strip():
                cells[number, column] = GridCell(words)
    return cells
