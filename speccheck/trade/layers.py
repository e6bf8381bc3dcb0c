"""Layers of insulation and the resistance of each: cylindrical, flat, or round a rectangular duct."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from speccheck.trade.arrays import Array, Numbers, as_array
from speccheck.trade.conductivity import MeanConductivity


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
