"""Where a place of a schedule stands on paper: the rectangle of a cell, also of a blank one, and of a row."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from functools import reduce

from speccheck.language.diagnostics import Place
from speccheck.schedule.lines import Schedule, Spot

CELL = re.compile(r"([A-Z]+)([0-9]+)")


def column_in_row_of(place: Place, line: Place) -> str | None:
    """Return the letters of a cell that stands in the row of a line, None of one that stands elsewhere."""
    mine, its = CELL.fullmatch(place.cell), CELL.fullmatch(line.cell)
    if mine and its and mine[2] == its[2] and (place.file, place.sheet) == (line.file, line.sheet):
        return mine[1]
    return None


def spot_of(schedule: Schedule, place: Place) -> Spot | None:
    """Return the rectangle of a cell; of a blank one between no rules, where its row and its column cross.

    None where the schedule is no PDF, or nothing of the row stands on paper.
    """
    found = schedule.spots.get(place)
    if found is not None:
        return found
    row, column = row_of(schedule, place), _column_of(schedule, place)
    if row is None or column is None:
        return row
    return Spot(row.page, column.left, row.top, column.right, row.bottom)


def row_of(schedule: Schedule, place: Place) -> Spot | None:
    """Return the rectangle around the row of a table in which a cell stands."""
    cell = CELL.fullmatch(place.cell)
    number = cell[2] if cell else None
    return _around(_on_the_same_page(schedule.spots, place, 2, number))


def room_beside(schedule: Schedule, spot: Spot) -> float:
    """Return how far it is from a rectangle to what stands right of it, in points."""
    others = schedule.spots.values()
    level = (one for one in others if one.page == spot.page and one.top < spot.bottom and spot.top < one.bottom)
    return min((one.left - spot.right for one in level if one.left > spot.left), default=20.0)


def _column_of(schedule: Schedule, place: Place) -> Spot | None:
    """Return the rectangle around the column of a table, on one page, in which a cell stands."""
    cell = CELL.fullmatch(place.cell)
    letters = cell[1] if cell else None
    return _around(_on_the_same_page(schedule.spots, place, 1, letters))


def _on_the_same_page(spots: Mapping[Place, Spot], place: Place, part: int, wanted: str | None) -> Iterable[Spot]:
    """Yield the spots of a table, on one page, whose cells share their letters (part 1) or their number (part 2)."""
    for one, spot in spots.items():
        cell = CELL.fullmatch(one.cell)
        if (one.file, one.sheet) == (place.file, place.sheet) and cell is not None and cell[part] == wanted:
            yield spot


def _around(spots: Iterable[Spot]) -> Spot | None:
    """Return the rectangle around rectangles of one page."""
    found = list(spots)
    return reduce(_joined, found) if found else None


def _joined(one: Spot, other: Spot) -> Spot:
    return Spot(
        one.page,
        min(one.left, other.left),
        min(one.top, other.top),
        max(one.right, other.right),
        max(one.bottom, other.bottom),
    )
