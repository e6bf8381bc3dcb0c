"""Dimensions: outside diameter and bore of pipe and tube, and the actual outside diameter of insulation on them.

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

from speccheck.physics.numerics import Array, Flags, Numbers, as_array
from speccheck.physics.published import table

INCH = 0.0254
"""Metres in one inch, exactly."""

MILLIMETER = 0.001
"""Metres in one millimetre."""

Series = Literal["metric", "inch"]
"""Which printed outside diameter: steel pipe and copper tube are printed in rounded millimetres and in inches."""


def look_up(keys: Array, values: Array, wanted: Numbers) -> Array:
    """Return the value whose key equals each wanted number (to a millionth), NaN where there is none.

    `keys` rise, and have one value each; keys and wanted numbers are in one unit, of any kind.
    """
    wanted = as_array(wanted)
    place = np.clip(np.searchsorted(keys, wanted - 1e-6), 0, len(keys) - 1)
    return np.where(np.abs(keys[place] - wanted) <= 1e-6, values[place], np.nan)


def steel_pipe_outside_diameter(nominal_size: Numbers, series: Series = "metric") -> Array:
    """Return the outside diameter (m) of steel pipe, ASME B36.10M, for nominal sizes ⅛ to 48 in.

    The metric series is rounded by the standard itself (NPS 6: 168.3 mm, where 6.625 in. is 168.275 mm).
    """
    pipe = table("steel_pipe")
    diameters = pipe.column("outside_mm") * MILLIMETER if series == "metric" else pipe.column("outside_in") * INCH
    return look_up(pipe.column("nominal_in"), diameters, nominal_size)


def steel_pipe_bore(nominal_size: Numbers, schedule: str = "40") -> Array:
    """Return the inside diameter (m) of steel pipe of a schedule ("40", "80", "STD", "XS" ...), ASME B36.10M.

    NaN where the size has no such schedule, and everywhere when no such schedule is printed.
    """
    pipe = table("steel_pipe")
    heading = f"wall_mm_{schedule.upper()}"
    if heading not in pipe.rows[0]:
        return np.full(np.shape(nominal_size), np.nan)
    bores = (pipe.column("outside_mm") - 2 * pipe.column(heading)) * MILLIMETER
    return look_up(pipe.column("nominal_in"), bores, nominal_size)


def copper_tube_outside_diameter(nominal_size: Numbers, series: Series = "inch") -> Array:
    """Return the outside diameter (m) of copper water tube, ASTM B88: the nominal size plus ⅛ in., ¼ to 12 in.

    A size of 7/8 in. is tube for refrigerant, called after its outside diameter (ASTM B280, from memory).

    The metric series is the printed millimetres (3/8 to 6 in.), rounded to 1 mm at 4 in. and over.
    """
    tube = table("copper_tube")
    diameters = tube.column("printed_mm") * MILLIMETER if series == "metric" else tube.column("outside_in") * INCH
    return look_up(tube.column("nominal_in"), diameters, nominal_size)


def copper_tube_bore(nominal_size: Numbers, tube_type: str = "L") -> Array:
    """Return the inside diameter (m) of copper water tube of type "K", "L" or "M", ASTM B88 (walls from memory)."""
    tube = table("copper_tube")
    heading = f"wall_in_{tube_type.upper()}"
    if heading not in tube.rows[0]:
        return np.full(np.shape(nominal_size), np.nan)
    bores = (tube.column("outside_in") - 2 * tube.column(heading)) * INCH
    return look_up(tube.column("nominal_in"), bores, nominal_size)


EUROPEAN_STEEL = ("EN-10255-medium", "EN-10255-heavy", "EN-10216")
"""European standards of steel pipe: threaded pipe of two walls, and seamless or welded pipe of the common wall."""


def european_steel_outside_diameter(nominal_size: Numbers) -> Array:
    """Return the outside diameter (m) of steel pipe by EN 10255 or EN 10216 (EN 10220): 26.9 mm for DN 20."""
    pipe = table("european_steel_pipe")
    return look_up(pipe.column("nominal_in"), pipe.column("outside_mm") * MILLIMETER, nominal_size)


def european_steel_bore(nominal_size: Numbers, standard: str) -> Array:
    """Return the inside diameter (m) of steel pipe by a standard of `EUROPEAN_STEEL`; NaN where it has no such size."""
    pipe = table("european_steel_pipe")
    walls = pipe.column(f"wall_mm_{standard}") * MILLIMETER
    bores = pipe.column("outside_mm") * MILLIMETER - 2 * walls
    return look_up(pipe.column("nominal_in"), bores, nominal_size)


def european_copper_outside_diameter(nominal_size: Numbers) -> Array:
    """Return the outside diameter (m) of copper tube, EN 1057, by the nominal size for it (DN 20: 22 mm)."""
    tube = table("european_copper_tube")
    return look_up(tube.column("nominal_in"), tube.column("outside_mm") * MILLIMETER, nominal_size)


def european_copper_bore(nominal_size: Numbers) -> Array:
    """Return the inside diameter (m) of copper tube, EN 1057, with the common wall of its size."""
    tube = table("european_copper_tube")
    bores = (tube.column("outside_mm") - 2 * tube.column("wall_mm")) * MILLIMETER
    return look_up(tube.column("nominal_in"), bores, nominal_size)


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
