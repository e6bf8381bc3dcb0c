"""One system in a terminal: surface temperature, heat flow, limits and minimum thickness, with the working."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING

from speccheck.judge.courses import SAID_IN
from speccheck.judge.curves import Point, ThicknessCurve
from speccheck.judge.explain.workings import amount_words, input_words
from speccheck.physics.working import Working
from speccheck.report.cautions import STANDING_CAUTIONS
from speccheck.report.terminal.diagnostics import ConsolePage

if TYPE_CHECKING:
    from rich.console import Console


def print_thickness(
    curve: ThicknessCurve,
    system: str,
    console: Console | None = None,
    *,
    width: int | None = None,
    asked: Sequence[Working] = (),
) -> None:
    """Print what a curve says, and the values that the line asks for besides, in the units of `system`."""
    page = ConsolePage(console, width)
    if curve.proposed is not None:
        page.line(_point(curve.proposed, curve, system), lead=f"Proposed {curve.proposed.label}:")
    faces = ", ".join(
        f"{face.name} {amount_words(face.proposed, 'temperature', system)}"
        for face in curve.faces
        if face.proposed is not None
    )
    if faces:
        page.line(f"{faces}; the worst of them counts", lead="Surface of each face:")
    for limit in curve.limits:
        temperature = amount_words(limit.temperature, "temperature", system)
        met = "met" if limit.met_by(curve.proposed) else "not met"
        if limit.unknown:
            proposed = f"{met} as proposed; " if curve.proposed else ""
            words = f"{proposed}the minimum thickness cannot be determined: {limit.unknown}"
            page.line(words, lead=f"{limit.label} {temperature}:")
            continue
        if limit.least is None:
            page.line(f"no thickness meets it: {limit.working.cannot}", lead=f"{limit.label} {temperature}:")
            continue
        stocked = f"; first stocked thickness that has it: {limit.stocked.label}" if limit.stocked else ""
        words = f"at least {amount_words(limit.least, 'length', system)} actual thickness{stocked}"
        page.line(words + (f"; {met} as proposed" if curve.proposed else ""), lead=f"{limit.label} {temperature}:")
    for each in curve.open:
        page.line(each, lead="Not judged:")
    for working in asked:
        page.line(_worked(working, system), lead=f"{working.name.capitalize()}:")
    if curve.stocked:
        page.line()
        page.line("Stocked thicknesses", "bold")
    for point in curve.stocked:
        page.line(_point(point, curve, system), lead=f"{point.label}:", indent=2)
    workings = [*(limit.working for limit in curve.limits), *(one for one in asked if one.value is not None)]
    for working in workings:
        page.line()
        _print_working(page, working, system)
    page.line()
    for caution in STANDING_CAUTIONS:
        page.line(caution, "dim")


def print_stopped(
    working: Working,
    system: str,
    asked: Sequence[Working] = (),
    console: Console | None = None,
    *,
    width: int | None = None,
) -> None:
    """Print why a value cannot be worked out, and the values that the line asks for besides."""
    page = ConsolePage(console, width)
    why = f"it needs {', '.join(working.missing)}" if working.missing else working.cannot
    page.line(why, lead=f"The {working.name} cannot be worked out:")
    for each in asked:
        page.line(_worked(each, system), lead=f"{each.name.capitalize()}:")


def _worked(working: Working, system: str) -> str:
    """Return a value that was asked for, or why it cannot be determined."""
    if working.value is not None:
        return f"{amount_words(working.value, working.dimension, system)} {SAID_IN.get(working.name, '')}".rstrip()
    needed = f"information needed: {', '.join(working.missing)}"
    return f"cannot be determined: {needed if working.missing else working.cannot}"


def _point(point: Point, curve: ThicknessCurve, system: str) -> str:
    dimension = "heat flow per area" if curve.per_area else "heat flow per length"
    actual = amount_words(point.thickness, "length", system)
    surface = _amount_or_unknown(point.surface, "temperature", system)
    heat = _amount_or_unknown(point.heat, dimension, system)
    return f"surface {surface}, heat flow {heat} (actual thickness {actual})"


def _amount_or_unknown(value: float, dimension: str, system: str) -> str:
    return amount_words(value, dimension, system) if math.isfinite(value) else "not known"


def _print_working(page: ConsolePage, working: Working, system: str) -> None:
    """Print the working of a value: inputs, method, steps, source."""
    page.line(working.method, lead=f"{working.name}:")
    for given in working.inputs:
        page.line(input_words(given, system), lead=f"{given.name}:", indent=2)
    for step in working.steps:
        page.line(amount_words(step.value, step.dimension, system), lead=f"{step.name}:", indent=2)
    page.line(working.source, "dim", lead="source:", indent=2)
    for part in working.parts:
        page.line(f"{part.method}; {part.source}", "dim", lead=f"{part.name}:", indent=2)
        for step in part.steps:
            page.line(amount_words(step.value, step.dimension, system), lead=f"{step.name}:", indent=4)
