"""Calculations about the air round the insulation."""

from __future__ import annotations

import numpy as np

from speccheck.physics import psychrometrics
from speccheck.physics.calculations.calculation import Calculation, CalculationOutcome, Input, Inputs

HANDBOOK = "ASHRAE Handbook - Fundamentals, chapter 1, Psychrometrics"

AMBIENT = Input("ambient temperature", "temperature", least=psychrometrics.COLDEST, greatest=psychrometrics.HOTTEST)
HUMIDITY = Input("relative humidity", "ratio", least=0.0, greatest=1.0)
PRESSURE = Input("barometric pressure", "pressure", least=2e4, greatest=1.2e5)


def _barometric_pressure(inputs: Inputs) -> CalculationOutcome:
    """Pressure of the standard atmosphere."""
    return CalculationOutcome(psychrometrics.pressure_at_altitude(inputs.numbers("altitude")))


def _saturation_pressure(inputs: Inputs) -> CalculationOutcome:
    """Saturation pressure at the ambient temperature."""
    return CalculationOutcome(psychrometrics.saturation_pressure(inputs.numbers("ambient temperature")))


def _dew_point(inputs: Inputs) -> CalculationOutcome:
    """Dew point, with the vapor pressure that it saturates."""
    vapor = psychrometrics.vapor_pressure(inputs.numbers("ambient temperature"), inputs.numbers("relative humidity"))
    dew = psychrometrics.saturation_temperature(vapor)
    dry = np.asarray((vapor >= 0) & np.isnan(dew))
    steps = (("vapor pressure", "pressure", vapor),)
    return CalculationOutcome(dew, steps, ((dry, "the air is too dry for a dew point above -100 °C"),))


def _wet_bulb(inputs: Inputs) -> CalculationOutcome:
    """Wet bulb at the barometric pressure."""
    dry, humidity, pressure = (inputs.numbers(each.name) for each in (AMBIENT, HUMIDITY, PRESSURE))
    return CalculationOutcome(psychrometrics.wet_bulb(dry, humidity, pressure))


def _humidity_ratio(inputs: Inputs) -> CalculationOutcome:
    """Humidity ratio at the barometric pressure."""
    dry, humidity, pressure = (inputs.numbers(each.name) for each in (AMBIENT, HUMIDITY, PRESSURE))
    vapor = psychrometrics.vapor_pressure(dry, humidity)
    steps = (("vapor pressure", "pressure", vapor),)
    return CalculationOutcome(psychrometrics.humidity_ratio(vapor, pressure), steps)


AIR = (
    Calculation(
        "barometric pressure",
        "pressure",
        (Input("altitude", "length", default=0.0, least=-5000.0, greatest=11000.0),),
        "standard atmosphere",
        HANDBOOK + ", equation 3",
        _barometric_pressure,
    ),
    Calculation(
        "saturation pressure",
        "pressure",
        (AMBIENT,),
        "formulas over water and, below 0.01 °C, over ice",
        HANDBOOK + ", equations 5 and 6",
        _saturation_pressure,
    ),
    Calculation(
        "dew point",
        "temperature",
        (AMBIENT, HUMIDITY),
        "temperature at which the vapor pressure saturates; over ice below 0.01 °C",
        HANDBOOK + ", equations 5 and 6",
        _dew_point,
    ),
    Calculation(
        "wet bulb",
        "temperature",
        (AMBIENT, HUMIDITY, PRESSURE),
        "thermodynamic wet bulb",
        HANDBOOK + ", equations 33 and 35",
        _wet_bulb,
    ),
    Calculation(
        "humidity ratio",
        "ratio",
        (AMBIENT, HUMIDITY, PRESSURE),
        "0.621945·pw/(p - pw)",
        HANDBOOK + ", equation 20",
        _humidity_ratio,
    ),
)
