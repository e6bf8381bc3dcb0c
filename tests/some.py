"""At least one: what a test says of each of several things, it must have said of one."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

T = TypeVar("T")


def some(things: Iterable[T]) -> list[T]:
    """Return things as a list, of which there must be one at least: what is said of each of none shows nothing."""
    found = list(things)
    assert found, "there is nothing of which the test could say anything"
    return found
