"""Weather files in the open EPW format: the hours of a year read from a file, and a ruleset that assumes them.

Eight lines about the place, then a line for each hour: year, month, day, hour, minute, flags, dry-bulb temperature,
dew point, relative humidity, and more that nothing here asks for. 99.9 and 999 stand for what was not measured.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path

from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.review.messages.registers import WEATHER_FILE_UNUSABLE

MOST_BYTES = 20_000_000
HEAD = 8
"""Lines about the place before the first hour."""

LEAST_HOURS = 8736
"""Hours that a file must have, a day short of a year."""


@dataclass(frozen=True, slots=True)
class WeatherFile:
    """The hours of a weather file: its name, its place, and of each hour month (from 0), air and dew point (K)."""

    name: str
    place: str
    months: tuple[int, ...]
    air: tuple[float, ...]
    dew: tuple[float, ...]


def read_weather_file(path: Path) -> WeatherFile | Diagnostic:
    """Return the hours of a weather file, or why it cannot be used."""
    try:
        raw = path.read_bytes()[: MOST_BYTES + 1]
    except OSError as problem:
        return _bad(path, (problem.strerror or "it cannot be read").lower(), 1)
    if len(raw) > MOST_BYTES:
        return _bad(path, "it is larger than 20 MB", 1)
    rows = list(csv.reader(raw.decode("utf-8", "replace").replace("\0", " ").splitlines()))
    if not rows or not rows[0] or rows[0][0].strip().upper() != "LOCATION":
        return _bad(path, "its first line does not begin with LOCATION", 1)
    months, air, dew = [], [], []
    for number, row in enumerate(rows[HEAD:], start=HEAD + 1):
        hour = _hour(row)
        if hour is None:
            return _bad(path, f"line {number} is no hour of a year", number)
        if hour[1] is not None and hour[2] is not None:
            months.append(hour[0])
            air.append(hour[1])
            dew.append(min(hour[2], hour[1]))
    if len(air) < LEAST_HOURS or len(rows) - HEAD > 8784:
        return _bad(path, f"it has {len(air)} hours with air temperature and humidity", 1)
    place = ", ".join(part.strip() for part in rows[0][1:4] if part.strip())
    return WeatherFile(path.name, place, tuple(months), tuple(air), tuple(dew))


def _hour(row: list[str]) -> tuple[int, float | None, float | None] | None:
    """Return month, air temperature and dew point (K) of a line, None for what was not measured; None for no hour."""
    from speccheck.physics.psychrometrics import ZERO_CELSIUS, dew_point

    try:
        month = int(row[1])
        dry, dew, humidity = (float(cell) for cell in row[6:9])
    except (ValueError, IndexError):
        return None
    if not 1 <= month <= 12 or not -90 <= dry <= 99.9:
        return None
    air = None if dry == 99.9 else dry + ZERO_CELSIUS
    if dew < 99.9:
        return month - 1, air, dew + ZERO_CELSIUS
    if air is None or not 0 < humidity <= 110:
        return month - 1, air, None
    return month - 1, air, float(dew_point(air, min(humidity / 100, 1.0)))


def _bad(path: Path, why: str, line: int) -> Diagnostic:
    return WEATHER_FILE_UNUSABLE.at(Place(path.name, line, 1, 1), file=path.name, why=why)


def ruleset_of(found: WeatherFile) -> str:
    """Return a ruleset in the house style that assumes the weather of a file for lines outdoors, with its clauses."""
    import numpy as np

    from speccheck.language.format.house_style import format_text
    from speccheck.language.syntax.source_text import SourceText
    from speccheck.physics.weather import weather_text
    from speccheck.physics.weather_words import named_weather

    hours = weather_text(found.months, np.array(found.air), np.array(found.dew))
    name, place = (words.replace('"', "'") for words in (found.name, found.place or found.name))
    hours = named_weather(f"{name}, {place}", hours)
    text = f"""ruleset "Weather of {place}"
  builds on "condensation-hours"
  speaks mechanical insulation
  units metric
  covers "the hours of a year by air temperature and dew point, for lines outdoors, from {name}"
  note "Weather is not the air of a room: clauses and schedules state that of each room."

assume weather is "{hours}"
  where location is outdoor
  source "{name}" seen
"""
    formatted = format_text(SourceText(name, text))
    assert isinstance(formatted, str), "what is written here can be read"
    return formatted
