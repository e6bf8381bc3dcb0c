"""Planning: from clauses to the program that writes their verdicts."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from speccheck.judge.operations import Rules
from speccheck.judge.vectorized.amounts import Amounts
from speccheck.judge.vectorized.column import Flags
from speccheck.judge.vectorized.comparing import Comparing
from speccheck.judge.vectorized.conditions import Conditions
from speccheck.judge.vectorized.expression_graph import Circuit, Masks
from speccheck.judge.vectorized.program import Block, Program
from speccheck.judge.vectorized.terms import Assumed, Terms
from speccheck.language.core import Clause, Condition, Ruleset


def advised_clauses(clauses: Sequence[Clause]) -> tuple[int, ...]:
    """Return the numbers of the clauses that advise something."""
    return tuple(number for number, clause in enumerate(clauses) if clause.should)


def plan(ruleset: Ruleset, clauses: Sequence[Clause]) -> Program:
    """Return the program that judges all lines by some clauses of a ruleset, in their order."""
    circuit = Circuit()
    conditions = _conditions(circuit, ruleset)
    advised = advised_clauses(clauses)
    for number, clause in enumerate(clauses):
        _plan_clause(circuit, conditions, clause, number, advised)
    return circuit.program()


def _conditions(circuit: Circuit, ruleset: Ruleset) -> Conditions:
    """Return what turns conditions into operations: the conditions of assumptions see what lines state, others all."""
    rules = Rules(ruleset.tolerance, ruleset.nominal_metric, ruleset.units)
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
    circuit: Circuit, conditions: Conditions, clause: Clause, number: int, advised: tuple[int, ...]
) -> None:
    def together(parts: Sequence[Condition]) -> Masks:
        return circuit.every(tuple(conditions.masks(part) for part in parts))

    scope = together(clause.scope)
    excepted = circuit.some(tuple(conditions.masks(part.condition) for part in clause.exceptions))
    applies = Masks(circuit.both(scope.true, excepted.false), circuit.either(scope.false, excepted.true))
    _write(circuit, applies, together(clause.shall or clause.should), "verdicts", number)
    if clause.should:
        _write(circuit, applies, together(clause.should), "advice", advised.index(number))


def _write(circuit: Circuit, applies: Masks, met: Masks, where: str, row: int) -> None:
    """Add the step that writes the codes of verdicts: by the rules of the language, from what applies and is met.

    Not applicable is 1 + 1 - 0, complies 0 + 1 - 0, cannot tell 0 + 0 - 0, does not comply 0 + 0 - 1.
    """
    settled = circuit.either(applies.false, met.true)
    fails = circuit.both(applies.true, met.false)

    def write(block: Block, outside: Flags, settled: Flags, fails: Flags) -> None:
        target = getattr(block, where)[row]
        np.add(outside.view(np.int8), settled.view(np.int8), out=target)
        np.subtract(target, fails.view(np.int8), out=target)

    circuit.write(write, applies.false, settled, fails)
