"""Curves: the surface temperature and the heat flow of one system against the thickness of its insulation.

In: a case, as the judge has it. Out: the curve over actual thickness, with the proposed and the stocked thicknesses on
it, the limits that concern it, and the minimum thickness for each limit. Everything is in SI units.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from speccheck.judge.computing import plain
from speccheck.judge.explain.workings import worked_text
from speccheck.language.vocabulary.values import NotGiven, Single
from speccheck.physics.calculations.all import work_out, work_out_lines
from speccheck.physics.psychrometrics import ZERO_CELSIUS
from speccheck.physics.thickness import stocked_in
from speccheck.physics.working import GivenInput, Origin, Working
from speccheck.quantities import Quantity

POINTS = 121
# The picture reaches this much past the thickest point that matters, and at least to the first of these thicknesses.
BEYOND = 1.25
LEAST_REACH = 0.0508
MARGIN = 1e-9
TOUCH_LIMIT = ZERO_CELSIUS + 60.0
WARM = ZERO_CELSIUS + 45.0


@dataclass(frozen=True, slots=True)
class Point:
    """A thickness with a name: its actual thickness, its surface temperature and its heat flow (SI)."""

    label: str
    thickness: float
    surface: float
    heat: float


@dataclass(frozen=True, slots=True)
class Limit:
    """A surface temperature that matters, the least actual thickness that meets it, and the first stocked one.

    Either is None where no thickness meets it, or where it cannot be determined (`unknown` says why, "" otherwise). A
    stocked thickness counts by its actual dimensions. `keeps_below` tells a touch limit from a dew point.
    """

    label: str
    temperature: float
    least: float | None
    stocked: Point | None
    working: Working
    keeps_below: bool = False
    unknown: str = ""

    def met_by(self, point: Point | None) -> bool:
        """Say whether a proposed thickness meets the limit: by the minimum, or by its surface where that is unknown."""
        if point is None:
            return False
        if self.unknown:
            return point.surface <= self.temperature if self.keeps_below else point.surface >= self.temperature
        return self.least is not None and point.thickness >= self.least * (1 - MARGIN)


@dataclass(frozen=True, slots=True)
class Face:
    """One face of a duct or a tank: its name, its surface temperatures (K), and that at the proposed thickness."""

    name: str
    surface: tuple[float, ...]
    proposed: float | None


@dataclass(frozen=True, slots=True)
class ThicknessCurve:
    """The curve (actual thickness, surface temperature, heat flow per length or area), its points and its limits."""

    thickness: tuple[float, ...]
    surface: tuple[float, ...]
    heat: tuple[float, ...]
    per_area: bool
    proposed: Point | None
    stocked: tuple[Point, ...]
    limits: tuple[Limit, ...]
    open: tuple[str, ...] = ()
    """What could not be judged, and why, in words."""
    faces: tuple[Face, ...] = ()
    """The faces of a duct or a tank, each with its surface temperature over the same thicknesses."""


def thickness_curve(case: Mapping[str, Single | NotGiven], system: str = "inch-pound") -> ThicknessCurve | Working:
    """Return the curve of a case, or the working of its surface temperature where that cannot be had.

    Thicknesses are called in the units of `system`, "inch-pound" or "metric".
    """
    unit = "mm" if system == "metric" else "in"
    given = {name: value for name, stated in case.items() if (value := plain(stated)) is not None}
    if given.get("insulation") == "none":
        given.setdefault("thickness", 0.0)
    probe = work_out("surface temperature", {**given, "thickness": given.get("thickness", LEAST_REACH / 2)})
    if probe.value is None:
        return probe
    per_area = work_out("heat flow", {**given, "thickness": given.get("thickness", LEAST_REACH / 2)}).value is None
    bare = _without(given, "insulation outside diameter")
    sizes = stocked_in(system)
    stocked = _points(bare, sizes, per_area, unit)
    limits, open_questions = _limits(given, stocked, sizes)
    reach = max(LEAST_REACH, *(BEYOND * (limit.least or 0.0) for limit in limits), BEYOND * _number(given, "thickness"))
    thickness = np.linspace(reach / POINTS, reach, POINTS)
    surface, heat, steps = _along(bare, thickness, per_area)
    stocked = tuple(point for point in stocked if point.thickness <= reach and not math.isnan(point.surface))
    proposed = _points(given, (_number(given, "thickness"),), per_area, unit)[0] if "thickness" in given else None
    open_questions += _unknown_heat(given, per_area)
    return ThicknessCurve(
        tuple(thickness.tolist()),
        tuple(surface),
        tuple(heat),
        per_area,
        proposed,
        stocked,
        limits,
        open_questions,
        _faces(steps, probe if "thickness" in given else None),
    )


_FACE = "surface of the "


def _faces(steps: Mapping[str, Sequence[float]], proposed: Working | None) -> tuple[Face, ...]:
    """Return the faces among the steps of a surface temperature over thicknesses, with those as proposed."""
    found = proposed.steps if proposed is not None else ()
    stated = {step.name: step.value for step in found if isinstance(step.value, float)}
    return tuple(
        Face(name.removeprefix(_FACE), tuple(surface), stated.get(name))
        for name, surface in steps.items()
        if name.startswith(_FACE) and any(math.isfinite(each) for each in surface)
    )


def _number(given: Mapping[str, float | str], name: str) -> float:
    value = given.get(name, 0.0)
    return value if isinstance(value, float) else 0.0


def _without(given: Mapping[str, float | str], *names: str) -> dict[str, float | str]:
    return {name: value for name, value in given.items() if name not in names}


def _along(
    given: Mapping[str, float | str], thickness: np.ndarray, per_area: bool
) -> tuple[list[float], list[float], dict[str, list[float]]]:
    """Return surface temperature and heat flow along actual thicknesses, and the steps of the former that are numbers.

    On pipes the thicknesses set the outside diameter.
    """
    columns: dict[str, object] = {**given, "thickness": thickness}
    diameter = work_out("pipe outside diameter", given).value
    if diameter is not None:
        columns["insulation outside diameter"] = diameter + 2 * thickness
    column = work_out_lines("surface temperature", columns)  # type: ignore[arg-type]
    steps = {
        name: values.tolist()
        for name, _, values in column.outcome.steps
        if isinstance(values, np.ndarray) and values.dtype.kind == "f"
    }
    heat = work_out_lines(_heat_name(per_area), columns).values  # type: ignore[arg-type]
    return column.values.tolist(), heat.tolist(), steps


def _heat_name(per_area: bool) -> str:
    return "surface heat flow" if per_area else "heat flow"


def _points(given: Mapping[str, float | str], sizes: Sequence[float], per_area: bool, unit: str) -> tuple[Point, ...]:
    """Return the points of nominal thicknesses, in metres, at their actual ones; all are worked out in one call."""
    stated: dict[str, object] = {**given, "thickness": np.array(sizes)}
    surface = work_out_lines("surface temperature", stated)  # type: ignore[arg-type]
    heat = work_out_lines(_heat_name(per_area), stated).values  # type: ignore[arg-type]
    found = []
    for row, nominal in enumerate(sizes):
        steps = surface.working(row).steps
        actual = next((step.value for step in steps if step.name == "actual thickness"), nominal)
        label = worked_text(Quantity(nominal, "length", unit)) if nominal else "no insulation"
        found.append(Point(label, float(actual), float(surface.values[row]), float(heat[row])))
    return tuple(found)


def _unknown_heat(given: Mapping[str, float | str], per_area: bool) -> tuple[str, ...]:
    """Return why the heat flow cannot be determined, if it cannot."""
    working = work_out(_heat_name(per_area), {**given, "thickness": given.get("thickness", LEAST_REACH / 2)})
    return () if working.value is not None else (f"heat flow: {_what_stops(working)}",)


def _what_stops(working: Working) -> str:
    """Return the information that is needed, or the cause."""
    return f"information needed: {', '.join(working.missing)}" if working.missing else working.cannot


def _limits(
    given: Mapping[str, float | str], stocked: Sequence[Point], sizes: Sequence[float]
) -> tuple[tuple[Limit, ...], tuple[str, ...]]:
    """Return the limits that concern a system, and what could not be judged; `stocked` are the points of the sizes.

    The dew point concerns cold lines; a stated surface temperature limit every line, and the customary one hot lines;
    the burn threshold of the outer material those of which the time of contact is stated.
    """
    operating, ambient = _number(given, "operating temperature"), _number(given, "ambient temperature")
    found, unknown = [], []
    if operating < ambient:
        dew_point = work_out("dew point", given)
        if dew_point.value is not None:
            working = work_out("condensation thickness", given, stocked=sizes)
            found.append(Limit("dew point", dew_point.value, working.value, None, working))
        else:
            unknown.append(f"condensation: {_what_stops(dew_point)}")
    stated = _number(given, "surface temperature limit")
    if stated or operating > WARM:
        limit = stated or TOUCH_LIMIT
        working = work_out("touch thickness", {**given, "surface temperature limit": limit}, stocked=sizes)
        if not stated:
            working = replace(working, inputs=tuple(_with_origin(each, "assumed") for each in working.inputs))
        label = "touch limit" if stated else "customary touch limit"
        found.append(Limit(label, limit, working.value, None, working, keeps_below=True))
    if "contact time" in given:
        burns = work_out("burn threshold", given)
        if burns.value is not None:
            working = work_out("touch thickness", {**given, "surface temperature limit": burns.value}, stocked=sizes)
            inputs = tuple(_with_origin(each, "worked out") for each in working.inputs)
            working = replace(working, inputs=inputs, parts=(*working.parts, burns))
            found.append(Limit("burn threshold", burns.value, working.value, None, working, keeps_below=True))
        else:
            unknown.append(f"burn threshold: {_what_stops(burns)}")
    conducts = any(name in given for name in ("conductivity", "conductivity curve"))
    one_material = "second layer thickness" not in given
    insulates = one_material and (conducts or work_out("conductivity", given).value is not None)
    return tuple(_completed(one, stocked, insulates) for one in found), tuple(unknown)


def _with_origin(given: GivenInput, origin: Origin) -> GivenInput:
    """Return an input with where it came from, if it is the limit that nobody stated."""
    return replace(given, origin=origin) if given.name == "surface temperature limit" else given


def _completed(limit: Limit, stocked: Sequence[Point], insulates: bool) -> Limit:
    """Return a limit with the first stocked thickness that meets it, or with why no thickness can be determined."""
    if not insulates:
        return replace(limit, unknown=_what_stops(limit.working))
    return replace(limit, stocked=next((point for point in stocked if limit.met_by(point)), None))
