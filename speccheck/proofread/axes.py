"""Axes: what the systems of some rulesets can differ in, as far as their clauses care.

There is an axis for each term; for a set of choices, one that says whether it is given and one for each choice that a
clause names; and one for each two amounts that are compared with one another and have no settled values (a temperature
with another temperature, a calculation): which of them is larger. What such an axis says follows from the values of
the terms in it, which diagrams do not know; whoever looks for a line has to find values that agree with it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

from speccheck.language.core import Amount, Comparison, Relation
from speccheck.language.vocabulary import Term
from speccheck.language.walking import terms_of
from speccheck.proofread.cutting import Atom
from speccheck.proofread.settled import without_names

NO, YES = 0, 1
BELOW, AT, ABOVE = 1, 2, 4
ORDERS: Mapping[Relation, int] = {
    Relation.LESS_THAN: BELOW,
    Relation.AT_MOST: BELOW | AT,
    Relation.EQUAL: AT,
    Relation.NOT_EQUAL: BELOW | ABOVE,
    Relation.AT_LEAST: AT | ABOVE,
    Relation.MORE_THAN: ABOVE,
}
_TURNED = {BELOW: ABOVE, AT: AT, ABOVE: BELOW}


@dataclass(frozen=True)
class TermAxis:
    """The axis of a term; the first atom is that it is not given."""

    term: Term
    atoms: tuple[Atom, ...]

    @property
    def width(self) -> int:
        """How many atoms the axis has."""
        return len(self.atoms)

    @property
    def ordinary(self) -> int:
        """The mask of the atoms that are given and do not stand in for another."""
        return sum(1 << at for at, atom in enumerate(self.atoms) if at and not atom.stand_in)


@dataclass(frozen=True)
class ChoiceAxis:
    """Whether a set includes a choice: NO or YES."""

    term: Term
    choice: str
    width: int = 2


@dataclass(frozen=True)
class OrderAxis:
    """Whether the left amount is below, at or above the right one, by the tolerance of a ruleset."""

    left: Amount
    right: Amount
    tolerance: float
    width: int = 3

    @cached_property
    def terms(self) -> tuple[Term, ...]:
        """The terms that the two amounts are worked out from."""
        return terms_of((self.left, self.right))


Axis = TermAxis | ChoiceAxis | OrderAxis


@dataclass(frozen=True)
class Axes:
    """All axes in their order, and where each of them stands."""

    axes: tuple[Axis, ...]
    system: str
    of_term: Mapping[str, int] = field(default_factory=dict)
    of_choice: Mapping[tuple[str, str], int] = field(default_factory=dict)
    of_order: Mapping[tuple[Amount, Amount, float], int] = field(default_factory=dict)

    def term_axis(self, term: Term) -> TermAxis:
        """Return the axis of a term."""
        return self.named(term.name)

    def named(self, name: str) -> TermAxis:
        """Return the axis of the term with this name."""
        axis = self.axes[self.of_term[name]]
        assert isinstance(axis, TermAxis), axis
        return axis

    def order(self, comparison: Comparison, tolerance: float) -> tuple[int, int]:
        """Return the axis of a comparison without settled values, and the mask on which it holds."""
        left, right = without_names(comparison.left), without_names(comparison.right)
        mask = ORDERS[comparison.relation]
        if (left, right, tolerance) in self.of_order:
            return self.of_order[left, right, tolerance], mask
        turned = sum(_TURNED[one] for one in (BELOW, AT, ABOVE) if mask & one)
        return self.of_order[right, left, tolerance], turned
