"""Sensible systems: those whose values go together by what the vocabulary says (`sensible ... where ...`).

A duct carries no steam, chilled water is not at 300 F, and what is buried is out of sight: of such a system nobody has
to be told that a clause does not govern it, or that two clauses clash on it. Reading a schedule doubts the same values.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cached_property

from speccheck.language.vocabulary.terms import Sensible
from speccheck.language.vocabulary.values import NotGiven, Single
from speccheck.proofread.decision_diagrams import Diagram, Diagrams, Mask
from speccheck.proofread.variables import TermAxis, Variables


@dataclass
class SensibleSystems:
    """The systems whose values go together, over the axes that a question asks for."""

    axes: Variables
    diagrams: Diagrams
    _known: dict[frozenset[int], Diagram] = field(default_factory=dict)

    def of(self, region: Diagram) -> Diagram:
        """Return the sensible systems of a region, judged by the axes alone that the region asks for."""
        asked = self.diagrams.axes(region)
        if asked not in self._known:
            self._known[asked] = self.diagrams.every(one for on, one in self._statements if on <= asked)
        return self.diagrams.both(region, self._known[asked])

    @cached_property
    def _statements(self) -> tuple[tuple[frozenset[int], Diagram], ...]:
        """What the vocabulary says, each with the axes that it speaks of."""
        terms = [axis for axis in self.axes.axes if isinstance(axis, TermAxis)]
        found = [
            _without(self.axes, self.diagrams, axis, one)
            for axis in terms
            for one in axis.term.sensible
            if not one.where or one.where in self.axes.of_term
        ]
        return tuple((self.diagrams.axes(one), one) for one in found)


def _without(axes: Variables, diagrams: Diagrams, axis: TermAxis, sensible: Sensible) -> Diagram:
    """Return all systems but those that a range or a list rules out."""
    out = _mask(at for at, atom in enumerate(axis.atoms) if _is_against(atom.value, sensible))
    box = {axes.of_term[axis.term.name]: out}
    if sensible.where:
        other = axes.named(sensible.where)
        mask = _mask(at for at, atom in enumerate(other.atoms) if atom.value in sensible.values)
        box[axes.of_term[sensible.where]] = mask
    return diagrams.negation(diagrams.box(box))


def _is_against(value: Single | NotGiven, sensible: Sensible) -> bool:
    return not isinstance(value, NotGiven) and not sensible.allows(value)


def _mask(atoms: Iterable[int]) -> Mask:
    return sum(1 << at for at in atoms)
