"""Decision diagrams: sets of systems, exact, each kept once.

A system has a value on each axis (service, pipe size, operating temperature, ...), and each axis is cut into a finite
number of stretches, its atoms. A diagram asks for one axis after the other, in a fixed order, and passes each set of
atoms on to another diagram, down to EMPTY (not in the set) or FULL (in the set, whatever the other axes say). Axes that
do not matter are not asked for, so that products are only made over axes that matter together. Two diagrams are the
same set if and only if they are the same number.

Reduced ordered decision diagrams: Bryant, IEEE Transactions on Computers C-35 (1986) 677; with more than two values
at a node: Srinivasan, Ham, Malik and Brayton, ICCAD 1990, 92.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from functools import reduce
from operator import or_

Diagram = int
Mask = int
Box = Mapping[int, Mask]

EMPTY: Diagram = 0
FULL: Diagram = 1

_Edges = tuple[tuple[Mask, Diagram], ...]


class Diagrams:
    """All diagrams over axes of given widths (how many atoms each axis has); a mask has a bit for each atom."""

    def __init__(self, widths: Sequence[int]) -> None:
        self.whole: tuple[Mask, ...] = tuple((1 << width) - 1 for width in widths)
        last = len(widths)
        self._axis = [last, last]
        self._edges: list[_Edges] = [(), ()]
        self._known: dict[tuple[int, _Edges], Diagram] = {}
        self._both: dict[tuple[Diagram, Diagram], Diagram] = {}
        self._apart: set[tuple[Diagram, Diagram]] = set()
        self._negations: dict[Diagram, Diagram] = {EMPTY: FULL, FULL: EMPTY}
        self._projections: dict[tuple[Diagram, frozenset[int]], Diagram] = {}
        self._axes: dict[Diagram, frozenset[int]] = {EMPTY: frozenset(), FULL: frozenset()}

    @property
    def count(self) -> int:
        """How many diagrams were made so far."""
        return len(self._axis)

    def _node(self, axis: int, children: Mapping[Diagram, Mask]) -> Diagram:
        """Return the diagram that asks for an axis and passes each mask on to its child."""
        if len(children) == 1:
            return next(iter(children))
        edges: _Edges
        if len(children) == 2:  # as most have
            (first, one), (second, other) = children.items()
            edges = ((one, first), (other, second)) if one < other else ((other, second), (one, first))
        else:
            edges = tuple(sorted((mask, child) for child, mask in children.items()))
        found = self._known.get((axis, edges))
        if found is None:
            found = self._known[axis, edges] = len(self._axis)
            self._axis.append(axis)
            self._edges.append(edges)
        return found

    # ---- making sets ---------------------------------------------------------------------------------------------

    def box(self, box: Box) -> Diagram:
        """Return the systems that lie within a mask on each of some axes."""
        found = FULL
        for axis in sorted(box, reverse=True):
            inside = box[axis] & self.whole[axis]
            if not inside:
                return EMPTY
            outside = self.whole[axis] & ~inside
            if outside:
                found = self._node(axis, {found: inside, EMPTY: outside})
        return found

    def negation(self, diagram: Diagram) -> Diagram:
        """Return the systems that are not in a set."""
        found = self._negations.get(diagram)
        if found is None:
            children = {self.negation(child): mask for mask, child in self._edges[diagram]}
            found = self._node(self._axis[diagram], children)
            self._negations[diagram], self._negations[found] = found, diagram
        return found

    def both(self, first: Diagram, second: Diagram) -> Diagram:
        """Return the systems that are in both sets."""
        if first == second or second == FULL:
            return first
        if first == FULL:
            return second
        if first == EMPTY or second == EMPTY:
            return EMPTY
        if first > second:
            first, second = second, first
        found = self._both.get((first, second))
        if found is None:
            found = self._both[first, second] = self._met(first, second)
        return found

    def _met(self, first: Diagram, second: Diagram) -> Diagram:
        axis = min(self._axis[first], self._axis[second])
        children: dict[Diagram, Mask] = {}
        others = self._edges_at(second, axis)
        for mask, child in self._edges_at(first, axis):
            for other_mask, other in others:
                shared = mask & other_mask
                if shared:
                    met = self.both(child, other)
                    children[met] = children.get(met, 0) | shared
        return self._node(axis, children)

    def _edges_at(self, diagram: Diagram, axis: int) -> _Edges:
        return self._edges[diagram] if self._axis[diagram] == axis else ((self.whole[axis], diagram),)

    def either(self, first: Diagram, second: Diagram) -> Diagram:
        """Return the systems that are in at least one of two sets."""
        return self.negation(self.both(self.negation(first), self.negation(second)))

    def without(self, first: Diagram, second: Diagram) -> Diagram:
        """Return the systems that are in the first set and not in the second."""
        return self.both(first, self.negation(second))

    def every(self, diagrams: Iterable[Diagram]) -> Diagram:
        """Return the systems that are in all sets; put together in pairs, which keeps what lies between small."""
        parts = list(diagrams)
        while len(parts) > 1:
            pairs = [self.both(parts[at], parts[at + 1]) for at in range(0, len(parts) - 1, 2)]
            parts = [*pairs, parts[-1]] if len(parts) % 2 else pairs
        return parts[0] if parts else FULL

    def some(self, diagrams: Iterable[Diagram]) -> Diagram:
        """Return the systems that are in at least one of the sets."""
        parts = list(diagrams)
        if len(parts) == 1:
            return parts[0]
        return self.negation(self.every([self.negation(diagram) for diagram in parts]))

    def whatever(self, diagram: Diagram, axes: Collection[int]) -> Diagram:
        """Return the systems that are in a set for at least one choice of atoms on some axes."""
        return self._project(diagram, frozenset(axes) & self.axes(diagram))

    def _project(self, diagram: Diagram, axes: frozenset[int]) -> Diagram:
        if not axes or diagram <= FULL or not axes & self.axes(diagram):
            return diagram
        found = self._projections.get((diagram, axes))
        if found is None:
            axis = self._axis[diagram]
            parts = [(mask, self._project(child, axes)) for mask, child in self._edges[diagram]]
            if axis in axes:
                found = self.some(child for _, child in parts)
            else:
                children: dict[Diagram, Mask] = {}
                for mask, child in parts:
                    children[child] = children.get(child, 0) | mask
                found = self._node(axis, children)
            self._projections[diagram, axes] = found
        return found

    # ---- looking into sets ---------------------------------------------------------------------------------------

    def within(self, first: Diagram, second: Diagram) -> bool:
        """Say whether every system of the first set is in the second."""
        return not self.meet(first, self.negation(second))

    def meet(self, first: Diagram, second: Diagram) -> bool:
        """Say whether some system is in both sets; the first that is found will do, and no diagram is made."""
        if EMPTY in (first, second):
            return False
        if FULL in (first, second) or first == second:
            return True
        pair = (first, second) if first < second else (second, first)
        if pair in self._apart:
            return False
        known = self._both.get(pair)
        if known is not None:
            return known != EMPTY
        axis = min(self._axis[first], self._axis[second])
        others = self._edges_at(second, axis)
        for mask, child in self._edges_at(first, axis):
            for other_mask, other in others:
                if mask & other_mask and self.meet(child, other):
                    return True
        self._apart.add(pair)
        return False

    def axes(self, diagram: Diagram) -> frozenset[int]:
        """Return the axes that a diagram asks for."""
        found = self._axes.get(diagram)
        if found is None:
            below = (self.axes(child) for _, child in self._edges[diagram])
            found = self._axes[diagram] = frozenset({self._axis[diagram]}).union(*below)
        return found

    def hull(self, diagram: Diagram) -> dict[int, Mask]:
        """Return the smallest box that holds a set that is not empty."""
        asked = sorted(self.axes(diagram))
        found = dict.fromkeys(asked, 0)
        seen, waiting = {diagram}, [diagram] if diagram > FULL else []
        while waiting:
            node = waiting.pop()
            for mask, child in self._edges[node]:
                if child == EMPTY:
                    continue
                found[self._axis[node]] |= mask
                for skipped in asked:
                    if self._axis[node] < skipped < self._axis[child]:
                        found[skipped] = self.whole[skipped]
                if child > FULL and child not in seen:
                    seen.add(child)
                    waiting.append(child)
        return found

    def boxes(self, diagram: Diagram) -> Iterator[dict[int, Mask]]:
        """Yield boxes that have no system in common and together make up a set."""
        if diagram == FULL:
            yield {}
        for mask, child in self._edges[diagram]:
            for rest in self.boxes(child):
                yield {self._axis[diagram]: mask, **rest}

    def point(self, diagram: Diagram, order: Sequence[Sequence[int]]) -> dict[int, int]:
        """Return an atom for each axis that a set that is not empty asks for, as early as can be in `order[axis]`."""
        found: dict[int, int] = {}
        while diagram > FULL:
            axis = self._axis[diagram]
            edges = [(mask, child) for mask, child in self._edges[diagram] if child != EMPTY]
            atom = next(atom for atom in order[axis] if any(mask >> atom & 1 for mask, _ in edges))
            found[axis] = atom
            diagram = next(child for mask, child in edges if mask >> atom & 1)
        return found

    def widened(self, box: Box, diagram: Diagram, order: Iterable[int] = ()) -> dict[int, Mask]:
        """Return a box made as wide as it can be within a set, one axis after the other, in some order."""
        wide, outside = dict(box), self.negation(diagram)
        for axis in order or sorted(box):
            others = {other: mask for other, mask in wide.items() if other != axis}
            left = self.whole[axis] & ~self._reached(outside, axis, others)
            if left == self.whole[axis]:
                del wide[axis]
            else:
                wide[axis] = left
        return wide

    def _reached(self, diagram: Diagram, axis: int, box: Box) -> Mask:
        """Return the atoms of an axis that the systems of a set have which lie in a box; no diagram is made."""
        found: dict[Diagram, Mask] = {EMPTY: 0, FULL: self.whole[axis]}

        def reached(node: Diagram) -> Mask:
            if node not in found:
                at = self._axis[node]
                inside = box.get(at, self.whole[at])
                below = [(edge, reached(child)) for edge, child in self._edges[node] if edge & inside]
                found[node] = reduce(or_, (edge if at == axis else mask for edge, mask in below if mask), 0)
            return found[node]

        return reached(diagram)
