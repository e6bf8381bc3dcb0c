"""The tables of the shipped rulesets, written as their source documents print them, are read back cell for cell.

A row for each temperature, conductivity or zone, the sizes or places across under a merged heading, the unit in the
heading alone. What a document states of conductivities beside its temperatures stands in columns of its own.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from speccheck.language import load_ruleset
from speccheck.language.core import Ruleset
from speccheck.language.core.tables import Axis, Table
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import NotGiven
from speccheck.quantities import Interval, NominalSize, Quantity
from speccheck.schedule import HeaderReader, Schedule, ScheduleMapping
from speccheck.schedule.grid import Grid, GridCell, MergedRange
from speccheck.schedule.schedule import read_grids
from speccheck.shipped import shipped_folder

MEASURED = {"length": "thickness", "thermal resistance": "installed R-value"}
SPEAKS_OF_INSULATION = ("thickness", "resistance")


@cache
def rulesets() -> dict[str, Ruleset]:
    """Return the shipped rulesets by name."""
    found = {}
    for path in sorted(Path(shipped_folder("rulesets")).rglob("*.clauses")):
        ruleset = load_ruleset(path).ruleset
        if ruleset is not None:
            found[path.stem] = ruleset
    return found


def tables() -> Iterator[tuple[str, str]]:
    """Yield every table of thicknesses or resistances of two axes, by ruleset and name."""
    for name, ruleset in rulesets().items():
        for table in ruleset.tables.values():
            about = any(word in table.name for word in SPEAKS_OF_INSULATION)
            if len(table.axes) == 2 and table.kind.dimension in MEASURED and about:
                yield name, table.name


def header(term: Term, unit: str) -> str:
    """Return how a document heads a column of a term."""
    return f"{term.name.capitalize()} ({unit})" if unit else term.name.capitalize()


@dataclass(frozen=True)
class Heading:
    """One heading of a printed table: what it stands for, as read back, and the row or column of the table it is of."""

    value: Interval[Quantity] | Interval[NominalSize] | Interval[float] | str
    number: int


def headings(axis: Axis) -> list[Heading]:
    """Return the headings of an axis; several places that the rules take together are printed one by one."""
    return [
        Heading(value, number)
        for number, band in enumerate(axis.bands)
        for value in (band.choices or (band.interval,))
        if value is not None
    ]


def written(heading: Heading, unit: str) -> str:
    """Return a heading as documents print it under another that has the unit: "<1", "1 to <1-1/2", ">350"."""
    interval = heading.value
    if isinstance(interval, str):
        return interval
    low, high = (_number(end, unit) for end in (interval.low, interval.high))
    if not low:
        return f"{'≤' if interval.high_closed else '<'} {high}"
    if not high:
        return f"{'≥' if interval.low_closed else '>'} {low}"
    if low == high:
        return low
    return f"{'' if interval.low_closed else '>'}{low} to {'' if interval.high_closed else '<'}{high}"


def _number(end: Quantity | NominalSize | float | None, unit: str) -> str:
    if end is None:
        return ""
    if isinstance(end, NominalSize):
        return str(end.dn) if unit == "DN" else str(end).removeprefix("NPS ")
    if isinstance(end, Quantity):
        return f"{end.in_unit(unit):.10g}"
    return f"{end:.10g}"


def unit_of(axis: Axis, system: str) -> str:
    """Return the unit in which a document of a system gives a term."""
    if axis.term.name == "pipe size":
        return "DN" if system == "metric" else "in"
    ends = [end for band in axis.bands if band.interval for end in (band.interval.low, band.interval.high)]
    return next((end.unit for end in ends if isinstance(end, Quantity)), "")


def as_printed(table: Table, system: str) -> Grid:
    """Return the sheet of a table: rows of the first axis, columns of the second under merged headings."""
    down, across = table.axes
    rows, columns = headings(down), headings(across)
    texts = {
        (0, 0): header(down.term, unit_of(down, system)),
        (0, 1): header(across.term, unit_of(across, system)),
        (2, 1): f"{MEASURED[table.kind.dimension].capitalize()} ({table.unit})",
    }
    for column, heading in enumerate(columns, 1):
        texts[1, column] = written(heading, unit_of(across, system))
    for row, heading in enumerate(rows, 3):
        texts[row, 0] = written(heading, unit_of(down, system))
        for column, other in enumerate(columns, 1):
            cell = table.cells[heading.number][other.number]
            texts[row, column] = "-" if cell is None else _number(cell.value, table.unit)  # type: ignore[arg-type]
    blocks = (MergedRange(0, 0, 2, 0), MergedRange(0, 1, 0, len(columns)), MergedRange(2, 1, 2, len(columns)))
    return Grid("printed.xlsx", "Table", {at: GridCell(text) for at, text in texts.items()}, blocks)


def read_back(name: str, grid: Grid) -> Schedule:
    """Return what a sheet says in the vocabulary of a ruleset."""
    ruleset = rulesets()[name]
    return read_grids(grid.file, [grid], [], HeaderReader(ruleset.vocabulary), ScheduleMapping(units=ruleset.units))


def is_one(found: object, wanted: object) -> bool:
    """Whether a value that was read is the one of the table, but for what printing in decimals takes away."""
    if isinstance(found, Interval) and isinstance(wanted, Interval):
        ends = ((found.low, wanted.low), (found.high, wanted.high))
        closed = (found.low_closed, found.high_closed) == (wanted.low_closed, wanted.high_closed)
        return closed and all(is_one(one, other) for one, other in ends)
    if isinstance(found, Quantity) and isinstance(wanted, Quantity):
        return found.dimension == wanted.dimension and math.isclose(found.value, wanted.value, rel_tol=1e-9)
    if isinstance(wanted, Interval) and wanted.low == wanted.high:
        return found == wanted.low
    return found == wanted


@pytest.mark.parametrize(("name", "table_name"), list(tables()))
def test_a_published_table_is_read_back_cell_for_cell(name: str, table_name: str) -> None:
    """Each cell is a line with its thickness or resistance, its row's heading and its column's heading."""
    table = rulesets()[name].tables[table_name]
    schedule = read_back(name, as_printed(table, rulesets()[name].units))
    down, across = table.axes
    places = [(one, other) for one in headings(down) for other in headings(across)]
    assert len(schedule.lines) == len(places)
    for line, (one, other) in zip(schedule.lines, places, strict=True):
        cell, measured = table.cells[one.number][other.number], line.data[MEASURED[table.kind.dimension]].value
        assert isinstance(measured, NotGiven) if cell is None else is_one(measured, cell.value)
        assert is_one(line.data[down.term.name].value, one.value)
        assert is_one(line.data[across.term.name].value, other.value)
    assert schedule.cells is not None
    assert schedule.cells.accounted == schedule.cells.filled


def test_all_tables_are_tried() -> None:
    """There are at least fifteen tables of two axes, and five of them stand sizes against temperatures."""
    assert len(list(tables())) >= 15


@pytest.mark.parametrize(
    ("name", "of", "kind"),
    [
        ("ashrae-90.1", "energy", "heating"),
        ("ashrae-90.1", "energy", "cooling"),
        ("ashrae-90.1-si", "SI", "heating"),
        ("california", "California", "hot"),
    ],
)
def test_conductivities_beside_the_temperatures(name: str, of: str, kind: str) -> None:
    """Ranges of conductivity and rating temperatures, in columns between temperatures and sizes, go to their lines."""
    found = rulesets()[name].tables
    table = found[f"{of} {'heating' if kind == 'hot' else kind} thickness"]
    columns = [found[f"{of} {which} {kind} conductivity"] for which in ("lowest", "highest")]
    rating = found[f"{of} {kind} rating temperature"]
    grid = _wider(as_printed(table, rulesets()[name].units), columns, rating)
    schedule = read_back(name, grid)
    assert len(schedule.lines) == len(table.axes[0].bands) * len(table.axes[1].bands)
    for number, line in enumerate(schedule.lines):
        row = number // len(table.axes[1].bands)
        low, high, at = (one.cells[row][0] for one in (*columns, rating))
        assert low is not None
        assert high is not None
        assert at is not None
        ends = Interval(low.value, high.value) if low.value != high.value else low.value
        assert is_one(line.data["conductivity"].value, ends)
        assert is_one(line.data["conductivity mean temperature"].value, at.value)
    assert schedule.cells is not None
    assert schedule.cells.accounted == schedule.cells.filled


def _wider(grid: Grid, conductivity: list[Table], rating: Table) -> Grid:
    """Return a sheet with two columns between the first and the others, under one merged heading."""
    cells = {(row, column if column == 0 else column + 2): cell for (row, column), cell in grid.cells.items()}
    cells[0, 1] = GridCell("Insulation conductivity")
    cells[1, 1] = GridCell(f"Conductivity, {conductivity[0].unit}")
    cells[1, 2] = GridCell(f"Mean rating temperature, {rating.unit}")
    for row in range(len(rating.cells)):
        low, high, at = (
            f"{cell.value.in_unit(table.unit):.10g}"  # type: ignore[union-attr]
            for table in (*conductivity, rating)
            if (cell := table.cells[row][0]) is not None
        )
        cells[3 + row, 1] = GridCell(low if low == high else f"{low} to {high}")
        cells[3 + row, 2] = GridCell(at)
    blocks = [
        MergedRange(one.top, one.left + 2 * bool(one.left), one.bottom, one.right + 2 * bool(one.left))
        for one in grid.blocks
    ]
    merged = (MergedRange(0, 1, 0, 2), MergedRange(1, 1, 2, 1), MergedRange(1, 2, 2, 2))
    return Grid(grid.file, grid.sheet, cells, (*blocks, *merged))
