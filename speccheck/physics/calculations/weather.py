"""Calculations about the weather of a year: hours in which a surface sweats, the dew point that few hours exceed."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from speccheck.physics.calculations.calculation import (
    TEXT,
    Calculation,
    CalculationOutcome,
    Input,
    Inputs,
    StepOfLines,
    Values,
    with_required,
)
from speccheck.physics.calculations.heat import solved
from speccheck.physics.calculations.moisture import weather_reasons, weathers
from speccheck.physics.calculations.surfaces import C680, LAYER, SURFACE
from speccheck.physics.numerics import Array, Flags
from speccheck.physics.psychrometrics import saturation_temperature
from speccheck.physics.weather import MONTHS, Weather, exceeded_dew_point

WEATHER = Input("weather", TEXT)
BLOCK = 1024
"""Lines worked through together, each with every entry of the weather."""


def _sweating_hours(inputs: Inputs) -> CalculationOutcome:
    """Hours of a year in which the outer surface is colder than the dew point of that hour's air."""
    words = inputs.words("weather")
    hours, worst = np.full(words.shape, np.nan), np.full(words.shape, "", dtype="<U9")
    stopped: dict[str, Flags] = {}
    lacking: dict[str, Flags] = {}
    for places, weather in weathers(words):
        for start in range(0, len(places) if weather else 0, BLOCK):
            assert weather is not None
            chosen = places[start : start + BLOCK]
            found = solved(hour_by_hour(inputs, chosen, weather), "surface temperature")
            wet = (found.values.reshape(len(chosen), -1) < saturation_temperature(weather.vapor)) * weather.hours
            unknown = np.isnan(found.values).reshape(len(chosen), -1).any(axis=1)
            hours[chosen] = np.where(unknown, np.nan, wet.sum(axis=1))
            worst[chosen] = _worst_month(wet, weather)
            for known, parts in ((stopped, found.reasons), (lacking, found.missing)):
                for rows, why in parts:
                    flags = known.setdefault(why, np.zeros(words.shape, dtype=bool))
                    flags[chosen] |= rows.reshape(len(chosen), -1).any(axis=1)
    steps: tuple[StepOfLines, ...] = (("month with most of them", TEXT, worst),)
    reasons = (*weather_reasons(words), *((rows, why) for why, rows in stopped.items()))
    return CalculationOutcome(hours * 3600, steps, reasons, tuple((rows, name) for name, rows in lacking.items()))


def hour_by_hour(inputs: Inputs, chosen: NDArray[np.intp], weather: Weather) -> Inputs:
    """Return the inputs of some lines, each as many times as the weather has entries, with its air round them."""
    entries = len(weather.air)
    columns: dict[str, Values] = {}
    for name, values in inputs.columns.items():
        columns[name] = np.repeat(values[chosen], entries)  # type: ignore[assignment]
    columns["ambient temperature"] = np.tile(weather.air, len(chosen))
    return Inputs(columns)


def _worst_month(wet: Array, weather: Weather) -> list[str]:
    """Return the month with most of the hours for each line; empty where there are none, or no months are named."""
    months = np.array(weather.months)
    by_month = np.stack([wet[:, months == month].sum(axis=1) for month in range(12)], axis=1)
    return [MONTHS[int(np.argmax(row))] if row.max() > 0 else "" for row in by_month]


def _exceeded(inputs: Inputs) -> CalculationOutcome:
    """Dew point that is exceeded in no more than the stated share of the hours."""
    words, share = inputs.words("weather"), inputs.numbers("exceedance")
    found = np.full(words.shape, np.nan)
    for places, weather in weathers(words):
        for value in np.unique(share[places][np.isfinite(share[places])]) if weather else ():
            rows = places[share[places] == value]
            found[rows] = exceeded_dew_point(weather, float(value)) if weather else np.nan
    return CalculationOutcome(found, reasons=weather_reasons(words))


_WITHOUT_AIR = with_required((*SURFACE, *LAYER), "ambient temperature", required=False)

WEATHER_OF_A_YEAR = (
    Calculation(
        "sweating hours",
        "time",
        (*_WITHOUT_AIR, WEATHER),
        "hours of the weather in which the outer surface, by its heat balance in the air of that hour, is colder than "
        "its dew point",
        C680,
        _sweating_hours,
    ),
    Calculation(
        "exceeded dew point",
        "temperature",
        (WEATHER, Input("exceedance", "ratio", least=0.0, greatest=1.0)),
        "least dew point of the weather that no more than the stated share of the hours exceeds",
        "counting the hours of the weather",
        _exceeded,
    ),
)
