"""Design lists and schedules drawn by a seeded generator, fast enough for ten thousand of them."""

from __future__ import annotations

import random

from speccheck.language.vocabulary.values import NotGiven, Value
from speccheck.quantities import NOMINAL_SIZES, Interval, NominalSize, Quantity
from speccheck.schedule.lines import Datum, Line

SERVICES = ("chilled water", "glycol")
LOCATIONS = ("outdoor", "mechanical room")
TEMPERATURES = tuple(range(20, 70, 10))  # F; few, so that ends meet often


def fahrenheit(number: float) -> Quantity:
    """Return a temperature stated in F."""
    return Quantity((number + 459.67) / 1.8, "temperature", "F")


def celsius_of(number: float) -> Quantity:
    """Return the same temperature stated in C, with the dust that conversion leaves."""
    return Quantity((number - 32) / 1.8 + 273.15, "temperature", "C")


def drawn_lines(generator: random.Random, prefix: str, most: int) -> list[Line]:
    """Draw from one to `most` lines; each term is stated, left open, or not mentioned."""
    return [_line(generator, f"{prefix}-{number}") for number in range(generator.randint(1, most))]


def _line(generator: random.Random, name: str) -> Line:
    data: dict[str, Datum] = {}
    for term, stated in (
        ("service", generator.choice(SERVICES)),
        ("location", generator.choice(LOCATIONS)),
        ("pipe size", _sizes(generator)),
        ("operating temperature", _temperatures(generator)),
    ):
        fate = generator.random()
        if fate < 0.75:
            data[term] = Datum(stated, str(stated))
        elif fate < 0.83:
            data[term] = Datum(NotGiven("TBD", "to be settled later"), "TBD")
    return Line(name, data)


def _sizes(generator: random.Random) -> Value:
    """Draw one size, or a range with open and closed ends or none at all on a side."""
    if generator.random() < 0.3:
        return generator.choice(NOMINAL_SIZES)
    low, high = sorted(generator.sample(NOMINAL_SIZES, 2))
    ends: list[NominalSize | None] = [low, high]
    side = generator.random()
    if side < 0.2:
        ends[generator.randrange(2)] = None
    return Interval(*ends, generator.random() < 0.7, generator.random() < 0.7)


def _temperatures(generator: random.Random) -> Value:
    """Draw one temperature or a range, in F or C."""
    unit = generator.choice((fahrenheit, celsius_of))
    if generator.random() < 0.3:
        return unit(generator.choice(TEMPERATURES))
    low, high = sorted(generator.sample(TEMPERATURES, 2))
    ends: list[Quantity | None] = [unit(low), unit(high)]
    if generator.random() < 0.2:
        ends[generator.randrange(2)] = None
    return Interval(*ends, generator.random() < 0.7, generator.random() < 0.7)
