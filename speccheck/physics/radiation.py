"""Radiation between a surface and its surroundings, taken as large and black.

Source: 2021 ASHRAE Handbook - Fundamentals (SI), chapter 23, equation 11.
"""

from __future__ import annotations

import numpy as np

from speccheck.physics.numerics import Array, Numbers, as_array

STEFAN_BOLTZMANN = 5.670374419e-8
"""W/(m² K⁴), from the SI constants."""


def radiation_coefficient(emittance: Numbers, surface: Numbers, surroundings: Numbers) -> Array:
    """Return the radiation coefficient (W/(m² K)) between two temperatures (K), for their difference.

    Written as a product, so that it holds where the two temperatures meet.
    """
    hot, cold = as_array(surface), as_array(surroundings)
    return as_array(emittance) * STEFAN_BOLTZMANN * (hot * hot + cold * cold) * (hot + cold)


def radiative_flux(emittance: Numbers, surface: Numbers, surroundings: Numbers) -> Array:
    """Return the heat flux (W/m²) that a surface radiates; negative where it gains."""
    difference = np.subtract(as_array(surface), as_array(surroundings))
    return radiation_coefficient(emittance, surface, surroundings) * difference
