"""Weather of a year as hours by air temperature and humidity: how it is written down, and what it says of a surface.

A year is written as entries parted by a slash, each an air temperature, its relative humidity or its dew point, and how
many hours it lasts, behind the month or without one:

    January 34 F 80 % 744 h / February 36 F 75 % 672 h
    21 C dew point 18 C 96 h

So twelve months typed in by hand and the hours of a whole weather file are one thing. Nothing here reads a file.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from speccheck.physics.numerics import Array
from speccheck.physics.psychrometrics import ZERO_CELSIUS, saturation_pressure, vapor_pressure

MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip

HOURS_OF_A_YEAR = 8760.0

_NUMBER = r"[-+]?\d+(?:\.\d+)?"
_ENTRY = re.compile(
    rf"(?:(?P<month>{'|'.join(MONTHS)})\s+)?(?P<air>{_NUMBER})\s*(?P<unit>[CF])\s+"
    rf"(?:(?P<humidity>{_NUMBER})\s*%|dew point (?P<dew>{_NUMBER})\s*(?P<dew_unit>[CF]))\s+(?P<hours>{_NUMBER})\s*h"
)


@dataclass(frozen=True)
class Weather:
    """The entries of a year: month (0 for January, -1 for none), air temperature (K), vapor pressure (Pa), hours."""

    months: tuple[int, ...]
    air: Array
    vapor: Array
    hours: Array

    @property
    def whole_year(self) -> bool:
        """Whether the hours make up a year, to a day."""
        return abs(float(np.sum(self.hours)) - HOURS_OF_A_YEAR) <= 24.0


@lru_cache(maxsize=64)
def read_weather(text: str) -> Weather | None:
    """Return the weather that a text states, or None where it is not written as weather is."""
    found = [_ENTRY.fullmatch(entry.strip()) for entry in text.split("/")]
    if not all(found):
        return None
    entries = [match for match in found if match is not None]
    air = np.array([_kelvin(match["air"], match["unit"]) for match in entries])
    vapor = np.array([_vapor(match, float(at)) for match, at in zip(entries, air, strict=True)])
    hours = np.array([float(match["hours"]) for match in entries])
    months = tuple(MONTHS.index(match["month"]) if match["month"] else -1 for match in entries)
    if not np.all(np.isfinite(vapor)) or np.any(hours < 0):
        return None
    return Weather(months, air, vapor, hours)


def _kelvin(text: str, unit: str) -> float:
    value = float(text)
    return ZERO_CELSIUS + (value if unit == "C" else (value - 32) / 1.8)


def _vapor(entry: re.Match[str], air: float) -> float:
    """Return the vapor pressure (Pa) of an entry; NaN where the air cannot hold that much."""
    if entry["humidity"] is not None:
        return float(vapor_pressure(air, float(entry["humidity"]) / 100))
    dew = _kelvin(entry["dew"], entry["dew_unit"])
    return float(saturation_pressure(dew)) if dew <= air else float("nan")
