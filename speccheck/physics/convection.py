"""Natural and forced convection in air from cylinders and plates: Nusselt numbers, and the blend of both."""

from __future__ import annotations

import numpy as np

from speccheck.physics.air import Air
from speccheck.physics.numerics import Array, Numbers, as_array

GRAVITY = 9.80665
"""Standard acceleration of gravity, m/s²."""

HORIZONTAL_CYLINDER_RANGE = (0.0, 1e12)
VERTICAL_PLATE_RANGE = (0.0, 1e12)
PLATE_FACING_UP_RANGE = (1e4, 1e11)
PLATE_FACING_DOWN_RANGE = (1e5, 1e10)


def rayleigh(air: Air, length: Numbers, difference: Numbers) -> Array:
    """Return the Rayleigh number g·β·|ΔT|·L³/(ν·α) of a length (m) and a temperature difference (K)."""
    length = as_array(length)
    drive = GRAVITY * air.expansion * np.abs(difference)
    return drive * (length * length * length) / (air.kinematic_viscosity * air.thermal_diffusivity)


def nusselt_horizontal_cylinder(rayleigh_number: Numbers, prandtl: Numbers) -> Array:
    """Return the Nusselt number (a ratio) on the diameter of a horizontal cylinder, Ra up to 1e12.

    Churchill and Chu, Int. J. Heat Mass Transfer 18 (1975) 1049; Incropera et al., equation 9.34.
    """
    spread = (1 + (0.559 / as_array(prandtl)) ** (9 / 16)) ** (-8 / 27)
    root = 0.60 + 0.387 * np.sqrt(np.cbrt(rayleigh_number)) * spread
    return root * root


def nusselt_vertical_plate(rayleigh_number: Numbers, prandtl: Numbers) -> Array:
    """Return the Nusselt number (a ratio) on the height of a vertical plate, Ra up to 1e12.

    Churchill and Chu, Int. J. Heat Mass Transfer 18 (1975) 1323, laminar and turbulent; Incropera et al.,
    equation 9.26.
    """
    spread = (1 + (0.492 / as_array(prandtl)) ** (9 / 16)) ** (-8 / 27)
    root = 0.825 + 0.387 * np.sqrt(np.cbrt(rayleigh_number)) * spread
    return root * root


LAMINAR_RAYLEIGH, TURBULENT_RAYLEIGH = 1e9, 1e10
"""Rayleigh numbers up to which a vertical plate is laminar, and from which the formula for all flows stands here."""


def nusselt_laminar_vertical_plate(rayleigh_number: Numbers, prandtl: Numbers) -> Array:
    """Return the Nusselt number on the height of a vertical plate in laminar flow, Ra up to 1e9.

    Churchill and Chu, Int. J. Heat Mass Transfer 18 (1975) 1323; Incropera et al., equation 9.27. Some 5 to 20 % below
    the formula for all flows, and what the book takes for the sides of ducts.
    """
    spread = (1 + (0.492 / as_array(prandtl)) ** (9 / 16)) ** (-4 / 9)
    return 0.68 + 0.670 * np.sqrt(np.sqrt(rayleigh_number)) * spread


def nusselt_vertical_face(rayleigh_number: Numbers, prandtl: Numbers) -> Array:
    """Return the Nusselt number (a ratio) on the height of a vertical plate by its regime: laminar, or for all flows.

    Churchill and Chu, as in the two functions above. From Ra 1e9 to 1e10 the one passes over into the other along the
    logarithm of Ra, so that nothing steps there.
    """
    number = as_array(rayleigh_number)
    laminar = nusselt_laminar_vertical_plate(number, prandtl)
    if not np.any(number > LAMINAR_RAYLEIGH):
        return laminar
    share = np.clip(np.log10(np.maximum(number, LAMINAR_RAYLEIGH) / LAMINAR_RAYLEIGH), 0.0, 1.0)
    return laminar + share * (nusselt_vertical_plate(number, prandtl) - laminar)


