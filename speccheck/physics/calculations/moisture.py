"""Calculations about water in cold insulation: what a year brings, what it conducts then, how far a breach reaches."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from speccheck.physics import moisture
from speccheck.physics.calculations.calculation import TEXT, Calculation, CalculationOutcome, Input, Inputs
from speccheck.physics.calculations.heat import plain_layer, solved_with
from speccheck.physics.calculations.layers import ONE_MATERIAL, actual_thickness
from speccheck.physics.calculations.surfaces import C680, SURFACE
from speccheck.physics.numerics import Array, Flags
from speccheck.physics.psychrometrics import vapor_pressure
from speccheck.physics.vapor import permeance_in_series
from speccheck.physics.weather import Weather, read_weather

SHEETS = ("facing permeance", "retarder permeance", "jacket permeance")
BLOCK = 4096
"""Lines worked through together, each with every entry of the weather."""

WEATHER = Input("weather", TEXT, required=False)

DRIVE = (
    Input("operating temperature", "temperature"),
    Input("pipe outside diameter", "length"),
    Input("thickness", "length", required=False, least=0.0),
    Input("insulation outside diameter", "length", required=False),
    Input("insulation", TEXT, required=False),
    Input("conductivity", "conductivity", least=1e-6),
    ONE_MATERIAL,
    Input("permeability", "permeability", required=False, least=0.0),
    Input("insulation permeance", "permeance", required=False, least=0.0, as_stated=True),
    *(Input(name, "permeance", required=False, least=0.0) for name in SHEETS),
    Input("retarder open share", "ratio", required=False, least=0.0, greatest=1.0),
    WEATHER,
    Input("ambient temperature", "temperature", required=False),
    Input("relative humidity", "ratio", required=False, least=0.0, greatest=1.0),
)
"""What the vapor that enters asks for. A sheet whose permeance is not stated hinders nothing."""

METHOD = (
    "steady vapor flow from the air to saturation in the insulation, by Glaser's tangent along the vapor resistance "
    "ln(D2/D1)/(2πδ) + 1/(π·D2·W), summed over the year; joints and punctures have the permeance of still air"
)
SOURCE = "EN 14114 and EN ISO 13788 in kind (from memory)"

NOT_WEATHER = (
    "the weather is not written as entries such as `January 34 F 80 % 744 h` or `21 C dew point 18 C 96 h`, parted by "
    "slashes"
)
NOT_A_YEAR = "the hours of the weather do not make up a year"


def weathers(words: NDArray[np.str_]) -> Iterator[tuple[NDArray[np.intp], Weather | None]]:
    """Yield each weather with the places of its lines; None for lines whose weather cannot be read."""
    texts, which = np.unique(words, return_inverse=True)
    for number, text in enumerate(texts):
        if text:
            yield np.flatnonzero(which == number), read_weather(str(text))


def weather_reasons(words: NDArray[np.str_]) -> tuple[tuple[Flags, str], ...]:
    """Return the lines (a yes or no each) whose weather cannot be read, and those whose weather is no year."""
    unread, short = np.zeros(words.shape, dtype=bool), np.zeros(words.shape, dtype=bool)
    for places, weather in weathers(words):
        unread[places] = weather is None
        short[places] = weather is not None and not weather.whole_year
    return (unread, NOT_WEATHER), (short, NOT_A_YEAR)


def _gains(inputs: Inputs, years: Array) -> tuple[Array, Array]:
    """Return the share of its volume that water fills after `years`, and the vapor (kg/(s m)) of a year in the mean."""
    outside = inputs.numbers("pipe outside diameter") + 2 * actual_thickness(inputs)
    line = {
        "pipe_diameter": inputs.numbers("pipe outside diameter"),
        "outside_diameter": outside,
        "permeability": _permeability(inputs),
        "sheet_permeance": _sheets(inputs),
        "inside_temperature": inputs.numbers("operating temperature"),
        "conductivity": inputs.numbers("conductivity"),
    }
    air = inputs.numbers("ambient temperature")
    vapor = vapor_pressure(air, inputs.numbers("relative humidity"))
    steady = inputs.words("weather") == ""
    water, mean = np.full(outside.shape, np.nan), np.full(outside.shape, np.nan)
    gain = moisture.vapor_gain(**line, air_temperature=air, air_vapor_pressure=vapor)
    water[steady] = moisture.water_after(moisture.YEAR * gain[steady, None], years[steady])
    mean[steady] = gain[steady]
    for places, weather in weathers(inputs.words("weather")):
        for start in range(0, len(places) if weather else 0, BLOCK):
            assert weather is not None
            chosen = places[start : start + BLOCK]
            each = {name: values[chosen, None] for name, values in line.items()}
            gain = moisture.vapor_gain(**each, air_temperature=weather.air, air_vapor_pressure=weather.vapor)
            gain = gain * weather.hours * 3600
            water[chosen] = moisture.water_after(_by_month(gain, weather), years[chosen])
            mean[chosen] = np.sum(gain, axis=-1) / moisture.YEAR
    share = moisture.share_of_volume(water, line["pipe_diameter"], outside)
    return np.minimum(share, 1.0), mean


def _by_month(gain: Array, weather: Weather) -> Array:
    """Return gains summed over the entries of one month that follow each other, for they come in no known order."""
    starts = [0] + [at for at in range(1, len(weather.months)) if weather.months[at] != weather.months[at - 1]]
    return np.add.reduceat(gain, starts, axis=-1)


def _permeability(inputs: Inputs) -> Array:
    """Return the permeability as stated, or that of a stated permeance at the actual thickness."""
    stated = inputs.numbers("permeability")
    return np.where(np.isnan(stated), inputs.numbers("insulation permeance") * actual_thickness(inputs), stated)


def _sheets(inputs: Inputs) -> Array:
    """Return the permeance of facing, retarder and jacket in series with their open share; infinite for none."""
    tight = _tight(inputs)
    whole = permeance_in_series(
        *(np.where(np.isnan(inputs.numbers(name)), np.inf, inputs.numbers(name)) for name in SHEETS)
    )
    return np.where(tight, moisture.sheet_with_openings(whole, inputs.numbers("retarder open share")), np.inf)


def _tight(inputs: Inputs) -> Flags:
    """Return the lines with a sheet of a stated permeance, of which a share may be open."""
    return np.asarray(np.any([np.isfinite(inputs.numbers(name)) for name in SHEETS], axis=0))


def _lacks(inputs: Inputs) -> tuple[tuple[Flags, str], ...]:
    """Return what lines lack for the vapor that enters."""
    none = inputs.words("weather") == ""
    return (
        (np.isnan(actual_thickness(inputs)), "thickness"),
        (np.isnan(_permeability(inputs)), "permeability"),
        (_tight(inputs) & np.isnan(inputs.numbers("retarder open share")), "retarder open share"),
        (none & np.isnan(inputs.numbers("ambient temperature")), "ambient temperature"),
        (none & np.isnan(inputs.numbers("relative humidity")), "relative humidity"),
    )


def _water(inputs: Inputs, years: Array) -> CalculationOutcome:
    """Share of the insulation's volume that is water after years."""
    bare = actual_thickness(inputs) == 0
    share, mean = _gains(inputs, years)
    steps = (
        ("permeance of the outer sheets with their open share", "permeance", _sheets(inputs)),
        ("water that a year brings, kg for each metre", "number", mean * moisture.YEAR),
    )
    nothing = ((bare, "there is no insulation that could take up water"),)
    return CalculationOutcome(share, steps, (*nothing, *weather_reasons(inputs.words("weather"))), _lacks(inputs))


