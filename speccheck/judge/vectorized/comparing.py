"""Comparing two amounts on columns, with the tolerance and the nominal sizes of `speccheck.judge.operations`.

All relations come from two, "is" and "is at least": each other one is one of these turned round or denied.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass, replace

import numpy as np

from speccheck.judge.operations import TEMPERATURE_TOLERANCE, Rules
from speccheck.judge.vectorized.column import Flags, Integers, Numbers
from speccheck.judge.vectorized.expression_graph import ExpressionGraph, Masks
from speccheck.judge.vectorized.operand import Operand, StatedOperand, bare_number, exact, size_code
from speccheck.judge.vectorized.program import ALWAYS, NEVER, RowBlock
from speccheck.judge.vectorized.thresholds import WIDEST, greatest_within, smallest_within, standing_in
from speccheck.language.core import Order, Relation
from speccheck.language.vocabulary.terms import Form
from speccheck.language.vocabulary.values import Single

UNKNOWN_TEXT = -2
"""The code of a text that no line states."""


@dataclass(frozen=True, slots=True)
class Comparing:
    """Turns comparisons into operations of a circuit."""

    circuit: ExpressionGraph
    rules: Rules

    def compared(self, left: Operand, relation: Relation, right: Operand) -> Masks:
        """Return the condition that one amount stands in a relation to another."""
        given = self.circuit.both(left.given, right.given)
        left, right = self._standing_in(left, right)
        denied = Order.AT not in relation.order
        closed = relation.denial if denied else relation
        if not closed.is_limit:
            holds = self._equal(left, right)
        else:
            holds = self._at_least(left, right) if closed.is_minimum else self._at_least(right, left)
        found = self.circuit.settled(holds, given)
        return found.negation if denied else found

    def _equal(self, left: Operand, right: Operand) -> int:
        if left.coded:
            return self._same_code(left, right)
        one, stated = (left, right.stated) if right.stated else (right, left.stated)
        tolerance = self._tolerance(left, right)
        if stated is None or tolerance > WIDEST:
            return self.circuit.result(
                ("equal", tolerance), lambda _, this, that: near(this, that, tolerance), left.values(), right.values()
            )
        if tolerance == 0:
            return self._held(one, np.equal, stated, lambda value: value, "itself")
        reaches = self._reaches(one, stated, tolerance)
        return self.circuit.both(reaches, self._stays_under(one, stated, tolerance))

    def _at_least(self, left: Operand, right: Operand) -> int:
        if left.coded:
            return self._size_at_least(left, right)
        tolerance = self._tolerance(left, right)
        if right.stated and tolerance <= WIDEST:
            return self._reaches(left, right.stated, tolerance)
        if left.stated and tolerance <= WIDEST:
            return self._stays_under(right, left.stated, tolerance)
        return self.circuit.result(
            ("at least", tolerance),
            lambda _, this, that: reaches(this, that, tolerance),
            left.values(),
            right.values(),
        )

    def _tolerance(self, left: Operand, right: Operand) -> float:
        """Return the relative tolerance of a comparison."""
        if exact((left.kind, right.kind)):
            return 0.0
        return TEMPERATURE_TOLERANCE if left.kind.dimension == "temperature" else self.rules.tolerance

    def _reaches(self, one: Operand, stated: StatedOperand, tolerance: float) -> int:
        """Return where an amount is at least the stated one."""
        key = ("smallest", tolerance)
        return self._held(one, np.greater_equal, stated, lambda value: smallest_within(value, tolerance), key)

    def _stays_under(self, one: Operand, stated: StatedOperand, tolerance: float) -> int:
        """Return where an amount is at most the stated one."""
        key = ("greatest", tolerance)
        return self._held(one, np.less_equal, stated, lambda value: greatest_within(value, tolerance), key)

    def _held(
        self, one: Operand, relation: np.ufunc, stated: StatedOperand, bound: Callable[[float], float], key: Hashable
    ) -> int:
        """Return where an amount stands in a relation to the bounds of stated values."""
        if stated.place is None:
            limit = bound(bare_number(stated.single))
            to_limit = ("held", relation.__name__, limit)
            return self.circuit.result(to_limit, lambda _, values: relation(values, limit), one.values())
        bounds = {cell: bound(bare_number(cell)) for cell in set(stated.cells) if cell is not None}
        listed = np.array([np.nan if cell is None else bounds[cell] for cell in stated.cells])
        limits = self.circuit.result(
            ("bounds", key, listed.tobytes()), lambda _, place: listed.take(place, mode="clip"), stated.place
        )
        held = ("held", relation.__name__)
        return self.circuit.result(held, lambda _, values, limit: relation(values, limit), one.values(), limits)

    def _same_code(self, left: Operand, right: Operand) -> int:
        for one, other in ((left, right), (right, left)):
            if other.stated is not None and other.stated.place is None:
                return self._is_code(one, other.stated.single)
        same = self.circuit.result("same", lambda _, this, that: this == that, left.values(), right.values())
        return self.circuit.both(same, left.given)

    def _is_code(self, one: Operand, value: Single) -> int:
        """Return where an amount of choices, texts or sizes is a stated one."""
        if one.stated is not None and one.stated.place is None:
            return ALWAYS if one.stated.single == value else NEVER
        if one.kind.form is Form.TEXT:
            text = str(value)

            def is_text(block: RowBlock, codes: Integers) -> Flags:
                found: Flags = codes == block.columns.texts.get(text, UNKNOWN_TEXT)
                return found

            return self.circuit.result(("text", text), is_text, one.values())
        code = size_code(value) if one.kind.form is Form.SIZE else one.choices[str(value)]
        return self.circuit.result(("code", code), lambda _, codes: codes == code, one.values())

    def _size_at_least(self, left: Operand, right: Operand) -> int:
        if right.stated is not None and right.stated.place is None:
            least = size_code(right.stated.single)
            return self.circuit.result(("from code", least), lambda _, codes: codes >= least, left.values())
        reached = self.circuit.result("at least", lambda _, this, that: this >= that, left.values(), right.values())
        return self.circuit.both(reached, left.given, right.given)

    def _standing_in(self, left: Operand, right: Operand) -> tuple[Operand, Operand]:
        """Return two lengths with nominal metric sizes put in inches, where the ruleset lets them stand for these."""
        if left.units is None or right.units is None:
            return left, right
        return self._nominal(left, right), self._nominal(right, left)

    def _nominal(self, one: Operand, beside: Operand) -> Operand:
        assert one.units is not None
        assert beside.units is not None
        inputs = (one.values(), one.units(), beside.values(), beside.units())
        values = self.circuit.result("nominal", lambda _, *columns: standing_in(*columns), *inputs)
        return replace(one, values=lambda: values, stated=None)


def near(left: Numbers, right: Numbers, tolerance: float) -> Flags:
    """Return where numbers are equal within a relative tolerance, as `math.isclose` has it; not where one is NaN.

    Both in SI units, one for each line or one for all.
    """
    scale = np.maximum(np.abs(left), np.abs(right))
    apart = np.abs(left - right)
    found: Flags = ((apart <= tolerance * scale) & (scale < np.inf)) | (left == right)
    return found


def reaches(left: Numbers, right: Numbers, tolerance: float) -> Flags:
    """Return where the left number is at least the right one, or `near` it; units and shapes are those of `near`.

    Only numbers below the right one have to be near it, for which the greater of the two magnitudes is the right
    number or the left one with its sign turned.
    """
    scale = np.negative(left)
    np.maximum(scale, right, out=scale)
    scale *= tolerance
    apart = right - left
    found: Flags = apart <= scale
    found &= apart < np.inf
    found |= left >= right
    return found
