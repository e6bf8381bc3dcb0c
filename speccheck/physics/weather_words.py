"""The words of a year's weather: what it is called, its entries apart, and how it is told in short.

Apart from `weather`, so that telling a value needs no NumPy.
"""

from __future__ import annotations

import re
from typing import NamedTuple

SHORT = 120
"""Characters up to which weather is told as it is written."""

_HOURS = re.compile(r"(\d+(?:\.\d+)?)\s*h$")


class NamedWeather(NamedTuple):
    """What a year of weather is called, "" where nothing is said, and its entries as they are written."""

    name: str
    entries: tuple[str, ...]


def weather_words(text: str) -> NamedWeather:
    """Part a text of weather at its name, which ends in a colon, and at its slashes."""
    name, colon, rest = text.partition(":")
    return NamedWeather(name.strip() if colon else "", tuple(entry.strip() for entry in (rest or name).split("/")))


def named_weather(name: str, entries: str) -> str:
    """Return entries of weather behind a name, without the signs by which weather is parted."""
    return f"{' '.join(re.sub('[:/]', ' ', name).split())}: {entries}"


def told_in_short(text: str) -> str:
    """Return a text as it is, but a long one of a year's weather as the number of its hours and what it is called."""
    if len(text) <= SHORT:
        return text
    named = weather_words(text)
    hours = [_HOURS.search(entry) for entry in named.entries]
    if len(hours) < 2 or not all(hours):
        return text
    number = sum(float(found[1]) for found in hours if found)
    return f"{number:,.0f} hours of {named.name or f'weather in {len(hours)} entries'}"
