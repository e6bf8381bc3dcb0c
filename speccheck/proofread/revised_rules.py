"""Revised rules: what two editions say differently for all clauses, of comparing values and of assuming them."""

from __future__ import annotations

from collections.abc import Mapping

from speccheck.language.core import Ruleset
from speccheck.language.core.wording import condition_text, value_text
from speccheck.proofread.clause_meaning import conditions_meaning, value_meaning


def changed_rules(base: Ruleset, revised: Ruleset) -> tuple[str, ...]:
    """Return in words what changed for all clauses; nothing where values are compared and assumed as before."""
    details = []
    if base.tolerance != revised.tolerance:
        details.append(f"tolerance {base.tolerance:g}, now {revised.tolerance:g}")
    if base.nominal_metric != revised.nominal_metric:
        details.append(f"nominal metric sizes {'now' if revised.nominal_metric else 'no longer'} stand for inch sizes")
    then, now = _assumptions(base), _assumptions(revised)
    details += [f"no longer: {words}" for meaning, words in then.items() if meaning not in now]
    details += [f"now: {words}" for meaning, words in now.items() if meaning not in then]
    return tuple(details)


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
