"""The insulation of the lines as layers: how thick each is, and what it conducts at its mean temperature."""

from __future__ import annotations

import itertools
import re
from functools import lru_cache

import numpy as np

from speccheck.physics.calculations.calculation import TEXT, Input, Inputs, Words
from speccheck.physics.materials import ConductivityOfLines, ConductivityPoints
from speccheck.physics.numerics import Array, Flags
from speccheck.physics.psychrometrics import ZERO_CELSIUS
from speccheck.physics.systems import Layer

OUTER = ("second layer", "third layer")
"""The layers outside the first one, from the inside out."""

CURVE = "conductivity curve"

SECOND = Input("second layer thickness", "length", required=False, least=0.0)
CURVE_OF_FIRST = Input(CURVE, TEXT, required=False)

LAYERS = (
    CURVE_OF_FIRST,
    *(
        each
        for layer in OUTER
        for each in (
            Input(f"{layer} thickness", "length", required=False, least=0.0),
            Input(f"{layer} conductivity", "conductivity", required=False),
            Input(f"{layer} {CURVE}", TEXT, required=False),
        )
    ),
)
"""What several layers, and conductivities by mean temperature, are asked for; all of it may be missing."""

ONE_MATERIAL = Input(
    SECOND.name,
    SECOND.dimension,
    required=False,
    refused="it is worked out for insulation of one material, and the line states a second layer",
)
"""For what is worked out for one material alone: a line that states a second layer has none."""

NOT_A_CURVE = (
    "the conductivity curve is not written as entries such as `0.25 Btu.in/(h.ft2.F) at 75 F`, parted by "
    "slashes, with rising temperatures"
)
TOO_THICK = "the outer layers are thicker than the insulation in all"
BTU_INCH = 0.1442279
"""W/(m K) in a Btu.in/(h.ft2.F), from memory of ASTM E2309 and as the unit library has it."""

_ENTRY = re.compile(
    r"\s*(?P<value>\d+(?:\.\d+)?)\s*(?P<unit>Btu\.in/\(h\.ft2\.F\)|W/\(m\.K\))\s+at\s+(?P<mean>-?\d+(?:\.\d+)?)\s*"
    r"(?P<degree>[CF])\s*(?:/|$)"
)


@lru_cache(maxsize=256)
def read_curve(text: str) -> ConductivityPoints | None:
    """Return the conductivities (W/(m K)) by mean temperature (K) that a text states, None where it states none.

    Between two entries a straight line; beyond them there is none.
    """
    means, conductivities, at = [], [], 0
    while at < len(text):
        found = _ENTRY.match(text, at)
        if found is None:
            return None
        value, mean = float(found["value"]), float(found["mean"])
        means.append(ZERO_CELSIUS + (mean if found["degree"] == "C" else (mean - 32) / 1.8))
        conductivities.append(value * (1.0 if found["unit"].startswith("W") else BTU_INCH))
        at = found.end()
    rising = all(low < high for low, high in itertools.pairwise(means))
    if len(means) < 2 or not rising or min(conductivities) <= 0:
        return None
    return ConductivityPoints(tuple(means), tuple(conductivities))


def actual_thickness(inputs: Inputs) -> Array:
    """Return the actual thickness (m) of each line, 0 if bare, NaN where it is not known.

    On pipes it goes by the outside diameter of the insulation where that is known.
    """
    outside = inputs.numbers("insulation outside diameter")
    pipe, thickness = inputs.numbers("pipe outside diameter"), inputs.numbers("thickness")
    actual = np.where(np.isnan(outside) | np.isnan(pipe), thickness, (outside - pipe) / 2)
    return np.where(bare(inputs), 0.0, actual)


def bare(inputs: Inputs) -> Flags:
    """Return where nothing covers the surface, a yes or no each: no thickness, or no insulation."""
    thickness = inputs.numbers("thickness")
    none = (inputs.words("insulation") == "none") & np.isnan(thickness)
    return np.asarray(none | (thickness == 0))


def _words(inputs: Inputs, name: str, count: int) -> Words:
    return inputs.words(name) if name in inputs.columns else np.full(count, "")


def _numbers(inputs: Inputs, name: str, count: int) -> Array:
    return inputs.numbers(name) if name in inputs.columns else np.full(count, np.nan)


def conductivity_of(inputs: Inputs, before: str = "") -> tuple[Array | ConductivityOfLines, Flags, Flags]:
    """Return the conductivity of a layer (W/(m K)), where none is stated, and where its curve cannot be read.

    `before` is "" for the first layer and its name with a blank behind it for others.
    """
    count = inputs.numbers("conductivity").shape[0]
    stated = _numbers(inputs, f"{before}conductivity", count)
    texts = _words(inputs, before + CURVE, count)
    if not np.any(texts != ""):
        return stated, np.isnan(stated), np.zeros(count, dtype=bool)
    different, which = np.unique(texts, return_inverse=True)
    curves = tuple(read_curve(str(text)) if text else None for text in different)
    unread = np.array([bool(text) and curve is None for text, curve in zip(different, curves, strict=True)])[which]
    return ConductivityOfLines(curves, which, stated), (texts == "") & np.isnan(stated), unread


class LineLayers:
    """The layers of the lines from the inside out, what lines lack for them, and why some have none."""

    def __init__(self, inputs: Inputs) -> None:
        self.thickness = actual_thickness(inputs)
        self.bare = bare(inputs)
        count = self.thickness.shape[0]
        lacks: list[tuple[Flags, str]] = [(np.isnan(self.thickness), "thickness")]
        reasons: list[tuple[Flags, str]] = []
        layers: list[Layer] = []
        rest = self.thickness
        for name in OUTER:
            own = _numbers(inputs, f"{name} thickness", count)
            conductivity, unknown, unread = conductivity_of(inputs, f"{name} ")
            has = ~np.isnan(own) & ~self.bare
            begun = ~unknown & np.isnan(own) & ~self.bare
            lacks += [(begun, f"{name} thickness"), (has & unknown & (own > 0), f"{name} conductivity")]
            reasons.append((has & unread, NOT_A_CURVE))
            own = np.where(has, own, 0.0)
            rest = rest - own
            if np.any(own > 0):
                layers.append(Layer(own, _filled(conductivity, own == 0)))
        conductivity, unknown, unread = conductivity_of(inputs)
        self.several = bool(layers)
        lacks.append((~self.bare & unknown, "conductivity"))
        reasons += [(~self.bare & unread, NOT_A_CURVE), (rest < 0, TOO_THICK)]
        self.all = (Layer(rest, _filled(conductivity, self.bare)), *layers)
        self.lacks, self.reasons = tuple(lacks), tuple((rows, why) for rows, why in reasons if np.any(rows))


def _filled(conductivity: Array | ConductivityOfLines, nothing: Flags) -> Array | ConductivityOfLines:
    """Return the conductivity with 1 W/(m K) where a layer is not there, which counts for nothing."""
    if isinstance(conductivity, ConductivityOfLines):
        return conductivity.with_constant(nothing, 1.0)
    return np.where(nothing, 1.0, conductivity)
