"""Calculations about heat: surface temperature, heat flow, and the minimum thickness for an outcome."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from speccheck.physics.calculations.calculation import (
    TEXT,
    Calculation,
    CalculationOutcome,
    Input,
    Inputs,
    StepOfLines,
    TextByLine,
)
from speccheck.physics.calculations.layers import (
    CURVE_OF_FIRST,
    LAYERS,
    NOT_A_CURVE,
    ONE_MATERIAL,
    LineLayers,
    conductivity_of,
)
from speccheck.physics.calculations.surfaces import (
    C680,
    LAYER,
    LOSS,
    REGIMES,
    SURFACE,
    SurfaceLines,
    by_method,
    lines_of,
    method_words,
    reasons_of,
    regimes,
)
from speccheck.physics.heat_flow import solve
from speccheck.physics.materials import ConductivityOfLines
from speccheck.physics.numerics import Array, Flags, as_array
from speccheck.physics.systems import DUCT_FACES, FACES, Method, Shape, System, critical_radius
from speccheck.physics.thickness import (
    LeastThickness,
    least_thickness_against_condensation,
    least_thickness_for_heat_flow,
    least_thickness_for_touch_limit,
    next_stocked,
)
from speccheck.physics.working import NEXT_STOCKED, Cause, CauseArray, no_causes


def note_all(causes: CauseArray, places: NDArray[np.intp], found: CauseArray) -> None:
    """Write the causes found at some rows into `causes`, in place, where no earlier cause stands.

    That nothing is stocked stops a value least of all, and gives way.
    """
    before = causes[places]
    open_yet = (before == Cause.NONE) | ((before == Cause.NOT_STOCKED) & (found != Cause.NONE))
    causes[places] = np.where(open_yet, found, before)


def solved(inputs: Inputs, wanted: str, coldest: Flags | None = None) -> CalculationOutcome:
    """Solve the insulated lines and return the wanted value by its name, with every step.

    Of several faces the coldest counts on cold lines and the hottest on hot ones, or as `coldest` says line by line.
    """
    lines = lines_of(inputs)
    layers = LineLayers(inputs)
    thickness, count = layers.thickness, layers.thickness.shape[0]
    names = ("surface_temperature", "heat_flow", "heat_flux", "convective", "radiative", "resistance", "residual")
    found = {name: np.full(count, np.nan) for name in names}
    causes = no_causes((count,))
    system = replace(lines.system, layers=layers.all)
    between = np.full((len(layers.all) - 1, count), np.nan)
    for method, rows in by_method(lines):
        places = np.flatnonzero(rows)
        answer = solve(system.rows(places), method)
        causes[places] = answer.cause
        for name in names:
            found[name][places] = getattr(answer, name)
        for number in range(len(between)):
            between[number, places] = answer.layer_temperatures[number + 1]
    faces = _by_face(lines, system, found, causes, coldest) if wanted == "surface temperature" else ()
    coefficient = found["convective"] + found["radiative"]
    values = {
        "surface temperature": found["surface_temperature"],
        "heat flow": np.abs(found["heat_flow"]),
        "surface heat flow": np.abs(found["heat_flux"]),
        "surface coefficient": coefficient,
        "critical radius": critical_radius(inputs.numbers("conductivity"), coefficient),
    }
    steps: tuple[StepOfLines, ...] = (
        ("actual thickness", "length", thickness),
        *_of_layers(layers, between),
        *faces,
        ("resistance of the insulation per length", "number", found["resistance"]),
        ("convective coefficient", "surface coefficient", found["convective"]),
        ("radiative coefficient", "surface coefficient", found["radiative"]),
        ("surface temperature", "temperature", values["surface temperature"]),
        ("heat flow", "heat flow per length", values["heat flow"]),
        ("residual of the heat balance", "temperature difference", np.abs(found["residual"])),
    )
    method_text, source = method_words(lines.methods)
    reasons = (*layers.reasons, *reasons_of(causes, lines.methods))
    return CalculationOutcome(values[wanted], steps, reasons, (*layers.lacks, *lines.lacks), method_text, source)


def solved_with(inputs: Inputs, conductivity: str, wanted: str) -> CalculationOutcome:
    """Return a value of the heat balance with another conductivity, which `plain_layer` asks for by its name."""
    columns = {**inputs.columns, "conductivity": inputs.columns[conductivity]}
    found = solved(Inputs(columns), wanted)
    return replace(found, missing=tuple((rows, name) for rows, name in found.missing if name != "conductivity"))


def plain_layer(asked: tuple[Input, ...], conductivity: str) -> tuple[Input, ...]:
    """Return what a heat balance asks for, with another conductivity instead of what the layers conduct."""
    layer = (each for each in LAYER if each.name != "conductivity" and each not in LAYERS)
    return (*asked, *layer, Input(conductivity, "conductivity"))


def _of_layers(layers: LineLayers, between: Array) -> tuple[StepOfLines, ...]:
    """Return how thick the first of several layers is, and the temperatures between them, as steps."""
    if not layers.several:
        return ()
    outer = [np.asarray(layer.thickness) > 0 for layer in layers.all[1:]]
    first = np.where(np.any(outer, axis=0), as_array(layers.all[0].thickness), np.nan)
    temperatures = (
        (f"temperature under layer {number}", "temperature", np.where(has, between[number - 2], np.nan))
        for number, has in enumerate(outer, start=2)
    )
    return (("thickness of the first layer", "length", first), *temperatures)


def _by_face(
    lines: SurfaceLines, system: System, found: dict[str, Array], causes: CauseArray, coldest: Flags | None
) -> tuple[StepOfLines, ...]:
    """Put the worst face's surface temperature and coefficients in place of the mean's; return the faces as steps.

    The worst face of a cold line is the coldest, that of a hot one the hottest. A tank's shell is a face too.
    """
    if not lines.faces:
        return ()
    cold = as_array(system.inside_temperature) < as_array(system.air_temperature) if coldest is None else coldest
    has_faces = np.any([rows for _, rows in lines.faces], axis=0)
    shell = has_faces & (np.asarray(system.shape) != "rectangular duct")
    worst = np.where(shell, found["surface_temperature"], np.where(cold, np.inf, -np.inf))
    names = ["", "tank shell", *(shape for shape, _ in lines.faces)]
    named = np.where(shell, 1, 0)
    steps: list[StepOfLines] = [
        ("surface of the tank shell", "temperature", np.where(shell, found["surface_temperature"], np.nan))
    ]
    for number, (shape, rows) in enumerate(lines.faces, start=2):
        places = np.flatnonzero(rows)
        face = lines.as_face(system, shape, places)
        answer = solve(face)
        note_all(causes, places, answer.cause)
        surface = np.full(rows.shape, np.nan)
        surface[places] = answer.surface_temperature
        steps.append((f"surface of the {shape}", "temperature", surface))
        if FACES[shape] == "vertical flat":
            regime = np.zeros(rows.shape, dtype=np.intp)
            regime[places] = regimes(face, answer.surface_temperature)
            steps.append((f"natural convection on the {shape}", TEXT, TextByLine(regime, REGIMES)))
        worse = rows & np.where(cold, surface < worst, surface > worst)
        worst, named = np.where(worse, surface, worst), np.where(worse, number, named)
        for name in ("convective", "radiative"):
            found[name][worse] = getattr(answer, name)[worse[places]]
    found["surface_temperature"] = np.where(has_faces, worst, found["surface_temperature"])
    return (*steps, ("worst face", TEXT, TextByLine(named, tuple(names))))


_Least = Callable[[System, Array, Array | ConductivityOfLines, Method], LeastThickness]


def _least(inputs: Inputs, limit: Array, rule: _Least, by_face: bool = True) -> CalculationOutcome:
    """Work a minimum thickness out by a rule, with the next stocked thickness as a step; the worst face decides."""
    lines = lines_of(inputs)
    count = limit.shape[0]
    exact, surface = np.full(count, -1.0), np.full(count, np.nan)
    causes, names = no_causes((count,)), np.full(count, "", dtype="<U16")
    conductivity, unknown, unread = conductivity_of(inputs)
    for method, shape, rows in _parts(lines, by_face):
        places = np.flatnonzero(rows)
        bare = lines.system
        system = bare.rows(places) if shape is None else lines.as_face(bare, shape, places)
        conducting = (
            conductivity.rows(places) if isinstance(conductivity, ConductivityOfLines) else conductivity[places]
        )
        answer = rule(system, limit[places], conducting, method)
        note_all(causes, places, answer.cause)
        thicker = ~(answer.exact <= exact[places])
        chosen = places[thicker]
        exact[chosen] = answer.exact[thicker]
        surface[chosen] = answer.solved.surface_temperature[thicker]
        names[chosen] = shape or ""
    exact = np.where((exact < 0) | ((causes != Cause.NONE) & (causes != Cause.NOT_STOCKED)), np.nan, exact)
    steps = (
        ("worst face", TEXT, names),
        (NEXT_STOCKED, "length", next_stocked(exact, inputs.stocked)),
        ("surface temperature at the minimum thickness", "temperature", np.where(exact > 0, surface, np.nan)),
    )
    method_text, source = method_words(lines.methods, "minimum thickness that meets the limit exactly, by ")
    reasons = ((unread, NOT_A_CURVE), *reasons_of(causes, lines.methods))
    return CalculationOutcome(exact, steps, reasons, ((unknown, "conductivity"), *lines.lacks), method_text, source)


def _parts(lines: SurfaceLines, by_face: bool) -> Iterator[tuple[Method, Shape | None, Flags]]:
    """Yield the methods and faces in use with their rows; no face is the line's own shape, which a duct has not."""
    faces = lines.faces if by_face else ()
    only_faces = np.zeros(lines.methods.shape, dtype=bool)
    for shape, rows in faces:
        only_faces |= rows & (shape in DUCT_FACES)
    for method, rows in by_method(lines):
        if np.any(rows & ~only_faces):
            yield method, None, rows & ~only_faces
        yield from ((method, shape, rows & which) for shape, which in faces if np.any(rows & which))


