"""Single pipes buried in soil: heat flow by the shape factor of a cylinder under an even surface.

Lengths in m, temperatures in K, conductivities in W/(m K). Only one pipe is reckoned with: a return beside a supply
line takes part of its loss, and soil that dries out round a hot pipe conducts less.
"""

from __future__ import annotations

import numpy as np

from speccheck.physics.numerics import Array, Numbers, as_array
from speccheck.physics.systems import cylinder_resistance


def soil_resistance(depth: Numbers, diameter: Numbers, conductivity: Numbers) -> Array:
    """Return the resistance (m K/W) of soil round a metre of cylinder whose middle lies at a depth under the surface.

    arcosh(2z/D)/(2πk), exact for an isothermal cylinder under an isothermal surface: Incropera et al., table of shape
    factors; ISO 12241 (both from memory). NaN where the cylinder is not wholly in the soil.
    """
    ratio = 2 * as_array(depth) / as_array(diameter)
    with np.errstate(invalid="ignore", divide="ignore"):
        return np.where(ratio > 1, np.arccosh(ratio) / (2 * np.pi * as_array(conductivity)), np.nan)


def buried_heat_flow(
    inside: Numbers,
    ground: Numbers,
    pipe_diameter: Numbers,
    outside_diameter: Numbers,
    conductivity: Numbers,
    depth: Numbers,
    soil_conductivity: Numbers,
) -> tuple[Array, Array]:
    """Return what a metre of buried pipe loses (W/m, below zero where it gains), and its outer temperature (K)."""
    layer = cylinder_resistance(pipe_diameter, outside_diameter, conductivity)
    soil = soil_resistance(depth, outside_diameter, soil_conductivity)
    flow = (as_array(inside) - as_array(ground)) / (layer + soil)
    return flow, as_array(ground) + flow * soil
