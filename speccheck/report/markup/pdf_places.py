"""Where marks go on a page of a PDF: from places on the page as it is shown to the space in which it is drawn.

A page may be turned to be shown, and its paper may begin off the origin (ISO 32000-1, 8.3.2.3, from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from speccheck.report.markup.pdf_drawing import TAG_HEIGHT

_OVERLAP = 0.6


def beside(spot: tuple[float, ...], room: float, width: float) -> tuple[float, float]:
    """Return the left and upper edge (points) of tags: right of the cell if there is room, else on its edge."""
    if room + 3 > width:
        return spot[3] - _OVERLAP, (spot[2] + spot[4] - TAG_HEIGHT) / 2
    return max(spot[3] - width, 0), max(spot[2] - TAG_HEIGHT / 2, 0)


def _shown_size(page: Any) -> tuple[float, float]:
    """Return width and height of a page as it is shown."""
    box = page.mediabox
    size = (float(box.width), float(box.height))
    return size if int(page.get("/Rotate", 0) or 0) % 180 == 0 else (size[1], size[0])


def in_user_space(page: Any, spot: Sequence[float]) -> tuple[float, float, float, float]:
    """Return the rectangle (points) of a spot (page, left, top, right, bottom as shown) in the space of its page."""
    box, turned = page.mediabox, int(page.get("/Rotate", 0) or 0) % 360
    x0, y0, x1, y1 = (float(box.left), float(box.bottom), float(box.right), float(box.top))
    height = _shown_size(page)[1]
    corners = [(spot[1], height - spot[2]), (spot[3], height - spot[4])]
    found = [_turned_back(x, y, turned, (x0, y0, x1, y1)) for x, y in corners]
    across, up = sorted(x for x, _ in found), sorted(y for _, y in found)
    return tuple(round(one, 2) for one in (across[0], up[0], across[1], up[1]))  # type: ignore[return-value]


def _turned_back(x: float, y: float, turned: int, box: tuple[float, float, float, float]) -> tuple[float, float]:
    """Return a point of the page as it is shown, counted from its lower left corner, in the space of the page."""
    x0, y0, x1, y1 = box
    if turned == 90:
        return x1 - y, y0 + x
    if turned == 180:
        return x1 - x, y1 - y
    return (x0 + y, y1 - x) if turned == 270 else (x0 + x, y0 + y)
