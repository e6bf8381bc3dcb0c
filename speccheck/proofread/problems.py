"""Problems: amounts that are to stand in given orders to one another, and the values of their terms that are sought.

In: a box that says for some pairs of amounts which is larger, and within which atoms the terms lie. Out: values for the
terms in those amounts, tried by the engine's own arithmetic and comparison, plain ones first.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import islice, pairwise

from speccheck.judge.evaluation import amount
from speccheck.judge.operations import Rules, bare, compare
from speccheck.language.core import Relation, TermValue
from speccheck.language.vocabulary.terms import DATE, Form, Term
from speccheck.language.vocabulary.values import BareUnits, NotGiven, Single, read_value
from speccheck.proofread.decision_diagrams import Mask
from speccheck.proofread.partition import Atom, numbers_between
from speccheck.proofread.regions import Regions
from speccheck.proofread.variables import ABOVE, AT, BELOW, OrderAxis, TermAxis, Variables
from speccheck.quantities import Interval, Misread, Quantity
from speccheck.quantities.writing import write_number, write_with_unit

Values = Mapping[str, tuple[Single, str]]

_Candidates = tuple[str, list[tuple[Single, str]]]

# How many values of one term and how many steps are tried, and how many ways that agree are handed on.
EACH, COMBINATIONS, FOUND = 14, 3_000, 12
ORDERED = (Form.QUANTITY, Form.COUNT, Form.NUMBER)


@dataclass(frozen=True)
class OrderProblem:
    """Orders that amounts are to stand in, and where the terms in them may lie; `order` has plain atoms first."""

    axes: Variables
    box: Mapping[int, Mask]
    order: Sequence[Sequence[int]]
    regions: tuple[Regions, ...]

    @cached_property
    def orders(self) -> tuple[tuple[OrderAxis, Mask], ...]:
        """The amounts that are compared, each with the orders that they may stand in."""
        found = ((self.axes.axes[index], mask) for index, mask in self.box.items())
        return tuple((axis, mask) for axis, mask in found if isinstance(axis, OrderAxis))

    @cached_property
    def terms(self) -> tuple[Term, ...]:
        """The terms in the amounts."""
        return tuple({term.name: term for axis, _ in self.orders for term in axis.terms}.values())

    def mask(self, term: Term) -> Mask:
        """Return the atoms in which a term may lie; it has to be given."""
        index = self.axes.of_term[term.name]
        whole = (1 << self.axes.axes[index].width) - 1
        return self.box.get(index, whole) & ~1

    def atoms(self, term: Term) -> list[Atom]:
        """Return the atoms in which a term may lie, the plainest first."""
        axis, mask = self.axes.term_axis(term), self.mask(term)
        return [axis.atoms[at] for at in self.order[self.axes.of_term[term.name]] if mask >> at & 1]

    def holds(self, values: Values) -> bool:
        """Say whether all amounts whose terms have values stand as they are to."""
        case: dict[str, Single | NotGiven] = {name: value for name, (value, _) in values.items()}
        settled = ((axis, mask) for axis, mask in self.orders if all(term.name in case for term in axis.terms))
        return all(self._stands(axis, mask, case) for axis, mask in settled)

    def _stands(self, axis: OrderAxis, mask: Mask, case: Mapping[str, Single | NotGiven]) -> bool:
        rules = next((one.rules for one in self.regions if one.rules.tolerance == axis.tolerance), Rules())
        left, right = amount(axis.left, case, rules).value, amount(axis.right, case, rules).value
        if left is None or right is None:
            return False
        if compare(left, Relation.EQUAL, right, rules)[0]:
            return bool(mask & AT)
        if isinstance(left, str) or isinstance(right, str):
            return bool(mask & (BELOW | ABOVE))
        return bool(mask & (ABOVE if bare(left) > bare(right) else BELOW))


def plain_values(problem: OrderProblem, most: int = COMBINATIONS) -> Iterator[Values]:
    """Yield values that agree with a problem, found by trying plain ones, term by term, in so many steps."""
    shared: dict[str, list[str]] = {}
    for term in problem.terms:
        shared.setdefault(term.kind.dimension, []).extend(atom.text for atom in problem.atoms(term) if atom.text)
    terms = sorted(problem.terms, key=lambda term: (_stands_alone(problem, term), _fewest_beside(problem, term)))
    candidates = [(term.name, list(islice(_candidates(problem, term, shared), EACH))) for term in terms]
    yield from islice(_completed(problem, candidates, {}, iter(range(most))), FOUND)


def _fewest_beside(problem: OrderProblem, term: Term) -> int:
    return min(len(axis.terms) for axis, _ in problem.orders if term in axis.terms)


def _stands_alone(problem: OrderProblem, term: Term) -> bool:
    """Say whether a term is compared as it is with an amount of several terms: it is best chosen after those."""
    sides = ((axis, side) for axis, _ in problem.orders for side in (axis.left, axis.right))
    return any(side == TermValue(term) and len(axis.terms) > 2 for axis, side in sides)


def _completed(
    problem: OrderProblem,
    candidates: Sequence[_Candidates],
    values: dict[str, tuple[Single, str]],
    steps: Iterator[int],
) -> Iterator[Values]:
    """Yield the ways to go on with some values to values of all terms; a way that fails an order is left at once."""
    if not candidates:
        yield dict(values)
        return
    name, tried = candidates[0]
    for value in (*tried, *(_fitting(problem, name, values) if len(candidates) == 1 else ())):
        if next(steps, None) is None:
            return
        going_on = {**values, name: value}
        if problem.holds(going_on):
            yield from _completed(problem, candidates[1:], going_on, steps)


def _fitting(problem: OrderProblem, name: str, values: Values) -> Iterator[tuple[Single, str]]:
    """Yield values of the last term that lie between the amounts it is compared with, and at them."""
    term = next(one for one in problem.terms if one.name == name)
    if term.kind.form is not Form.QUANTITY:
        return
    case: dict[str, Single | NotGiven] = {other: value for other, (value, _) in values.items()}
    found = {number for axis, _ in problem.orders for number in _beside(axis, term, case, problem.regions[0].rules)}
    unit, atoms = unit_of(problem, term), problem.atoms(term)
    rising = sorted(_shown(number, term, unit) for number in found)
    for number in (*((low + high) / 2 for low, high in pairwise(rising)), *rising):
        for digits in (4, 7):
            stated = read_number(number, term, unit, digits)
            if stated is not None and _inside(stated[0], atoms):
                yield stated


def _beside(axis: OrderAxis, term: Term, case: Mapping[str, Single | NotGiven], rules: Rules) -> Iterator[float]:
    """Yield the amount with which a term is compared as it is, where that is known."""
    for one, other in ((axis.left, axis.right), (axis.right, axis.left)):
        if one == TermValue(term):
            value = amount(other, case, rules).value
            if isinstance(value, Quantity) and math.isfinite(value.value):
                yield value.value


def _candidates(problem: OrderProblem, term: Term, shared: Mapping[str, Sequence[str]]) -> Iterator[tuple[Single, str]]:
    """Yield plain values of a term: its atoms, what other terms of its dimension are tried at, and values between."""
    atoms = problem.atoms(term)
    seen: set[str] = set()
    for text in (*(atom.text for atom in atoms), *_around(term, atoms), *shared.get(term.kind.dimension, ())):
        value = read_value(text, term, BareUnits())
        if text not in seen and not isinstance(value, Misread | Interval | NotGiven) and _inside(value, atoms):
            seen.add(text)
            yield value, text


def _around(term: Term, atoms: Sequence[Atom]) -> Iterator[str]:
    """Yield the words of values within stretches, besides those that stand for them."""
    if term.kind.form not in ORDERED or term.kind == DATE:
        return
    for atom in atoms:
        if atom.single or isinstance(atom.value, NotGiven):
            continue
        unit = atom.value.unit if isinstance(atom.value, Quantity) else ""
        middle = _shown(bare(atom.value), term, unit)
        ends = [None if end is None else _shown(end, term, unit) for end in (atom.low, atom.high)]
        signed = term.kind.dimension.startswith("temperature")
        for low, high in ((ends[0], middle), (middle, ends[1])):
            for number in islice(numbers_between(low, high, unit, signed=signed), 1):
                yield write_with_unit(number, unit) if unit else write_number(number)


def _shown(number: float, term: Term, unit: str) -> float:
    return Quantity(number, term.kind.dimension, unit).in_unit(unit) if unit else number


def _inside(value: Single, atoms: Sequence[Atom]) -> bool:
    """Say whether a value lies in one of some atoms."""
    if not isinstance(value, Quantity | float | int) or isinstance(value, bool):
        return any(atom.value == value for atom in atoms)
    number = bare(value)
    return any(
        atom.value == value
        or (atom.single and atom.low == number)
        or (
            not atom.single
            and not atom.stand_in
            and (atom.low is None or number > atom.low)
            and (atom.high is None or number < atom.high)
        )
        for atom in atoms
    )


def read_number(number: float, term: Term, unit: str, digits: int) -> tuple[Single, str] | None:
    """Return a number of units as a schedule states it, with so many digits; None where no schedule can."""
    rounded = float(f"{number:.{digits}g}")
    text = (write_with_unit(rounded, unit) if unit else write_number(rounded)) if digits <= 6 else ""
    text = text or f"{rounded:.{digits}g} {unit}".strip()
    value = read_value(text, term, BareUnits())
    return None if isinstance(value, Misread | Interval | NotGiven) else (value, text)


def unit_of(problem: OrderProblem, term: Term) -> str:
    """Return the unit in which to write values of a term: the metric one where the ruleset is, else that of a mark."""
    axis = problem.axes.term_axis(term)
    units = [atom.value.unit for atom in axis.atoms if isinstance(atom.value, Quantity) and not atom.stand_in]
    return term.metric if units and problem.axes.system == "metric" else next(iter(units), "")


__all__ = ["OrderProblem", "TermAxis", "Values", "plain_values", "read_number", "unit_of"]
