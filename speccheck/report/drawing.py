"""Drawing as SVG: scales, axes, lines and words, in the ink and on the paper of all pictures of this house."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from html import escape

WIDTH = 640
LEFT, RIGHT = 64, 24
INK, QUIET, WARM, COOL, PAPER = "#22282b", "#6a7276", "#8c3a1f", "#1f5673", "#fffefa"
STYLE = f'font-family="Georgia, serif" font-size="12" fill="{INK}" stroke-linecap="round" stroke-linejoin="round"'


@dataclass(frozen=True, slots=True)
class Scale:
    """A linear scale from values to places on the page."""

    low: float
    high: float
    start: float
    end: float

    def at(self, value: float) -> float:
        """Return the place of a value, in pixels."""
        return self.start + (value - self.low) / (self.high - self.low) * (self.end - self.start)


def picture(parts: Sequence[str], height: int, title: str) -> str:
    """Return an SVG document of its own; `title` is its text alternative."""
    head = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {height}" role="img" {STYLE}>'
    paper = f'<rect width="{WIDTH}" height="{height}" fill="{PAPER}"/>'
    return "\n".join([head, f"<title>{escape(title)}</title>", paper, *parts, "</svg>"]) + "\n"


def axes(across: Scale, up: Scale, title: str, below: str) -> list[str]:
    """Draw the frame of a panel, its ticks and their numbers."""
    top, bottom = min(up.start, up.end), max(up.start, up.end)
    parts = [lettering(LEFT, top - 8, title, colour=QUIET)]
    for value in _ticks(up.low, up.high):
        level = up.at(value)
        parts.append(rule((LEFT, level), (WIDTH - RIGHT, level), QUIET, 0.4))
        parts.append(lettering(LEFT - 8, level + 4, f"{value:.10g}", anchor="end", colour=QUIET))
    for value in _ticks(across.low, across.high):
        place = across.at(value)
        parts.append(rule((place, bottom), (place, bottom + 5), QUIET, 1.0))
        if below:
            parts.append(lettering(place, bottom + 20, f"{value:.10g}", anchor="middle", colour=QUIET))
    if below:
        parts.append(lettering((LEFT + WIDTH - RIGHT) / 2, bottom + 38, below, anchor="middle", colour=QUIET))
    parts.append(f'<line x1="{LEFT}" x2="{LEFT}" y1="{top}" y2="{bottom}" stroke="{INK}" stroke-width="1"/>')
    parts.append(
        f'<line x1="{LEFT}" x2="{WIDTH - RIGHT}" y1="{bottom}" y2="{bottom}" stroke="{INK}" stroke-width="1"/>'
    )
    return parts


def rule(start: tuple[float, float], end: tuple[float, float], colour: str, width: float, extra: str = "") -> str:
    """Draw a straight line between two places, in pixels; `extra` has further attributes."""
    return (
        f'<line x1="{start[0]:.1f}" y1="{start[1]:.1f}" x2="{end[0]:.1f}" y2="{end[1]:.1f}" stroke="{colour}" '
        f'stroke-width="{width}"{extra}/>'
    )


def lettering(
    x: float, y: float, words: str, *, anchor: str = "start", size: int = 12, weight: str = "", colour: str = INK
) -> str:
    """Set words at a place (pixels), by their start, middle or end."""
    # A rim in the colour of the paper keeps words readable where a line runs behind them.
    extra = f' paint-order="stroke" stroke="{PAPER}" stroke-width="3"'
    extra += f' font-weight="{weight}"' if weight else ""
    return (
        f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" font-size="{size}" fill="{colour}"{extra}>'
        f"{escape(words)}</text>"
    )


def scale_over(values: Sequence[float], start: float, end: float) -> Scale:
    """Return a scale from values to pixels, with a little room above and below, on whole ticks."""
    low, high = min(values), max(values)
    step = _step((high - low) or 1.0)
    return Scale(math.floor(low / step) * step, math.ceil(high / step + 0.2) * step, start, end)


def _ticks(low: float, high: float) -> list[float]:
    step = _step(high - low)
    first = math.ceil(low / step - 1e-9)
    return [round((first + number) * step, 10) for number in range(int((high - low) / step + 1e-9) + 1)]


def _step(span: float) -> float:
    """Return 1, 2 or 5 times a power of ten, so that a span has about five steps."""
    power = 10.0 ** math.floor(math.log10(span / 5))
    return next(power * factor for factor in (1, 2, 5, 10) if power * factor >= span / 5)


def short(value: float) -> str:
    """Return a plain number in three digits, for an axis or a label."""
    return f"{value:.3g}" if abs(value) < 100 else f"{value:.0f}"
