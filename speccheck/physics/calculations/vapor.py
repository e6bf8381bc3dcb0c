"""Calculations about water vapor and about counts in a run."""

from __future__ import annotations

import numpy as np

from speccheck.physics import vapor
from speccheck.physics.calculations.calculation import TEXT, Calculation, CalculationOutcome, Input, Inputs

PERMEANCES = ("insulation permeance", "facing permeance", "retarder permeance", "jacket permeance")


def _insulation_permeance(inputs: Inputs) -> CalculationOutcome:
    """Permeance of the insulation from permeability and thickness."""
    return CalculationOutcome(vapor.layer_permeance(inputs.numbers("permeability"), inputs.numbers("thickness")))


def _total_permeance(inputs: Inputs) -> CalculationOutcome:
    """Permeance in series of whatever layers are given; an infinite one hinders nothing."""
    layers = [np.where(np.isnan(inputs.numbers(name)), np.inf, inputs.numbers(name)) for name in PERMEANCES]
    nothing = np.all([np.isnan(inputs.numbers(name)) for name in PERMEANCES], axis=0)
    return CalculationOutcome(
        vapor.permeance_in_series(*layers), missing=tuple((nothing, name) for name in PERMEANCES[:1])
    )


def _spacing(inputs: Inputs, length: str, count: str) -> CalculationOutcome:
    """Spacing that a count implies, by where the counted things stand."""
    ends = inputs.words("ends")
    values = np.full(ends.shape, np.nan)
    for each in vapor.ENDS:
        found = vapor.implied_spacing(inputs.numbers(length), inputs.numbers(count), each)
        values = np.where(ends == each, found, values)
    unknown = (ends != "") & ~np.isin(ends, vapor.ENDS)
    reasons = (
        (unknown, "the ends must be one of " + ", ".join(vapor.ENDS)),
        (~unknown & np.isnan(values), "the count makes no gap in the run"),
    )
    return CalculationOutcome(values, reasons=reasons)


VAPOR = (
    Calculation(
        "insulation permeance",
        "permeance",
        (Input("permeability", "permeability", least=0.0), Input("thickness", "length", least=0.0)),
        "permeability over thickness",
        "definition of permeability, ASTM E96",
        _insulation_permeance,
    ),
    Calculation(
        "total permeance",
        "permeance",
        tuple(Input(name, "permeance", required=False, least=0.0) for name in PERMEANCES),
        "1/Σ(1/W) of the layers given",
        "ASHRAE Handbook - Fundamentals, chapter 25, vapor resistances in series (from memory)",
        _total_permeance,
    ),
    Calculation(
        "implied vapor stop spacing",
        "length",
        (Input("run length", "length"), Input("vapor stop count", "number"), Input("ends", TEXT, True, "at both ends")),
        "run length over the gaps that the count makes",
        "even spacing, by arithmetic",
        lambda inputs: _spacing(inputs, "run length", "vapor stop count"),
    ),
    Calculation(
        "implied fastener spacing",
        "length",
        (
            Input("section length", "length"),
            Input("fastener count", "number"),
            Input("ends", TEXT, True, "at both ends"),
        ),
        "section length over the gaps that the count makes",
        "even spacing, by arithmetic",
        lambda inputs: _spacing(inputs, "section length", "fastener count"),
    ),
)
