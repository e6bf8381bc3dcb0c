"""Eliminating: which systems can be completed so that they lie in many regions at once, without their whole product.

Regions over many axes are put together one axis at a time: those that ask for it are met with one another and the axis
is let go, so that what is left says for which choices on the other axes there is a choice on this one (bucket
elimination: Dechter, Artificial Intelligence 113 (1999) 41).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from speccheck.proofread.diagrams import FULL, Diagram, Diagrams

# How many diagrams may be made on the way before the question is left open.
LIMIT = 400_000


@dataclass(frozen=True)
class Eliminated:
    """What is left on the axes that were kept, and the regions that were met on the way, first ones first."""

    region: Diagram
    met: tuple[Diagram, ...]

    def completed(self, diagrams: Diagrams, point: Diagram, choose: Callable[[Diagram], Diagram]) -> Diagram:
        """Return a system of the region completed on the axes let go; `choose` picks a system out of a region."""
        for region in reversed(self.met):
            point = choose(diagrams.both(point, region))
        return point


def eliminate(diagrams: Diagrams, regions: Iterable[Diagram], kept: frozenset[int]) -> Eliminated | None:
    """Return what all regions together leave of the systems on the axes kept; None where it would take too much."""
    left = [region for region in dict.fromkeys(regions) if region != FULL]
    met: list[Diagram] = []
    start = diagrams.count
    while (gone := _next(diagrams, left, kept)) is not None:
        joined = diagrams.every(region for region in left if gone in diagrams.axes(region))
        left = [region for region in left if gone not in diagrams.axes(region)]
        met.append(joined)
        left.append(diagrams.whatever(joined, [gone]))
        if diagrams.count - start > LIMIT:
            return None
    return Eliminated(diagrams.every(left), tuple(met))


def _next(diagrams: Diagrams, regions: list[Diagram], kept: frozenset[int]) -> int | None:
    """Return the axis whose elimination asks for the fewest others at once."""
    together: dict[int, set[int]] = {}
    for region in regions:
        for axis in diagrams.axes(region) - kept:
            together.setdefault(axis, set()).update(diagrams.axes(region))
    return min(together, key=lambda axis: (len(together[axis]), axis), default=None)
