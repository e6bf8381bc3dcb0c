"""Conditions as operations on columns: where they hold and where they do not; and the matrix of verdicts, the worst
smallest.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, assert_never

import numpy as np
from numpy.typing import NDArray

from speccheck.judge.judgement import Verdict
from speccheck.judge.vectorized.amounts import Amounts
from speccheck.judge.vectorized.column import Flags, Integers, SetColumn
from speccheck.judge.vectorized.comparing import Comparing
from speccheck.judge.vectorized.expression_graph import ExpressionGraph, Masks
from speccheck.judge.vectorized.operand import Operand, codes_of
from speccheck.judge.vectorized.program import NEVER, RowBlock
from speccheck.language.core import (
    AskedIf,
    CellSays,
    Comparison,
    Condition,
    Every,
    Given,
    Holds,
    Includes,
    Inclusion,
    Literal,
    NamedCondition,
    Negation,
    OneOf,
    OrEqual,
    Readings,
    Relation,
    Some,
)
from speccheck.language.core.walking import plain
from speccheck.language.vocabulary.terms import Form

FAILS, CANNOT_TELL, COMPLIES, NOT_CHECKED, NOT_APPLICABLE, NO_ADVICE = -1, 0, 1, 2, 3, 4
"""The codes of the verdicts, and of no advice; the least of the codes of several cases is that of their line."""

VERDICTS: Mapping[int, Verdict] = {
    FAILS: Verdict.FAILS,
    CANNOT_TELL: Verdict.CANNOT_TELL,
    COMPLIES: Verdict.COMPLIES,
    NOT_CHECKED: Verdict.NOT_CHECKED,
    NOT_APPLICABLE: Verdict.NOT_APPLICABLE,
}
CODES: Mapping[Verdict, int] = {verdict: code for code, verdict in VERDICTS.items()}


@dataclass(frozen=True, slots=True)
class VerdictMatrix:
    """The codes of all verdicts, a row for each line and a column for each clause.

    `advice` are the verdicts on advice, a column for each clause in `advised` (their numbers in the ruleset).
    """

    codes: NDArray[np.int8]
    advice: NDArray[np.int8]
    advised: tuple[int, ...] = ()

    def verdict(self, line: int, clause: int) -> Verdict:
        """Return the verdict of one clause on one line."""
        return VERDICTS[int(self.codes[line, clause])]

    def advice_on(self, line: int, clause: int) -> Verdict | None:
        """Return the verdict on the advice of one clause on one line, None where there is none."""
        if clause not in self.advised:
            return None
        return VERDICTS[int(self.advice[line, self.advised.index(clause)])]

    def counts(self) -> Mapping[Verdict, NDArray[np.intp]]:
        """Return the number of lines that have each verdict, clause by clause."""
        by_clause = self.codes.T
        return {
            verdict: np.array([np.count_nonzero(column == code) for column in by_clause], np.intp)
            for code, verdict in VERDICTS.items()
        }

    def line_codes(self, clauses: tuple[int, ...]) -> NDArray[np.int8]:
        """Return the worst code of each line (a row) over some clauses (columns); without clauses, not applicable."""
        worst = np.full(len(self.codes), NOT_APPLICABLE, np.int8)
        for clause in clauses:
            np.minimum(worst, self.codes[:, clause], out=worst)
        return worst


# From so many choices on, a list of them is looked up instead of being compared one by one.
MANY = 16
BITS = 64


@dataclass(frozen=True, slots=True)
class Conditions:
    """Turns conditions into operations of a circuit."""

    circuit: ExpressionGraph
    amounts: Amounts
    comparing: Comparing

    def masks(self, node: Condition) -> Masks:
        """Return where a condition holds and where it does not."""
        match node:
            case Comparison(left, Relation() as relation, right):
                return self.comparing.compared(self.amounts.worth(left), relation, self.amounts.worth(right))
            case Comparison() | AskedIf():
                return self.masks(plain(node))
            case OneOf():
                return self._one_of(node)
            case NamedCondition(_, condition):
                return self.masks(condition)
            case Every(parts):
                return self.circuit.every(tuple(self.masks(part) for part in parts))
            case Some(parts):
                return self.circuit.some(tuple(self.masks(part) for part in parts))
            case Negation(part):
                return self.masks(part).negation
            case OrEqual(part):
                return Masks(self.masks(part).true, NEVER)
            case Readings(parts):
                found = tuple(self.masks(part) for part in parts)
                return Masks(self.circuit.every(found).true, self.circuit.some(found).false)
            case Includes():
                return self._includes(node)
            case Holds(term):
                answer = self.amounts.of_term(term)
                yes = self.circuit.result(("code", 1), lambda _, codes: codes == 1, answer.values())
                return self.circuit.settled(yes, answer.given)
            case CellSays():
                return self.amounts.cell_says(node)
            case Given(term):
                given = self.amounts.of_term(term).given
                return Masks(given, self.circuit.result("not", lambda _, flags: ~flags, given))
            case _:
                assert_never(node)

    def _one_of(self, node: OneOf) -> Masks:
        found = self.amounts.worth(node.amount)
        if found.kind.form is Form.CHOICE and len(node.options) >= MANY:
            return self.circuit.settled(self._listed(node, found), found.given)
        literals = [self.amounts.worth(Literal(option, node.amount.kind)) for option in node.options]
        equal = [self.comparing.compared(found, Relation.EQUAL, literal).true for literal in literals]
        return self.circuit.settled(self.circuit.either(*equal), found.given)

    def _listed(self, node: OneOf, found: Operand) -> int:
        """Return where a choice is among many."""
        wanted = tuple(sorted({found.choices[str(option)] for option in node.options}))
        table = np.zeros(len(found.choices) + 1, np.bool_)
        table[list(wanted)] = True

        def listed(_: RowBlock, codes: Integers) -> Flags:
            return table.take(codes, mode="wrap")

        return self.circuit.result(("listed", wanted), listed, found.values())

    def _includes(self, node: Includes) -> Masks:
        sets = self.amounts.of_term(node.term)
        codes = codes_of(node.term)
        wanted = tuple(sorted({codes[option] for option in node.options}))

        def includes(_: RowBlock, column: SetColumn) -> Flags:
            return _included(column, node.inclusion, wanted) & column.given

        true = self.circuit.result((node.inclusion, wanted), includes, sets.values())
        return self.circuit.settled(true, sets.given)


def _included(column: SetColumn, inclusion: Inclusion, wanted: tuple[int, ...]) -> Flags:
    """Return where sets include all of, any of or none of the choices with some numbers."""
    whole = np.ones(len(column.given), np.bool_)
    for number, part in enumerate(column.parts):
        bits: Any = part.dtype.type(sum(1 << code % BITS for code in wanted if code // BITS == number))
        if inclusion is Inclusion.ALL:
            whole &= (part & bits) == bits
        else:
            whole &= (part & bits) == 0
    return ~whole if inclusion is Inclusion.ANY else whole