def _condensation(inputs: Inputs) -> CalculationOutcome:
    """Minimum thickness that keeps the surface at the dew point or above."""
    return _least(inputs, inputs.numbers("dew point"), least_thickness_against_condensation)


def _touch(inputs: Inputs) -> CalculationOutcome:
    """Minimum thickness that keeps the surface at the touch limit or below."""
    return _least(inputs, inputs.numbers("surface temperature limit"), least_thickness_for_touch_limit)


def _flow(inputs: Inputs) -> CalculationOutcome:
    """Minimum thickness that keeps the heat flow at its limit or below."""
    return _least(inputs, inputs.numbers("heat flow limit"), least_thickness_for_heat_flow, by_face=False)


def _linear_transmittance(inputs: Inputs) -> CalculationOutcome:
    """Heat flow per length and degree between the fluid and the air; not of buried lines, which the ground covers."""
    difference = np.abs(inputs.numbers("operating temperature") - inputs.numbers("ambient temperature"))
    buried = inputs.words("location") == "buried"
    flow = np.where(buried | (difference == 0), np.nan, inputs.numbers("heat flow"))
    reasons = (
        (buried, "a buried line gives its heat to the ground; state what the manufacturer declares"),
        (difference == 0, "no heat flows where fluid and air are as warm as each other"),
    )
    return CalculationOutcome(flow / np.where(difference == 0, 1.0, difference), (), reasons)


def _solving(name: str, dimension: str, method: str) -> Calculation:
    """Return a calculation whose value is one part of the solved system."""
    asked = LOSS if name in ("heat flow", "surface heat flow") else SURFACE
    return Calculation(name, dimension, asked + LAYER, method, C680, lambda inputs: solved(inputs, name))


CONDUCTIVITY = (Input("conductivity", "conductivity", required=False), CURVE_OF_FIRST, ONE_MATERIAL)

HEAT = (
    Calculation(
        "linear thermal transmittance",
        "conductivity",
        (
            Input("heat flow", "heat flow per length"),
            Input("operating temperature", "temperature"),
            Input("ambient temperature", "temperature"),
            Input("location", TEXT, required=False),
        ),
        "heat flow per length divided by the temperature difference between fluid and air",
        "ISO 12241, linear thermal transmittance",
        _linear_transmittance,
    ),
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
        (*LOSS, *CONDUCTIVITY, Input("heat flow limit", "heat flow per length")),
        "minimum thickness whose heat flow is at the limit",
        C680,
        _flow,
    ),
)
