"""Nominal sizes in cells: those that head a band, and those that are listed: `1/2", 3/4" & 1"`."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import cast

from speccheck.language.vocabulary.values import BareUnits
from speccheck.phrases.bands import SizeBand, read_size_band
from speccheck.quantities import Interval, Misread, NominalSize
from speccheck.quantities.sizes import NOMINAL_SIZES, System, sizes_in

_SYSTEMS: dict[str, System] = {
    "in": "inch-pound",
    "NPS": "inch-pound",
    "inch-pound": "inch-pound",
    "mm": "metric",
    "DN": "metric",
    "metric": "metric",
}
_LISTED = re.compile(r"\s*,\s*(?:(?:and|&)\s+)?|\s+(?:and|&)\s+", re.IGNORECASE)
_SIZES_LISTED = re.compile(r"\s*,\s+(?:(?:and|&)\s+)?|\s+(?:and|&|\+)\s+|(?<=[\"”″])\s*[/,&]\s*", re.IGNORECASE)


def band_in(text: str, bare: BareUnits) -> SizeBand | None:
    """Return the sizes that a cell of nominal sizes states as the header of a band does: "All sizes", "7/8 OD"."""
    band = read_size_band(text, _SYSTEMS.get(bare.unit or bare.system))
    return None if isinstance(band, Misread) else band


def consecutive_sizes(text: str, bare: BareUnits) -> SizeBand | None:
    """Return the range of sizes that are listed one by one, none of those between them left out: `1/2", 3/4" & 1"`."""
    bands = [band_in(part, bare) for part in _LISTED.split(text.strip())]
    sizes = [band.value for band in bands if band is not None and isinstance(band.value, NominalSize)]
    if len(sizes) < max(len(bands), 2):
        return None
    range_ = Interval(sizes[0], sizes[-1])
    between = [size for size in sizes_in(range_) if size in NOMINAL_SIZES]
    return SizeBand("pipe size", range_) if sizes == between else None


def sizes_listed(text: str, bare: BareUnits) -> tuple[NominalSize | Interval[NominalSize], ...]:
    """Return the sizes, or bands of them, that a cell lists rising, some of those between them left out: `2" & 3"`.

    None of them where a part is no size, or where they do not rise: "1, 1/2" may be one size.
    """
    bands = [band_in(part, bare) for part in _SIZES_LISTED.split(text.strip())]
    if len(bands) < 2 or not all(band is not None and band.term == "pipe size" for band in bands):
        return ()
    values = cast("tuple[NominalSize | Interval[NominalSize], ...]", tuple(band.value for band in bands if band))
    ends = [sizes_in(value) if isinstance(value, Interval) else (value,) for value in values]
    rising = all(ends) and all(before[-1] < after[0] for before, after in pairwise(ends))
    return values if rising else ()
