"""The physical dimensions that a mechanical-insulation specification speaks of, under the trade's names."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True, slots=True)
class Dimension:
    """One kind of physical quantity.

    `si_unit` is in pint's spelling and is the unit of every stored value; `inch_pound` and `metric` are the units
    a specification usually writes. A temperature and a temperature difference are two dimensions, both in kelvin.
    """

    name: str
    si_unit: str
    inch_pound: str
    metric: str


_ALL = (
    Dimension("length", "meter", "in", "mm"),
    Dimension("temperature", "kelvin", "F", "C"),
    Dimension("temperature difference", "kelvin", "F", "K"),
    Dimension("conductivity", "watt / meter / kelvin", "Btu.in/(h.ft2.F)", "W/(m.K)"),
    Dimension("thermal resistance", "meter ** 2 * kelvin / watt", "h.ft2.F/Btu", "m2.K/W"),
    Dimension("surface coefficient", "watt / meter ** 2 / kelvin", "Btu/(h.ft2.F)", "W/(m2.K)"),
    Dimension("permeability", "kilogram / second / meter / pascal", "perm.in", "ng/(s.m.Pa)"),
    Dimension("permeance", "kilogram / second / meter ** 2 / pascal", "perm", "ng/(s.m2.Pa)"),
    Dimension("speed", "meter / second", "mph", "m/s"),
    Dimension("density", "kilogram / meter ** 3", "lb/ft3", "kg/m3"),
    Dimension("ratio", "dimensionless", "%", "%"),
    Dimension("pressure", "pascal", "psi", "kPa"),
    Dimension("time", "second", "h", "h"),
    Dimension("heat flow", "watt", "Btu/h", "W"),
    Dimension("heat flow per length", "watt / meter", "Btu/(h.ft)", "W/m"),
    Dimension("heat flow per area", "watt / meter ** 2", "Btu/(h.ft2)", "W/m2"),
    Dimension("area", "meter ** 2", "ft2", "m2"),
    Dimension("volume", "meter ** 3", "gal", "L"),
    Dimension("mass", "kilogram", "lb", "kg"),
    Dimension("angle", "radian", "deg", "deg"),
)

DIMENSIONS: Mapping[str, Dimension] = MappingProxyType({dimension.name: dimension for dimension in _ALL})
"""Every dimension by its name, in a fixed order."""
