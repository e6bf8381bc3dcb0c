"""Texts that run across a page at a slant, as watermarks and stamps do: taken out from under the words of a table."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Any

_STEEPEST = math.radians(3)  # a page that was fed askew is read; stamps stand at 10 degrees and more (common practice)


def without_slanted_texts(page: Any) -> tuple[Any, tuple[str, ...]]:
    """Return a page without the signs that stand at a slant, and the texts that they make, in the order drawn."""
    signs = page.chars
    taken = {id(sign) for sign in signs if _is_slanted(sign)}
    if not taken:
        return page, ()
    return page.filter(lambda one: id(one) not in taken), tuple(filter(None, _texts(signs)))


def _texts(signs: Sequence[Any]) -> Iterator[str]:
    """Yield the words of signs that were drawn one after the other in one direction."""
    for direction, run in groupby(signs, key=lambda sign: round(_slant(sign), 2) if _is_slanted(sign) else None):
        if direction is not None:
            yield " ".join("".join(sign["text"] for sign in run).split())


def _is_slanted(sign: Any) -> bool:
    """Whether a sign stands neither level nor upright; letters that lean, as italics do, stand level."""
    quarter = math.pi / 2
    slant = _slant(sign) % quarter
    return min(slant, quarter - slant) > _STEEPEST


def _slant(sign: Any) -> float:
    """Return the direction in which a sign is written, in radians."""
    along, up = sign["matrix"][:2]
    return math.atan2(up, along)
