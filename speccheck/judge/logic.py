"""Strong Kleene logic: what is known of a whole from what is known of its parts.

True, False and None (not known). False and not known is False; True or not known is True; all else that depends on
something not known is not known (Kleene, Introduction to Metamathematics, 1952, section 64).
"""

from __future__ import annotations

from collections.abc import Iterable

Truth = bool | None


def negation(part: Truth) -> Truth:
    """Return whether the part does not hold."""
    return None if part is None else not part


def every(parts: Iterable[Truth]) -> Truth:
    """Return whether all parts hold; True for no parts."""
    found: Truth = True
    for part in parts:
        if part is False:
            return False
        if part is None:
            found = None
    return found


def some(parts: Iterable[Truth]) -> Truth:
    """Return whether at least one part holds; False for no parts."""
    found: Truth = False
    for part in parts:
        if part is True:
            return True
        if part is None:
            found = None
    return found
