"""An insulated system, or many at once: what is inside, the layers with their resistances, the surface and the air
round it.

A `System` holds arrays that broadcast together: one element is one line of a schedule at one size and temperature.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from speccheck.physics.materials import ConductivityOfLines, MeanConductivity
from speccheck.physics.numerics import Array, Numbers, as_array
from speccheck.physics.psychrometrics import STANDARD_PRESSURE


@dataclass(frozen=True)
class Layer:
    """One layer: its thickness (m) and its conductivity (W/(m K)), a number an element or a curve for all."""

    thickness: Numbers
    conductivity: Numbers | MeanConductivity

    def conductivity_at(self, mean_temperature: Numbers) -> Array:
        """Return the conductivity at a mean temperature (K)."""
        if isinstance(self.conductivity, MeanConductivity):
            return self.conductivity.at(mean_temperature)
        return as_array(self.conductivity)

    @property
    def varies(self) -> bool:
        """Whether the conductivity varies with mean temperature."""
        return isinstance(self.conductivity, MeanConductivity)


def cylinder_resistance(inner_diameter: Numbers, outer_diameter: Numbers, conductivity: Numbers) -> Array:
    """Return the resistance (m K/W) of a metre of cylindrical layer: ln(D2/D1)/(2πk).

    2021 ASHRAE Handbook - Fundamentals, chapter 23, equation 8; ISO 12241.
    """
    return np.log(as_array(outer_diameter) / as_array(inner_diameter)) / (2 * np.pi * as_array(conductivity))


def flat_resistance(thickness: Numbers, conductivity: Numbers) -> Array:
    """Return the resistance (m² K/W) of a flat layer: t/k."""
    return as_array(thickness) / as_array(conductivity)


def duct_resistance(perimeter: Numbers, thickness: Numbers, conductivity: Numbers) -> Array:
    """Return the resistance (m K/W) of a metre of layer round a rectangular duct: 2t/(k·(P + Pe)), Pe = P + 8t.

    ISO 12241; P is the perimeter inside the layer.
    """
    perimeter, thickness = as_array(perimeter), as_array(thickness)
    return 2 * thickness / (as_array(conductivity) * (2 * perimeter + 8 * thickness))


def surface_resistance(coefficient: Numbers, area: Numbers) -> Array:
    """Return the resistance of a surface: 1/(h·A), with A the area per metre (π·D) or 1 for a flat surface."""
    return 1 / (as_array(coefficient) * as_array(area))


def equivalent_flat_thickness(inner_diameter: Numbers, outer_diameter: Numbers) -> Array:
    """Return r2·ln(r2/r1) (m): the flat thickness with the same resistance by outside area (ASHRAE chapter 23)."""
    inner, outer = as_array(inner_diameter), as_array(outer_diameter)
    return outer / 2 * np.log(outer / inner)


def critical_radius(conductivity: Numbers, coefficient: Numbers) -> Array:
    """Return the radius (m) at which a cylinder loses most heat at a constant surface coefficient: k/h."""
    return as_array(conductivity) / as_array(coefficient)


Shape = Literal[
    "horizontal pipe",
    "vertical pipe",
    "vertical flat",
    "flat facing up",
    "flat facing down",
    "rectangular duct",
    "duct side",
    "duct top",
    "duct bottom",
    "tank roof",
    "tank bottom",
    "tank end",
]
"""Form and position of the surface. Round ducts and lying tanks are horizontal pipes, standing tanks vertical ones.

