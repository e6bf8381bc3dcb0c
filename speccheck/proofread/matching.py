"""Matching: which clause of a revision is which clause of its base.

By its label first (the number, with the ruleset's name where several share a number), where both replace the same or
nothing; then by the clause that it says to replace; then by its number alone. What is left over and means the same was
renumbered.
"""

from __future__ import annotations

from collections.abc import Sequence

from speccheck.language.core import Clause
from speccheck.proofread.clause_regions import ClauseRegions

Pair = tuple[ClauseRegions, ClauseRegions]


def paired(base: Sequence[Clause], revised: Sequence[Clause]) -> dict[int, int]:
    """Return the place in the base of each revised clause that has one, by the place of the revised clause."""
    found: dict[int, int] = {}
    for own, theirs in ((_label, _label), (_replaced, _name), (_name, _name)):
        left: dict[object, list[int]] = {}
        for place, clause in enumerate(base):
            if place not in found.values():
                left.setdefault(theirs(clause), []).append(place)
        for place, clause in enumerate(revised):
            if place not in found and left.get(own(clause)):
                found[place] = left[own(clause)].pop(0)
    return found


def _label(clause: Clause) -> object:
    return clause.label, clause.replaces


def _replaced(clause: Clause) -> object:
    return clause.replaces[0] if clause.replaces else None


def _name(clause: Clause) -> object:
    return clause.name


def matched(
    before: Sequence[ClauseRegions], after: Sequence[ClauseRegions]
) -> tuple[list[Pair], list[ClauseRegions], list[ClauseRegions]]:
    """Return the pairs of clauses, old and new, the clauses that are new, and those that are gone."""
    places = paired([one.clause for one in before], [one.clause for one in after])
    pairs = [(before[old], after[new]) for new, old in sorted(places.items())]
    added = [one for place, one in enumerate(after) if place not in places]
    gone = set(range(len(before))) - set(places.values())
    return pairs, added, [before[place] for place in sorted(gone)]


def renumbered(added: Sequence[ClauseRegions], dropped: Sequence[ClauseRegions]) -> list[Pair]:
    """Return the pairs of a clause that is gone and one that is new which mean the same."""
    waiting: dict[tuple[object, ...], list[ClauseRegions]] = {}
    for clause in dropped:
        waiting.setdefault(meaning(clause), []).append(clause)
    found = []
    for clause in added:
        if same := waiting.get(meaning(clause)):
            found.append((same.pop(0), clause))
    return found


def meaning(clause: ClauseRegions) -> tuple[object, ...]:
    """Return what two clauses have in common if and only if they make the same of every system."""
    return clause.applies, clause.out, clause.shall, clause.should, clause.mandatory
