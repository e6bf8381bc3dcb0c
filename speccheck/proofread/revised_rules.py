"""Revised rules: what two editions say differently beside their clauses: comparing, assuming, documents."""

from __future__ import annotations

from collections.abc import Mapping

from speccheck.language.core import Ruleset
from speccheck.language.core.wording import condition_text, document_sentence, relation_sentence, value_text
from speccheck.proofread.clause_meaning import conditions_meaning, value_meaning


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
