"""Tables: for each row, the number of the cell in which its values lie."""

from __future__ import annotations

import math
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from typing import Any, cast

import numpy as np
from numpy.typing import NDArray

from speccheck.judge.lookup import band_of
from speccheck.judge.vectorized.column import Numbers
from speccheck.judge.vectorized.expression_graph import ExpressionGraph
from speccheck.judge.vectorized.operand import codes_of
from speccheck.judge.vectorized.program import RowBlock
from speccheck.judge.vectorized.thresholds import greatest_equal, smallest_equal
from speccheck.language.core import Axis, Table
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import Single
from speccheck.quantities import ALL_SIZES, Quantity
from speccheck.quantities.values import compare

# Up to so many marks it is faster to count those that a number reaches than to search for its place.
COUNTED = 60


@dataclass(frozen=True, slots=True)
class Pieces:
    """An axis cut into pieces that lie in one band each: `bands[n]` is the band of piece n, None for none.

    Piece 0 stands for "not given". Of numbers, piece n begins at `marks[n - 1]`, the second at minus infinity;
    of codes, piece n is that of code n - 1.
    """

    bands: tuple[int | None, ...]
    marks: tuple[float, ...] = ()


@lru_cache(maxsize=512)
def pieces_of(axis: Axis) -> Pieces:
    """Return the pieces of an axis, worked out once for all clauses that look its table up."""
    if axis.term.kind.form is Form.SIZE:
        return Pieces((None, *(band_of(size, axis.bands) for size in ALL_SIZES)))
    if axis.term.kind.form is Form.YES_NO:
        return Pieces((None, band_of(False, axis.bands), band_of(True, axis.bands)))
    if axis.term.kind.form is Form.CHOICE:
        return Pieces((None, *(band_of(name, axis.bands) for name in codes_of(axis.term))))
    return _pieces_of_numbers(axis)


def _pieces_of_numbers(axis: Axis) -> Pieces:
    marks: list[float] = [-math.inf]
    bands: list[int | None] = [None, band_of(_value(-sys.float_info.max, axis.term), axis.bands)]
    for mark in sorted(_marks(axis)):
        band = band_of(_value(mark, axis.term), axis.bands)
        if band != bands[-1]:
            marks.append(mark)
            bands.append(band)
    return Pieces(tuple(bands), tuple(marks))


def _marks(axis: Axis) -> set[float]:
    """Return the numbers at which the band could change: where one begins to count as the end of a band, or ceases."""
    found: set[float] = {math.inf}
    for band in axis.bands:
        interval: Any = band.interval
        for end in (interval.low, interval.high):
            if end is None:
                continue

            def same(number: float, end_value: float, end: Single = end) -> bool:
                return number == end_value or compare(_value(number, axis.term), end) == 0  # type: ignore[arg-type]

            bare = end.value if isinstance(end, Quantity) else float(end)
            found |= {smallest_equal(bare, same), math.nextafter(greatest_equal(bare, same), math.inf)}
    return found


def _value(number: float, term: Term) -> Single:
    if term.kind.form is not Form.QUANTITY:
        return number
    return Quantity(number, term.kind.dimension, term.inch_pound)


@dataclass(frozen=True, slots=True)
class CellPlaces:
    """The result that numbers the cells of a table row by row, and the row and column of the cell of each number.

    None stands for no cell.
    """

    result: int
    cells: tuple[tuple[int, int] | None, ...]


def cell_places(circuit: ExpressionGraph, table: Table, columns: Sequence[int]) -> CellPlaces:
    """Return which cell of a table each row reads; `columns` are the results that hold the values of the axes."""
    cut = [pieces_of(axis) for axis in table.axes]
    places = [_piece_places(circuit, pieces, column) for pieces, column in zip(cut, columns, strict=True)]
    combined = (
        None if None in bands else table.place_of(cast(tuple[int, ...], bands))
        for bands in product(*(pieces.bands for pieces in cut))
    )
    result = places[0]
    for pieces, place in zip(cut[1:], places[1:], strict=True):
        result = _flat(circuit, result, place, len(pieces.bands))
    return CellPlaces(result, tuple(combined))


def _flat(circuit: ExpressionGraph, places: int, next_places: int, width: int) -> int:
    """Return the result that numbers the pairs of two places, the second of which has so many."""

    def flat(_: RowBlock, row: NDArray[np.integer], column: NDArray[np.integer]) -> NDArray[np.intp]:
        place = row.astype(np.intp)
        place *= width
        place += column
        return place

    return circuit.result(("cell", width), flat, places, next_places)


def _piece_places(circuit: ExpressionGraph, pieces: Pieces, values: int) -> int:
    """Return the result that numbers the piece of an axis in which each row lies."""
    if not pieces.marks:
        return circuit.result("next code", lambda _, codes: codes + codes.dtype.type(1), values)
    return circuit.result(("pieces", pieces.marks), lambda _, numbers: _pieces_reached(numbers, pieces.marks), values)


def _pieces_reached(values: Numbers, marks: Sequence[float]) -> NDArray[np.integer]:
    """Return how many marks each number has reached; 0 for what is not given."""
    if len(marks) > COUNTED:
        reached = np.searchsorted(np.array(marks), values, side="right")
        reached[np.isnan(values)] = 0
        return reached
    count = (values >= marks[0]).view(np.int8)
    for mark in marks[1:]:
        np.add(count, (values >= mark).view(np.int8), out=count)
    return count
