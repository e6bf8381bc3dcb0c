"""Covering: a region told by a few wide boxes, each of which is one reason why systems lie in it.

A box may reach into systems of which nothing is to be told (those out of a scope, or that no one would build): "steam
condensate" is said in fewer words than at which temperatures, which follow from the service. Of the boxes around a
system the one that asks for the fewest terms is taken, and it is cut back to what the region has in it.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import islice

from speccheck.language.vocabulary.terms import Form
from speccheck.proofread.decision_diagrams import EMPTY, Diagram, Diagrams, Mask
from speccheck.proofread.variables import TermAxis
from speccheck.proofread.witnesses import Lines

# From how many parts of a region boxes are tried, for each box that is told.
PARTS = 8


@dataclass(frozen=True)
class Cover:
    """A region and what boxes around its systems may hold besides."""

    lines: Lines
    region: Diagram
    allowed: Diagram

    @property
    def diagrams(self) -> Diagrams:
        """The diagrams in which the region is kept."""
        return self.lines.readings[0].diagrams

    def boxes(self, most: int) -> Iterator[dict[int, Mask]]:
        """Yield boxes that make up the region, at most so many, none of them within the others."""
        found: list[dict[int, Mask]] = []
        left = self.region
        while left != EMPTY and len(found) < most:
            box = self._best(left)
            found.append(box)
            left = self.diagrams.without(left, self.diagrams.box(box))
        for box in found:
            others = self.diagrams.some(self.diagrams.box(other) for other in found if other is not box)
            own = self.diagrams.both(self.region, self.diagrams.box(box))
            if len(found) == most or not self.diagrams.within(own, others):
                yield box

    def _best(self, left: Diagram) -> dict[int, Mask]:
        """Return the box that asks for the fewest terms, and among those holds most of what is left."""
        hull = self.diagrams.hull(left)
        parts = list(islice(self.diagrams.boxes(left), PARTS))
        tried = [self._wide(left, point, last) for point in self._points(left, parts) for last in point]
        best = min(tried or [{}], key=lambda box: (len(box), self._measured(box), -_share(box, hull)))
        return self._named(left, best)

    def _measured(self, box: Mapping[int, Mask]) -> int:
        """Return on how many axes a box asks for amounts, where choices say more."""
        return sum(not self._is_choice(axis) for axis in box)

    def _is_choice(self, index: int) -> bool:
        axis = self.lines.readings[0].axes.axes[index]
        return isinstance(axis, TermAxis) and axis.term.kind.form is Form.CHOICE

    def _named(self, left: Diagram, box: dict[int, Mask]) -> dict[int, Mask]:
        """Return a box of amounts with the choices that its systems have in common: "steam" beside "over 350 F"."""
        if any(map(self._is_choice, box)):
            return box
        inside = self.diagrams.hull(self.diagrams.both(left, self.diagrams.box(box)))
        whole = self.diagrams.hull(self.region)
        single = (axis for axis, mask in inside.items() if mask.bit_count() == 1 and whole.get(axis) != mask)
        return {**box, **{axis: inside[axis] for axis in single if self._is_choice(axis)}}

    def _points(self, left: Diagram, parts: list[dict[int, Mask]]) -> Iterator[dict[int, Mask]]:
        """Yield a system of each part, the plainest one."""
        for part in parts:
            yield self.lines.plainest(self.diagrams.both(left, self.diagrams.box(part)))

    def _wide(self, left: Diagram, point: Mapping[int, Mask], last: int) -> dict[int, Mask]:
        """Return a box around a system, widened on one axis last and cut back to what is left of the region."""
        order = [*(axis for axis in sorted(point) if axis != last), last]
        box = self.diagrams.widened(point, self.allowed, order)
        inside = self.diagrams.hull(self.diagrams.both(left, self.diagrams.box(box)))
        return {axis: mask & inside.get(axis, mask) for axis, mask in box.items()}


def _share(box: Mapping[int, Mask], hull: Mapping[int, Mask]) -> float:
    """Return how large a share of a region's hull a box takes, axis by axis multiplied."""
    share = 1.0
    for axis, mask in box.items():
        share *= mask.bit_count() / max(hull.get(axis, mask).bit_count(), 1)
    return share