def _first_year(inputs: Inputs) -> CalculationOutcome:
    """Share of the volume that the first year fills."""
    return _water(inputs, np.ones(inputs.numbers("operating temperature").shape))


def _wet_conductivity(inputs: Inputs) -> CalculationOutcome:
    """Conductivity with the water of the service years."""
    stated, share = inputs.numbers("moisture conversion coefficient"), inputs.numbers("water content")
    printed, greatest = moisture.conversion_coefficient(inputs.words("insulation"))
    coefficient = np.where(np.isnan(stated), printed, stated)
    wet = moisture.wet_conductivity(inputs.numbers("conductivity"), share, coefficient)
    unknown = np.isnan(coefficient) & (inputs.words("insulation") != "")
    beyond = np.isnan(stated) & (share > greatest)
    reasons = (
        (unknown, "no moisture conversion coefficient is published here for this insulation, and none is stated"),
        (beyond, "there is more water than the moisture conversion coefficient holds for"),
    )
    lacks = ((np.isnan(coefficient) & ~unknown, "insulation"),)
    return CalculationOutcome(wet, (("moisture conversion coefficient", "number", coefficient),), reasons, lacks)


def _spread(inputs: Inputs) -> CalculationOutcome:
    """Length along the pipe in which the vapor of a breach falls to a twentieth."""
    pipe, thickness = inputs.numbers("pipe outside diameter"), actual_thickness(inputs)
    found = np.log(20) * moisture.vapor_spread(pipe, pipe + 2 * thickness)
    bare = ((thickness == 0, "there is no insulation that could take up water"),)
    return CalculationOutcome(found, reasons=bare, missing=((np.isnan(thickness), "thickness"),))


