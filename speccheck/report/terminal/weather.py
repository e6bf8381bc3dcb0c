"""A weather file in a terminal: its place and hours, the most humid month, and dew points that few hours exceed."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from speccheck.judge.explain.workings import amount_words
from speccheck.physics.psychrometrics import ZERO_CELSIUS, saturation_pressure, saturation_temperature
from speccheck.physics.weather import MONTHS, Weather, exceeded_dew_point
from speccheck.report.terminal.diagnostics import ConsolePage
from speccheck.review.weather_file import WeatherFile

HUMID = tuple((fahrenheit - 32) / 1.8 for fahrenheit in (60, 65, 70, 75))
"""Dew points, C, whose hours are counted."""


def print_weather(found: WeatherFile, shares: Sequence[float], system: str) -> None:
    """Print what a weather file says of humidity, in the units of `system`."""
    page = ConsolePage(None, None)
    dew, months = np.array(found.dew), np.array(found.months)
    weather = Weather(found.months, np.array(found.air), saturation_pressure(dew), np.ones(dew.size))
    page.line(f"{found.name}, {dew.size} hours", lead=f"{found.place}:" if found.place else "")
    vapor = [float(np.mean(weather.vapor[months == month])) if np.any(months == month) else 0.0 for month in range(12)]
    worst = int(np.argmax(vapor))
    mean = amount_words(float(saturation_temperature(vapor[worst])), "temperature", system)
    page.line(f"{MONTHS[worst]}, mean dew point {mean}", lead="most humid month:")
    for celsius in HUMID:
        limit = amount_words(celsius + ZERO_CELSIUS, "temperature", system)
        page.line(f"{int(np.sum(dew > celsius + ZERO_CELSIUS))} hours", lead=f"dew point over {limit}:")
    for share in shares:
        level = amount_words(exceeded_dew_point(weather, share), "temperature", system)
        page.line(f"dew point {level}", lead=f"exceeded {share:.1%} of the year:")
