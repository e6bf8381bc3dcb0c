"""How the cells of a sheet look where the library that reads values does not say: merged, hidden and struck ones."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace

from speccheck.schedule.grid import Grid, GridCell, MergedRange
from speccheck.schedule.messages.cells import STRUCK


@dataclass
class SheetLooks:
    """How the cells of one sheet look: merged ranges, and rows, columns and cells as ranges from 0, both ends in it."""

    blocks: list[MergedRange] = field(default_factory=list)
    hidden_rows: list[tuple[int, int]] = field(default_factory=list)
    hidden_columns: list[tuple[int, int]] = field(default_factory=list)
    struck: list[tuple[int, int, int]] = field(default_factory=list)
    texts: dict[tuple[int, int], str] = field(default_factory=dict)
    """Texts of cells that the library leaves out."""

    def struck_cells(self) -> Iterator[tuple[int, int]]:
        """Yield the cells that are struck through, as a whole or in part."""
        for row, first, last in self.struck:
            for column in range(first, min(last, first + 200) + 1):
                yield row, column


def as_it_looks(grid: Grid, looks: SheetLooks | None) -> Grid:
    """Return a grid with its merged ranges, hidden rows and columns, and struck cells in trouble."""
    if looks is None:
        return grid
    cells = {**{at: GridCell(text) for at, text in looks.texts.items() if text.strip()}, **grid.cells}
    rows, columns = {row for row, _ in cells}, {column for _, column in cells}
    for at in looks.struck_cells():
        if at in cells:
            cells[at] = GridCell(cells[at].text, STRUCK.code)
    return replace(
        grid,
        cells=cells,
        blocks=tuple(looks.blocks),
        hidden_rows=frozenset(row for row in rows if any(a <= row <= b for a, b in looks.hidden_rows)),
        hidden_columns=frozenset(one for one in columns if any(a <= one <= b for a, b in looks.hidden_columns)),
    )
