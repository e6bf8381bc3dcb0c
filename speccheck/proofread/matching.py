"""Matching: which clause of a revision is which clause of its base.

By its meaning first, under the same label or another one; then by its label (the number, with the ruleset's name where
several share a number), where both replace the same or nothing; then by the clause that it says to replace; then by its
number alone. What means the same under another number was renumbered. What two editions say differently for all
clauses, of comparing values, of assuming them and of documents, is told beside that.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from speccheck.language.core import Clause, Ruleset
from speccheck.language.core.wording import condition_text, document_sentence, relation_sentence, value_text
from speccheck.proofread.clause_meaning import conditions_meaning, value_meaning
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


def changed_rules(base: Ruleset, revised: Ruleset) -> tuple[str, ...]:
    """Return in words what changed for all clauses; nothing where values are compared and assumed as before."""
    details = []
    if base.tolerance != revised.tolerance:
        details.append(f"tolerance {base.tolerance:g}, now {revised.tolerance:g}")
    if base.nominal_metric != revised.nominal_metric:
        details.append(f"nominal metric sizes {'now' if revised.nominal_metric else 'no longer'} stand for inch sizes")
    then, now = _beside_clauses(base), _beside_clauses(revised)
    details += [f"no longer: {words}" for meaning, words in then.items() if meaning not in now]
    details += [f"now: {words}" for meaning, words in now.items() if meaning not in then]
    return tuple(details)


def _beside_clauses(ruleset: Ruleset) -> Mapping[object, str]:
    return {**_assumptions(ruleset), **_documents(ruleset), **_relations(ruleset)}


def _documents(ruleset: Ruleset) -> Mapping[object, str]:
    """Return what has to be submitted, by its meaning, in words."""
    found: dict[object, str] = {}
    for one in ruleset.documents:
        each = tuple(term.name for term in one.each)
        exceptions = tuple(conditions_meaning([part.condition]) for part in one.exceptions)
        meaning = (one.kind, each, str(one.within), conditions_meaning(one.scope), exceptions)
        found[meaning] = f"document {one.name}: {document_sentence(one, ruleset.units)}"
    return found


def _assumptions(ruleset: Ruleset) -> Mapping[object, str]:
    """Return what stands for data that lines do not state, by its meaning, in words."""
    found: dict[object, str] = {}
    for one in ruleset.assumptions:
        meaning = (one.term.name, value_meaning(one.value), conditions_meaning(one.scope))
        where = " and ".join(condition_text(part, system=ruleset.units) for part in one.scope)
        found[meaning] = f"assume {one.term.name} is {value_text(one.value, ruleset.units)}" + (
            f" where {where}" if where else ""
        )
    return found


def _relations(ruleset: Ruleset) -> Mapping[object, str]:
    """Return what lines are held against one another for, by its meaning, in words."""
    found: dict[object, str] = {}
    for one in ruleset.relations:
        terms = tuple(tuple(term.name for term in several) for several in (one.alike, one.same))
        conditions = tuple(conditions_meaning(several) for several in (one.scope, one.beside))
        total = None if one.total is None else conditions_meaning([one.total])
        exceptions = tuple(conditions_meaning([part.condition]) for part in one.exceptions)
        meaning = ("relation", *terms, one.has_line, total, *conditions, exceptions)
        found[meaning] = f"relation {one.name}: {relation_sentence(one, ruleset.units)}"
    return found
