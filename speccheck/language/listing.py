"""Lists in a sentence."""

from __future__ import annotations

from collections.abc import Iterable


def listed(words: Iterable[str], conjunction: str = "and") -> str:
    """Return "a", "a and b", "a, b and c"."""
    *most, last = tuple(words) or ("",)
    return f"{', '.join(most)} {conjunction} {last}" if most else last
