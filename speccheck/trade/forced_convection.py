"""Forced convection in air: Nusselt numbers from Reynolds and Prandtl numbers; the blend with natural convection."""

from __future__ import annotations

import numpy as np

from speccheck.trade.arrays import Array, Numbers, as_array

LEAST_PECLET = 0.2
"""Least product of Reynolds and Prandtl numbers for the cylinder in cross-flow."""

GREATEST_CYLINDER_REYNOLDS = 1e7
"""Greatest Reynolds number for which the cylinder in cross-flow was compared with data (from memory)."""

GREATEST_PLATE_REYNOLDS = 1e8
TRANSITION_REYNOLDS = 5e5

_TRANSITION_LOSS = 0.037 * TRANSITION_REYNOLDS**0.8 - 0.664 * TRANSITION_REYNOLDS**0.5


def reynolds(speed: Numbers, length: Numbers, kinematic_viscosity: Numbers) -> Array:
    """Return the Reynolds number of a speed (m/s) along a length (m)."""
    return as_array(speed) * as_array(length) / as_array(kinematic_viscosity)


def nusselt_cylinder_in_crossflow(reynolds_number: Numbers, prandtl: Numbers) -> Array:
    """Return the Nusselt number on the diameter of a cylinder in cross-flow, Re·Pr over 0.2.

    Churchill and Bernstein, Journal of Heat Transfer 99 (1977) 300; Incropera et al., equation 7.54.
    """
    reynolds_number, prandtl = as_array(reynolds_number), as_array(prandtl)
    spread = (1 + (0.4 / prandtl) ** (2 / 3)) ** 0.25
    growth = (1 + (reynolds_number / 282000) ** (5 / 8)) ** (4 / 5)
    return 0.3 + 0.62 * np.sqrt(reynolds_number) * np.cbrt(prandtl) / spread * growth


def nusselt_flat_plate(reynolds_number: Numbers, prandtl: Numbers) -> Array:
    """Return the mean Nusselt number over a flat plate in parallel flow, Re up to 1e8.

    0.664·Re^½·Pr^⅓ while laminar, (0.037·Re^0.8 - 871)·Pr^⅓ beyond Re 5e5 (Incropera et al., equations 7.30 and
    7.38, from memory). The 871 is carried unrounded, 871.3, so that the two meet.
    """
    reynolds_number, prandtl = as_array(reynolds_number), as_array(prandtl)
    laminar = 0.664 * np.sqrt(reynolds_number)
    mixed = 0.037 * reynolds_number**0.8 - _TRANSITION_LOSS
    return np.where(reynolds_number <= TRANSITION_REYNOLDS, laminar, mixed) * np.cbrt(prandtl)


def blend(forced: Numbers, natural: Numbers, exponent: float) -> Array:
    """Return the two kinds of convection together: (forced^j + natural^j)^(1/j).

    The form that ASTM C680 uses (from memory), after Churchill; j is 3 for plates and 4 for horizontal cylinders.
    """
    return (as_array(forced) ** exponent + as_array(natural) ** exponent) ** (1 / exponent)
