"""Calculations about runs: fluid that flows and that stands, ice, heat tracing, and what bare parts add."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from speccheck.physics import runs
from speccheck.physics.calculations.calculation import TEXT, Calculation, CalculationOutcome, Input, Inputs, Values
from speccheck.physics.calculations.heat import solved
from speccheck.physics.calculations.surfaces import C680, LAYER, LOSS
from speccheck.physics.freezing import FREEZING
from speccheck.physics.numerics import Array, Flags, as_array
from speccheck.physics.psychrometrics import STANDARD_PRESSURE
from speccheck.physics.published import table

WATERS = (
    "chilled water", "ice water", "process cooling water", "dual temperature water", "condenser water",
    "heat pump water", "heating hot water", "high temperature hot water", "domestic cold water",
    "domestic hot water", "domestic hot water recirculating", "tempered water", "process hot water",
    "process water", "steam condensate", "boiler feedwater", "condensate drain", "rainwater",
)  # fmt: skip
"""The services that are counted as water; glycol, refrigerants and fuel have to state their heat."""

AIRS = ("supply air", "return air", "outdoor air", "mixed air", "transfer air", "exhaust air")

HEAT = (*LOSS, *LAYER)
RUN_LENGTH = Input("run length", "length", least=0.0)
FLUID = (
    Input("service", TEXT, required=False),
    Input("fluid heat capacity", "number", required=False, least=1e-9),
    Input("pipe inside diameter", "length", required=False),
    Input("pipe material", TEXT, required=False),
)
"""What the heat that a fluid carries or holds asks for."""

NO_HEAT = "the heat capacity of this fluid is not known here: state the fluid heat capacity"


def _needed(*inputs: Input) -> tuple[Input, ...]:
    """Return the inputs of the loss and some more, each name once; one that is asked for here is required."""
    by_name = {each.name: each for each in (*HEAT, *inputs)}
    return tuple(by_name.values())


def loss_of(inputs: Inputs, changed: dict[str, Values]) -> tuple[Array, CalculationOutcome]:
    """Return what a metre loses (W/m), below zero where it gains, with some inputs changed, and its outcome."""
    columns = {**inputs.columns, **changed}
    found = solved(Inputs(columns), "heat flow")
    inside, air = as_array(columns["operating temperature"]), as_array(columns["ambient temperature"])
    stopped = np.zeros(found.values.shape, dtype=bool)
    for rows, _ in (*found.missing, *found.reasons):
        stopped |= rows
    return np.where(stopped, np.nan, np.where(inside < air, -found.values, found.values)), found


def _with(found: CalculationOutcome, values: Array, *more: tuple[str, str, Values]) -> CalculationOutcome:
    """Return an outcome with other values and more steps, and with what stops the loss."""
    return replace(found, values=values, steps=(*found.steps, *more))


def _heat_capacity(inputs: Inputs) -> tuple[Array, Flags]:
    """Return the heat of a cubic metre of fluid (J/(m³ K)), and the lines whose fluid is not known here."""
    stated, service = inputs.numbers("fluid heat capacity") * 1000, inputs.words("service")
    temperature = inputs.numbers("operating temperature")
    water, air = np.isin(service, WATERS), np.isin(service, AIRS)
    pressure = inputs.numbers("barometric pressure")
    pressure = np.where(np.isnan(pressure), STANDARD_PRESSURE, pressure)
    known = np.where(water, runs.water_heat_capacity(temperature), np.nan)
    known = np.where(air, runs.air_heat_capacity(temperature, pressure), known)
    found = np.where(np.isnan(stated), known, stated)
    return found, np.isnan(found) & (service != "")


def _section(inputs: Inputs) -> Array:
    """Return the section (m²) in which the fluid flows: of the pipe, or of the bare duct."""
    bore, round_duct = inputs.numbers("pipe inside diameter"), inputs.numbers("duct diameter")
    rectangular = inputs.numbers("duct width") * inputs.numbers("duct height")
    duct = np.where(np.isnan(round_duct), rectangular, np.pi / 4 * round_duct**2)
    return np.where(np.isnan(bore), duct, np.pi / 4 * bore**2)


def _outlet(inputs: Inputs) -> CalculationOutcome:
    """Temperature of the fluid at the end of the run."""
    heat, unknown = _heat_capacity(inputs)
    section = _section(inputs)
    flow = heat * section * inputs.numbers("fluid velocity")
    start, found = loss_of(inputs, {})

    def loss(temperature: Array) -> Array:
        return loss_of(inputs, {"operating temperature": temperature})[0]

    inlet, air = inputs.numbers("operating temperature"), inputs.numbers("ambient temperature")
    outlet = runs.outlet_temperature(loss, inlet, air, inputs.numbers("run length"), flow)
    outlet = np.where(np.isnan(start) & (inlet != air), np.nan, outlet)
    lacks = (
        (np.isnan(heat) & ~unknown, "service"),
        (np.isnan(section), "pipe inside diameter"),
    )
    steps = (("temperature change along the run", "temperature difference", np.abs(inlet - outlet)),)
    whole = _with(found, outlet, *steps)
    return replace(whole, missing=(*found.missing, *lacks), reasons=((unknown, NO_HEAT), *found.reasons))


def _standing(inputs: Inputs) -> tuple[Array, Array, Array, CalculationOutcome]:
    """Return resistance (m K/W) and heat capacities of pipe wall (J/(m K)) and fluid (J/(m³ K)), and the loss.

    The resistance is that at the start, film included, where the film is at its best: times come out short.
    """
    inside, air = inputs.numbers("operating temperature"), inputs.numbers("ambient temperature")
    loss, found = loss_of(inputs, {})
    heat, unknown = _heat_capacity(inputs)
    pipe, bore = inputs.numbers("pipe outside diameter"), inputs.numbers("pipe inside diameter")
    walls = {row["material"]: float(row["heat_capacity_J_per_m3_K"]) for row in table("pipe_heat").rows}
    wall = np.zeros(pipe.shape)
    for material, each in walls.items():
        wall = np.where(inputs.words("pipe material") == material, each, wall)
    lacks = ((np.isnan(heat) & ~unknown, "service"), (np.isnan(bore), "pipe inside diameter"))
    whole = replace(found, missing=(*found.missing, *lacks), reasons=((unknown, NO_HEAT), *found.reasons))
    return (inside - air) / loss, wall * np.pi / 4 * (pipe**2 - bore**2), heat, whole


def _holding(inputs: Inputs) -> CalculationOutcome:
    """How long standing fluid keeps on its side of the limit."""
    resistance, wall, heat, found = _standing(inputs)
    bore = inputs.numbers("pipe inside diameter")
    inside, air = inputs.numbers("operating temperature"), inputs.numbers("ambient temperature")
    limit = inputs.numbers("fluid temperature limit")
    time = runs.holding_time(resistance, heat * np.pi / 4 * bore**2 + wall, inside, air, limit)
    never = (np.isinf(time), "the surrounding air itself keeps the limit")
    return replace(_with(found, time), reasons=(*found.reasons, never))


def _ice(inputs: Inputs) -> CalculationOutcome:
    """How long standing water takes until the stated share of it is ice."""
    resistance, wall, heat, found = _standing(inputs)
    air = inputs.numbers("ambient temperature")
    other = ~np.isin(inputs.words("service"), WATERS) & (inputs.words("service") != "")
    time = runs.time_to_ice(
        inputs.numbers("pipe inside diameter"),
        resistance,
        wall,
        heat,
        inputs.numbers("operating temperature"),
        air,
        inputs.numbers("ice share"),
    )
    reasons = (
        (other, "what the line carries is not counted as water"),
        (air >= FREEZING, "the surrounding air is not below 0 °C, so the water does not freeze"),
    )
    return replace(_with(found, time), reasons=(*reasons, *found.reasons))


def _trace(inputs: Inputs) -> CalculationOutcome:
    """What a metre loses at the maintained temperature."""
    loss, found = loss_of(inputs, {"operating temperature": inputs.numbers("maintained temperature")})
    return _with(found, np.where(np.isnan(loss), np.nan, np.maximum(loss, 0.0)))


def _run_heat(inputs: Inputs) -> CalculationOutcome:
    """Heat that a whole run loses or gains, with its hangers, bare fittings and bare length."""
    length, bare = inputs.numbers("run length"), inputs.numbers("bare length")
    more, fittings = inputs.numbers("added equivalent length"), inputs.numbers("bare fittings")
    loss, found = loss_of(inputs, {})
    black = {"greatest jacket emittance": np.ones(length.shape), "thickness": np.zeros(length.shape)}
    naked, _ = loss_of(inputs, {**black, "insulation outside diameter": np.full(length.shape, np.nan)})
    hangers = 1 + inputs.numbers("hanger loss share")
    along = np.abs(loss) * (hangers * np.maximum(length - bare, 0.0) + np.nan_to_num(more))
    total = along + np.where(bare > 0, np.abs(naked) * bare, 0.0)
    unknown = (fittings > 0) & np.isnan(more)
    why = "no coefficient for bare fittings is published here: state the added equivalent length"
    steps = (
        ("heat flow of a metre with its insulation", "heat flow per length", np.abs(loss)),
        ("heat flow of a metre of black bare surface", "heat flow per length", np.where(bare > 0, naked, np.nan)),
    )
    whole = _with(found, total, *steps)
    longer = (bare > length, "the bare length is longer than the run")
    return replace(whole, reasons=((unknown, why), longer, *found.reasons))


ISO = "ISO 12241 (from memory); " + C680

RUNS = (
    Calculation(
        "outlet temperature",
        "temperature",
        _needed(*FLUID, RUN_LENGTH, Input("fluid velocity", "speed", least=1e-9)),
        "ṁ·c·dT/dx = -q'(T) along the run, with the heat flow worked out anew as the fluid cools",
        ISO,
        _outlet,
    ),
    Calculation(
        "holding time",
        "time",
        _needed(*FLUID, Input("fluid temperature limit", "temperature")),
        "C·R·ln((ti - ta)/(tl - ta)) of standing fluid and pipe wall, R from fluid to air with the film of the start",
        ISO,
        _holding,
    ),
    Calculation(
        "icing time",
        "time",
        _needed(*FLUID, Input("ice share", "ratio", least=0.0, greatest=1.0)),
        "time to 0 °C of standing water and pipe wall, then the heat of fusion of the share at the steady rate",
        ISO,
        _ice,
    ),
    Calculation(
        "heat trace load",
        "heat flow per length",
        _needed(Input("maintained temperature", "temperature", least=1e-9)),
        "heat flow of a metre at the maintained temperature",
        C680,
        _trace,
    ),
    Calculation(
        "run heat flow",
        "heat flow",
        _needed(
            RUN_LENGTH,
            Input("hanger loss share", "ratio", least=0.0),
            Input("added equivalent length", "length", required=False, least=0.0),
            Input("bare fittings", "number", least=0.0),
            Input("bare length", "length", least=0.0),
        ),
        "heat flow of a metre times the length, more by the share of the hangers and the equivalent length of bare "
        "fittings, and that of a black bare surface for the bare length",
        ISO,
        _run_heat,
    ),
)
