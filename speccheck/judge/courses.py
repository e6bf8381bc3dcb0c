"""Courses: what a line asks for beside its surface and its heat flow, and how that runs over one of its inputs.

In: a case, as the judge has it. Out: the values that it asks for, each with its working, and the courses of those that
are worth a picture. Everything is in SI units.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from speccheck.judge.computing import plain
from speccheck.language.vocabulary.values import NotGiven, Single
from speccheck.physics.calculations.all import CALCULATIONS, work_out, work_out_lines
from speccheck.physics.thickness import stocked_in
from speccheck.physics.working import Working

POINTS = 61
REACH = 1.5
"""How far a course goes beyond what is stated."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A computed value, the input whose statement asks for it, and the input over which its course is drawn, if any."""

    name: str
    by: str
    over: str = ""


ASKED = (
    Asked("radiant surface temperature", "surroundings temperature", over="thickness"),
    Asked("sunlit surface temperature", "solar irradiance", over="thickness"),
    Asked("night surface temperature", "sky temperature", over="thickness"),
    Asked("design conductivity", "joint factor"),
    Asked("design surface temperature", "joint factor", over="thickness"),
    Asked("design heat flow", "joint factor", over="thickness"),
    Asked("tank heat flow", "tank height", over="thickness"),
    Asked("buried heat flow", "burial depth", over="burial depth"),
    Asked("outlet temperature", "fluid velocity", over="run length"),
    Asked("holding time", "fluid temperature limit", over="thickness"),
    Asked("icing time", "ice share", over="thickness"),
    Asked("heat trace load", "maintained temperature", over="thickness"),
    Asked("run heat flow", "hanger loss share", over="run length"),
    Asked("sweating hours", "weather", over="thickness"),
    Asked("yearly heat", "operating hours"),
    Asked("yearly energy", "energy efficiency"),
    Asked("yearly cost", "energy price", over="thickness"),
    Asked("bare yearly cost", "energy price"),
    Asked("required yearly cost", "required thickness"),
    Asked("yearly carbon", "carbon factor"),
    Asked("bare yearly carbon", "carbon factor"),
    Asked("required yearly carbon", "required thickness"),
    Asked("economic thickness", "insulation price per cubic metre"),
    Asked("exceeded dew point", "exceedance"),
    Asked("yearly moisture gain", "service years"),
    Asked("water content", "service years", over="service years"),
    Asked("wet conductivity", "service years"),
    Asked("wet surface temperature", "service years", over="service years"),
    Asked("vapor spread", "vapor stop spacing"),
    Asked("length at risk", "vapor stop spacing"),
)
"""The values beside surface and heat flow, in the order in which they are shown."""

SAID_IN = {
    "yearly heat": "kWh",
    "yearly energy": "kWh",
    "yearly carbon": "kg",
    "bare yearly carbon": "kg",
    "required yearly carbon": "kg",
}
"""What values that are bare numbers are in."""

DRAWN = tuple(one.name for one in ASKED if one.over)
"""The names of the values that have a course."""


@dataclass(frozen=True, slots=True)
class Course:
    """How a value runs over one of its inputs; `stated` and `value` are the point that the line states."""

    name: str
    dimension: str
    over: str
    over_dimension: str
    places: tuple[float, ...]
    values: tuple[float, ...]
    stated: float
    value: float


def asked_values(case: Mapping[str, Single | NotGiven], system: str = "inch-pound") -> tuple[Working, ...]:
    """Return the values that a case asks for, with their working or with what stops them.

    Thicknesses that can be had are those commonly stocked in `system`, "inch-pound" or "metric".
    """
    given = _plain(case)
    return tuple(work_out(one.name, given, stocked=stocked_in(system)) for one in ASKED if one.by in given)


def courses(case: Mapping[str, Single | NotGiven], names: tuple[str, ...] = DRAWN) -> tuple[Course, ...]:
    """Return the courses of a case among `names`; what cannot be worked out has none."""
    given = _plain(case)
    found = (_course(one, given) for one in ASKED if one.over in given and one.by in given and one.name in names)
    return tuple(course for course in found if course is not None)


def _course(asked: Asked, given: Mapping[str, float | str]) -> Course | None:
    """Return how a value runs from nothing to beyond what is stated."""
    made, stated = CALCULATIONS[asked.name], given[asked.over]
    value = work_out(asked.name, given).value
    if value is None or not isinstance(stated, float | int) or not 0 < stated < np.inf:
        return None
    over, pipe = asked.over, _diameter("pipe outside diameter", given)
    outside = _diameter("insulation outside diameter", given) if over == "thickness" and pipe else None
    if outside and pipe:  # tables of actual sizes would make steps of a course over nominal ones
        over, stated = "actual thickness", (outside - pipe) / 2
    places = np.linspace(0.0, REACH * stated, POINTS)
    actual = {"insulation outside diameter": pipe + 2 * places} if over == "actual thickness" and pipe else {}
    values = work_out_lines(asked.name, {**given, asked.over: places, **actual}).values
    if not np.any(np.isfinite(values)):
        return None
    dimension = _dimension(asked.over)
    return Course(
        asked.name, made.dimension, over, dimension, tuple(places.tolist()), tuple(values.tolist()), stated, value
    )


def _diameter(name: str, given: Mapping[str, float | str]) -> float | None:
    """Return a diameter as it is stated, or as it is worked out."""
    stated = given.get(name)
    return stated if isinstance(stated, float) else work_out(name, given).value


def _dimension(name: str) -> str:
    """Return the dimension of an input, as the calculations have it."""
    return next(each.dimension for made in CALCULATIONS.values() for each in made.inputs if each.name == name)


def _plain(case: Mapping[str, Single | NotGiven]) -> dict[str, float | str]:
    return {name: value for name, stated in case.items() if (value := plain(stated)) is not None}
