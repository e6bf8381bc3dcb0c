"""Clashes: the requirements that no change of the terms meets together, as few of them as possible."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import combinations

from speccheck.review.mending.requirements import Requirement

CanMeet = Callable[[Sequence[Requirement]], bool]


def clashing(requirements: Sequence[Requirement], can_meet: CanMeet) -> tuple[Requirement, ...]:
    """Return requirements that cannot be met together: one that cannot be met at all, else two, else a few.

    `requirements` cannot all be met; `can_meet` says whether some of them can. Where it takes more than two, none of
    those returned can be left out.
    """
    unmet = [one for one in requirements if not one.met({})]
    for one in unmet:
        if not can_meet([one]):
            return (one,)
    for pair in _pairs(requirements, unmet):
        if not can_meet(pair):
            return pair
    return _irreducible(requirements, can_meet)


def _pairs(requirements: Sequence[Requirement], unmet: Sequence[Requirement]) -> list[tuple[Requirement, Requirement]]:
    """Return the pairs that share a term and that the line does not meet, in the order of the clauses."""
    return [
        (first, second)
        for first, second in combinations(requirements, 2)
        if (first in unmet or second in unmet) and set(first.terms) & set(second.terms)
    ]


def _irreducible(requirements: Sequence[Requirement], can_meet: CanMeet) -> tuple[Requirement, ...]:
    """Return requirements of which none can be left out, by leaving out one after the other."""
    kept = list(requirements)
    for one in requirements:
        fewer = [other for other in kept if other is not one]
        if not can_meet(fewer):
            kept = fewer
    return tuple(kept)
