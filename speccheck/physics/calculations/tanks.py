"""Calculations about whole tanks: what shell and ends lose together."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from speccheck.physics.calculations.calculation import Calculation, CalculationOutcome, Inputs, with_required
from speccheck.physics.calculations.heat import note_all
from speccheck.physics.calculations.layers import LineLayers
from speccheck.physics.calculations.surfaces import C680, LAYER, LOSS, by_method, lines_of, method_words, reasons_of
from speccheck.physics.heat_flow import solve
from speccheck.physics.systems import TANK_FACES
from speccheck.physics.working import no_causes

ONLY_BY_FACE = "the ends of tanks are reckoned by film correlations alone"
ENDS = {"tank roof": 1, "tank bottom": 1, "tank end": 2}
"""How many of each face a tank has."""


def _tank(inputs: Inputs) -> CalculationOutcome:
    """Heat flow of a whole tank: its shell by its height, and its ends by their covered area."""
    lines, layers = lines_of(inputs), LineLayers(inputs)
    system = replace(lines.system, layers=layers.all)
    count = layers.thickness.shape[0]
    causes, total = no_causes((count,)), np.full(count, np.nan)
    for method, rows in by_method(lines):
        places = np.flatnonzero(rows)
        answer = solve(system.rows(places), method)
        note_all(causes, places, answer.cause)
        total[places] = answer.heat_flow * inputs.numbers("tank height")[places]
    steps = [("heat flow of the shell", "heat flow", np.abs(total))]
    over = np.pi / 4 * (inputs.numbers("tank diameter") + 2 * layers.thickness) ** 2
    for shape, rows in lines.faces:
        if shape not in TANK_FACES:
            continue
        places = np.flatnonzero(rows)
        answer = solve(lines.as_face(system, shape, places))
        note_all(causes, places, answer.cause)
        flow = np.full(count, np.nan)
        flow[places] = ENDS[shape] * answer.heat_flow * over[places]
        total[places] += flow[places]
        steps.append((f"heat flow of the {shape}{'s' if ENDS[shape] > 1 else ''}", "heat flow", np.abs(flow)))
    by_face = lines.methods == "film correlations"
    reasons = ((~by_face, ONLY_BY_FACE), *layers.reasons, *reasons_of(causes, lines.methods))
    words, source = method_words(lines.methods, "shell by its height and both ends by their area over the insulation, ")
    return CalculationOutcome(np.abs(total), tuple(steps), reasons, (*layers.lacks, *lines.lacks), words, source)


TANKS = (
    Calculation(
        "tank heat flow",
        "heat flow",
        with_required((*LOSS, *LAYER), "tank diameter", "tank height"),
        "heat balance of shell and ends, each by itself, in air all round",
        C680,
        _tank,
    ),
)
