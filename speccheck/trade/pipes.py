"""Outside diameter and bore of steel pipe and copper tube by nominal size.

Nominal sizes are the trade's inch designations as numbers: 0.75 for ¾ in., 2.5 for 2½ in. Diameters go out in metres;
a size that the table does not have gives NaN.
"""

from __future__ import annotations

from typing import Literal

import numpy as np

from speccheck.trade.arrays import Array, Numbers, as_array
from speccheck.trade.published import table

INCH = 0.0254
"""Metres in one inch, exactly."""

MILLIMETER = 0.001
"""Metres in one millimetre."""

Series = Literal["metric", "inch"]
"""Which printed outside diameter: steel pipe and copper tube are printed in rounded millimetres and in inches."""


def look_up(keys: Array, values: Array, wanted: Numbers) -> Array:
    """Return the value whose key equals each wanted number (to a millionth), NaN where there is none."""
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