def slender_cylinder_factor(grashof: Numbers, prandtl: Numbers, height: Numbers, diameter: Numbers) -> Array:
    """Return by what ratio a vertical cylinder exceeds the vertical plate of its height (Grashof number on the height).

    Height and diameter in one unit of length.

    Popiel, Wojtkowiak and Bober, Experimental Thermal and Fluid Science 32 (2007) 607. It tends to 1 for a wide
    cylinder.
    """
    prandtl = as_array(prandtl)
    factor = 0.0571322 + 0.20305 * prandtl**-0.43
    power = 0.9165 - 0.0043 * np.sqrt(prandtl) + 0.01333 * np.log(prandtl) + 0.0004809 / prandtl
    slenderness = np.sqrt(32.0) * as_array(grashof) ** -0.25 * as_array(height) / as_array(diameter)
    return np.where(as_array(grashof) > 0, 1 + factor * slenderness**power, 1.0)


def nusselt_plate_facing_up(rayleigh_number: Numbers) -> Array:
    """Return the Nusselt number of a heated plate facing up, or a cooled one facing down, Ra 1e4 to 1e11.

    McAdams, as in Incropera et al., equations 9.30 and 9.31: 0.54·Ra^¼ below 1e7, 0.15·Ra^⅓ above. The greater of
    the two is taken, so that they meet (at 4.7e6) and do not step by 6 %. Length: area over perimeter.
    """
    cube_root = np.cbrt(rayleigh_number)
    return np.maximum(0.54 * np.sqrt(np.sqrt(rayleigh_number)), 0.15 * cube_root)


def nusselt_plate_facing_down(rayleigh_number: Numbers) -> Array:
    """Return the Nusselt number of a heated plate facing down, or a cooled one facing up, Ra 1e5 to 1e10.

    McAdams, as in Incropera et al., equation 9.32: 0.27·Ra^¼. Length: area over perimeter.
    """
    return 0.27 * np.sqrt(np.sqrt(rayleigh_number))


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
    """Return the Nusselt number (a ratio) on the diameter of a cylinder in cross-flow, Re·Pr over 0.2.

    Churchill and Bernstein, Journal of Heat Transfer 99 (1977) 300; Incropera et al., equation 7.54.
    """
    reynolds_number, prandtl = as_array(reynolds_number), as_array(prandtl)
    spread = (1 + (0.4 / prandtl) ** (2 / 3)) ** 0.25
    growth = (1 + (reynolds_number / 282000) ** (5 / 8)) ** (4 / 5)
    return 0.3 + 0.62 * np.sqrt(reynolds_number) * np.cbrt(prandtl) / spread * growth


def nusselt_flat_plate(reynolds_number: Numbers, prandtl: Numbers) -> Array:
    """Return the mean Nusselt number (a ratio) over a flat plate in parallel flow, Re up to 1e8.

    0.664·Re^½·Pr^⅓ while laminar, (0.037·Re^0.8 - 871)·Pr^⅓ beyond Re 5e5 (Incropera et al., equations 7.30 and
    7.38, from memory). The 871 is carried unrounded, 871.3, so that the two meet.
    """
    reynolds_number, prandtl = as_array(reynolds_number), as_array(prandtl)
    laminar = 0.664 * np.sqrt(reynolds_number)
    mixed = 0.037 * reynolds_number**0.8 - _TRANSITION_LOSS
    return np.where(reynolds_number <= TRANSITION_REYNOLDS, laminar, mixed) * np.cbrt(prandtl)


def blend(forced: Numbers, natural: Numbers, exponent: float) -> Array:
    """Return the two kinds of convection together, in their own unit: (forced^j + natural^j)^(1/j).

    The form that ASTM C680 uses (from memory), after Churchill; j is 3 for plates and 4 for horizontal cylinders.
    """
    return (as_array(forced) ** exponent + as_array(natural) ** exponent) ** (1 / exponent)