A rectangular duct is the mean of its faces. A duct side, top or bottom, a standing tank's roof or bottom and a lying
tank's end are one face by itself: heat passes its middle straight through the layers, and the face is as large as the
duct or tank with its cover.
"""

Method = Literal[
    "film correlations",
    "simplified coefficients",
    "convection formulas",
    "ISO-12241-1998 formulas",
    "ISO-12241-2008 formulas",
    "fixed coefficient",
]
"""How the surface coefficient is found."""

EDITIONS: dict[Method, str] = {"ISO-12241-1998 formulas": "ISO 12241:1998", "ISO-12241-2008 formulas": "ISO 12241:2008"}
"""The methods that are the formulas of one edition as it prints them, wind or still air."""

UNSEEN_EDITIONS = {"ISO-12241-2022 formulas": "ISO 12241:2022"}
"""Editions that somebody may ask for and whose formulas are not known here."""

FORMULAS: tuple[Method, ...] = ("convection formulas", *EDITIONS)
WITH_RADIATION: tuple[Method, ...] = ("film correlations", *FORMULAS)
"""Methods that reckon radiation apart, and so need an emittance."""

PIPES = ("horizontal pipe", "vertical pipe")

DUCT_FACES = {"duct side": "vertical flat", "duct top": "flat facing up", "duct bottom": "flat facing down"}
TANK_FACES = {"tank roof": "flat facing up", "tank bottom": "flat facing down", "tank end": "vertical flat"}
FACES = DUCT_FACES | TANK_FACES
"""The flat surface that convection takes each face of a duct or tank for."""


@dataclass(frozen=True)
class System:
    """Insulated systems; lengths in m, temperatures in K, speeds in m/s. Every field may be a number or an array.

    `outside_diameter` is the bare pipe's, `width` and `height` the bare duct's or flat surface's; a flat facing up or
    down needs its width (the narrow side of a long surface), a vertical pipe or flat its height. `inside_resistance`
    is that of inside film and wall, in m K/W for pipes and ducts, m² K/W for flats. `radiant_temperature` is that of
    the surroundings, the air's unless given; `absorbed` the heat of the sun that the surface takes up, W/m². `finish`
    names the surface for the simplified coefficients and `coefficient` is the fixed one; what a method does not use may
    be left out.
    """

    shape: Shape | NDArray[np.str_]
    inside_temperature: Numbers
    air_temperature: Numbers
    layers: tuple[Layer, ...] = ()
    outside_diameter: Numbers = np.nan
    width: Numbers = np.nan
    height: Numbers = np.nan
    emittance: Numbers = np.nan
    wind_speed: Numbers = 0.0
    radiant_temperature: Numbers | None = None
    absorbed: Numbers = 0.0
    pressure: Numbers = STANDARD_PRESSURE
    inside_resistance: Numbers = 0.0
    coefficient: Numbers = np.nan
    finish: str | NDArray[np.str_] = ""

    def with_layer(self, layer: Layer) -> System:
        """Return the same systems with one more layer outside."""
        return replace(self, layers=(*self.layers, layer))

    @property
    def extent(self) -> tuple[int, ...]:
        """The shape of the arrays that the fields broadcast to."""
        return np.broadcast_shapes(*(np.shape(value) for value in self._values()))

    @property
    def surroundings_temperature(self) -> Array:
        """The temperature (K) of what the surface radiates to: the air's where none is given."""
        air = as_array(self.air_temperature)
        if self.radiant_temperature is None:
            return air
        radiant = as_array(self.radiant_temperature)
        return np.where(np.isnan(radiant), air, radiant)

    def _values(self) -> list[Any]:
        """Return every array of the system, the layers' included."""
        own = [
            getattr(self, field.name) for field in fields(self) if field.name not in ("layers", "radiant_temperature")
        ]
        if self.radiant_temperature is not None:
            own.append(self.radiant_temperature)
        for layer in self.layers:
            own.append(layer.thickness)
            if isinstance(layer.conductivity, ConductivityOfLines):
                own.append(layer.conductivity.which)
            elif not layer.varies:
                own.append(layer.conductivity)
        return own

    def rows(self, which: slice | NDArray[np.intp]) -> System:
        """Return some of the systems, by their index in the flattened arrays, in the same units."""
        extent = self.extent

        def some(value: Any) -> Any:
            if np.ndim(value) == 0:
                return value
            return np.broadcast_to(value, extent).reshape(-1)[which]

        def conducting(conductivity: Numbers | MeanConductivity) -> Numbers | MeanConductivity:
            if isinstance(conductivity, ConductivityOfLines):
                return conductivity.rows(which)
            return conductivity if isinstance(conductivity, MeanConductivity) else some(conductivity)

        layers = tuple(Layer(some(layer.thickness), conducting(layer.conductivity)) for layer in self.layers)
        plain = {field.name: some(getattr(self, field.name)) for field in fields(self) if field.name != "layers"}
        return replace(self, layers=layers, **plain)


@dataclass(frozen=True)
class SystemOutline:
    """The outside of a system: diameter, width and height over the layers (m), and area a metre (m) or 1 if flat.

    `across` is twice the area of a face up or down over its perimeter: a long one's width, half a round one's diameter.
    """

    diameter: Array
    width: Array
    height: Array
    area: Array
    across: Array


def outline(system: System, layers: int | None = None) -> SystemOutline:
    """Return the outside of a system of one shape over the first `layers` layers, all of them unless given."""
    chosen = system.layers if layers is None else system.layers[:layers]
    cover = sum((2 * as_array(layer.thickness) for layer in chosen), start=np.zeros(()))
    diameter, width, height = (
        as_array(system.outside_diameter),
        as_array(system.width),
        as_array(system.height),
    )
    if system.shape in PIPES:
        return SystemOutline(diameter + cover, width, height, np.pi * (diameter + cover), width)
    if system.shape == "rectangular duct":
        return SystemOutline(diameter, width + cover, height + cover, 2 * (width + height) + 4 * cover, width + cover)
    if system.shape in TANK_FACES:
        round_face = diameter + cover
        return SystemOutline(round_face, round_face, round_face, np.ones(()), round_face / 2)
    if system.shape in DUCT_FACES:
        return SystemOutline(diameter, width + cover, height + cover, np.ones(()), width + cover)
    return SystemOutline(diameter, width, height, np.ones(()), width)