def _at_risk(inputs: Inputs) -> CalculationOutcome:
    """Length of line that water from one breach can wet: between two stops, and no more than the run."""
    spacing, run = inputs.numbers("vapor stop spacing"), inputs.numbers("run length")
    found = np.fmin(spacing, run)
    lacks = ((np.isnan(spacing), "vapor stop spacing"), (np.isinf(spacing) & np.isnan(run), "run length"))
    return CalculationOutcome(found, missing=lacks)


MOISTURE = (
    Calculation("yearly moisture gain", "ratio", DRIVE, METHOD, SOURCE, _first_year),
    Calculation(
        "water content",
        "ratio",
        (*DRIVE, Input("service years", "number", least=0.0)),
        METHOD + "; a year goes as the one before, nothing dries that is not there, and it ends at the whole volume",
        SOURCE,
        lambda inputs: _water(inputs, inputs.numbers("service years")),
    ),
    Calculation(
        "wet conductivity",
        "conductivity",
        (
            Input("conductivity", "conductivity"),
            Input("water content", "ratio", least=0.0, greatest=1.0),
            Input("insulation", TEXT, required=False),
            Input("moisture conversion coefficient", "number", required=False, least=0.0),
        ),
        "conductivity · exp(moisture conversion coefficient · water content)",
        "ISO 10456 (from memory)",
        _wet_conductivity,
    ),
    Calculation(
        "wet surface temperature",
        "temperature",
        plain_layer(SURFACE, "wet conductivity"),
        "heat balance of the outer surface, with the conductivity of the wet insulation",
        C680,
        lambda inputs: solved_with(inputs, "wet conductivity", "surface temperature"),
    ),
    Calculation(
        "vapor spread",
        "length",
        (
            Input("pipe outside diameter", "length"),
            Input("thickness", "length", required=False, least=0.0),
            Input("insulation outside diameter", "length", required=False),
            Input("insulation", TEXT, required=False),
        ),
        "ln 20 over the least root λ of J0(λr1)·Y1(λr2) = Y0(λr1)·J1(λr2): diffusion alone, under a tight sheet",
        "steady diffusion in an annulus (Laplace's equation), computed",
        _spread,
    ),
    Calculation(
        "length at risk",
        "length",
        (Input("vapor stop spacing", "length", required=False), Input("run length", "length", required=False)),
        "from one vapor stop to the next, and no more than the run: water runs between pipe and insulation",
        "common practice, no source",
        _at_risk,
    ),
)
