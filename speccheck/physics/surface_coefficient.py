"""The surface coefficient: convection and radiation put together, by a method chosen by name.

The film correlations follow the structure of ASTM C680: natural and forced convection at film temperature, blended,
plus radiation to the surroundings. The other methods are those of ISO 12241 and a coefficient that is simply given.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from speccheck.physics import convection as forced
from speccheck.physics import convection as natural
from speccheck.physics import published as simplified
from speccheck.physics.air import Air, air_properties, film_temperature
from speccheck.physics.numerics import Array, as_array
from speccheck.physics.radiation import radiation_coefficient
from speccheck.physics.systems import EDITIONS, FACES, FORMULAS, PIPES, Method, System, SystemOutline

CYLINDER_EXPONENT, PLATE_EXPONENT = 4.0, 3.0
"""Exponents of the blend of natural and forced convection (from memory of ASTM C680)."""


@dataclass(frozen=True)
class SurfaceCoefficient:
    """Coefficients in W/(m² K): `convective` for the difference to the air, `radiative` for that to the surroundings.

    Where a method gives one coefficient for both, it stands under `convective` and `radiative` is zero.
    """

    convective: Array
    radiative: Array


def surface_coefficient(system: System, over: SystemOutline, surface: Array, method: Method) -> SurfaceCoefficient:
    """Return the coefficients of systems of one shape at trial surface temperatures (K)."""
    difference = surface - as_array(system.air_temperature)
    if method == "fixed coefficient":
        return SurfaceCoefficient(as_array(system.coefficient), np.zeros(()))
    if method == "simplified coefficients":
        rule = (
            simplified.simplified_horizontal_pipe
            if system.shape == "horizontal pipe"
            else simplified.simplified_vertical
        )
        return SurfaceCoefficient(rule(system.finish, difference), np.zeros(()))
    radiative = radiation_coefficient(system.emittance, surface, system.surroundings_temperature)
    if method in FORMULAS:
        return SurfaceCoefficient(_formula_convection(system, over, difference, method), radiative)
    return SurfaceCoefficient(film_convection(system, over, surface), radiative)


def outward_flow(system: System, over: SystemOutline, surface: Array, method: Method) -> Array:
    """Return the heat that leaves the surface (W/m, or W/m² if flat) at trial surface temperatures (K)."""
    coefficient = surface_coefficient(system, over, surface, method)
    to_air = coefficient.convective * (surface - as_array(system.air_temperature))
    to_surroundings = coefficient.radiative * (surface - system.surroundings_temperature)
    return over.area * (to_air + to_surroundings - as_array(system.absorbed))


def _formula_convection(system: System, over: SystemOutline, difference: Array, method: Method) -> Array:
    """Return the convective coefficient by the ISO 12241 formulas, still air and wind together.

    The standard takes one or the other. By an edition that is named the greater of the two counts, so that a breath of
    wind never insulates; else they are put together as in the film correlations, which does not jump either.
    """
    wind = as_array(system.wind_speed)
    if system.shape in PIPES:
        in_wind = simplified.wind_on_pipe(wind, over.diameter)
    else:
        in_wind = simplified.wind_on_wall(wind, along_wind(over, surface_of(system)))
    if system.shape == "horizontal pipe":
        still = simplified.natural_horizontal_pipe(over.diameter, difference)
    elif system.shape == "vertical pipe":
        still = simplified.natural_vertical(over.height, difference)
    else:
        still = simplified.natural_vertical(along_wind(over, surface_of(system)), difference)
    blown = np.where(wind > 0, in_wind, 0.0)
    if method in EDITIONS:
        return np.maximum(blown, still)
    return forced.blend(blown, still, _exponent(surface_of(system)))


def surface_of(system: System) -> str:
    """Return what convection takes the surface of systems of one shape for: a pipe, or a flat surface by its face."""
    return FACES.get(str(system.shape), str(system.shape))


def _exponent(shape: str) -> float:
    """Return the exponent of the blend of natural and forced convection."""
    return CYLINDER_EXPONENT if shape == "horizontal pipe" else PLATE_EXPONENT


def film_convection(system: System, over: SystemOutline, surface: Array) -> Array:
    """Return the convective coefficient (W/(m² K)) by the film correlations, natural and forced together."""
    air = air_properties(film_temperature(surface, system.air_temperature), system.pressure)
    difference = surface - as_array(system.air_temperature)
    if system.shape == "rectangular duct":
        return _duct_convection(system, over, air, difference)
    return _face_convection(system, over, air, difference, surface_of(system))


def characteristic_length(over: SystemOutline, shape: str) -> Array:
    """Return the length (m) of the Rayleigh number: diameter, height, or half the width of a face up or down.

    Half the width is area over perimeter for a face much longer than wide; of a round face it is a quarter of the
    diameter.
    """
    if shape == "horizontal pipe":
        return over.diameter
    return over.across / 2 if shape in ("flat facing up", "flat facing down") else over.height


def _natural_nusselt(over: SystemOutline, air: Air, difference: Array, shape: str) -> Array:
    """Return the Nusselt number of natural convection on the characteristic length."""
    length = characteristic_length(over, shape)
    number = natural.rayleigh(air, length, difference)
    if shape == "horizontal pipe":
        return natural.nusselt_horizontal_cylinder(number, air.prandtl)
    if shape == "vertical flat":
        return natural.nusselt_vertical_face(number, air.prandtl)
    if shape == "vertical pipe":
        grashof = number / air.prandtl
        factor = natural.slender_cylinder_factor(grashof, air.prandtl, over.height, over.diameter)
        return natural.nusselt_vertical_plate(number, air.prandtl) * factor
    rises = difference > 0 if shape == "flat facing up" else difference < 0
    return np.where(rises, natural.nusselt_plate_facing_up(number), natural.nusselt_plate_facing_down(number))


def _face_convection(system: System, over: SystemOutline, air: Air, difference: Array, shape: str) -> Array:
    """Return the convective coefficient of one face or of a pipe."""
    still = _natural_nusselt(over, air, difference, shape) * air.conductivity / characteristic_length(over, shape)
    wind = as_array(system.wind_speed)
    if not np.any(wind > 0):
        return still
    length = along_wind(over, shape)
    number = forced.reynolds(wind, length, air.kinematic_viscosity)
    crossflow = shape in PIPES
    rule = forced.nusselt_cylinder_in_crossflow if crossflow else forced.nusselt_flat_plate
    blown = np.where(wind > 0, rule(number, air.prandtl) * air.conductivity / length, 0.0)
    return forced.blend(blown, still, _exponent(shape))


def along_wind(over: SystemOutline, shape: str) -> Array:
    """Return the length (m) of the Reynolds number: the diameter of a pipe, or the face's own height or width."""
    if shape in PIPES:
        return over.diameter
    return over.width if shape in ("flat facing up", "flat facing down") else over.height


def _duct_convection(system: System, over: SystemOutline, air: Air, difference: Array) -> Array:
    """Return the mean coefficient of a horizontal rectangular duct: two sides, a top and a bottom, by area.

    The composition of Incropera et al., example 9.3.
    """
    side = _face_convection(system, over, air, difference, "vertical flat")
    top = _face_convection(system, over, air, difference, "flat facing up")
    bottom = _face_convection(system, over, air, difference, "flat facing down")
    return (2 * over.height * side + over.width * (top + bottom)) / (2 * (over.width + over.height))
