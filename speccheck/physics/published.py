"""Published tables read from `tables/`, with source and mark, and the simplified coefficients of ISO 12241 (from
memory).
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from functools import cache
from importlib.resources import files

import numpy as np
from numpy.typing import NDArray

from speccheck.physics.numerics import Array, Numbers, as_array


@dataclass(frozen=True)
class PublishedTable:
    """A published table: its rows by column heading, where it was printed, and how sure that is."""

    name: str
    source: str
    mark: str
    rows: tuple[dict[str, str], ...]

    def column(self, heading: str) -> Array:
        """Return one column as numbers, NaN where the cell is empty."""
        return np.array([float(row[heading]) if row[heading] else np.nan for row in self.rows])

    def words(self, heading: str) -> tuple[str, ...]:
        """Return one column as text."""
        return tuple(row[heading] for row in self.rows)


@cache
def table(name: str) -> PublishedTable:
    """Read the table `name`.csv that ships with this package; a missing table is our own bug and raises."""
    lines = (files("speccheck.physics") / "tables" / f"{name}.csv").read_text(encoding="utf-8").splitlines()
    notes = dict(line[2:].split(": ", 1) for line in lines if line.startswith(("# source: ", "# mark: ")))
    rows = tuple(csv.DictReader(line for line in lines if line and not line.startswith("#")))
    return PublishedTable(name, notes["source"], notes["mark"], rows)


def number(cell: str) -> float:
    """Return a cell as a number in the unit of its column, NaN where it is empty.

    Raises `ValueError` for another text: the tables are our own.
    """
    return float(cell) if cell else float("nan")


HORIZONTAL_SLOPE, VERTICAL_SLOPE = 0.05, 0.09
GREATEST_DIFFERENCE = 100.0
"""Greatest temperature difference, K."""

LEAST_DIAMETER = 0.25
"""Least outside diameter of a pipe, m, for the simplified coefficients."""


def finishes() -> tuple[str, ...]:
    """Return the surfaces for which simplified coefficients are given."""
    return table("simplified_coefficients").words("finish")


@cache
def _constants(heading: str) -> dict[str, float]:
    """Return one column of the table by surface."""
    coefficients = table("simplified_coefficients")
    return dict(zip(coefficients.words("finish"), coefficients.column(heading).tolist(), strict=True))


def _of(finish: str | NDArray[np.str_], heading: str) -> Array:
    """Return the constant of each finish, NaN for an unknown one."""
    known = _constants(heading)
    kinds, which = np.unique(np.asarray(finish), return_inverse=True)
    return np.array([known.get(str(kind), np.nan) for kind in kinds])[which.reshape(np.shape(finish))]


def simplified_horizontal_pipe(finish: str | NDArray[np.str_], difference: Numbers) -> Array:
    """Return the coefficient (W/(m² K)) of a horizontal pipe, radiation included: C + 0.05·|ΔT|."""
    return _of(finish, "horizontal_pipe_W_per_m2_K") + HORIZONTAL_SLOPE * np.abs(difference)


def simplified_vertical(finish: str | NDArray[np.str_], difference: Numbers) -> Array:
    """Return the coefficient (W/(m² K)) of a vertical pipe or wall, radiation included: C + 0.09·|ΔT|."""
    return _of(finish, "vertical_W_per_m2_K") + VERTICAL_SLOPE * np.abs(difference)


WIND_TURN = 0.00855
"""Product of wind speed and diameter at which the flow across a pipe turns from laminar to turbulent, m²/s."""


def _by_flow(product: Array, turning: float, laminar: Array, turbulent: Array) -> Array:
    """Return the laminar value up to the turning point of a product, else the turbulent one."""
    return np.where(product <= turning, laminar, turbulent)


def natural_horizontal_pipe(diameter: Numbers, difference: Numbers) -> Array:
    """Return the convective coefficient (W/(m² K)) of a horizontal pipe in still air; it steps at D³·ΔT = 10 m³ K."""
    diameter, difference = as_array(diameter), np.abs(as_array(difference))
    laminar, turbulent = 1.25 * (difference / diameter) ** 0.25, 1.21 * np.cbrt(difference)
    return _by_flow(diameter**3 * difference, 10.0, laminar, turbulent)


def natural_vertical(height: Numbers, difference: Numbers) -> Array:
    """Return the convective coefficient (W/(m² K)) of a vertical surface in still air; it steps at H³·ΔT = 10 m³ K."""
    height, difference = as_array(height), np.abs(as_array(difference))
    laminar, turbulent = 1.32 * (difference / height) ** 0.25, 1.74 * np.cbrt(difference)
    return _by_flow(height**3 * difference, 10.0, laminar, turbulent)


def wind_on_pipe(speed: Numbers, diameter: Numbers) -> Array:
    """Return the convective coefficient (W/(m² K)) of a pipe across the wind (m/s).

    The printed turbulent formula begins far below the laminar one at v·D = 0.00855 m²/s; until it has caught up the
    laminar value at the turn stands, so that more wind never means a lower coefficient.
    """
    speed, diameter = as_array(speed), as_array(diameter)
    slow = np.minimum(speed, WIND_TURN / diameter)
    laminar = 0.0081 / diameter + 3.14 * np.sqrt(slow / diameter)
    turbulent = np.where(speed * diameter > WIND_TURN, 8.9 * speed**0.9 / diameter**0.1, 0.0)
    return np.maximum(laminar, turbulent)


def wind_on_wall(speed: Numbers, height: Numbers) -> Array:
    """Return the convective coefficient (W/(m² K)) of a wall along the wind (m/s)."""
    speed, height = as_array(speed), as_array(height)
    return _by_flow(speed * height, 8.0, 3.96 * np.sqrt(speed / height), 5.76 * (speed**4 / height) ** 0.2)
