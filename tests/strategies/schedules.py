"""Strategies for schedules: tables of cells in the terms of the small test vocabulary, plain or messy."""

from __future__ import annotations

from typing import NamedTuple

from hypothesis import strategies as st

CELLS: dict[str, list[list[str]]] = {
    # For each header, groups of texts that mean the same.
    "Service": [["CHW", "chilled water", "Chilled  Water", "C.H.W."], ["HHW", "heating hot water"], ["TBD"], [""]],
    "Size": [["2 in", '2"', "DN 50", "NPS 2"], ["1-1/2 in", "1½ in", "DN40"], ['2" & smaller', "2 in and under"], [""]],
    "Thk": [["1-1/2 in", "1.5 in", "1½″"], ["38 mm", "3.8 cm"], ["none", "0 in"], ["per spec"], ["-1 in"]],
    "Op. temp": [["180 F", "180°F", "180 deg F"], ["40-45F", "40 F to 45 F"], ["NaN"], [""]],
    "Vapor stop locations": [["valves, flanges", "flanges & valves", "valves/flanges"], ["none"], ["valvs"]],
    "Concealed": [["yes", "Y", "x"], ["no", "N"], ["maybe"]],
}
"""What cells of each column may hold."""

MESSY_TEXTS = st.sampled_from(
    [
        "",
        "",
        "",
        "CHW",
        "2 in",
        "1-1/2",
        "180",
        "TBD",
        '"',
        "same",
        "Notes:",
        "TOTAL",
        "1. a note",
        "HEATING",
        "P-7",
        "x",
        "??",
    ]
)
HEADERS = [
    "Mark",
    "Service",
    "Size",
    "Thk (in)",
    "Thk (mm)",
    "Op. temp",
    "Jacket",
    "Jacket (see note)",
    "Rev",
    "Item",
    "Notes",
    "",
]


class Table(NamedTuple):
    """A header and its rows, as text, each row with a name in its first cell."""

    header: list[str]
    rows: list[list[str]]


@st.composite
def tables(draw: st.DrawFn, most_rows: int = 5) -> Table:
    """Draw a table in which every line has a name of its own and every column a header that is known."""
    headers = list(CELLS)
    rows = [
        [f"P-{number}", *(draw(st.sampled_from(draw(st.sampled_from(CELLS[header])))) for header in headers)]
        for number in range(draw(st.integers(1, most_rows)))
    ]
    return Table(["Mark", *headers], rows)


@st.composite
def rewritten(draw: st.DrawFn, table: Table) -> Table:
    """Draw a table that says the same as another, each cell written in any of the ways that mean the same."""
    rows = []
    for row in table.rows:
        cells = [row[0]]
        for header, text in zip(table.header[1:], row[1:], strict=True):
            group = next(group for group in CELLS[header] if text in group)
            cells.append(draw(st.sampled_from(group)))
        rows.append(cells)
    return Table(table.header, rows)


@st.composite
def messy_sheets(draw: st.DrawFn) -> tuple[list[list[str]], list[tuple[int, int, int, int]]]:
    """Draw the rows of a sheet with a header somewhere and anything around it, and merged ranges (all from 1)."""
    width = draw(st.integers(2, 6))
    row = st.lists(MESSY_TEXTS, min_size=width, max_size=width)
    header = draw(st.lists(st.sampled_from(HEADERS), min_size=width, max_size=width))
    above, below = draw(st.lists(row, max_size=3)), draw(st.lists(row, max_size=8))
    again = draw(st.sampled_from([[], [header, draw(row)]]))
    rows = [*above, header, *below, *again]
    merged = []
    if draw(st.booleans()):
        top, left = draw(st.integers(1, len(rows))), draw(st.integers(1, width))
        bottom, right = draw(st.integers(top, min(top + 2, len(rows)))), draw(st.integers(left, min(left + 2, width)))
        merged = [(top, left, bottom, right)] if (top, left) != (bottom, right) else []
    return rows, merged
