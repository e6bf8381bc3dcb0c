"""Published values for comparison, none of them a limit: measured systems, permeances of films, fixed coefficients."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from speccheck.physics.psychrometrics import ZERO_CELSIUS
from speccheck.physics.published import number, table
from speccheck.physics.vapor import NANOGRAM


@dataclass(frozen=True)
class MeasuredSystem:
    """A dry cylindrical system as measured with its sealant: wall (m), mean temperature (K), conductivity (W/(m K))."""

    material: str
    wall: float
    joint_sealant: str
    mean_temperature: float
    conductivity: float


@dataclass(frozen=True)
class MeasuredPermeance:
    """Permeance (kg/(s m² Pa)) of a film or insulation at a thickness (m); the two ends where a range is printed."""

    material: str
    thickness: float
    least: float
    greatest: float


@dataclass(frozen=True)
class FixedCoefficient:
    """A surface coefficient (W/(m² K)) that a guide gives by surface; guides differ, so each names itself."""

    surface: str
    coefficient: float
    source: str


@cache
def measured_systems() -> tuple[MeasuredSystem, ...]:
    """Return the measured systems of ASHRAE RP-1356 (2021 ASHRAE Handbook - Fundamentals, chapter 23, Table 9)."""
    return tuple(
        MeasuredSystem(
            row["material"],
            number(row["wall_mm"]) / 1e3,
            row["joint_sealant"],
            number(row["mean_C"]) + ZERO_CELSIUS,
            number(row["conductivity_W_per_m_K"]),
        )
        for row in table("measured_conductivity").rows
    )


@cache
def measured_permeances() -> tuple[MeasuredPermeance, ...]:
    """Return the permeances of the 2021 ASHRAE Handbook - Fundamentals, chapter 26, Tables 5 and 6."""
    return tuple(
        MeasuredPermeance(
            row["material"],
            number(row["thickness_mm"]) / 1e3,
            number(row["least_ng_per_s_m2_Pa"]) * NANOGRAM,
            number(row["greatest_ng_per_s_m2_Pa"]) * NANOGRAM,
        )
        for row in table("permeance").rows
    )


@cache
def fixed_coefficients() -> tuple[FixedCoefficient, ...]:
    """Return the fixed surface coefficients of BS 5422:1990, CIBSE Guide C and ASHRAE chapter 26."""
    return tuple(
        FixedCoefficient(row["surface"], number(row["coefficient_W_per_m2_K"]), row["source"])
        for row in table("fixed_coefficients").rows
    )
