"""The lines of a calculation about heat as systems: their shapes, faces and methods, and what they lack."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from speccheck.physics.air import air_properties, film_temperature
from speccheck.physics.calculations.calculation import TEXT, Input, Inputs, TextByLine, Words
from speccheck.physics.calculations.layers import LAYERS
from speccheck.physics.convection import LAMINAR_RAYLEIGH, TURBULENT_RAYLEIGH, rayleigh
from speccheck.physics.numerics import Array, Flags, as_array
from speccheck.physics.systems import (
    EDITIONS,
    UNSEEN_EDITIONS,
    WITH_RADIATION,
    Method,
    Shape,
    System,
    cylinder_resistance,
    outline,
)
from speccheck.physics.working import Cause, CauseArray

C680 = "structure of ASTM C680; Churchill and Chu (1975), Churchill and Bernstein (1977), as in Incropera et al."


def _by_edition(edition: str) -> tuple[str, str]:
    """Return the formulas of an edition in words, and their source."""
    words = (
        f"convection by the formulas of {edition}: of still air, 1.25 (ΔT/D)^1/4 or 1.21 ΔT^1/3 on lying pipes and "
        "1.32 (ΔT/H)^1/4 or 1.74 ΔT^1/3 upright, or of wind where that is greater, on pipes 0.0081/D + 3.14 (v/D)^1/2 "
        "up to vD = 0.00855 m²/s and 8.9 v^0.9/D^0.1 beyond, once that is greater, on walls 3.96 (v/H)^1/2 up to vH = "
        "8 m²/s and 5.76 (v⁴/H)^1/5 beyond; radiation to surroundings at air temperature"
    )
    return words, f"{edition} (from memory)"


METHODS: dict[Method, tuple[str, str]] = {
    "film correlations": (
        "film correlations: natural convection (Churchill and Chu; McAdams on faces up and down), forced convection "
        "(Churchill and Bernstein; flat plate) blended with it, radiation to surroundings at air temperature",
        C680,
    ),
    "simplified coefficients": (
        "ISO 12241 simplified coefficients: a constant by finish and a slope with the temperature difference",
        "ISO 12241:1998 and 2008 (from memory)",
    ),
    "convection formulas": (
        "ISO 12241 convection formulas, still air and wind blended, and radiation to surroundings at air temperature",
        "ISO 12241:1998 and 2008 (from memory)",
    ),
    **{method: _by_edition(edition) for method, edition in EDITIONS.items()},
    "fixed coefficient": ("fixed surface coefficient, as given", "given with the request"),
}
"""Each method of the surface coefficient in words, and its source."""

WIND = Input("wind speed", "speed", default=0.0, least=0.0)
EMITTANCE = Input("jacket emittance", "number", required=False, least=0.0, greatest=1.0)

FILM = Input("inside film coefficient", "surface coefficient", required=False, least=1e-9)
WALL = Input("pipe wall conductivity", "conductivity", required=False, least=1e-9)

SURFACE = (
    Input("operating temperature", "temperature", least=1e-9),
    Input("ambient temperature", "temperature", least=1e-9),
    Input("surface coefficient method", TEXT, default="film correlations"),
    EMITTANCE,
    WIND,
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
    FILM,
    WALL,
    Input("pipe inside diameter", "length", required=False, least=1e-9, only_with=(FILM.name, WALL.name)),
)
"""What the surface temperature asks for, thickness and conductivity apart. Still air and the least emittance are the
worst for it: a cold surface is the coldest and a hot one the hottest. So is no film inside and no wall, where these are
not stated."""

LOSS_WIND = Input("wind speed", "speed", required=False, least=0.0)
LOSS_EMITTANCE = Input("greatest jacket emittance", "number", required=False, least=0.0, greatest=1.0)

LOSS = (
    *({EMITTANCE: LOSS_EMITTANCE, WIND: LOSS_WIND}.get(each, each) for each in SURFACE),
    Input("location", TEXT, required=False),
)
"""What the heat flow asks for: the greatest emittance is the worst for it, and outdoors the wind must be stated."""

LAYER = (
    Input("thickness", "length", required=False, least=0.0),
    Input("conductivity", "conductivity", required=False),
    Input("insulation outside diameter", "length", required=False),
    Input("insulation", TEXT, required=False),
    *LAYERS,
)
"""What the insulation is asked for; all of it may be missing where there is none."""


@dataclass(frozen=True)
class SurfaceLines:
    """The systems of the lines without insulation, the method of each, the faces it has, and what lines lack.

    Each face has the rows that have it. A duct is its faces; a tank's are beside its shell. `face_resistance` is that
    of the film inside a face, m² K/W.
    """

    system: System
    methods: Words
    faces: tuple[tuple[Shape, Flags], ...]
    lacks: tuple[tuple[Flags, str], ...]
    face_resistance: Array

    def as_face(self, system: System, shape: Shape, places: NDArray[np.intp]) -> System:
        """Return the systems of some lines as one of their faces, inside which is the film of a face."""
        return replace(system.rows(places), shape=shape, inside_resistance=self.face_resistance[places])


def lines_of(inputs: Inputs) -> SurfaceLines:
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
    inside, needs_bore = _inside(inputs, shapes, diameter)
    emittance_name, emittance = _emittance(inputs)
    wind, needs_wind = _wind(inputs)
    lacks = (
        (shapeless & is_vessel, "tank diameter"),
        (shapeless & is_duct, "duct width"),
        (shapeless & ~is_vessel & ~is_duct, "pipe outside diameter"),
        (~circular & np.isnan(width) & ~np.isnan(height), "duct width"),
        (~circular & np.isnan(height) & ~np.isnan(width), "duct height"),
        (upright & np.isnan(rise) & is_tank, "tank height"),
        (upright & np.isnan(rise) & ~is_tank, "run length"),
        (_uses_emittance(methods) & np.isnan(emittance), emittance_name),
        (needs_bore, "pipe inside diameter"),
        (needs_wind & (methods != "fixed coefficient"), "wind speed"),
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
        emittance=emittance,
        wind_speed=wind,
        pressure=inputs.numbers("barometric pressure"),
        coefficient=inputs.numbers("fixed surface coefficient"),
        finish=inputs.words("coefficient finish"),
        inside_resistance=inside,
        radiant_temperature=_column(inputs, "surroundings temperature"),
        absorbed=_absorbed(inputs),
    )
    film = inputs.numbers(FILM.name)
    return SurfaceLines(
        system, methods, _faces(shapes, is_tank, methods), lacks, np.where(np.isnan(film), 0.0, 1 / film)
    )


def _column(inputs: Inputs, name: str) -> Array | None:
    """Return a column of numbers, None where the calculation does not ask for it."""
    return inputs.numbers(name) if name in inputs.columns else None


def _absorbed(inputs: Inputs) -> Array | float:
    """Return the heat of the sun (W/m²) that surfaces take up, of calculations that ask for it."""
    irradiance, absorptance = _column(inputs, "solar irradiance"), _column(inputs, "solar absorptance")
    return 0.0 if irradiance is None or absorptance is None else irradiance * absorptance


def _inside(inputs: Inputs, shapes: Words, diameter: Array) -> tuple[Array, Flags]:
    """Return the resistance of the inside film and of the pipe's wall, and the pipes whose bore it lacks.

    m K/W of a round or rectangular line: 1/(h·A) and ln(do/di)/(2πk). What is not stated counts for nothing.
    """
    film, wall, bore = (inputs.numbers(name) for name in (FILM.name, WALL.name, "pipe inside diameter"))
    is_pipe = ~np.isnan(inputs.numbers("pipe outside diameter"))
    around = 2 * (inputs.numbers("duct width") + inputs.numbers("duct height"))
    area = np.where(shapes == "rectangular duct", around, np.pi * np.where(is_pipe, bore, diameter))
    through = cylinder_resistance(bore, diameter, wall)
    stated = np.where(np.isnan(film), 0.0, 1 / (film * area)) + np.where(np.isnan(wall) | ~is_pipe, 0.0, through)
    needs = is_pipe & np.isnan(bore) & ~(np.isnan(film) & np.isnan(wall))
    return np.where(needs, 0.0, stated), needs


def _emittance(inputs: Inputs) -> tuple[str, Array]:
    """Return the emittance that the calculation asks for, and its name."""
    name = LOSS_EMITTANCE.name if LOSS_EMITTANCE.name in inputs.columns else EMITTANCE.name
    return name, inputs.numbers(name)


def _wind(inputs: Inputs) -> tuple[Array, Flags]:
    """Return the wind speed, still air where none is stated, and the lines outdoors that must state it."""
    wind = inputs.numbers("wind speed")
    outdoors = inputs.words("location") == "outdoor" if "location" in inputs.columns else np.zeros(wind.shape, bool)
    return np.where(np.isnan(wind), 0.0, wind), np.asarray(outdoors & np.isnan(wind))


def _faces(shapes: Words, is_tank: Flags, methods: Words) -> tuple[tuple[Shape, Flags], ...]:
    """Return the faces that lines are judged by; the methods of ISO 12241 and fixed coefficients know none."""
    by_faces = methods == "film correlations"
    standing, lying = is_tank & (shapes == "vertical pipe"), is_tank & (shapes == "horizontal pipe")
    has: tuple[tuple[Shape, Flags], ...] = (
        ("duct side", shapes == "rectangular duct"),
        ("duct top", shapes == "rectangular duct"),
        ("duct bottom", shapes == "rectangular duct"),
        ("tank roof", standing),
        ("tank bottom", standing),
        ("tank end", lying),
    )
    return tuple((shape, rows & by_faces) for shape, rows in has if np.any(rows & by_faces))


REGIMES = ("", "laminar", "between laminar and turbulent", "turbulent")


def regimes(system: System, surface: Array) -> NDArray[np.intp]:
    """Return how the air flows along upright faces of one shape at a surface temperature (K): a place in `REGIMES`.

    By the Rayleigh number on the height, as the formula of natural convection is chosen (`nusselt_vertical_face`).
    """
    air = air_properties(film_temperature(surface, system.air_temperature), system.pressure)
    number = rayleigh(air, outline(system).height, surface - as_array(system.air_temperature))
    places = 1 + np.digitize(number, (LAMINAR_RAYLEIGH, TURBULENT_RAYLEIGH), right=True)
    return np.where(np.isnan(number), 0, places)


def _uses_emittance(methods: Words) -> Flags:
    """Return where the method of the surface coefficient needs an emittance."""
    return np.isin(methods, WITH_RADIATION)


def by_method(lines: SurfaceLines) -> Iterator[tuple[Method, Flags]]:
    """Yield each method in use with its rows."""
    for method in METHODS:
        rows = lines.methods == method
        if np.any(rows):
            yield method, np.asarray(rows)


def method_words(methods: Words, before: str = "") -> tuple[TextByLine, TextByLine]:
    """Return method and source in words, line by line; none for an unknown method."""
    codes = np.zeros(methods.shape, dtype=np.intp)
    for number, method in enumerate(METHODS, start=1):
        codes[methods == method] = number
    texts, sources = zip(*METHODS.values(), strict=True)
    return TextByLine(codes, ("", *(before + text for text in texts))), TextByLine(codes, ("", *sources))


def reasons_of(causes: CauseArray, methods: Words) -> tuple[tuple[Flags, str], ...]:
    """Return the causes of a solution as rows and wordings; a missing input is named elsewhere."""
    unknown = ~np.isin(methods, list(METHODS))
    stated = [(causes == code, Cause(int(code)).wording) for code in np.unique(causes) if code > Cause.NOT_GIVEN]
    wording = "the surface coefficient method must be one of " + ", ".join(METHODS)
    unseen = [
        (methods == method, f"the formulas of {name} are not known here") for method, name in UNSEEN_EDITIONS.items()
    ]
    return (*unseen, (unknown, wording), *((rows, why) for rows, why in stated if why and "stocked" not in why))
