"""What the ASTM material standards allow, by material and grade: conductivity at a mean temperature, and limits.

The values are the standards' limits for the type and grade named, not a product's. Use them only where the schedule
gives none, and say so.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

from speccheck.trade.arrays import Array, Numbers, as_array
from speccheck.trade.conductivity import ConductivityPoints
from speccheck.trade.psychrometrics import ZERO_CELSIUS
from speccheck.trade.published import number, table
from speccheck.trade.vapor import NANOGRAM

HEADING_ROUNDING = 0.5
"""The table's mean temperatures are printed in whole degrees Celsius, K."""


@dataclass(frozen=True)
class Material:
    """Limits of a material standard for one type and grade; NaN where none is stated.

    Temperatures in K, strength in Pa at `deformation_percent`, permeability in kg/(s m Pa), water absorption in
    percent by volume, flame spread and smoke developed as ASTM E84 indexes. `doubt` is empty unless a printed value is
    doubted.
    """

    name: str
    standard: str
    grade: str
    least_temperature: float
    greatest_temperature: float
    compressive_strength: float
    deformation_percent: float
    permeability: float
    water_absorption_percent: float
    flame_spread: float
    smoke_developed: float
    conductivity: ConductivityPoints
    doubt: str
    source: str


def _conductivity_points(name: str) -> ConductivityPoints:
    """Return the printed conductivities of a material over mean temperature."""
    rows = [row for row in table("material_conductivity").rows if row["material"] == name]
    means = tuple(float(row["mean_C"]) + ZERO_CELSIUS for row in rows)
    return ConductivityPoints(means, tuple(float(row["conductivity_W_per_m_K"]) for row in rows), HEADING_ROUNDING)


@cache
def materials() -> dict[str, Material]:
    """Return every material of the table by name."""
    printed = table("material_limits")
    return {row["material"]: _material(row, printed.source) for row in printed.rows}


def _material(row: dict[str, str], source: str) -> Material:
    """Return one row of the table in SI."""
    return Material(
        name=row["material"],
        standard=row["standard"],
        grade=row["type"],
        least_temperature=number(row["least_C"]) + ZERO_CELSIUS,
        greatest_temperature=number(row["greatest_C"]) + ZERO_CELSIUS,
        compressive_strength=number(row["compressive_kPa"]) * 1e3,
        deformation_percent=number(row["deformation_percent"]),
        permeability=number(row["permeability_ng_per_s_m_Pa"]) * NANOGRAM,
        water_absorption_percent=number(row["water_absorption_percent"]),
        flame_spread=number(row["flame_spread"]),
        smoke_developed=number(row["smoke_developed"]),
        conductivity=_conductivity_points(row["material"]),
        doubt=row["doubt"],
        source=source,
    )


def material(name: str) -> Material | None:
    """Return the limits of a material named as in the table; None for one that it does not have."""
    return materials().get(name)


def limit_conductivity(name: str, mean_temperature: Numbers) -> Array:
    """Return the greatest conductivity (W/(m K)) that the standard allows at a mean temperature (K).

    Between printed mean temperatures by a straight line. NaN beyond them (by more than the rounding of the table's
    headings) and for a material that the table does not have.
    """
    mean = as_array(mean_temperature)
    found = material(name)
    if found is None:
        return np.full(mean.shape, np.nan)
    return np.where(found.conductivity.covers(mean), found.conductivity.at(mean), np.nan)
