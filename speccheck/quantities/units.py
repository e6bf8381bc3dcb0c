"""The trade's units and the physical dimensions that they measure: how each is spelled, and how it is written in
pint.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import NamedTuple


class Unit(NamedTuple):
    """What a canonical unit can measure, and how pint spells it (`pint_unit`)."""

    dimensions: tuple[str, ...]
    pint_unit: str


UNITS: dict[str, Unit] = {
    "in": Unit(("length",), "inch"),
    "ft": Unit(("length",), "foot"),
    "yd": Unit(("length",), "yard"),
    "mil": Unit(("length",), "thou"),
    "mm": Unit(("length",), "millimeter"),
    "cm": Unit(("length",), "centimeter"),
    "m": Unit(("length",), "meter"),
    "um": Unit(("length",), "micrometer"),
    "F": Unit(("temperature", "temperature difference"), "degF"),
    "C": Unit(("temperature", "temperature difference"), "degC"),
    "K": Unit(("temperature", "temperature difference"), "kelvin"),
    "Btu.in/(h.ft2.F)": Unit(("conductivity",), "Btu * inch / (hour * foot ** 2 * delta_degF)"),
    "Btu/(h.ft.F)": Unit(("conductivity",), "Btu / (hour * foot * delta_degF)"),
    "W/(m.K)": Unit(("conductivity",), "watt / (meter * kelvin)"),
    "mW/(m.K)": Unit(("conductivity",), "milliwatt / (meter * kelvin)"),
    "R": Unit(("thermal resistance",), "hour * foot ** 2 * delta_degF / Btu"),
    "RSI": Unit(("thermal resistance",), "meter ** 2 * kelvin / watt"),
    "h.ft2.F/Btu": Unit(("thermal resistance",), "hour * foot ** 2 * delta_degF / Btu"),
    "m2.K/W": Unit(("thermal resistance",), "meter ** 2 * kelvin / watt"),
    "Btu/(h.ft2.F)": Unit(("surface coefficient",), "Btu / (hour * foot ** 2 * delta_degF)"),
    "W/(m2.K)": Unit(("surface coefficient",), "watt / (meter ** 2 * kelvin)"),
    "perm.in": Unit(("permeability",), "perm * inch"),
    "ng/(s.m.Pa)": Unit(("permeability",), "nanogram / (second * meter * pascal)"),
    "g/(s.m.Pa)": Unit(("permeability",), "gram / (second * meter * pascal)"),
    "perm": Unit(("permeance",), "perm"),
    "ng/(s.m2.Pa)": Unit(("permeance",), "nanogram / (second * meter ** 2 * pascal)"),
    "grain/(h.ft2.inHg)": Unit(("permeance",), "perm"),
    "mph": Unit(("speed",), "mile / hour"),
    "ft/min": Unit(("speed",), "foot / minute"),
    "ft/s": Unit(("speed",), "foot / second"),
    "m/s": Unit(("speed",), "meter / second"),
    "km/h": Unit(("speed",), "kilometer / hour"),
    "lb/ft3": Unit(("density",), "pound / foot ** 3"),
    "lb/gal": Unit(("density",), "pound / gallon"),
    "kg/m3": Unit(("density",), "kilogram / meter ** 3"),
    "g/L": Unit(("density",), "gram / liter"),
    "%": Unit(("ratio",), "percent"),
    "": Unit(("ratio",), "dimensionless"),
    "psi": Unit(("pressure",), "psi"),
    "inHg": Unit(("pressure",), "inHg"),
    "inH2O": Unit(("pressure",), "inH2O"),
    "Pa": Unit(("pressure",), "pascal"),
    "kPa": Unit(("pressure",), "kilopascal"),
    "bar": Unit(("pressure",), "bar"),
    "s": Unit(("time",), "second"),
    "min": Unit(("time",), "minute"),
    "h": Unit(("time",), "hour"),
    "day": Unit(("time",), "day"),
    "Btu/h": Unit(("heat flow",), "Btu / hour"),
    "W": Unit(("heat flow",), "watt"),
    "kW": Unit(("heat flow",), "kilowatt"),
    "Btu/(h.ft)": Unit(("heat flow per length",), "Btu / (hour * foot)"),
    "W/m": Unit(("heat flow per length",), "watt / meter"),
    "Btu/(h.ft2)": Unit(("heat flow per area",), "Btu / (hour * foot ** 2)"),
    "W/m2": Unit(("heat flow per area",), "watt / meter ** 2"),
    "in2": Unit(("area",), "inch ** 2"),
    "ft2": Unit(("area",), "foot ** 2"),
    "mm2": Unit(("area",), "millimeter ** 2"),
    "m2": Unit(("area",), "meter ** 2"),
    "gal": Unit(("volume",), "gallon"),
    "ft3": Unit(("volume",), "foot ** 3"),
    "mL": Unit(("volume",), "milliliter"),
    "L": Unit(("volume",), "liter"),
    "m3": Unit(("volume",), "meter ** 3"),
    "oz": Unit(("mass",), "ounce"),
    "lb": Unit(("mass",), "pound"),
    "g": Unit(("mass",), "gram"),
    "kg": Unit(("mass",), "kilogram"),
    "deg": Unit(("angle",), "degree"),
    "rad": Unit(("angle",), "radian"),
}

# One word of a unit, in lower case, and the canonical word that it stands for.
SPELLINGS: dict[str, str] = {
    spelling: word
    for word, spellings in {
        "in": "in inch inches \" ''",
        "ft": "ft foot feet '",
        "yd": "yd yard yards",
        "mil": "mil mils thou",
        "mm": "mm millimeter millimeters millimetre millimetres",
        "cm": "cm centimeter centimeters centimetre centimetres",
        "m": "m meter meters metre metres",
        "um": "um micron microns micrometer micrometers micrometre micrometres",
        "in2": "in2 sqin",
        "ft2": "ft2 sqft sf",
        "mm2": "mm2",
        "m2": "m2 sqm",
        "ft3": "ft3 cuft cf",
        "m3": "m3 cum",
        "F": "f degf degreef degreesf °f fahrenheit deltaf delta_f deltadegf delta_degf",
        "C": "c degc degreec degreesc °c celsius deltac delta_c deltadegc delta_degc",
        "K": "k kelvin kelvins degk °k",
        "Btu": "btu btus",
        "W": "w watt watts",
        "mW": "mw",
        "kW": "kw kilowatt kilowatts",
        "h": "h hr hrs hour hours",
        "min": "min mins minute minutes",
        "s": "s sec secs second seconds",
        "day": "day days",
        "perm": "perm perms",
        "ng": "ng",
        "g": "g gram grams",
        "kg": "kg kilogram kilograms",
        "lb": "lb lbs pound pounds #",
        "oz": "oz ounce ounces",
        "grain": "grain grains gr",
        "gal": "gal gals gallon gallons",
        "L": "l liter liters litre litres",
        "mL": "ml milliliter milliliters millilitre millilitres",
        "Pa": "pa pascal pascals",
        "kPa": "kpa",
        "bar": "bar bars",
        "psi": "psi psig",
        "inHg": "inhg",
        "mph": "mph",
        "km": "km",
        "%": "% percent pct",
        "deg": "° deg degree degrees",
        "rad": "rad radian radians",
        "R": "r",
        "RSI": "rsi",
    }.items()
    for spelling in spellings.split()
}

# Whole units that are written as one run of letters, in lower case without spaces and dots.
RUN_TOGETHER: dict[str, str] = {
    "w/mk": "W/(m.K)",
    "w/m2k": "W/(m2.K)",
    "w/mc": "W/(m.K)",
    "w/m2c": "W/(m2.K)",
    "mw/mk": "mW/(m.K)",
    "m2k/w": "m2.K/W",
    "m2c/w": "m2.K/W",
    "fpm": "ft/min",
    "fps": "ft/s",
    "kph": "km/h",
    "kmh": "km/h",
    "pcf": "lb/ft3",
    "mi/h": "mph",
    "inh2o": "inH2O",
    "inwg": "inH2O",
    "inwc": "inH2O",
    "sqin": "in2",
    "sqft": "ft2",
    "sqm": "m2",
    "cuft": "ft3",
    "cum": "m3",
    "degf": "F",
    "degc": "C",
}


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
