"""Looking up: the cell of a table for the values of its axes, and in words where a value falls outside the bands."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from speccheck.judge.operations import bare
from speccheck.language.core import Band, Literal, Table
from speccheck.language.core.wording import value_text
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import Single
from speccheck.quantities import TOLERANCE, Quantity


@dataclass(frozen=True, slots=True)
class TableUse:
    """The cell of a table that was looked up: its row and its column (0 for tables with one axis)."""

    table: Table
    row: int
    column: int

    @property
    def cell(self) -> Literal | None:
        """The cell itself; None where the table has a dash."""
        return self.table.cells[self.row][self.column]


def band_of(value: Single, bands: Sequence[Band]) -> int | None:
    """Return the position of the band in which a value lies, None where it lies in none."""
    return next((position for position, band in enumerate(bands) if lies_in(value, band)), None)


def lies_in(value: Single, band: Band) -> bool:
    """Say whether a value lies in a band; a value without limit lies only in a band without an upper end."""
    if band.interval is None:
        return (("yes" if value else "no") if isinstance(value, bool) else value) in band.choices
    if isinstance(value, Quantity) and math.isinf(value.value):
        return band.interval.high is None
    return band.interval.contains(value)  # type: ignore[arg-type]


def place_in(use: TableUse) -> str:
    """Return the row and the column of a table cell in words."""
    bands = list(use.table.headings_at(use.row, use.column))
    across = "" if use.table.across is None else f", column {bands.pop()}"
    return f"row {' and '.join(bands)}{across}"


def not_covered(table: Table, term: Term, bands: Sequence[Band], value: Single, system: str) -> str:
    """Return in words that a value lies in no band of an axis, with the bands on either side of it."""
    stated = f"{term.name} {value_text(value, system)}"
    if isinstance(value, str | bool):
        return f"`{table.name}` does not cover {stated}"
    below = [band for band in bands if _ends_below(band, value)]
    above = [band for band in bands if not _ends_below(band, value)]
    last = max(below, key=_high, default=None)
    first = min(above, key=_low, default=None)
    if last and first:
        return f"{stated} lies in no band of `{table.name}`: it is between `{last.text}` and `{first.text}`"
    if last:
        return f"{stated} lies above the last band of `{table.name}`, `{last.text}`"
    assert first is not None, table
    return f"{stated} lies below the first band of `{table.name}`, `{first.text}`"


def _ends_below(band: Band, value: Single) -> bool:
    """Say whether a value that lies outside a band lies above it; an end met but for a rounding counts as met."""
    high = _high(band)
    return high <= bare(value) or math.isclose(high, bare(value), rel_tol=TOLERANCE)


def _high(band: Band) -> float:
    assert band.interval is not None, band
    return math.inf if band.interval.high is None else bare(band.interval.high)


def _low(band: Band) -> float:
    assert band.interval is not None, band
    return -math.inf if band.interval.low is None else bare(band.interval.low)
