"""Which systems cannot be answered, and why: inputs missing or not physical, results outside a formula's range."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from speccheck.physics import convection as forced
from speccheck.physics import convection as natural
from speccheck.physics import published as simplified
from speccheck.physics.air import air_properties, film_temperature, in_range
from speccheck.physics.materials import MeanConductivity
from speccheck.physics.numerics import Array, Flags, Numbers, as_array
from speccheck.physics.surface_coefficient import along_wind, characteristic_length, surface_of
from speccheck.physics.systems import DUCT_FACES, PIPES, TANK_FACES, WITH_RADIATION, Method, System, SystemOutline
from speccheck.physics.working import Cause, CauseArray, note

_RAYLEIGH_RANGES = {
    "horizontal pipe": natural.HORIZONTAL_CYLINDER_RANGE,
    "vertical pipe": natural.VERTICAL_PLATE_RANGE,
    "vertical flat": natural.VERTICAL_PLATE_RANGE,
}


def _needed_sizes(system: System, method: Method) -> list[Numbers]:
    """Return the sizes that the shape and method cannot do without."""
    sizes: list[Numbers] = []
    if system.shape in PIPES or system.shape in TANK_FACES:
        sizes.append(system.outside_diameter)
    film = method in WITH_RADIATION
    duct = system.shape == "rectangular duct" or system.shape in DUCT_FACES
    if duct or (film and system.shape in ("flat facing up", "flat facing down")):
        sizes.append(system.width)
    if duct or (film and system.shape in ("vertical pipe", "vertical flat")):
        sizes.append(system.height)
    return sizes


def _nothing_below_zero(system: System, method: Method) -> tuple[list[Numbers], list[Numbers]]:
    """Return the inputs that must be above zero, and those that must not be below it."""
    above = [system.inside_temperature, system.air_temperature, system.surroundings_temperature, system.pressure]
    above += _needed_sizes(system, method)
    above += [layer.conductivity for layer in system.layers if not isinstance(layer.conductivity, MeanConductivity)]
    if method == "fixed coefficient":
        above.append(system.coefficient)
    not_below = [layer.thickness for layer in system.layers] + [
        system.inside_resistance,
        system.wind_speed,
        system.absorbed,
    ]
    if method in WITH_RADIATION:
        not_below.append(system.emittance)
    return above, not_below


def note_inputs(causes: CauseArray, system: System, method: Method) -> None:
    """Note, in place, inputs that are missing (NaN) or not physical, for systems of one shape."""
    above, not_below = _nothing_below_zero(system, method)
    for value in (*above, *not_below):
        note(causes, np.isnan(as_array(value)), Cause.NOT_GIVEN)
    for value in above:
        note(causes, ~(as_array(value) > 0) | np.isinf(as_array(value)), Cause.NOT_PHYSICAL)
    for value in not_below:
        note(causes, ~(as_array(value) >= 0) | np.isinf(as_array(value)), Cause.NOT_PHYSICAL)
    if method in WITH_RADIATION:
        note(causes, as_array(system.emittance) > 1, Cause.NOT_PHYSICAL)
    if method == "simplified coefficients":
        note(causes, ~np.isin(system.finish, simplified.finishes()), Cause.NOT_GIVEN)


def note_results(causes: CauseArray, system: System, over: SystemOutline, surface: Array, method: Method) -> None:
    """Note, in place, surface temperatures (K) at which the method of the surface coefficient does not hold."""
    if method == "film correlations":
        _note_film(causes, system, over, surface)
    elif method == "simplified coefficients":
        note(causes, ~_simplified_holds(system, over, surface), Cause.SIMPLIFIED_RANGE)


def _simplified_holds(system: System, over: SystemOutline, surface: Array) -> Flags:
    """Return where the simplified coefficients of ISO 12241 may be used."""
    small = np.abs(surface - as_array(system.air_temperature)) <= simplified.GREATEST_DIFFERENCE
    still = as_array(system.wind_speed) == 0
    wide = over.diameter >= simplified.LEAST_DIAMETER if system.shape in PIPES else np.True_
    return np.asarray(small & still & wide)


def _note_film(causes: CauseArray, system: System, over: SystemOutline, surface: Array) -> None:
    """Note film temperatures, Rayleigh and Reynolds numbers outside the film correlations."""
    film = film_temperature(surface, system.air_temperature)
    note(causes, ~in_range(film), Cause.FILM_TEMPERATURE)
    air = air_properties(film, system.pressure)
    difference = surface - as_array(system.air_temperature)
    faces = _faces(system)
    for face in faces:
        number = natural.rayleigh(air, characteristic_length(over, face), difference)
        low, high = _rayleigh_range(face, difference)
        note(causes, (number < low) | (number > high), Cause.RAYLEIGH_NUMBER)
        speed = forced.reynolds(system.wind_speed, along_wind(over, face), air.kinematic_viscosity)
        note(causes, (speed > 0) & _outside_wind_range(face, speed, air.prandtl), Cause.REYNOLDS_NUMBER)


def _faces(system: System) -> Sequence[str]:
    """Return the faces of a shape that convection is reckoned on, each by itself."""
    if system.shape == "rectangular duct":
        return ("vertical flat", "flat facing up", "flat facing down")
    return (surface_of(system),)


def _rayleigh_range(face: str, difference: Array) -> tuple[Array, Array]:
    """Return the least and greatest Rayleigh number of a face; a plate's depend on which way the heat rises."""
    if face in _RAYLEIGH_RANGES:
        low, high = _RAYLEIGH_RANGES[face]
        return np.asarray(low), np.asarray(high)
    rises = difference > 0 if face == "flat facing up" else difference < 0
    up, down = natural.PLATE_FACING_UP_RANGE, natural.PLATE_FACING_DOWN_RANGE
    return np.where(rises, up[0], down[0]), np.where(rises, up[1], down[1])


def _outside_wind_range(face: str, reynolds: Array, prandtl: Array) -> Flags:
    """Return where the forced-convection formula of a face does not hold."""
    if face in PIPES:
        too_slow = reynolds * prandtl < forced.LEAST_PECLET
        return np.asarray(too_slow | (reynolds > forced.GREATEST_CYLINDER_REYNOLDS))
    return np.asarray(reynolds > forced.GREATEST_PLATE_REYNOLDS)
