"""Actual outside diameter of pipe insulation against the nominal thickness.

Preformed insulation is made to a set of outside diameters that nest, so that its actual thickness is not its nominal
one: 2½ in. on NPS ½ is 73 mm thick, not 63 mm. Where a published dimension table has the cell it is used. Where it has
the pipe size only, the printed inside diameter of the insulation plus twice the nominal thickness stands (as the
handbook's own freezing table does); elsewhere the pipe's outside diameter plus twice the nominal thickness. The result
says which was done.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

import numpy as np

from speccheck.trade.arrays import Array, Flags, Numbers, as_array
from speccheck.trade.pipes import INCH, MILLIMETER, copper_tube_outside_diameter, steel_pipe_outside_diameter
from speccheck.trade.published import table

Form = Literal["rigid on pipe", "rigid on tube", "flexible on pipe", "flexible on tube"]
"""The four dimension tables: preformed rigid (ASTM C585) or flexible closed-cell, on steel pipe or copper tube."""

TABLES: dict[Form, str] = {
    "rigid on pipe": "pipe_insulation_sizes",
    "rigid on tube": "tube_insulation_sizes",
    "flexible on pipe": "flexible_pipe_insulation_sizes",
    "flexible on tube": "flexible_tube_insulation_sizes",
}

LABEL_TOLERANCE = 0.3 * MILLIMETER
"""How near a thickness must come to a printed label; ½ in. (12.7 mm) then meets its label 13 mm, 40 mm meets none."""


@dataclass(frozen=True)
class InsulationSize:
    """Diameters of insulation on a pipe, in metres, and where each came from.

    `from_table` is true where the published table had the cell; `bore_from_table` where it had at least the inside
    diameter of the insulation for the size; `source` names the table.
    """

    outside_diameter: Array
    bare_diameter: Array
    from_table: Flags
    bore_from_table: Flags
    source: str

    @property
    def thickness(self) -> Array:
        """Actual thickness (m): half the difference between the insulation's and the pipe's outside diameter."""
        return (self.outside_diameter - self.bare_diameter) / 2


@dataclass(frozen=True)
class _Grid:
    """A dimension table as a grid: one row a nominal size, one column a nominal thickness, NaN where not printed."""

    sizes: Array
    thickness_labels: Array
    bare: Array
    inside: Array
    outside: Array
    source: str


@cache
def _grid(form: Form) -> _Grid:
    """Lay the cells of a published dimension table out as a grid; lengths in metres."""
    cells = table(TABLES[form])
    sizes, row = np.unique(cells.column("nominal_in"), return_inverse=True)
    inches, column = np.unique(cells.column("thickness_in"), return_inverse=True)
    millimeters = np.full(len(inches), np.nan)
    millimeters[column] = cells.column("thickness_mm")
    outside = np.full((len(sizes), len(inches)), np.nan)
    outside[row, column] = cells.column("outside_mm") * MILLIMETER
    bare, inside = np.full(len(sizes), np.nan), np.full(len(sizes), np.nan)
    bare[row] = cells.column("bare_mm") * MILLIMETER
    inside[row] = cells.column("inside_mm") * MILLIMETER
    return _Grid(sizes, np.stack([inches * INCH, millimeters * MILLIMETER]), bare, inside, outside, cells.source)


def bare_diameter(form: Form, nominal_size: Numbers) -> Array:
    """Return the outside diameter (m) of the pipe or tube that a form of insulation goes on."""
    if form.endswith("tube"):
        return copper_tube_outside_diameter(nominal_size)
    return steel_pipe_outside_diameter(nominal_size)


def insulation_size(form: Form, nominal_size: Numbers, nominal_thickness: Numbers) -> InsulationSize:
    """Return actual diameters for nominal sizes (inches as numbers) and nominal thicknesses (m).

    A thickness meets a table column when it equals the column's inch size or its printed millimetre label. NaN where
    the pipe size is unknown or the thickness is negative or NaN.
    """
    size, thickness = np.broadcast_arrays(as_array(nominal_size), as_array(nominal_thickness))
    grid = _grid(form)
    row = np.abs(grid.sizes - size[..., None]).argmin(axis=-1)
    apart = np.abs(grid.thickness_labels - thickness[..., None, None]).min(axis=-2)
    column = apart.argmin(axis=-1)
    known = np.abs(grid.sizes[row] - size) <= 1e-6
    printed = np.where(known & (apart.min(axis=-1) <= LABEL_TOLERANCE), grid.outside[row, column], np.nan)
    bare = bare_diameter(form, size)
    # Sizes such as 4½ in. are in the insulation's table but no longer in the pipe's.
    bare = np.where(np.isnan(bare) & known, grid.bare[row], bare)
    bore = np.where(known & (thickness > 0), grid.inside[row], bare)
    plain = np.where(thickness >= 0, bore + 2 * thickness, np.nan)
    found = np.isfinite(printed)
    return InsulationSize(np.where(found, printed, plain), bare, found, known, grid.source)


def printed_thicknesses(form: Form) -> Array:
    """Return the nominal thicknesses (m, inch series) for which a dimension table is printed, thinnest first."""
    labels: Array = _grid(form).thickness_labels[0]
    return labels


def next_printed_thickness(form: Form, nominal_size: Numbers, least_actual: Numbers) -> Array:
    """Return the least nominal thickness (m) of the table whose actual thickness is at least `least_actual` (m).

    Zero where none is needed, NaN where the table has none thick enough for the size.
    """
    size, least = np.broadcast_arrays(as_array(nominal_size), as_array(least_actual))
    labels = printed_thicknesses(form)
    made = insulation_size(form, size[..., None], labels)
    enough = made.from_table & (made.thickness >= least[..., None] * (1 - 1e-6))
    chosen = np.where(enough.any(axis=-1), labels[enough.argmax(axis=-1)], np.nan)
    return np.where(least == 0, 0.0, np.where(np.isnan(least), np.nan, chosen))
