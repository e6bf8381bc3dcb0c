"""Tables written out for the formatter: one row a line, bars aligned."""

from __future__ import annotations

from collections.abc import Iterator

from speccheck.language.diagnostics import Place
from speccheck.language.formatting_words import option_text
from speccheck.language.syntax import Measure, TableSyntax, Words


def by_line(table: TableSyntax, column: int) -> str:
    """Return the line that names the axes; their names stand as they are, because the whole line is names."""
    return f"{'by'.ljust(column)} {', '.join(axis.text for axis in table.axes)}"


def table_rows(table: TableSyntax) -> Iterator[tuple[str, Place]]:
    """Yield the rows of a table, the naming of its columns first, each with the place where it stood."""
    rows = [[row.band.text, *map(_cell_text, row.cells)] for row in table.rows]
    places = [row.place for row in table.rows]
    if table.columns:
        rows.insert(0, ["", *(band.text for band in table.columns)])
        places.insert(0, table.columns[0].place)
    count = max((len(row) for row in rows), default=0)
    widths = [max((len(row[number]) for row in rows if number < len(row)), default=0) for number in range(count)]
    for row, place in zip(rows, places, strict=True):
        padded = (text.ljust(width) for text, width in zip(row, widths, strict=False))
        yield " | ".join(padded).rstrip(), place


def _cell_text(cell: Words | Measure | None) -> str:
    return "-" if cell is None else option_text(cell)
