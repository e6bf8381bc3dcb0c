"""Calculations about design conductivity: what insulation conducts in place, and how the surface is with it."""

from __future__ import annotations

import numpy as np

from speccheck.physics import design, moisture
from speccheck.physics.calculations.calculation import TEXT, Calculation, CalculationOutcome, Input, Inputs
from speccheck.physics.calculations.heat import plain_layer, solved_with
from speccheck.physics.calculations.layers import (
    CURVE,
    CURVE_OF_FIRST,
    NOT_A_CURVE,
    ONE_MATERIAL,
    conductivity_of,
)
from speccheck.physics.calculations.surfaces import C680, LOSS, SURFACE
from speccheck.physics.materials import ConductivityOfLines

ISO = "ISO 10456:2007 and ISO 23993 (from memory); factors as stated"
OUTSIDE_CURVE = "the design mean temperature lies outside the conductivity curve"
NO_COEFFICIENT = "no temperature conversion coefficient is published here for this insulation, and none is stated"
BEYOND_COEFFICIENT = (
    "the temperature conversion coefficients of ISO 10456 hold for mean temperatures from 0 to 30 °C: state the "
    "temperature conversion coefficient or a conductivity curve"
)
NO_MOISTURE = "no moisture conversion coefficient is published here for this insulation, and none is stated"


def _design(inputs: Inputs) -> CalculationOutcome:
    """Declared conductivity by its factors; by a curve where one is stated, else by the conversion coefficient."""
    insulation, mean = inputs.words("insulation"), inputs.numbers("design mean temperature")
    declared_at, by_curve = inputs.numbers("conductivity mean temperature"), inputs.words(CURVE) != ""
    conductivity, unknown, unread = conductivity_of(inputs)
    curved = conductivity if isinstance(conductivity, ConductivityOfLines) else None
    at_mean = inputs.numbers("conductivity") if curved is None else curved.at(mean)
    covered = np.ones(mean.shape, dtype=bool) if curved is None else curved.covers(mean)
    stated = inputs.numbers("temperature conversion coefficient")
    printed = design.temperature_coefficient(insulation, mean > declared_at)
    coefficient = np.where(np.isnan(stated), printed, stated)
    by_temperature = np.where(by_curve, 1.0, design.temperature_factor(coefficient, declared_at, mean))
    wet, unknown_wet = _moisture(inputs)
    needs = ~by_curve & np.isnan(stated) & (mean > declared_at)
    found = at_mean * by_temperature * wet * inputs.numbers("aging factor") * inputs.numbers("joint factor")
    steps = (
        ("conductivity before its factors", "conductivity", at_mean),
        ("factor for temperature", "number", by_temperature),
        ("factor for moisture", "number", wet),
        ("factor for aging", "number", inputs.numbers("aging factor")),
        ("factor for joints", "number", inputs.numbers("joint factor")),
    )
    reasons = (
        (unread, NOT_A_CURVE),
        (~covered, OUTSIDE_CURVE),
        (needs & np.isnan(printed) & (insulation != ""), NO_COEFFICIENT),
        (needs & np.isfinite(printed) & ~design.coefficient_holds(declared_at, mean), BEYOND_COEFFICIENT),
        (unknown_wet & (insulation != ""), NO_MOISTURE),
    )
    lacks = (
        (unknown, "conductivity"),
        (~by_curve & np.isnan(declared_at), "conductivity mean temperature"),
        ((needs & np.isnan(printed) | unknown_wet) & (insulation == ""), "insulation"),
    )
    return CalculationOutcome(found, steps, reasons, lacks)


def _moisture(inputs: Inputs) -> tuple[np.ndarray, np.ndarray]:
    """Return the factor for the water that is stated, and the lines of which no coefficient is known."""
    share, stated = inputs.numbers("design moisture content"), inputs.numbers("moisture conversion coefficient")
    printed, greatest = moisture.conversion_coefficient(inputs.words("insulation"))
    printed = np.where(share > greatest, np.nan, printed)
    coefficient = np.where(np.isnan(stated), printed, stated)
    factor = np.where(share == 0, 1.0, np.exp(coefficient * share))
    return factor, (share > 0) & np.isnan(coefficient)


def _mean(inputs: Inputs) -> CalculationOutcome:
    """Mean of the temperatures of what flows and of the outer surface."""
    return CalculationOutcome((inputs.numbers("operating temperature") + inputs.numbers("surface temperature")) / 2)


DESIGN = (
    Calculation(
        "design mean temperature",
        "temperature",
        (Input("operating temperature", "temperature"), Input("surface temperature", "temperature")),
        "mean of what flows and of the outer surface",
        "ISO 23993 (from memory)",
        _mean,
    ),
    Calculation(
        "design conductivity",
        "conductivity",
        (
            Input("conductivity", "conductivity", required=False),
            CURVE_OF_FIRST,
            ONE_MATERIAL,
            Input("conductivity mean temperature", "temperature", required=False),
            Input("design mean temperature", "temperature"),
            Input("insulation", TEXT, required=False),
            Input("temperature conversion coefficient", "number", required=False, least=0.0),
            Input("design moisture content", "ratio", least=0.0, greatest=1.0),
            Input("moisture conversion coefficient", "number", required=False, least=0.0),
            Input("aging factor", "number", least=1.0),
            Input("joint factor", "number", least=1.0),
        ),
        "declared conductivity · exp(fT·(design mean - declared mean)) · exp(fψ·ψ) · aging factor · joint factor; by "
        "its curve, where one is stated, instead of the factor for temperature",
        ISO,
        _design,
    ),
    Calculation(
        "design surface temperature",
        "temperature",
        plain_layer(SURFACE, "design conductivity"),
        "heat balance of the outer surface, with the design conductivity",
        C680,
        lambda inputs: solved_with(inputs, "design conductivity", "surface temperature"),
    ),
    Calculation(
        "design heat flow",
        "heat flow per length",
        plain_layer(LOSS, "design conductivity"),
        "heat balance of the outer surface, with the design conductivity",
        C680,
        lambda inputs: solved_with(inputs, "design conductivity", "heat flow"),
    ),
)
