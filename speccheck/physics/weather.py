"""Weather of a year as hours by air temperature and humidity: how it is written down, and what it says of a surface.

A year is written as entries parted by a slash, each an air temperature, its relative humidity or its dew point, and how
many hours it lasts, behind the month or without one:

    January 34 F 80 % 744 h / February 36 F 75 % 672 h
    21 C dew point 18 C 96 h

A name may stand before the first entry, with a colon behind it. So twelve months typed in by hand and the hours of a
whole weather file are one thing. Nothing here reads a file.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from speccheck.physics.numerics import Array
from speccheck.physics.psychrometrics import ZERO_CELSIUS, saturation_pressure, saturation_temperature, vapor_pressure
from speccheck.physics.weather_words import weather_words

MONTHS = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip

HOURS_OF_A_YEAR = 8760.0

BIN = 2.0
"""Hours of a month whose air temperature and dew point lie within so many kelvins are put together."""

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
    found = [_ENTRY.fullmatch(entry) for entry in weather_words(text).entries]
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


def exceeded_dew_point(weather: Weather, share: float) -> float:
    """Return the dew point (K) that is exceeded in at most a share of the hours, and no lower one is."""
    order = np.argsort(-weather.vapor, kind="stable")
    above = np.cumsum(weather.hours[order]) - weather.hours[order]
    within = above <= share * np.sum(weather.hours) * (1 + 1e-12)
    return float(saturation_temperature(weather.vapor[order][within][-1]))


def weather_text(months: Sequence[int], air: Array, dew: Array) -> str:
    """Return the hours of a year (months from 0, K, K) as entries: those of a month within `BIN` are put together.

    Each entry has the mean air temperature and the mean vapor of its hours, to a tenth of a degree.
    """
    together: dict[tuple[int, float, float], list[int]] = {}
    for place, key in enumerate(zip(months, np.round(air / BIN).tolist(), np.round(dew / BIN).tolist(), strict=True)):
        together.setdefault(key, []).append(place)
    vapor = saturation_pressure(dew)
    entries = []
    for key, rows in sorted(together.items()):
        warm = round(float(np.mean(air[rows])) - ZERO_CELSIUS, 1)
        moist = round(float(saturation_temperature(np.mean(vapor[rows]))) - ZERO_CELSIUS, 1)
        entries.append(f"{MONTHS[key[0]]} {warm:g} C dew point {min(moist, warm):g} C {len(rows)} h")
    return " / ".join(entries)
