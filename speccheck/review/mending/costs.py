"""Costs: which of two sets of changes is cheaper.

A ruleset may name terms whose changes are cheap, the cheapest first. Terms that it does not name cost more than any
that it names, and among one another the same. Of two sets of changes the one that changes fewer of the dearest terms
is the cheaper one, then fewer of the next dearest, and so on; so that without an order fewer changes are cheaper.
Where that leaves a tie, the order of the vocabulary decides, and then the size of the steps.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from speccheck.language.vocabulary import Term

Weight = tuple[int, ...]
"""How many terms change of each rank, the dearest rank first."""

Cost = tuple[Weight, tuple[int, ...], tuple[int, ...]]
"""Weight, positions of the changed terms in the vocabulary, and the size of each step."""


@dataclass(frozen=True)
class Pricing:
    """The order by which changes are priced: `ranks[term]` is 0 for the dearest, `positions` are in the vocabulary."""

    ranks: dict[str, int]
    positions: dict[str, int]
    count: int

    @classmethod
    def of(cls, terms: Sequence[Term], cheapest_first: Sequence[str]) -> Pricing:
        """Return the pricing of `terms`, given in the order of the vocabulary, by the order of a ruleset."""
        named = {name: len(cheapest_first) - position for position, name in enumerate(cheapest_first)}
        return cls(
            {term.name: named.get(term.name, 0) for term in terms},
            {term.name: position for position, term in enumerate(terms)},
            len(cheapest_first) + 1,
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
