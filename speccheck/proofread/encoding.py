"""Encoding: a problem in the words of z3: SI numbers, and for terms with a list of values the place in it.

Terms are free here, those that are worked out by physics too. A thickness adjusted to a conductivity, which is a power,
is one unknown for each such amount, of which is known how it grows (see `Encoding._grown`).
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Any, assert_never

from speccheck.judge.operations import bare
from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    Literal,
    Lookup,
    NamedAmount,
    Operation,
    Table,
    TermValue,
)
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import BareUnits, read_value
from speccheck.proofread.decision_diagrams import Mask
from speccheck.proofread.describing import runs
from speccheck.proofread.problems import ORDERED, OrderProblem, Values, read_number, unit_of
from speccheck.proofread.variables import ABOVE, AT, BELOW, OrderAxis
from speccheck.quantities import Misread, Quantity

MILLISECONDS = 2_000
# By how much of both amounts two of them may differ and still count as equal, when it is proved that none are.
SLACK = 4e-6


@dataclass
class Encoding:
    """One problem, its unknowns and its conditions.

    It is `loose` where the words say less than the problem does in a way that a proof could not rest on.
    """

    problem: OrderProblem
    variables: dict[str, Any] = field(default_factory=dict)
    conditions: list[Any] = field(default_factory=list)
    loose: bool = False
    _places: dict[tuple[str, int], Any] = field(default_factory=dict)
    _adjusted: dict[Adjusted, tuple[Any, ...]] = field(default_factory=dict)
    _ordered: list[tuple[OrderAxis, Any, Any]] = field(default_factory=list)

    def solve(self, margin: float) -> tuple[str, Any]:
        """Return "sat" with a model, "unsat" or "unknown"; `margin` is the share by which ordered amounts lie apart."""
        import z3

        solver = z3.Solver()
        solver.set("timeout", MILLISECONDS)
        solver.set("random_seed", 1)
        for term in self.problem.terms:
            self._variable(term)
        for axis, mask in self.problem.orders:
            self._order(axis, mask, margin)
        solver.add(self.conditions)
        answer = str(solver.check())
        return answer, solver.model() if answer == "sat" else None

    def _order(self, axis: OrderAxis, mask: Mask, margin: float) -> None:
        """Say that two amounts stand in one of some orders: the place is -1 for below, 0 for at, 1 for above.

        What is below a smaller amount is not above or at a larger one, however closely amounts are compared.
        """
        import z3

        left, right = self._amount(axis.left), self._amount(axis.right)
        place = z3.Int(f"place {len(self._ordered)}")
        apart = margin * (_size(left) + _size(right)) / 2
        near = 0 if margin else (SLACK + axis.tolerance) * (_size(left) + _size(right))
        ways = (
            (BELOW, z3.And(place == -1, left + apart < right)),
            (AT, z3.And(place == 0, left - right <= near, right - left <= near)),
            (ABOVE, z3.And(place == 1, right + apart < left)),
        )
        self.conditions.append(z3.Or([way for order, way in ways if mask & order]))
        for other, other_right, other_place in self._ordered:
            if other.left == axis.left and other.tolerance == axis.tolerance:
                self.conditions.append(z3.Implies(right <= other_right, place >= other_place))
                self.conditions.append(z3.Implies(right >= other_right, place <= other_place))
        self._ordered.append((axis, right, place))

    def values(self, model: Any, digits: int) -> Values | None:
        """Return the values of a model, written with so many digits; None where a schedule could not state them."""
        found: dict[str, tuple[Any, str]] = {}
        for term in self.problem.terms:
            number = model.eval(self.variables[term.name], model_completion=True)
            if term.kind.form not in ORDERED:
                atom = self.problem.axes.term_axis(term).atoms[number.as_long()]
                found[term.name] = (atom.value, atom.text)
                continue
            unit = unit_of(self.problem, term)
            shown = _in_unit(_float(number), term, unit)
            stated = read_number(shown, term, unit, digits)
            if stated is None:
                return None
            found[term.name] = stated
        return found

    # ---- terms -----------------------------------------------------------------------------------

    def _variable(self, term: Term) -> None:
        import z3

        ordered = term.kind.form in ORDERED
        make = z3.Real if ordered and term.kind.form is not Form.COUNT else z3.Int
        self.variables[term.name] = make(term.name)
        self.conditions.append(self._within(term, self.problem.mask(term)))
        if ordered and _is_never_negative(term, unit_of(self.problem, term)):
            self.conditions.append(self.variables[term.name] >= 0)

    def _within(self, term: Term, mask: int) -> Any:
        """Return that a term lies in one of some atoms."""
        if (term.name, mask) not in self._places:
            self._places[term.name, mask] = self._place(term, mask)
        return self._places[term.name, mask]

    def _place(self, term: Term, mask: int) -> Any:
        import z3

        variable, axis = self.variables[term.name], self.problem.axes.term_axis(term)
        if term.kind.form not in ORDERED:
            return z3.Or([z3.And(variable >= first, variable <= last) for first, last in runs(axis, mask)])
        unsolved = sum(1 << at for at, atom in enumerate(axis.atoms) if atom.stand_in or atom.low == math.inf)
        self.loose = self.loose or bool(mask & unsolved)
        ways = []
        for first, last in runs(axis, mask & ~unsolved):
            low, high = axis.atoms[first], axis.atoms[last]
            above = variable >= _exact(low.low) if low.single else low.low is None or variable > _exact(low.low)
            below = variable <= _exact(high.high) if high.single else high.high is None or variable < _exact(high.high)
            ways.append(z3.And(above, below))
        return z3.Or(ways)

    # ---- amounts ---------------------------------------------------------------------------------

    def _amount(self, amount: Amount) -> Any:
        import z3

        match amount:
            case Literal(value):
                return z3.RealVal(_exact(bare(value)))
            case NamedAmount(_, inner):
                return self._amount(inner)
            case TermValue(term):
                return self._term_number(term)
            case Lookup(table):
                return self._table(table)
            case Adjusted():
                return self._grown(amount)
            case Arithmetic(operation, left, right):
                return self._arithmetic(operation, self._amount(left), self._amount(right))
            case _:
                assert_never(amount)

    def _grown(self, amount: Adjusted) -> Any:
        """Return the unknown that stands for T = r ((1 + t/r)^(K/k) - 1), with what is known of it.

        T is more than t where K is more than k, less where K is less; around the same pipe and for the same K it grows
        with t and falls as k grows.
        """
        import z3

        if amount in self._adjusted:
            return self._adjusted[amount][0]
        parts = (self._amount(part) for part in (amount.thickness, amount.stated, amount.proposed, amount.diameter))
        unknown, (thickness, stated, proposed, diameter) = z3.Real(f"adjusted {len(self._adjusted)}"), parts
        self.conditions += [
            unknown >= 0,
            z3.Implies(proposed <= stated, unknown <= thickness),
            z3.Implies(proposed >= stated, unknown >= thickness),
        ]
        for other, other_thickness, other_stated, other_proposed, other_diameter in self._adjusted.values():
            if z3.eq(proposed, other_proposed) and z3.eq(diameter, other_diameter):
                less = z3.And(thickness <= other_thickness, stated >= other_stated)
                more = z3.And(thickness >= other_thickness, stated <= other_stated)
                self.conditions += [z3.Implies(less, unknown <= other), z3.Implies(more, unknown >= other)]
        self._adjusted[amount] = (unknown, thickness, stated, proposed, diameter)
        return unknown

    def _term_number(self, term: Term) -> Any:
        import z3

        variable = self.variables[term.name]
        if term.kind.form in ORDERED:
            return z3.ToReal(variable) if term.kind.form is Form.COUNT else variable
        atoms = self.problem.axes.term_axis(term).atoms
        number: Any = z3.RealVal(0)
        for at, atom in enumerate(atoms[1:], 1):
            size = _exact(bare(atom.value)) if term.kind.form is Form.SIZE else at  # type: ignore[arg-type]
            number = z3.If(variable == at, z3.RealVal(size), number)
        return number

    def _arithmetic(self, operation: Operation, left: Any, right: Any) -> Any:
        import z3

        match operation:
            case Operation.PLUS:
                return left + right
            case Operation.MINUS:
                return left - right
            case Operation.TIMES:
                return left * right
            case Operation.DIVIDED_BY:
                self.conditions.append(right != 0)
                return left / right
            case Operation.LARGER:
                return z3.If(left >= right, left, right)
            case Operation.SMALLER:
                return z3.If(left <= right, left, right)
            case _:
                assert_never(operation)

    def _table(self, table: Table) -> Any:
        """Return the cell of a table; which rows and columns there are is a condition besides."""
        import z3

        bands = [self.problem.regions[0].bands(axis) for axis in table.axes]
        number: Any = z3.RealVal(0)
        covered = []
        for row, column, cell in table.filled():
            places = zip(table.axes, bands, table.positions(row, column), strict=True)
            here = z3.And([self._within(axis.term, masks[place]) for axis, masks, place in places])
            covered.append(here)
            value = z3.RealVal(_exact(bare(cell.value))) if table.kind.ordered else z3.RealVal(0)
            number = z3.If(here, value, number)
        self.conditions.append(z3.Or(covered))
        return number


def _size(number: Any) -> Any:
    import z3

    return z3.If(number >= 0, number, -number)


def _exact(number: float | None) -> str:
    """Return a number in the solver's words, as exact as the machine has it."""
    assert number is not None
    numerator, denominator = float(number).as_integer_ratio()
    return f"{numerator}/{denominator}"


def _float(number: Any) -> float:
    if hasattr(number, "as_fraction"):
        return float(number.as_fraction())
    return float(number.as_long()) if hasattr(number, "as_long") else float(number.approx(20).as_fraction())


def _in_unit(number: float, term: Term, unit: str) -> float:
    return Quantity(number, term.kind.dimension, unit).in_unit(unit) if unit else number


def _is_never_negative(term: Term, unit: str) -> bool:
    """Say whether no schedule can state a value of a term below zero."""
    return isinstance(read_value(f"-1 {unit}".strip(), term, BareUnits()), Misread)
