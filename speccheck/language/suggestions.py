"""The nearest known name to a name that is not known, for the help line of a diagnostic."""

from __future__ import annotations

from collections.abc import Iterable


def nearest(name: str, known: Iterable[str], likeness: float = 0.6) -> str | None:
    """Return the known name that `name` most likely means, or None where none is near.

    `likeness` is how alike the two must be, from 0 to 1. Compares without regard to case; equal distances go to the
    name that comes first.
    """
    from difflib import get_close_matches

    by_lower: dict[str, str] = {}
    for candidate in known:
        by_lower.setdefault(candidate.lower(), candidate)
    found = get_close_matches(name.lower(), list(by_lower), n=1, cutoff=likeness)
    return by_lower[found[0]] if found else None
