"""Materials: what their standards allow, conductivity by mean temperature, and the emittance of jackets and
surfaces.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from speccheck.physics.numerics import Array, Flags, Numbers, as_array
from speccheck.physics.psychrometrics import ZERO_CELSIUS
from speccheck.physics.published import number, table
from speccheck.physics.vapor import NANOGRAM

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


@dataclass(frozen=True)
class ConductivityPoints:
    """Conductivity between points by straight lines, as a data sheet or a material standard prints it.

    `mean_temperatures` (K) ascending; `end_tolerance` (K) is how far beyond the end points the end value still counts,
    for tables whose headings are rounded.
    """

    mean_temperatures: tuple[float, ...]
    conductivities: tuple[float, ...]
    end_tolerance: float = 0.0

    def at(self, mean_temperature: Numbers) -> Array:
        """Return the conductivity (W/(m K)) at a mean temperature (K); outside the range, that at the nearer end."""
        return as_array(np.interp(as_array(mean_temperature), self.mean_temperatures, self.conductivities))

    def covers(self, mean_temperature: Numbers) -> Flags:
        """Return where the mean temperature (K) lies within the points."""
        mean = as_array(mean_temperature)
        low = self.mean_temperatures[0] - self.end_tolerance
        high = self.mean_temperatures[-1] + self.end_tolerance
        return np.asarray((mean >= low) & (mean <= high))


@dataclass(frozen=True)
class ConductivityPolynomial:
    """Conductivity as a polynomial in mean temperature less `base`, lowest power first; good from `low` to `high` K."""

    coefficients: tuple[float, ...]
    base: float = 273.15
    low: float = 0.0
    high: float = np.inf

    def at(self, mean_temperature: Numbers) -> Array:
        """Return the conductivity (W/(m K)) at a mean temperature (K); outside the range, that at the nearer end."""
        mean = np.clip(as_array(mean_temperature), self.low, self.high)
        return as_array(np.polynomial.polynomial.polyval(mean - self.base, self.coefficients))

    def covers(self, mean_temperature: Numbers) -> Flags:
        """Return where the mean temperature (K) lies in the range."""
        mean = as_array(mean_temperature)
        return np.asarray((mean >= self.low) & (mean <= self.high))


@dataclass(frozen=True)
class ConductivityOfLines:
    """Conductivity of many lines, each by a curve of its own or constant.

    `which` says for each line which of the curves is its; where that is None, its `constant` (W/(m K)) stands.
    """

    curves: tuple[ConductivityPoints | None, ...]
    which: NDArray[np.intp]
    constant: Array

    def at(self, mean_temperature: Numbers) -> Array:
        """Return the conductivity (W/(m K)) at a mean temperature (K); outside a curve, that at its nearer end."""
        mean = np.broadcast_to(as_array(mean_temperature), self.which.shape)
        found = np.array(np.broadcast_to(self.constant, self.which.shape))
        for curve, rows in self._by_curve():
            found[rows] = curve.at(mean[rows])
        return found

    def covers(self, mean_temperature: Numbers) -> Flags:
        """Return where the mean temperature (K) lies within the curve of its line, or no curve is asked."""
        mean = np.broadcast_to(as_array(mean_temperature), self.which.shape)
        found = np.ones(self.which.shape, dtype=bool)
        for curve, rows in self._by_curve():
            found[rows] = curve.covers(mean[rows])
        return found

    def _by_curve(self) -> Iterator[tuple[ConductivityPoints, Flags]]:
        """Yield each curve with the lines of which it is."""
        for place, curve in enumerate(self.curves):
            rows = self.which == place
            if curve is not None and np.any(rows):
                yield curve, rows

    def rows(self, chosen: slice | NDArray[np.intp]) -> ConductivityOfLines:
        """Return the same for some of the lines, in W/(m K)."""
        return ConductivityOfLines(self.curves, self.which[chosen], self.constant[chosen])

    def with_constant(self, where: Flags, value: float) -> ConductivityOfLines:
        """Return the same with a constant (W/(m K)) instead of the curve on some lines."""
        which = np.where(where, len(self.curves), self.which)
        return ConductivityOfLines((*self.curves, None), which, np.where(where, value, self.constant))


MeanConductivity = ConductivityPoints | ConductivityPolynomial | ConductivityOfLines
"""Conductivity (W/(m K)) of a layer as a function of its mean temperature (K)."""


@dataclass(frozen=True)
class Emittance:
    """Emittance of a surface. Where the table prints a range, `least` and `greatest` are its ends.

    The least is the unfavorable one for condensation and for touch, the greatest for heat loss.
    """

    surface: str
    least: float
    greatest: float
    source: str


@cache
def emittances() -> dict[str, Emittance]:
    """Return every surface of the table by name."""
    printed = table("emittance")
    return {
        row["surface"]: Emittance(row["surface"], number(row["least"]), number(row["greatest"]), printed.source)
        for row in printed.rows
    }
