"""Matching: which clause of a revision is which clause of its base.

By its meaning first, under the same label or another one; then by its label (the number, with the ruleset's name where
several share a number), where both replace the same or nothing; then by the clause that it says to replace; then by its
number alone. What means the same under another number was renumbered.
"""

from __future__ import annotations

from collections.abc import Sequence

from speccheck.language.core import Clause, Ruleset
from speccheck.proofread.clause_regions import ClauseRegions, read_together

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


def pairs_by_meaning(before: Sequence[ClauseRegions], after: Sequence[ClauseRegions]) -> dict[int, int]:
    """Return the place in the base of each revised clause that has one there, by the place of the revised clause.

    Clauses that mean the same under one label come first, then those that mean the same, then those of one label.
    """
    found: dict[int, int] = {}
    for labelled in (True, False):
        taken = set(found.values())
        waiting: dict[object, list[int]] = {}
        for place, clause in enumerate(before):
            if place not in taken:
                waiting.setdefault((clause.label if labelled else "", meaning(clause)), []).append(place)
        for place, clause in enumerate(after):
            same = waiting.get((clause.label if labelled else "", meaning(clause)))
            if place not in found and same:
                found[place] = same.pop(0)
    left = [place for place in range(len(before)) if place not in set(found.values())]
    new = [place for place in range(len(after)) if place not in found]
    others = paired([before[place].clause for place in left], [after[place].clause for place in new])
    return found | {new[at]: left[other] for at, other in others.items()}


def paired_editions(base: Ruleset, revised: Ruleset) -> dict[int, int]:
    """Return which clause of a base each clause of its revision was, by their places in the two rulesets."""
    if base is revised:
        return {place: place for place in range(len(base.clauses))}
    before, after = read_together((base, revised))
    return pairs_by_meaning(before.clauses, after.clauses)


def matched(
    before: Sequence[ClauseRegions], after: Sequence[ClauseRegions]
) -> tuple[list[Pair], list[ClauseRegions], list[ClauseRegions]]:
    """Return the pairs of clauses, old and new, the clauses that are new, and those that are gone."""
    places = pairs_by_meaning(before, after)
    pairs = [(before[old], after[new]) for new, old in sorted(places.items())]
    added = [one for place, one in enumerate(after) if place not in places]
    gone = set(range(len(before))) - set(places.values())
    return pairs, added, [before[place] for place in sorted(gone)]


def is_renumbered(old: Clause, new: Clause) -> bool:
    """Say whether a clause has another number than the one that it was, and does not say itself that it replaces it."""
    return new.name != old.name and not (new.replaces and new.replaces[0] == old.name)


def meaning(clause: ClauseRegions) -> tuple[object, ...]:
    """Return what two clauses have in common if and only if they make the same of every system."""
    return clause.applies, clause.out, clause.shall, clause.should, clause.mandatory
