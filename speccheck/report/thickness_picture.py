"""The picture of a thickness curve: surface temperature and heat flow against thickness, as SVG.

Two panels share the thickness axis. The limit is a line across the upper one; the proposed thickness is a full dot, the
stocked ones are rings, and each is named in words, so that the picture reads without colour. Labels are set where they
cover neither a mark nor each other.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from speccheck.judge.courses import Course
from speccheck.judge.curves import Limit, Point, ThicknessCurve
from speccheck.quantities import Quantity, convert
from speccheck.report.course_picture import PANEL, course_panel
from speccheck.report.drawing import (
    COOL,
    INK,
    LEFT,
    PAPER,
    QUIET,
    RIGHT,
    WARM,
    WIDTH,
    Scale,
    axes,
    lettering,
    picture,
    rule,
    scale_over,
    short,
)

WIDE = 0.62
"""How wide a letter is at most on average, as a part of the size of type: generous for the serif faces in use."""
STEP = 4.0
FURTHEST = 15


@dataclass(frozen=True, slots=True)
class Box:
    """A rectangle that something takes up."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        """Tell whether the two share some place."""
        across = self.left < other.right and other.left < self.right
        return across and self.top < other.bottom and other.top < self.bottom


def text_box(x: float, y: float, words: str, anchor: str, size: float) -> Box:
    """Return the place that words take up, as SVG draws them: `x` by their anchor, `y` their base line."""
    width = WIDE * size * len(words)
    left = x - {"start": 0.0, "middle": width / 2, "end": width}[anchor]
    return Box(left, y - 0.9 * size, left + width, y + 0.3 * size)


@dataclass(slots=True)
class Labels:
    """The labels of one panel, and what else of it must not be covered; none is placed beyond `top` or `bottom`."""

    top: float
    bottom: float
    taken: list[Box] = field(default_factory=list)

    def place(self, x: float, y: float, words: str, anchor: str = "start", size: float = 12) -> float | None:
        """Return the base line nearest to `y` at which the words stand free, None where there is no such place."""
        for step in (0, *(sign * number for number in range(1, FURTHEST) for sign in (1, -1))):
            box = text_box(x, y + step * STEP, words, anchor, size)
            inside = self.top <= box.top and box.bottom <= self.bottom
            if inside and not any(box.meets(other) for other in self.taken):
                self.taken.append(box)
                return y + step * STEP
        return None

    def keep_free(self, x: float, y: float, reach: float) -> None:
        """Keep labels away from a mark at a place, by `reach` pixels."""
        self.taken.append(Box(x - reach, y - reach, x + reach, y + reach))


HEIGHT = 470
UPPER, LOWER = (48, 250), (296, 420)
LEGEND = 40
"""Base line of the legend of faces."""

LETTER = 5.0
"""How wide a letter of the legend is on average."""

DASHES = ("1 0", "6 3", "2 3")
"""How the lines of faces are broken, in their order; a duct has three, a standing tank too."""


@dataclass(frozen=True, slots=True)
class _Units:
    """The units of one system: of thickness, temperature and heat flow."""

    thickness: str
    temperature: str
    heat: str


def draw_thickness(
    curve: ThicknessCurve, title: str, system: str = "inch-pound", courses: Sequence[Course] = ()
) -> str:
    """Return the picture as an SVG document of its own; `title` is its heading and its text alternative.

    Each of the courses has a panel below.
    """
    units = _units(curve, system)
    across = Scale(0.0, _in(curve.thickness[-1], units.thickness), LEFT, WIDTH - RIGHT)
    tops = [HEIGHT + number * PANEL for number in range(len(courses))]
    panels = [part for one, top in zip(courses, tops, strict=True) for part in course_panel(one, top, system)]
    heading = lettering(LEFT, 24, title, size=15, weight="bold")
    parts = [heading, *_upper(curve, units, across), *_lower(curve, units, across), *panels]
    return picture(parts, HEIGHT + PANEL * len(courses), title)


def _units(curve: ThicknessCurve, system: str) -> _Units:
    metric = system == "metric"
    if curve.per_area:
        return _Units("mm", "C", "W/m2") if metric else _Units("in", "F", "Btu/(h.ft2)")
    return _Units("mm", "C", "W/m") if metric else _Units("in", "F", "Btu/(h.ft)")


def _upper(curve: ThicknessCurve, units: _Units, across: Scale) -> list[str]:
    """Draw surface temperature: axis, curve, limits, dots."""
    shown = (curve.surface, *(face.surface for face in curve.faces))
    temperatures = [_temperature(value, units) for surface in shown for value in surface if math.isfinite(value)]
    limits = [_temperature(limit.temperature, units) for limit in curve.limits]
    up = scale_over((*temperatures, *limits), UPPER[1], UPPER[0])
    parts = axes(across, up, f"surface temperature, {units.temperature}", "")
    parts.append(
        _path(curve.thickness, [_temperature(value, units) for value in curve.surface], units, across, up, COOL)
    )
    for face, dashes in zip(curve.faces, DASHES, strict=False):
        values = [_temperature(value, units) for value in face.surface]
        parts.append(_path(curve.thickness, values, units, across, up, QUIET, f' stroke-dasharray="{dashes}"', 1.2))
    parts += _legend([face.name for face in curve.faces])
    labels = Labels(UPPER[0], UPPER[1])
    for level in limits:
        labels.taken.append(Box(LEFT, up.at(level) - 1, WIDTH - RIGHT, up.at(level) + 1))
    _keep_rings_free(labels, curve, [_temperature(point.surface, units) for point in curve.stocked], units, across, up)
    dot: list[str] = []
    if curve.proposed is not None:
        dot = _dot(curve.proposed, _temperature(curve.proposed.surface, units), units, across, up, labels)
    for limit in curve.limits:
        parts += _limit(limit, units, across, up, labels)
    for point in curve.stocked:
        parts.append(_ring(point, _temperature(point.surface, units), units, across, up, labels))
    return [*parts, *dot]


def _legend(names: Sequence[str]) -> list[str]:
    """Return the names of faces, each behind a piece of its line, above the panel on the right."""
    parts: list[str] = []
    right = float(WIDTH - RIGHT)
    for name, dashes in reversed(list(zip(names, DASHES, strict=False))):
        start = right - LETTER * len(name) - 34
        parts += [
            rule((start, LEGEND - 3), (start + 28, LEGEND - 3), QUIET, 1.2, f' stroke-dasharray="{dashes}"'),
            lettering(right, LEGEND, name, anchor="end", size=10, colour=QUIET),
        ]
        right = start - 14
    return parts


def _keep_rings_free(
    labels: Labels, curve: ThicknessCurve, values: Sequence[float], units: _Units, across: Scale, up: Scale
) -> None:
    for point, value in zip(curve.stocked, values, strict=True):
        if math.isfinite(value):
            labels.keep_free(across.at(_in(point.thickness, units.thickness)), up.at(value), 5)


def _lower(curve: ThicknessCurve, units: _Units, across: Scale) -> list[str]:
    """Draw heat flow: axis from nothing up, curve, dots."""
    heats = [_heat(value, curve, units) for value in curve.heat]
    shown = [value for value in heats if math.isfinite(value)]
    if not shown:
        return [lettering(LEFT, LOWER[0], "heat flow: cannot be determined from what is stated", colour=QUIET)]
    points = [*curve.stocked, *([curve.proposed] if curve.proposed else [])]
    top = 1.6 * max([_heat(point.heat, curve, units) for point in points if math.isfinite(point.heat)] or shown)
    up = scale_over((0.0, min(top, max(shown))), LOWER[1], LOWER[0])
    parts = axes(across, up, f"heat flow, {units.heat}", f"actual thickness of the insulation, {units.thickness}")
    inside = [value if value <= up.high else math.nan for value in heats]
    parts.append(_path(curve.thickness, inside, units, across, up, QUIET))
    labels = Labels(LOWER[0], LOWER[1])
    _keep_rings_free(labels, curve, [_heat(point.heat, curve, units) for point in curve.stocked], units, across, up)
    parts += [_ring(point, _heat(point.heat, curve, units), units, across, up, labels) for point in curve.stocked]
    if curve.proposed is not None:
        parts.append(
            _mark(
                across.at(_in(curve.proposed.thickness, units.thickness)),
                up.at(_heat(curve.proposed.heat, curve, units)),
            )
        )
    return parts


def _limit(limit: Limit, units: _Units, across: Scale, up: Scale, labels: Labels) -> list[str]:
    level = up.at(_temperature(limit.temperature, units))
    written = Quantity(round(limit.temperature, 2), "temperature", units.temperature)
    words = f"{limit.label} {short(written.in_unit(units.temperature))} {units.temperature}"
    if limit.least is not None:
        words += f": at least {short(_in(limit.least, units.thickness))} {units.thickness}"
    parts = [rule((LEFT, level), (WIDTH - RIGHT, level), WARM, 1.5, ' stroke-dasharray="6 4"')]
    if limit.least is not None and limit.least > 0:
        place = across.at(_in(limit.least, units.thickness))
        parts.append(rule((place, level), (place, UPPER[1]), WARM, 1.0))
    # The words come last: what is behind them keeps clear of their letters.
    return [*parts, _label(labels, WIDTH - RIGHT, level - 6, words, anchor="end", colour=WARM)]


def _path(
    thickness: Sequence[float],
    values: Sequence[float],
    units: _Units,
    across: Scale,
    up: Scale,
    colour: str,
    more: str = "",
    width: float = 2,
) -> str:
    pairs = zip(thickness, values, strict=True)
    places = [
        f"{across.at(_in(size, units.thickness)):.1f} {up.at(value):.1f}"
        for size, value in pairs
        if math.isfinite(value)
    ]
    return (
        f'<path d="M{" L".join(places)}" fill="none" stroke="{colour}" stroke-width="{width:g}"{more}/>'
        if places
        else ""
    )


def _ring(point: Point, value: float, units: _Units, across: Scale, up: Scale, labels: Labels) -> str:
    if not math.isfinite(value) or value > up.high or value < up.low:
        return ""
    x, y = across.at(_in(point.thickness, units.thickness)), up.at(value)
    ring = f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4" fill="{PAPER}" stroke="{INK}" stroke-width="1.2"/>'
    return ring + _label(labels, x, y + 18, point.label, anchor="middle", size=10, colour=QUIET)


def _dot(point: Point, value: float, units: _Units, across: Scale, up: Scale, labels: Labels) -> list[str]:
    if not math.isfinite(value):
        return []
    x, y = across.at(_in(point.thickness, units.thickness)), up.at(value)
    words = f"proposed {point.label}: {short(value)} {units.temperature}"
    anchor = "end" if x > (LEFT + WIDTH) / 2 else "start"
    labels.keep_free(x, y, 6)
    return [
        _mark(x, y),
        _label(labels, x + (-8 if anchor == "end" else 8), y - 10, words, anchor=anchor, weight="bold"),
    ]


def _label(
    labels: Labels, x: float, y: float, words: str, *, anchor: str, size: int = 12, weight: str = "", colour: str = INK
) -> str:
    """Return words where they run into no others; those of a ring for which there is no room are left out."""
    free = labels.place(x, y, words, anchor, size)
    if free is None and size < 12:
        return ""
    return lettering(x, y if free is None else free, words, anchor=anchor, size=size, weight=weight, colour=colour)


def _mark(x: float, y: float) -> str:
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="5.5" fill="{INK}"/>' if math.isfinite(y) else ""


def _in(metres: float, unit: str) -> float:
    return convert(metres, "m", unit)


def _temperature(kelvin: float, units: _Units) -> float:
    return Quantity(kelvin, "temperature", units.temperature).in_unit(units.temperature)


def _heat(value: float, curve: ThicknessCurve, units: _Units) -> float:
    dimension = "heat flow per area" if curve.per_area else "heat flow per length"
    return Quantity(value, dimension, units.heat).in_unit(units.heat)
