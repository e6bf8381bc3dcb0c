"""Heat transfer worked out apart from the program, for the verdicts that the demonstration expects.

Air from CoolProp, Churchill and Chu from `ht`, dew points from psychrolib, roots from scipy. Nothing of the program is
used here. Temperatures are in C, lengths in m, conductivities in W/(m.K).
"""

from __future__ import annotations

from functools import cache
from math import log, pi

import psychrolib
from CoolProp.CoolProp import PropsSI
from ht.conv_free_immersed import Nu_horizontal_cylinder_Churchill_Chu, Nu_vertical_plate_Churchill
from scipy.optimize import brentq

ZERO = 273.15
GRAVITY = 9.80665
RADIATION = 5.670374419e-8


def dew_point(air: float, humidity: float) -> float:
    """Return the dew point of air with a relative humidity (0 to 1)."""
    psychrolib.SetUnitSystem(psychrolib.SI)
    return float(psychrolib.GetTDewPointFromRelHum(air, humidity))


@cache
def air_at(film: float) -> tuple[float, float, float]:
    """Return conductivity, kinematic viscosity and Prandtl number of air at a temperature (K, whole tenths)."""
    density, viscosity, conductivity, heat = (PropsSI(name, "T", film, "P", 101325, "Air") for name in "DVLC")
    return conductivity, viscosity / density, viscosity * heat / conductivity


def convection(surface: float, air: float, diameter: float, height: float) -> float:
    """Return W/(m2.K) by natural convection: round a horizontal cylinder, or along an upright one of a height."""
    film = (surface + air) / 2 + ZERO
    conductivity, viscosity, prandtl = air_at(round(film, 1))
    length = height or diameter
    grashof = GRAVITY / film * abs(surface - air) * length**3 / viscosity**2
    nusselt = Nu_vertical_plate_Churchill if height else Nu_horizontal_cylinder_Churchill_Chu
    return float(nusselt(prandtl, grashof)) * conductivity / length


def pipe_surface(
    pipe: float, outside: float, conductivity: float, inside: float, air: float, emittance: float, height: float = 0.0
) -> float:
    """Return the surface temperature of an insulated pipe; `outside` is the diameter over the insulation.

    A riser has its height, a horizontal pipe none.
    """
    resistance = log(outside / pipe) / (2 * pi * conductivity)

    def misses(surface: float) -> float:
        lost = convection(surface, air, outside, height) * (surface - air)
        lost += emittance * RADIATION * ((surface + ZERO) ** 4 - (air + ZERO) ** 4)
        return (inside - surface) / resistance - pi * outside * lost

    low, high = sorted((inside, air))
    return float(brentq(misses, low + 1e-9, high - 1e-9, xtol=1e-9))


def adjusted_thickness(pipe: float, table: float, proposed: float, stated: float) -> float:
    """Return the thickness (in) that a table's one comes to at another conductivity; `pipe` is the outside diameter.

    T = r ((1 + t/r)^(K/k) - 1): ASHRAE Handbook - Fundamentals 2021, chapter 23, Table 2, note a.
    """
    radius = pipe / 2
    return float(radius * ((1 + table / radius) ** (proposed / stated) - 1))
