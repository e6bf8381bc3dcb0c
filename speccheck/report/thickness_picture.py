"""The picture of a thickness curve: surface temperature and heat flow against thickness, as SVG.

Two panels share the thickness axis. The limit is a line across the upper one; the proposed thickness is a full dot, the
stocked ones are rings, and each is named in words, so that the picture reads without colour.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

from speccheck.judge.curves import Limit, Point, ThicknessCurve
from speccheck.quantities import Quantity, convert
from speccheck.report.labels import Box, Labels

WIDTH, HEIGHT = 640, 470
LEFT, RIGHT = 64, 24
UPPER, LOWER = (48, 250), (296, 420)
INK, QUIET, WARM, COOL, PAPER = "#22282b", "#6a7276", "#8c3a1f", "#1f5673", "#fffefa"
STYLE = f'font-family="Georgia, serif" font-size="12" fill="{INK}" stroke-linecap="round" stroke-linejoin="round"'


@dataclass(frozen=True, slots=True)
class _Scale:
    """A linear scale from values to places on the page."""

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        return self.start + (value - self.low) / (self.high - self.low) * (self.end - self.start)


@dataclass(frozen=True, slots=True)
class _Units:
    """The units of one system: of thickness, temperature and heat flow."""

    thickness: str
    temperature: str
    heat: str


def draw_thickness(curve: ThicknessCurve, title: str, system: str = "inch-pound") -> str:
    """Return the picture as an SVG document of its own; `title` is its heading and its text alternative."""
    units = _units(curve, system)
    across = _Scale(0.0, _in(curve.thickness[-1], units.thickness), LEFT, WIDTH - RIGHT)
    parts = [
        f'<rect width="{WIDTH}" height="{HEIGHT}" fill="{PAPER}"/>',
        _text(LEFT, 24, title, size=15, weight="bold"),
        *_upper(curve, units, across),
        *_lower(curve, units, across),
    ]
    head = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" {STYLE}>'
    return "\n".join([head, f"<title>{escape(title)}</title>", *parts, "</svg>"]) + "\n"


def _units(curve: ThicknessCurve, system: str) -> _Units:
    metric = system == "metric"
    if curve.per_area:
        return _Units("mm", "C", "W/m2") if metric else _Units("in", "F", "Btu/(h.ft2)")
    return _Units("mm", "C", "W/m") if metric else _Units("in", "F", "Btu/(h.ft)")


def _upper(curve: ThicknessCurve, units: _Units, across: _Scale) -> list[str]:
    """Draw surface temperature: axis, curve, limits, dots."""
    temperatures = [_temperature(value, units) for value in curve.surface if math.isfinite(value)]
    limits = [_temperature(limit.temperature, units) for limit in curve.limits]
    up = _scale((*temperatures, *limits), UPPER[1], UPPER[0])
    parts = _axes(across, up, f"surface temperature, {units.temperature}", "")
    parts.append(
        _path(curve.thickness, [_temperature(value, units) for value in curve.surface], units, across, up, COOL)
    )
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


def _keep_rings_free(
    labels: Labels, curve: ThicknessCurve, values: Sequence[float], units: _Units, across: _Scale, up: _Scale
) -> None:
    for point, value in zip(curve.stocked, values, strict=True):
        if math.isfinite(value):
            labels.keep_free(across.at(_in(point.thickness, units.thickness)), up.at(value), 5)


def _lower(curve: ThicknessCurve, units: _Units, across: _Scale) -> list[str]:
    """Draw heat flow: axis from nothing up, curve, dots."""
    heats = [_heat(value, curve, units) for value in curve.heat]
    shown = [value for value in heats if math.isfinite(value)]
    if not shown:
        return [_text(LEFT, LOWER[0], "heat flow: cannot be determined from what is stated", colour=QUIET)]
    points = [*curve.stocked, *([curve.proposed] if curve.proposed else [])]
    top = 1.6 * max([_heat(point.heat, curve, units) for point in points if math.isfinite(point.heat)] or shown)
    up = _scale((0.0, min(top, max(shown))), LOWER[1], LOWER[0])
    parts = _axes(across, up, f"heat flow, {units.heat}", f"actual thickness of the insulation, {units.thickness}")
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


def _limit(limit: Limit, units: _Units, across: _Scale, up: _Scale, labels: Labels) -> list[str]:
    level = up.at(_temperature(limit.temperature, units))
    written = Quantity(round(limit.temperature, 2), "temperature", units.temperature)
    words = f"{limit.label} {_short(written.in_unit(units.temperature))} {units.temperature}"
    if limit.least is not None:
        words += f": at least {_short(_in(limit.least, units.thickness))} {units.thickness}"
    parts = [_line((LEFT, level), (WIDTH - RIGHT, level), WARM, 1.5, ' stroke-dasharray="6 4"')]
    if limit.least is not None and limit.least > 0:
        place = across.at(_in(limit.least, units.thickness))
        parts.append(_line((place, level), (place, UPPER[1]), WARM, 1.0))
    # The words come last: what is behind them keeps clear of their letters.
    return [*parts, _label(labels, WIDTH - RIGHT, level - 6, words, anchor="end", colour=WARM)]


def _axes(across: _Scale, up: _Scale, title: str, below: str) -> list[str]:
    """Draw the frame of a panel, its ticks and their numbers."""
    top, bottom = min(up.start, up.end), max(up.start, up.end)
    parts = [_text(LEFT, top - 8, title, colour=QUIET)]
    for value in _ticks(up.low, up.high):
        level = up.at(value)
        parts.append(_line((LEFT, level), (WIDTH - RIGHT, level), QUIET, 0.4))
        parts.append(_text(LEFT - 8, level + 4, _short(value), anchor="end", colour=QUIET))
    for value in _ticks(across.low, across.high):
        place = across.at(value)
        parts.append(_line((place, bottom), (place, bottom + 5), QUIET, 1.0))
        if below:
            parts.append(_text(place, bottom + 20, _short(value), anchor="middle", colour=QUIET))
    if below:
        parts.append(_text((LEFT + WIDTH - RIGHT) / 2, bottom + 38, below, anchor="middle", colour=QUIET))
    parts.append(f'<line x1="{LEFT}" x2="{LEFT}" y1="{top}" y2="{bottom}" stroke="{INK}" stroke-width="1"/>')
    parts.append(
        f'<line x1="{LEFT}" x2="{WIDTH - RIGHT}" y1="{bottom}" y2="{bottom}" stroke="{INK}" stroke-width="1"/>'
    )
    return parts


def _line(start: tuple[float, float], end: tuple[float, float], colour: str, width: float, extra: str = "") -> str:
    return (
        f'<line x1="{start[0]:.1f}" y1="{start[1]:.1f}" x2="{end[0]:.1f}" y2="{end[1]:.1f}" stroke="{colour}" '
        f'stroke-width="{width}"{extra}/>'
    )


def _path(
    thickness: Sequence[float], values: Sequence[float], units: _Units, across: _Scale, up: _Scale, colour: str
) -> str:
    pairs = zip(thickness, values, strict=True)
    places = [
        f"{across.at(_in(size, units.thickness)):.1f} {up.at(value):.1f}"
        for size, value in pairs
        if math.isfinite(value)
    ]
    return f'<path d="M{" L".join(places)}" fill="none" stroke="{colour}" stroke-width="2"/>' if places else ""


def _ring(point: Point, value: float, units: _Units, across: _Scale, up: _Scale, labels: Labels) -> str:
    if not math.isfinite(value) or value > up.high or value < up.low:
        return ""
    x, y = across.at(_in(point.thickness, units.thickness)), up.at(value)
    ring = f'<circle cx="{x:.1f}" cy="{y:.1f}" r="4" fill="{PAPER}" stroke="{INK}" stroke-width="1.2"/>'
    return ring + _label(labels, x, y + 18, point.label, anchor="middle", size=10, colour=QUIET)


def _dot(point: Point, value: float, units: _Units, across: _Scale, up: _Scale, labels: Labels) -> list[str]:
    if not math.isfinite(value):
        return []
    x, y = across.at(_in(point.thickness, units.thickness)), up.at(value)
    words = f"proposed {point.label}: {_short(value)} {units.temperature}"
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
    return _text(x, y if free is None else free, words, anchor=anchor, size=size, weight=weight, colour=colour)


def _mark(x: float, y: float) -> str:
    return f'<circle cx="{x:.1f}" cy="{y:.1f}" r="5.5" fill="{INK}"/>' if math.isfinite(y) else ""


def _text(
    x: float, y: float, words: str, *, anchor: str = "start", size: int = 12, weight: str = "", colour: str = INK
) -> str:
    # A rim in the colour of the paper keeps words readable where a line runs behind them.
    extra = f' paint-order="stroke" stroke="{PAPER}" stroke-width="3"'
    extra += f' font-weight="{weight}"' if weight else ""
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" font-size="{size}" fill="{colour}"{extra}>'
        f"{escape(words)}</text>"
    )


def _scale(values: Sequence[float], start: float, end: float) -> _Scale:
    """Return a scale over the values with a little room above and below, on whole ticks."""
    low, high = min(values), max(values)
    step = _step((high - low) or 1.0)
    return _Scale(math.floor(low / step) * step, math.ceil(high / step + 0.2) * step, start, end)


def _ticks(low: float, high: float) -> list[float]:
    step = _step(high - low)
    first = math.ceil(low / step - 1e-9)
    return [round((first + number) * step, 10) for number in range(int((high - low) / step + 1e-9) + 1)]


def _step(span: float) -> float:
    """Return 1, 2 or 5 times a power of ten, so that a span has about five steps."""
    power = 10.0 ** math.floor(math.log10(span / 5))
    return next(power * factor for factor in (1, 2, 5, 10) if power * factor >= span / 5)


def _in(metres: float, unit: str) -> float:
    return convert(metres, "m", unit)


def _temperature(kelvin: float, units: _Units) -> float:
    return Quantity(kelvin, "temperature", units.temperature).in_unit(units.temperature)


def _heat(value: float, curve: ThicknessCurve, units: _Units) -> float:
    dimension = "heat flow per area" if curve.per_area else "heat flow per length"
    return Quantity(value, dimension, units.heat).in_unit(units.heat)


def _short(value: float) -> str:
    return f"{value:.3g}" if abs(value) < 100 else f"{value:.0f}"
