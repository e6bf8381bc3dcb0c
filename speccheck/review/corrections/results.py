"""What the search for changes comes to: proposals for a line and which of them is cheaper, or the clash that rules all
out.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from speccheck.judge.judgement import BareVerdict
from speccheck.language.core import Clause
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import NotGiven, Single, Value
from speccheck.review.corrections.requirements import NOT_KNOWN_OF_NEW
from speccheck.schedule.lines import Line

Weight = tuple[int, ...]
"""How many terms change of each rank, the dearest rank first."""

Cost = tuple[Weight, tuple[int, ...], tuple[int, ...]]
"""Weight, positions of the changed terms in the vocabulary, and the size of each step."""


@dataclass(frozen=True)
class Pricing:
    """The order by which changes are priced: `ranks[term]` is 0 for the dearest, `positions` are in the vocabulary.

    Another product, with another value of a property, is dearer than anything that is chosen for the product at hand,
    unless the ruleset names the property among the cheapest changes.
    """

    ranks: dict[str, int]
    positions: dict[str, int]
    count: int

    @classmethod
    def of(cls, terms: Sequence[Term], cheapest_first: Sequence[str]) -> Pricing:
        """Return the pricing of `terms`, given in the order of the vocabulary, by the order of a ruleset."""
        named = {name: len(cheapest_first) - position + 1 for position, name in enumerate(cheapest_first)}
        return cls(
            {term.name: named.get(term.name, 0 if term.is_property else 1) for term in terms},
            {term.name: position for position, term in enumerate(terms)},
            len(cheapest_first) + 2,
        )

    def weight(self, names: Iterable[str]) -> Weight:
        """Return what changing these terms weighs, whatever their values."""
        found = [0] * self.count
        for name in names:
            found[self.ranks[name]] += 1
        return tuple(found)

    def cheapest(self, names: Iterable[str]) -> str:
        """Return the term whose change weighs least."""
        return max(names, key=lambda name: (self.ranks[name], -self.positions[name]))

    def cost(self, steps: dict[str, int]) -> Cost:
        """Return the cost of changes, given as the size of the step of each changed term."""
        ordered = sorted(steps, key=self.positions.__getitem__)
        return (
            self.weight(ordered),
            tuple(self.positions[name] for name in ordered),
            tuple(steps[name] for name in ordered),
        )


@dataclass(frozen=True, slots=True)
class ProposedChange:
    """One term of a proposal: what the line states, the value that complies, and the other tried values that do too.

    `tried` has all values that were tried, so that a report can say "2 in or more". Where a clause draws on values that
    are worked out, no others are tried.
    """

    term: Term
    before: Value | NotGiven
    after: Single
    also: tuple[Single, ...]
    tried: tuple[Single, ...]

    @property
    def is_given(self) -> bool:
        """Whether the line states anything for the term; where not, the value is what would comply, not a datum."""
        return not isinstance(self.before, NotGiven)

    @property
    def is_of_another_product(self) -> bool:
        """Whether the line states it of a product, so that only another product has another value."""
        return self.is_given and self.term.is_property

    @property
    def lost_with_owner(self) -> bool:
        """Whether the line states it of a thing that the proposal changes, of whose successor it is not known."""
        return isinstance(self.before, NotGiven) and self.before.why.startswith(NOT_KNOWN_OF_NEW)


@dataclass(frozen=True, slots=True)
class Proposal:
    """Changes of one line, the changed line, and the verdicts on it.

    `undecided` are clauses with which the changed line cannot be determined to comply, for want of data that are
    not the contractor's to propose, which `waits_for` names, or of any means to work it out. `against_advice` are
    clauses whose advice the changed line does not follow.
    """

    changes: tuple[ProposedChange, ...]
    line: Line
    cells: tuple[BareVerdict, ...]
    undecided: tuple[Clause, ...] = ()
    waits_for: tuple[str, ...] = ()
    against_advice: tuple[Clause, ...] = ()


@dataclass(frozen=True, slots=True)
class Clash:
    """Clauses that no change of the terms satisfies together; one clause where no change satisfies it alone."""

    clauses: tuple[Clause, ...]
    terms: tuple[Term, ...]


@dataclass(frozen=True, slots=True)
class Mending:
    """What would make a line comply: proposals, cheapest first, or the clash that rules all of them out.

    `fails` are the mandatory clauses that the line breaks, `lacks` those that wait for data which its contractor has
    to give. `whole` is False where the search was broken off, so that something cheaper may have been missed.
    """

    line: Line
    fails: tuple[Clause, ...]
    lacks: tuple[Clause, ...]
    proposals: tuple[Proposal, ...]
    clash: Clash | None = None
    whole: bool = True
