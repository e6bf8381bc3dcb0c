"""Calculations about pipes in soil."""

from __future__ import annotations

import numpy as np

from speccheck.physics.buried import buried_heat_flow
from speccheck.physics.calculations.calculation import TEXT, Calculation, CalculationOutcome, Input, Inputs
from speccheck.physics.calculations.layers import ONE_MATERIAL, actual_thickness


def _flow(inputs: Inputs) -> CalculationOutcome:
    """Heat flow of a metre of single pipe in soil."""
    pipe, thickness = inputs.numbers("pipe outside diameter"), actual_thickness(inputs)
    outside, depth = pipe + 2 * thickness, inputs.numbers("burial depth")
    bare = thickness == 0
    flow, surface = buried_heat_flow(
        inputs.numbers("operating temperature"),
        inputs.numbers("ground temperature"),
        pipe,
        outside,
        np.where(bare, 1.0, inputs.numbers("conductivity")),
        depth,
        inputs.numbers("soil conductivity"),
    )
    above = (2 * depth <= outside, "the pipe with its insulation does not lie wholly in the soil")
    lacks = ((np.isnan(thickness), "thickness"), (~bare & np.isnan(inputs.numbers("conductivity")), "conductivity"))
    return CalculationOutcome(
        np.abs(flow), (("temperature of the outer surface", "temperature", surface),), (above,), lacks
    )


BURIED = (
    Calculation(
        "buried heat flow",
        "heat flow per length",
        (
            Input("operating temperature", "temperature", least=1e-9),
            Input("ground temperature", "temperature", least=1e-9),
            Input("pipe outside diameter", "length", least=1e-9),
            Input("thickness", "length", required=False, least=0.0),
            Input("insulation outside diameter", "length", required=False),
            Input("insulation", TEXT, required=False),
            Input("conductivity", "conductivity", required=False, least=1e-9),
            ONE_MATERIAL,
            Input("burial depth", "length"),
            Input("soil conductivity", "conductivity", least=1e-9),
        ),
        "ln(D2/D1)/(2πk) of the insulation and arcosh(2z/D2)/(2πks) of the soil in series, a single pipe",
        "Incropera et al., shape factors; ISO 12241 (from memory)",
        _flow,
    ),
)
