"""Natural convection in air from cylinders and plates: Nusselt numbers from Rayleigh and Prandtl numbers.

Properties are taken at the film temperature. Each formula names its source and its range of Rayleigh numbers.
"""

from __future__ import annotations

import numpy as np

from speccheck.trade.air import Air
from speccheck.trade.arrays import Array, Numbers, as_array

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
    """Return the Nusselt number on the diameter of a horizontal cylinder, Ra up to 1e12.

    Churchill and Chu, Int. J. Heat Mass Transfer 18 (1975) 1049; Incropera et al., equation 9.34.
    """
    spread = (1 + (0.559 / as_array(prandtl)) ** (9 / 16)) ** (-8 / 27)
    root = 0.60 + 0.387 * np.sqrt(np.cbrt(rayleigh_number)) * spread
    return root * root


def nusselt_vertical_plate(rayleigh_number: Numbers, prandtl: Numbers) -> Array:
    """Return the Nusselt number on the height of a vertical plate, Ra up to 1e12.

    Churchill and Chu, Int. J. Heat Mass Transfer 18 (1975) 1323, laminar and turbulent; Incropera et al.,
    equation 9.26.
    """
    spread = (1 + (0.492 / as_array(prandtl)) ** (9 / 16)) ** (-8 / 27)
    root = 0.825 + 0.387 * np.sqrt(np.cbrt(rayleigh_number)) * spread
    return root * root


def slender_cylinder_factor(grashof: Numbers, prandtl: Numbers, height: Numbers, diameter: Numbers) -> Array:
    """Return by how much a vertical cylinder exceeds the vertical plate of its height (Grashof number on the height).

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
