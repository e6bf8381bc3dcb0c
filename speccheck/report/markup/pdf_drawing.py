"""How marks look on paper: a frame and a tag of letters for each weight, which differ without colour.

All drawing is of our own. The streams are content streams of PDF (ISO 32000-1, chapter 8, from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

from speccheck.report.markup.marks import Weight
from speccheck.report.markup.pdf_pages import BOLD, FONT_NAMES, literal, width_of

TAG_SIZE = 6.0
TAG_HEIGHT = 7.6
THROUGH = 0.3
"""How much of the ground a tint covers: viewers that know no way of blending still show the print under it."""


@dataclass(frozen=True, slots=True)
class Look:
    """How a weight is drawn: its ink and its tint (red, green, blue), the dashes and width of its frame, a dark tag."""

    ink: tuple[float, float, float]
    tint: tuple[float, float, float]
    dashes: tuple[float, ...]
    width: float
    dark: bool


LOOKS = {
    Weight.REVISE: Look((0.55, 0.23, 0.11), (0.98, 0.88, 0.82), (), 1.3, True),
    Weight.PROVIDE: Look((0.14, 0.34, 0.42), (0.85, 0.93, 0.96), (4, 2), 1.1, False),
    Weight.QUESTION: Look((0.36, 0.27, 0.45), (0.92, 0.89, 0.95), (6, 2, 1, 2), 1.0, False),
    Weight.ACCEPTED: Look((0.30, 0.36, 0.20), (0.91, 0.94, 0.86), (2, 1), 1.6, True),
    Weight.ADVICE: Look((0.36, 0.38, 0.39), (0.93, 0.93, 0.93), (1, 2), 0.8, False),
}


def tag_width(label: str) -> float:
    """Return how wide a tag is, in points."""
    return width_of(label, BOLD, TAG_SIZE) + 4


def frame(weight: Weight, width: float, height: float) -> bytes:
    """Return the drawing of a highlighted cell (in points): a tint, and the frame of its weight."""
    look, half = LOOKS[weight], LOOKS[weight].width / 2
    fill = tuple(max(1 - (1 - part) / THROUGH, 0.0) for part in look.tint)
    dashes = " ".join(f"{dash:g}" for dash in look.dashes)
    inner = (half, half, max(width - 2 * half, 0.1), max(height - 2 * half, 0.1))
    return (
        f"/Print gs {_rgb(fill)} rg 0 0 {width:.2f} {height:.2f} re f\n"
        f"{_rgb(look.ink)} RG {look.width:g} w [{dashes}] 0 d {inner[0]:.2f} {inner[1]:.2f} "
        f"{inner[2]:.2f} {inner[3]:.2f} re S\n"
    ).encode()


def tag(weight: Weight, label: str) -> bytes:
    """Return the drawing of a tag: dark with light letters, or light with dark letters and a border."""
    look, width = LOOKS[weight], tag_width(label)
    ground, letters = (look.ink, (1.0, 1.0, 1.0)) if look.dark else ((1.0, 1.0, 1.0), look.ink)
    font = FONT_NAMES[BOLD]
    return (
        f"{_rgb(ground)} rg {_rgb(look.ink)} RG 0.6 w 0.3 0.3 {width - 0.6:.2f} {TAG_HEIGHT - 0.6:.2f} re B\n"
        f"BT {_rgb(letters)} rg /{font} {TAG_SIZE:g} Tf 2 1.7 Td "
    ).encode() + b"%s Tj ET\n" % literal(label)


def _rgb(parts: tuple[float, ...]) -> str:
    return " ".join(f"{part:.3g}" for part in parts)
