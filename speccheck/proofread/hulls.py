"""Hulls: the smallest boxes of many regions, so that those that may hold a system are found without trying each.

Which boxes hold an atom is kept as one number for each axis and atom, a bit for each region. A box that holds all that
can be stated on an axis counts as free on it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from speccheck.proofread.diagrams import Diagram, Diagrams, Mask


class Hulls:
    """The smallest boxes of regions; answers are numbers with a bit for each region, in their order."""

    def __init__(self, diagrams: Diagrams, regions: Sequence[Diagram]) -> None:
        self.everyone = (1 << len(regions)) - 1
        self._free = dict.fromkeys(range(len(diagrams.whole)), self.everyone)
        self._holding: dict[tuple[int, int], int] = {}
        for number, region in enumerate(regions):
            for axis, mask in diagrams.hull(region).items():
                if mask | 1 == diagrams.whole[axis]:
                    continue
                self._free[axis] &= ~(1 << number)
                for atom in bits(mask):
                    self._holding[axis, atom] = self._holding.get((axis, atom), 0) | 1 << number

    def around(self, box: Mapping[int, Mask]) -> int:
        """Return the regions whose boxes hold all of a box."""
        kept = self.everyone
        for axis, unbound in self._free.items():
            if axis not in box:
                kept &= unbound
            for atom in bits(box.get(axis, 0)):
                kept &= self._holding.get((axis, atom), 0) | unbound
        return kept

    def near(self, box: Mapping[int, Mask]) -> int:
        """Return the regions whose boxes have something in common with a box."""
        kept = self.everyone
        for axis, mask in box.items():
            shared = self._free[axis]
            for atom in bits(mask):
                shared |= self._holding.get((axis, atom), 0)
            kept &= shared
        return kept


def bits(mask: int) -> Iterator[int]:
    """Yield the places of the bits of a number."""
    while mask:
        lowest = mask & -mask
        yield lowest.bit_length() - 1
        mask ^= lowest
