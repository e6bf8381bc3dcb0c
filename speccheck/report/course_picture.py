"""The picture of a course: how a computed value of one system runs over one of its inputs, as a panel of an SVG."""

from __future__ import annotations

import math
from collections.abc import Sequence

from speccheck.judge.courses import Course
from speccheck.judge.explain.workings import amount_words
from speccheck.quantities import DIMENSIONS, Quantity
from speccheck.report.drawing import (
    COOL,
    INK,
    LEFT,
    RIGHT,
    WIDTH,
    Scale,
    axes,
    lettering,
    picture,
    scale_over,
    short,
)

PANEL = 190
"""Height of one panel with the words below it."""

UPPER, LOWER = 30, 140
LONG = 2.0
"""Length (m) from which a run is told in feet and metres."""


def draw_courses(courses: Sequence[Course], title: str, system: str = "inch-pound") -> str:
    """Return courses as an SVG document of its own; `title` is its heading and its text alternative."""
    heading = lettering(LEFT, 24, title, size=15, weight="bold")
    panels = [part for number, one in enumerate(courses) for part in course_panel(one, 30 + number * PANEL, system)]
    return picture([heading, *panels], 30 + PANEL * len(courses), title)


def course_panel(course: Course, top: float, system: str) -> list[str]:
    """Draw one course below `top`: its axes, its curve, and the stated point in words."""
    unit, over = _unit(course.dimension, system), _unit(course.over_dimension, system)
    if course.over_dimension == "length" and course.places[-1] > LONG:
        over = "m" if system == "metric" else "ft"
    places = [_in(place, course.over_dimension, over) for place in course.places]
    values = [_in(value, course.dimension, unit) for value in course.values]
    here = _in(course.stated, course.over_dimension, over), _in(course.value, course.dimension, unit)
    across = Scale(places[0], places[-1], LEFT, WIDTH - RIGHT)
    shown = [value for value in (*values, here[1]) if math.isfinite(value)]
    if max(shown) - min(shown) <= 1e-9 * abs(max(shown)):
        shown.append(max(shown) + (abs(max(shown)) or 1.0))
    up = scale_over(shown, top + LOWER, top + UPPER)
    parts = axes(across, up, _named(course.name, unit), _named(course.over, over))
    pairs = zip(places, values, strict=True)
    points = [f"{across.at(x):.1f} {up.at(y):.1f}" for x, y in pairs if math.isfinite(y)]
    parts.append(f'<path d="M{" L".join(points)}" fill="none" stroke="{COOL}" stroke-width="2"/>')
    x, y = across.at(here[0]), up.at(here[1])
    parts.append(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="5.5" fill="{INK}"/>')
    text = f"{amount_words(course.value, course.dimension, system)} at {short(here[0])} {over}".rstrip()
    # The words stand on the side where the curve is not: above a curve that falls, and left of one that rises.
    parts.append(lettering(x - 8, y - 10, text, anchor="end", weight="bold"))
    return parts


def _unit(dimension: str, system: str) -> str:
    """Return the usual unit of a dimension; empty for bare numbers."""
    known = DIMENSIONS.get(dimension)
    return "" if known is None else known.metric if system == "metric" else known.inch_pound


def _named(name: str, unit: str) -> str:
    return f"{name}, {unit}" if unit else name


def _in(value: float, dimension: str, unit: str) -> float:
    return Quantity(value, dimension, unit).in_unit(unit) if unit and math.isfinite(value) else value
