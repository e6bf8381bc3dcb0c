"""Calculations about still water in cold surroundings."""

from __future__ import annotations

import numpy as np

from speccheck.physics import freezing
from speccheck.physics.calculations.calculation import Calculation, CalculationOutcome, Input, Inputs
from speccheck.physics.calculations.layers import ONE_MATERIAL
from speccheck.physics.thickness import next_stocked
from speccheck.physics.working import NEXT_STOCKED

HANDBOOK = "2021 ASHRAE Handbook - Fundamentals (SI), chapter 23, Table 6"
METHOD = "ρ·c·π·(D1/2)²·R'·ln[(ti - ta)/(tf - ta)] to 0 °C, R' of the insulation alone"

WATER = (
    Input("pipe bore", "length"),
    Input("pipe outside diameter", "length"),
    Input("conductivity", "conductivity"),
    ONE_MATERIAL,
    Input("operating temperature", "temperature"),
    Input("ambient temperature", "temperature"),
)
"""What every calculation about still water asks for; the water starts at the operating temperature."""

_WARM = "the surrounding air is not below 0 °C, so the water does not freeze"


def _freezing_time(inputs: Inputs) -> CalculationOutcome:
    """Time in which still water cools to 0 °C."""
    bore, pipe, outside = (
        inputs.numbers(name) for name in ("pipe bore", "pipe outside diameter", "insulation outside diameter")
    )
    resistance = freezing.resistance_to_air(pipe, outside, inputs.numbers("conductivity"))
    water, air = inputs.numbers("operating temperature"), inputs.numbers("ambient temperature")
    time = freezing.cooling_time(bore, resistance, water, air)
    steps = (("resistance of the insulation per length", "number", resistance),)
    return CalculationOutcome(time, steps, ((np.isinf(time), _WARM),))


def _freezing_thickness(inputs: Inputs) -> CalculationOutcome:
    """Minimum thickness that keeps still water above 0 °C for the standstill time."""
    bore, pipe = inputs.numbers("pipe bore"), inputs.numbers("pipe outside diameter")
    water, air = inputs.numbers("operating temperature"), inputs.numbers("ambient temperature")
    time, conductivity = inputs.numbers("standstill time"), inputs.numbers("conductivity")
    exact = freezing.least_thickness_against_freezing(time, bore, pipe, conductivity, water, air)
    known = np.isfinite(bore + pipe + water + air + time + conductivity)
    why = "no thickness up to 1 m keeps the water from freezing for the standstill time"
    steps = ((NEXT_STOCKED, "length", next_stocked(exact, inputs.stocked)),)
    return CalculationOutcome(exact, steps, ((known & np.isnan(exact), why),))


FREEZING = (
    Calculation(
        "freezing time",
        "time",
        (*WATER, Input("insulation outside diameter", "length")),
        METHOD,
        HANDBOOK,
        _freezing_time,
    ),
    Calculation(
        "freezing thickness",
        "length",
        (*WATER, Input("standstill time", "time", least=0.0)),
        "minimum thickness for which the time to 0 °C is the standstill time: " + METHOD,
        HANDBOOK,
        _freezing_thickness,
    ),
)
