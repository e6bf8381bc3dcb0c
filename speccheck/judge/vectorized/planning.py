"""Planning: from clauses to the program that writes their verdicts."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from speccheck.judge.operations import Rules
from speccheck.judge.vectorized.amounts import Amounts
from speccheck.judge.vectorized.column import Flags
from speccheck.judge.vectorized.comparing import Comparing
from speccheck.judge.vectorized.conditions import Conditions
from speccheck.judge.vectorized.expression_graph import ExpressionGraph, Masks
from speccheck.judge.vectorized.program import ALWAYS, NEVER, Program, RowBlock
from speccheck.judge.vectorized.terms import Assumed, Terms
from speccheck.language.core import Clause, Condition, Ruleset


def advised_clauses(clauses: Sequence[Clause]) -> tuple[int, ...]:
    """Return the numbers of the clauses that advise something."""
    return tuple(number for number, clause in enumerate(clauses) if clause.should)


def plan(ruleset: Ruleset, clauses: Sequence[Clause]) -> Program:
    """Return the program that judges all lines by some clauses of a ruleset, in their order."""
    circuit = ExpressionGraph()
    conditions = _conditions(circuit, ruleset)
    advised = advised_clauses(clauses)
    for number, clause in enumerate(clauses):
        _plan_clause(circuit, conditions, clause, number, advised)
    return circuit.program()


def _conditions(circuit: ExpressionGraph, ruleset: Ruleset) -> Conditions:
    """Return what turns conditions into operations: the conditions of assumptions see what lines state, others all."""
    rules = Rules.of(ruleset)
    comparing = Comparing(circuit, rules)
    stated = Terms(circuit, rules, ruleset.vocabulary, completing=False)
    scopes = Conditions(circuit, Amounts(circuit, rules, stated), comparing)
    assumed: dict[str, tuple[Assumed, ...]] = {}
    for one in ruleset.assumptions:
        holds = circuit.every(tuple(scopes.masks(part) for part in one.scope)).true
        assumed[one.term.name] = (*assumed.get(one.term.name, ()), Assumed(one.value, holds))
    terms = Terms(circuit, rules, ruleset.vocabulary, assumed)
    return Conditions(circuit, Amounts(circuit, rules, terms), comparing)


def _plan_clause(
    circuit: ExpressionGraph, conditions: Conditions, clause: Clause, number: int, advised: tuple[int, ...]
) -> None:
    def together(parts: Sequence[Condition]) -> Masks:
        return circuit.every(tuple(conditions.masks(part) for part in parts))

    scope = together(clause.scope)
    excepted = circuit.some(tuple(conditions.masks(part.condition) for part in clause.exceptions))
    applies = Masks(circuit.both(scope.true, excepted.false), circuit.either(scope.false, excepted.true))
    unstated = _unstated(circuit, applies, together(clause.judged_only))
    _write(circuit, applies, together(clause.shall or clause.should), unstated, "verdicts", number)
    if clause.should:
        _write(circuit, applies, together(clause.should), unstated, "advice", advised.index(number))


def _unstated(circuit: ExpressionGraph, applies: Masks, judged_only: Masks) -> int:
    """Return where a clause is not known not to apply, and is judged only with what is not stated."""
    if judged_only.false == NEVER:
        return NEVER
    within = circuit.result("not", lambda _, flags: ~flags, applies.false)
    return circuit.both(judged_only.false, within)


def _write(circuit: ExpressionGraph, applies: Masks, met: Masks, unstated: int, where: str, row: int) -> None:
    """Add the step that writes the codes of verdicts: by the rules of the language, from what applies and is met.

    Not applicable is 1 + 1 + 1 - 0, not checked 0 + 1 + 1 - 0, complies 0 + 0 + 1 - 0, cannot tell 0 + 0 + 0 - 0, does
    not comply 0 + 0 + 0 - 1.
    """
    unjudged = circuit.either(applies.false, unstated)
    settled = circuit.either(unjudged, met.true)
    stated = circuit.result("not", lambda _, flags: ~flags, unstated) if unstated != NEVER else ALWAYS
    fails = circuit.both(circuit.both(applies.true, stated), met.false)

    def write(block: RowBlock, outside: Flags, unjudged: Flags, settled: Flags, fails: Flags) -> None:
        target = getattr(block, where)[row]
        np.add(outside.view(np.int8), unjudged.view(np.int8), out=target)
        np.add(target, settled.view(np.int8), out=target)
        np.subtract(target, fails.view(np.int8), out=target)

    circuit.write(write, applies.false, unjudged, settled, fails)
