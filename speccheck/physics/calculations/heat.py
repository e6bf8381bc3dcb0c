"""Calculations about heat: surface temperature, heat flow, and the minimum thickness for an outcome."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np

from speccheck.physics.calculations.calculation import TEXT, Calculation, Input, Inputs, Outcome, Values, Wording, Words
from speccheck.physics.heat_flow import solve
from speccheck.physics.numerics import Array, Flags
from speccheck.physics.systems import Layer, Method, System, critical_radius
from speccheck.physics.thickness import (
    LeastThickness,
    least_thickness_against_condensation,
    least_thickness_for_heat_flow,
    least_thickness_for_touch_limit,
)
from speccheck.physics.working import Cause, CauseArray, no_causes

C680 = "structure of ASTM C680; Churchill and Chu (1975), Churchill and Bernstein (1977), as in Incropera et al."

METHODS: dict[Method, tuple[str, str]] = {
    "film correlations": (
        "film correlations: natural convection (Churchill and Chu; McAdams on faces up and down), forced convection "
        "(Churchill and Bernstein; flat plate) blended with it, radiation to surroundings at air temperature",
        C680,
    ),
    "simplified coefficients": (
        "ISO 12241 simplified coefficients: a constant by finish and a slope with the temperature difference",
        "ISO 12241 (from memory)",
    ),
    "convection formulas": (
        "ISO 12241 convection formulas, and radiation to surroundings at air temperature",
        "ISO 12241 (from memory)",
    ),
    "fixed coefficient": ("fixed surface coefficient, as given", "given with the request"),
}
"""Each method of the surface coefficient in words, and its source."""

SURFACE = (
    Input("operating temperature", "temperature", least=1e-9),
    Input("ambient temperature", "temperature", least=1e-9),
    Input("surface coefficient method", TEXT, default="film correlations"),
    Input("jacket emittance", "number", required=False, least=0.0, greatest=1.0),
    Input("wind speed", "speed", default=0.0, least=0.0),
    Input("barometric pressure", "pressure", required=False, least=2e4, greatest=1.2e5),
    Input("component", TEXT, required=False),
    Input("orientation", TEXT, default="horizontal"),
    Input("pipe outside diameter", "length", required=False),
    Input("run length", "length", required=False),
    Input("duct diameter", "length", required=False),
    Input("duct width", "length", required=False),
    Input("duct height", "length", required=False),
    Input("tank diameter", "length", required=False),
    Input("tank height", "length", required=False),
    Input("coefficient finish", TEXT, required=False),
    Input("fixed surface coefficient", "surface coefficient", required=False),
)
"""What every calculation about the surface asks for, the thickness and conductivity apart."""

LAYER = (
    Input("thickness", "length", least=0.0),
    Input("conductivity", "conductivity"),
    Input("insulation outside diameter", "length", required=False),
)


@dataclass(frozen=True)
class _Lines:
    """The systems of the lines without insulation, the method of each, and what lines lack."""

    system: System
    methods: Words
    lacks: tuple[tuple[Flags, str], ...]


def _lines(inputs: Inputs) -> _Lines:
    """Return the bare systems of the lines: pipe, round or rectangular duct, or tank, whichever is given first."""
    pipe, duct, tank = (inputs.numbers(name) for name in ("pipe outside diameter", "duct diameter", "tank diameter"))
    width, height = inputs.numbers("duct width"), inputs.numbers("duct height")
    diameter = np.where(np.isnan(pipe), np.where(np.isnan(duct), tank, duct), pipe)
    circular = ~np.isnan(diameter)
    upright = circular & (inputs.words("orientation") == "vertical")
    is_tank = circular & np.isnan(pipe) & np.isnan(duct)
    rise = np.where(is_tank, inputs.numbers("tank height"), inputs.numbers("run length"))
    shapes = np.where(upright, "vertical pipe", np.where(circular, "horizontal pipe", "rectangular duct"))
    methods = inputs.words("surface coefficient method")
    component, shapeless = inputs.words("component"), ~circular & np.isnan(width) & np.isnan(height)
    is_vessel, is_duct = np.isin(component, ("tank", "equipment")), component == "duct"
    lacks = (
        (shapeless & is_vessel, "tank diameter"),
        (shapeless & is_duct, "duct width"),
        (shapeless & ~is_vessel & ~is_duct, "pipe outside diameter"),
        (~circular & np.isnan(width) & ~np.isnan(height), "duct width"),
        (~circular & np.isnan(height) & ~np.isnan(width), "duct height"),
        (upright & np.isnan(rise) & is_tank, "tank height"),
        (upright & np.isnan(rise) & ~is_tank, "run length"),
        (_uses_emittance(methods) & np.isnan(inputs.numbers("jacket emittance")), "jacket emittance"),
        ((methods == "simplified coefficients") & (inputs.words("coefficient finish") == ""), "coefficient finish"),
        (
            (methods == "fixed coefficient") & np.isnan(inputs.numbers("fixed surface coefficient")),
            "fixed surface coefficient",
        ),
    )
    system = System(
        shapes,
        inputs.numbers("operating temperature"),
        inputs.numbers("ambient temperature"),
        outside_diameter=diameter,
        width=width,
        height=np.where(circular, rise, height),
        emittance=inputs.numbers("jacket emittance"),
        wind_speed=inputs.numbers("wind speed"),
        pressure=inputs.numbers("barometric pressure"),
        coefficient=inputs.numbers("fixed surface coefficient"),
        finish=inputs.words("coefficient finish"),
    )
    return _Lines(system, methods, lacks)


def _uses_emittance(methods: Words) -> Flags:
    """Return where the method of the surface coefficient needs an emittance."""
    return np.isin(methods, ("film correlations", "convection formulas"))


def _by_method(lines: _Lines) -> Iterator[tuple[Method, Flags]]:
    """Yield each method in use with its rows."""
    for method in METHODS:
        rows = lines.methods == method
        if np.any(rows):
            yield method, np.asarray(rows)


def _method_words(methods: Words, before: str = "") -> tuple[Wording, Wording]:
    """Return method and source in words, line by line; none for an unknown method."""
    codes = np.zeros(methods.shape, dtype=np.intp)
    for number, method in enumerate(METHODS, start=1):
        codes[methods == method] = number
    texts, sources = zip(*METHODS.values(), strict=True)
    return Wording(codes, ("", *(before + text for text in texts))), Wording(codes, ("", *sources))


def _reasons(causes: CauseArray, methods: Words) -> tuple[tuple[Flags, str], ...]:
    """Return the causes of a solution as rows and wordings; a missing input is named elsewhere."""
    unknown = ~np.isin(methods, list(METHODS))
    stated = [(causes == code, Cause(int(code)).wording) for code in np.unique(causes) if code > Cause.NOT_GIVEN]
    wording = "the surface coefficient method must be one of " + ", ".join(METHODS)
    return ((unknown, wording), *((rows, why) for rows, why in stated if why and "stocked" not in why))


def _actual_thickness(inputs: Inputs, lines: _Lines) -> Array:
    """Return the actual thickness: by the outside diameter of the insulation on pipes, else the thickness."""
    outside = inputs.numbers("insulation outside diameter")
    pipe = inputs.numbers("pipe outside diameter")
    return np.where(np.isnan(outside) | np.isnan(pipe), inputs.numbers("thickness"), (outside - pipe) / 2)


def _solved(inputs: Inputs, wanted: str) -> Outcome:
    """Solve the insulated lines and return the wanted value, with every step."""
    lines = _lines(inputs)
    thickness = _actual_thickness(inputs, lines)
    count = thickness.shape[0]
    names = ("surface_temperature", "heat_flow", "heat_flux", "convective", "radiative", "resistance", "residual")
    found = {name: np.full(count, np.nan) for name in names}
    causes = no_causes((count,))
    system = lines.system.with_layer(Layer(thickness, inputs.numbers("conductivity")))
    for method, rows in _by_method(lines):
        places = np.flatnonzero(rows)
        answer = solve(system.rows(places), method)
        causes[places] = answer.cause
        for name in names:
            found[name][places] = getattr(answer, name)
    coefficient = found["convective"] + found["radiative"]
    values = {
        "surface temperature": found["surface_temperature"],
        "heat flow": np.abs(found["heat_flow"]),
        "surface heat flow": np.abs(found["heat_flux"]),
        "surface coefficient": coefficient,
        "critical radius": critical_radius(inputs.numbers("conductivity"), coefficient),
    }
    steps: tuple[tuple[str, str, Values], ...] = (
        ("actual thickness", "length", thickness),
        ("resistance of the insulation per length", "number", found["resistance"]),
        ("convective coefficient", "surface coefficient", found["convective"]),
        ("radiative coefficient", "surface coefficient", found["radiative"]),
        ("surface temperature", "temperature", values["surface temperature"]),
        ("heat flow", "heat flow per length", values["heat flow"]),
        ("residual of the heat balance", "temperature difference", np.abs(found["residual"])),
    )
    method_text, source = _method_words(lines.methods)
    reasons = _reasons(causes, lines.methods)
    return Outcome(values[wanted], steps, reasons, lines.lacks, method_text, source)


_Least = Callable[[System, Array, Array, Method], LeastThickness]


def _least(inputs: Inputs, limit: Array, rule: _Least) -> Outcome:
    """Work a minimum thickness out by a rule, with the next stocked thickness as a step."""
    lines = _lines(inputs)
    count = limit.shape[0]
    exact, stocked, surface = (np.full(count, np.nan) for _ in range(3))
    causes = no_causes((count,))
    for method, rows in _by_method(lines):
        places = np.flatnonzero(rows)
        answer = rule(lines.system.rows(places), limit[places], inputs.numbers("conductivity")[places], method)
        exact[places], stocked[places], causes[places] = answer.exact, answer.stocked, answer.cause
        surface[places] = answer.solved.surface_temperature
    steps = (
        ("next stocked thickness", "length", stocked),
        ("surface temperature at the minimum thickness", "temperature", np.where(exact > 0, surface, np.nan)),
    )
    method_text, source = _method_words(lines.methods, "minimum thickness that meets the limit exactly, by ")
    return Outcome(exact, steps, _reasons(causes, lines.methods), lines.lacks, method_text, source)


def _condensation(inputs: Inputs) -> Outcome:
    """Minimum thickness that keeps the surface at the dew point or above."""
    return _least(inputs, inputs.numbers("dew point"), least_thickness_against_condensation)


def _touch(inputs: Inputs) -> Outcome:
    """Minimum thickness that keeps the surface at the touch limit or below."""
    return _least(inputs, inputs.numbers("surface temperature limit"), least_thickness_for_touch_limit)


def _flow(inputs: Inputs) -> Outcome:
    """Minimum thickness that keeps the heat flow at its limit or below."""
    return _least(inputs, inputs.numbers("heat flow limit"), least_thickness_for_heat_flow)


def _solving(name: str, dimension: str, method: str) -> Calculation:
    """Return a calculation whose value is one part of the solved system."""
    return Calculation(name, dimension, SURFACE + LAYER, method, C680, lambda inputs: _solved(inputs, name))


CONDUCTIVITY = (Input("conductivity", "conductivity"),)

HEAT = (
    _solving("surface temperature", "temperature", "heat balance of the outer surface"),
    _solving("heat flow", "heat flow per length", "heat balance of the outer surface"),
    _solving("surface heat flow", "heat flow per area", "heat balance of the outer surface"),
    _solving("surface coefficient", "surface coefficient", "heat balance of the outer surface"),
    _solving("critical radius", "length", "k/h, with the surface coefficient of the solved system"),
    Calculation(
        "condensation thickness",
        "length",
        (*SURFACE, *CONDUCTIVITY, Input("dew point", "temperature")),
        "minimum thickness whose surface is at the dew point",
        C680,
        _condensation,
    ),
    Calculation(
        "touch thickness",
        "length",
        (*SURFACE, *CONDUCTIVITY, Input("surface temperature limit", "temperature")),
        "minimum thickness whose surface is at the limit",
        C680,
        _touch,
    ),
    Calculation(
        "heat flow thickness",
        "length",
        (*SURFACE, *CONDUCTIVITY, Input("heat flow limit", "heat flow per length")),
        "minimum thickness whose heat flow is at the limit",
        C680,
        _flow,
    ),
)
