"""Looking up: the cell of a table for the values of its axes, and between which bands a value falls outside of them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from speccheck.judge.operations import bare
from speccheck.language.core import Axis, Band, Literal, Table
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


@dataclass(frozen=True, slots=True, eq=False)
class OutsideBands:
    """A value lies in no band of an axis of a table."""

    table: Table
    axis: Axis
    value: Single

    @property
    def below(self) -> Band | None:
        """The last band below the value; None where there is none, or where the axis has no order."""
        bands = [band for band in self._ordered if _ends_below(band, self.value)]
        return max(bands, key=_high, default=None)

    @property
    def above(self) -> Band | None:
        """The first band above the value; None where there is none, or where the axis has no order."""
        bands = [band for band in self._ordered if not _ends_below(band, self.value)]
        return min(bands, key=_low, default=None)

    @property
    def _ordered(self) -> Sequence[Band]:
        return () if isinstance(self.value, str | bool) else self.axis.bands


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
