"""Calculations about surfaces whose surroundings are not as warm as the air: among walls, in the sun, under the sky."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

import numpy as np

from speccheck.physics.calculations.calculation import Calculation, CalculationOutcome, Input, Inputs, Values
from speccheck.physics.calculations.heat import solved
from speccheck.physics.calculations.surfaces import C680, EMITTANCE, LAYER, LOSS_EMITTANCE, SURFACE
from speccheck.physics.numerics import Array
from speccheck.physics.systems import WITH_RADIATION

SURROUNDINGS = Input("surroundings temperature", "temperature", least=1e-9)
IRRADIANCE = Input("solar irradiance", "heat flow per area", least=0.0, greatest=1500.0)
ABSORPTANCE = Input("solar absorptance", "number", least=0.0, greatest=1.0)
SKY = Input("sky temperature", "temperature", least=1e-9)
SKY_SHARE = Input("sky share", "ratio", default=1.0, least=0.0, greatest=1.0)
"""How much of what the surface sees is sky; all of it where nothing is said, which is the coldest."""

NO_RADIATION = "this surface coefficient method does not reckon radiation apart"

Worst = Literal["coldest", "hottest", "by line"]


def _worst(inputs: Inputs, changed: dict[str, Values], worst: Worst) -> CalculationOutcome:
    """Return the worse surface temperature of the least and the greatest emittance.

    "by line" is the coldest on lines colder than the air and the hottest on others.
    """
    columns = {**inputs.columns, **changed}
    cold = inputs.numbers("operating temperature") < inputs.numbers("ambient temperature")
    wanted = cold if worst == "by line" else np.full(cold.shape, worst == "coldest")
    greatest = solved(Inputs(columns), "surface temperature", wanted)
    least = solved(
        Inputs({name: values for name, values in columns.items() if name != LOSS_EMITTANCE.name}),
        "surface temperature",
        wanted,
    )
    first, second = least.values, greatest.values
    found = np.where(wanted, np.minimum(first, second), np.maximum(first, second))
    steps = (
        ("with the least emittance", "temperature", first),
        ("with the greatest emittance", "temperature", second),
    )
    missing = {name: rows for rows, name in (*least.missing, *greatest.missing)}
    return replace(
        greatest,
        values=found,
        steps=(*greatest.steps, *steps),
        missing=tuple((rows, name) for name, rows in missing.items()),
        reasons=(*greatest.reasons, *least.reasons),
        method="",
        source="",
    )


def _by_radiation(inputs: Inputs, surroundings: Array, worst: Worst) -> CalculationOutcome:
    """Return the worst surface temperature by the temperature (K) of what the surface radiates to."""
    apart = np.isin(inputs.words("surface coefficient method"), WITH_RADIATION)
    found = _worst(inputs, {SURROUNDINGS.name: surroundings}, worst)
    steps = (("temperature of what the surface radiates to", "temperature", surroundings), *found.steps)
    return replace(found, steps=steps, reasons=((~apart, NO_RADIATION), *found.reasons))


def _among(inputs: Inputs) -> CalculationOutcome:
    """Surface temperature among walls that are warmer or colder than the air."""
    return _by_radiation(inputs, inputs.numbers(SURROUNDINGS.name), "by line")


def _at_night(inputs: Inputs) -> CalculationOutcome:
    """Surface temperature under a clear sky, which with the rest makes up what the surface radiates to."""
    share, sky, air = (inputs.numbers(name) for name in (SKY_SHARE.name, SKY.name, "ambient temperature"))
    return _by_radiation(inputs, (share * sky**4 + (1 - share) * air**4) ** 0.25, "coldest")


def _in_the_sun(inputs: Inputs) -> CalculationOutcome:
    """Surface temperature in the sun."""
    return _worst(inputs, {}, "hottest")


ASKED = (*SURFACE, LOSS_EMITTANCE, *LAYER)
assert EMITTANCE in ASKED
BALANCE = "heat balance of the outer surface, by the surface coefficient method that is stated"

OUTDOORS = (
    Calculation(
        "radiant surface temperature",
        "temperature",
        (*ASKED, SURROUNDINGS),
        BALANCE + "; it radiates to surroundings of their own temperature, with the worse of its two emittances",
        C680,
        _among,
    ),
    Calculation(
        "sunlit surface temperature",
        "temperature",
        (*ASKED, IRRADIANCE, ABSORPTANCE),
        BALANCE + ", which takes up the solar irradiance times its absorptance, as the spot that faces the sun does",
        C680 + "; solar gain as in sol-air temperature, ASHRAE Handbook - Fundamentals, chapter 18 (from memory)",
        _in_the_sun,
    ),
    Calculation(
        "night surface temperature",
        "temperature",
        (*ASKED, SKY, SKY_SHARE),
        BALANCE + "; it radiates to the sky with its share, and for the rest to surroundings as warm as the air",
        C680,
        _at_night,
    ),
)
