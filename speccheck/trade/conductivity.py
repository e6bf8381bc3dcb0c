"""Conductivity that varies with mean temperature: as a polynomial, or between printed points."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from speccheck.trade.arrays import Array, Flags, Numbers, as_array


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
        """Return the conductivity; outside the range, that at the nearer end."""
        return as_array(np.interp(as_array(mean_temperature), self.mean_temperatures, self.conductivities))

    def covers(self, mean_temperature: Numbers) -> Flags:
        """Return where the mean temperature lies within the points."""
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
        """Return the conductivity; outside the range, that at the nearer end."""
        mean = np.clip(as_array(mean_temperature), self.low, self.high)
        return as_array(np.polynomial.polynomial.polyval(mean - self.base, self.coefficients))

    def covers(self, mean_temperature: Numbers) -> Flags:
        """Return where the mean temperature lies in the range."""
        mean = as_array(mean_temperature)
        return np.asarray((mean >= self.low) & (mean <= self.high))


MeanConductivity = ConductivityPoints | ConductivityPolynomial
"""Conductivity (W/(m K)) of a layer as a function of its mean temperature (K)."""
