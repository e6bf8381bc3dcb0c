"""Calculations about a year: heat, energy, cost and carbon of a run as proposed, as required and bare."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from speccheck.physics import year
from speccheck.physics.calculations.calculation import (
    TEXT,
    Calculation,
    CalculationOutcome,
    Input,
    Inputs,
    Values,
    with_required,
)
from speccheck.physics.calculations.layers import ONE_MATERIAL, OUTER
from speccheck.physics.calculations.moisture import weather_reasons, weathers
from speccheck.physics.calculations.runs import HEAT, loss_of
from speccheck.physics.calculations.surfaces import FILM, WALL
from speccheck.physics.calculations.weather import hour_by_hour
from speccheck.physics.numerics import Array

RUN_LENGTH = Input("run length", "length", least=0.0)
HOURS = Input("operating hours", "time", least=0.0, greatest=8784 * 3600.0)
WEATHER = Input("weather", TEXT, required=False)
SHARE = Input("hanger loss share", "ratio", required=False, least=0.0)
EFFICIENCY = Input("energy efficiency", "ratio", least=1e-9)
PRICE = Input("energy price", "number", least=0.0)
CARBON_FACTOR = Input("carbon factor", "number", least=0.0)
REQUIRED = Input("required thickness", "length", least=0.0)

YEAR = (
    *with_required(HEAT, "ambient temperature", required=False),
    RUN_LENGTH,
    HOURS,
    SHARE,
    WEATHER,
)
"""What the heat of a year asks for: the air of the weather where that is stated, else the ambient temperature."""

METHOD = (
    "heat flow of a metre by the run length, more by the share of the hangers where one is stated, in the operating "
    "hours; in the mean of the weather's hours where weather is stated, else at the ambient temperature"
)
SOURCE = "arithmetic; heat flow by the structure of ASTM C680"
BLOCK = 1024


def _mean_loss(inputs: Inputs, changed: dict[str, Values]) -> tuple[Array, CalculationOutcome]:
    """Return what a metre loses or gains (W/m) in the mean of the year, and the outcome at the ambient temperature."""
    changed_inputs = Inputs({**inputs.columns, **changed})
    flow, found = loss_of(changed_inputs, {})
    flow, words = np.abs(flow), inputs.words("weather")
    kept = words == ""
    for places, weather in weathers(words):
        flow[places] = np.nan
        for start in range(0, len(places) if weather else 0, BLOCK):
            assert weather is not None
            chosen = places[start : start + BLOCK]
            each, _ = loss_of(hour_by_hour(changed_inputs, chosen, weather), {})
            inside = np.repeat(inputs.numbers("operating temperature")[chosen], len(weather.air))
            each = np.where(inside == np.tile(weather.air, len(chosen)), 0.0, np.abs(each)).reshape(len(chosen), -1)
            flow[chosen] = each @ weather.hours / np.sum(weather.hours)
    ambient = (kept & np.isnan(inputs.numbers("ambient temperature")), "ambient temperature")
    reasons = (*weather_reasons(words), *found.reasons)
    return flow, replace(found, missing=(*found.missing, ambient), reasons=reasons)


def _heat(inputs: Inputs, changed: dict[str, Values] | None = None) -> tuple[Array, CalculationOutcome]:
    """Return the heat of a year (kWh), with some inputs changed, and the outcome of its loss."""
    loss, found = _mean_loss(inputs, changed or {})
    hangers = 1 + np.nan_to_num(inputs.numbers("hanger loss share"))
    flow = loss * hangers * inputs.numbers("run length")
    return year.yearly_heat(flow, inputs.numbers("operating hours") / 3600), found


def _yearly_heat(inputs: Inputs) -> CalculationOutcome:
    """Heat of a year of the line as proposed."""
    heat, found = _heat(inputs)
    return replace(found, values=heat)


def _bare(inputs: Inputs) -> dict[str, Values]:
    """Return the changes that make a line bare and black, without inside film and wall, which loses most."""
    count = inputs.numbers("thickness").shape
    return {
        "thickness": np.zeros(count),
        "insulation outside diameter": np.full(count, np.nan),
        "greatest jacket emittance": np.ones(count),
        **{name: np.full(count, np.nan) for name in (FILM.name, WALL.name, *(f"{layer} thickness" for layer in OUTER))},
    }


def _worth(inputs: Inputs, heat: Array, factor: Input) -> Array:
    """Return what a heat (kWh) comes to, its energy by a factor: a cost by the price, carbon (kg) by its factor."""
    return year.yearly_energy(heat, inputs.numbers("energy efficiency")) * inputs.numbers(factor.name)


def _as_required(inputs: Inputs) -> dict[str, Values]:
    """Return the changes that give a line the thickness required."""
    nothing = np.full(inputs.numbers("thickness").shape, np.nan)
    return {"thickness": inputs.numbers("required thickness"), "insulation outside diameter": nothing}


def _economic(inputs: Inputs) -> CalculationOutcome:
    """Stocked thickness, or none, whose cost over the life is least."""
    pipe, length = inputs.numbers("pipe outside diameter"), inputs.numbers("run length")
    costs, found = [], None
    for thickness in (0.0, *inputs.stocked):
        outside = pipe + 2 * thickness
        change = (
            _bare(inputs)
            if thickness == 0
            else {
                "thickness": np.full(pipe.shape, thickness),
                "insulation outside diameter": outside,
            }
        )
        heat, outcome = _heat(inputs, change)
        found = outcome if thickness else found
        volume = np.pi / 4 * (outside**2 - pipe**2) * length
        area = np.pi * outside * length if thickness else np.zeros(pipe.shape)
        costs.append(
            year.life_cost(
                _worth(inputs, heat, PRICE),
                inputs.numbers("economic life"),
                volume,
                area,
                inputs.numbers("insulation price per cubic metre"),
                inputs.numbers("jacket price per square metre"),
            )
        )
    assert found is not None
    table = np.stack(costs, axis=-1)
    place = year.cheapest(table)
    sizes = np.array([0.0, *inputs.stocked])
    best = np.where(place >= 0, sizes[np.maximum(place, 0)], np.nan)
    least = np.where(place >= 0, np.min(np.where(np.isfinite(table), table, np.inf), axis=-1), np.nan)
    return CalculationOutcome(best, (("cost over the life", "number", least),), found.reasons, found.missing)


def _simple(name: str, inputs: tuple[Input, ...], method: str, function: str) -> Calculation:
    """Return a calculation that is a product of others."""

    def work_out(given: Inputs) -> CalculationOutcome:
        if function == "energy":
            return CalculationOutcome(
                year.yearly_energy(given.numbers("yearly heat"), given.numbers("energy efficiency"))
            )
        return CalculationOutcome(given.numbers("yearly energy") * given.numbers(inputs[1].name))

    return Calculation(name, "number", inputs, method, "arithmetic", work_out)


def _otherwise(name: str, change: Callable[[Inputs], dict[str, Values]], factor: Input, method: str) -> Calculation:
    """Return a calculation of what a year of a line comes to with a change: bare, or as a table asks."""

    def work_out(given: Inputs) -> CalculationOutcome:
        heat, found = _heat(given, change(given))
        return replace(found, values=_worth(given, heat, factor))

    asked = (*YEAR, EFFICIENCY, factor, *((REQUIRED,) if change is _as_required else ()))
    return Calculation(name, "number", asked, method + METHOD, SOURCE, work_out)


ENERGY = Input("yearly energy", "number", least=0.0)

A_YEAR = (
    Calculation("yearly heat", "number", YEAR, METHOD, SOURCE, _yearly_heat),
    _simple(
        "yearly energy",
        (Input("yearly heat", "number"), EFFICIENCY),
        "yearly heat over the energy efficiency",
        "energy",
    ),
    _simple("yearly cost", (ENERGY, PRICE), "yearly energy by the energy price", "product"),
    _simple(
        "yearly carbon",
        (ENERGY, CARBON_FACTOR),
        "yearly energy by the carbon factor",
        "product",
    ),
    _otherwise("bare yearly cost", _bare, PRICE, "yearly cost without insulation, of a black surface: "),
    _otherwise("required yearly cost", _as_required, PRICE, "yearly cost with the required thickness: "),
    _otherwise("bare yearly carbon", _bare, CARBON_FACTOR, "yearly carbon without insulation, of a black surface: "),
    _otherwise("required yearly carbon", _as_required, CARBON_FACTOR, "yearly carbon with the required thickness: "),
    Calculation(
        "economic thickness",
        "length",
        (
            *(
                ONE_MATERIAL if each.name == ONE_MATERIAL.name else each
                for each in with_required(YEAR, "pipe outside diameter")
            ),
            EFFICIENCY,
            PRICE,
            Input("economic life", "number", least=0.0),
            Input("insulation price per cubic metre", "number", least=0.0),
            Input("jacket price per square metre", "number", least=0.0),
        ),
        "stocked thickness, or none, with the least of yearly cost by life, insulation by volume and jacket by area, "
        "without interest; thicknesses as they are called",
        SOURCE,
        _economic,
    ),
)
