"""Axes: what the systems of some rulesets can differ in, as far as their clauses care.

There is an axis for each term; for a set of choices, one that says whether it is given and one for each choice that a
clause names; and one for each two amounts that are compared with one another and have no settled values (a temperature
with another temperature, a calculation): which of them is larger. What such an axis says follows from the values of
the terms in it, which diagrams do not know; whoever looks for a line has to find values that agree with it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from speccheck.engine.calculating import adjust, calculate
from speccheck.engine.comparing import Rules
from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    Comparison,
    Condition,
    Includes,
    Literal,
    Lookup,
    NamedAmount,
    OneOf,
    Relation,
    Ruleset,
    TermValue,
)
from speccheck.language.kinds import Form
from speccheck.language.values import Single
from speccheck.language.vocabulary import Term
from speccheck.language.walking import conditions_of, terms_of, walk
from speccheck.language.wording import amount_text
from speccheck.proofread.cutting import Atom, cut

LISTED = (Form.CHOICE, Form.SIZE)
NO, YES = 0, 1
BELOW, AT, ABOVE = 1, 2, 4
ORDERS: Mapping[Relation, int] = {
    Relation.LESS_THAN: BELOW,
    Relation.AT_MOST: BELOW | AT,
    Relation.EQUAL: AT,
    Relation.NOT_EQUAL: BELOW | ABOVE,
    Relation.AT_LEAST: AT | ABOVE,
    Relation.MORE_THAN: ABOVE,
}
_TURNED = {BELOW: ABOVE, AT: AT, ABOVE: BELOW}


@dataclass(frozen=True)
class TermAxis:
    """The axis of a term; the first atom is that it is not given."""

    term: Term
    atoms: tuple[Atom, ...]

    @property
    def width(self) -> int:
        """How many atoms the axis has."""
        return len(self.atoms)

    @property
    def ordinary(self) -> int:
        """The mask of the atoms that are given and do not stand in for another."""
        return sum(1 << at for at, atom in enumerate(self.atoms) if at and not atom.stand_in)


@dataclass(frozen=True)
class ChoiceAxis:
    """Whether a set includes a choice: NO or YES."""

    term: Term
    choice: str
    width: int = 2


@dataclass(frozen=True)
class OrderAxis:
    """Whether the left amount is below, at or above the right one, by the tolerance of a ruleset."""

    left: Amount
    right: Amount
    tolerance: float
    width: int = 3

    @property
    def terms(self) -> tuple[Term, ...]:
        """The terms that the two amounts are worked out from."""
        return terms_of((self.left, self.right))


Axis = TermAxis | ChoiceAxis | OrderAxis


@dataclass(frozen=True)
class Axes:
    """All axes in their order, and where each of them stands."""

    axes: tuple[Axis, ...]
    system: str
    of_term: Mapping[str, int] = field(default_factory=dict)
    of_choice: Mapping[tuple[str, str], int] = field(default_factory=dict)
    of_order: Mapping[tuple[Amount, Amount, float], int] = field(default_factory=dict)

    def term_axis(self, term: Term) -> TermAxis:
        """Return the axis of a term."""
        return self.named(term.name)

    def named(self, name: str) -> TermAxis:
        """Return the axis of the term with this name."""
        axis = self.axes[self.of_term[name]]
        assert isinstance(axis, TermAxis), axis
        return axis

    def order(self, comparison: Comparison, tolerance: float) -> tuple[int, int]:
        """Return the axis of a comparison without settled values, and the mask on which it holds."""
        left, right = without_names(comparison.left), without_names(comparison.right)
        mask = ORDERS[comparison.relation]
        if (left, right, tolerance) in self.of_order:
            return self.of_order[left, right, tolerance], mask
        turned = sum(_TURNED[one] for one in (BELOW, AT, ABOVE) if mask & one)
        return self.of_order[right, left, tolerance], turned


def axes_of(rulesets: Sequence[Ruleset], more: Iterable[Condition] = ()) -> Axes:
    """Return the axes of the systems that clauses and scopes of rulesets, and more conditions, speak of."""
    clauses = [clause for ruleset in rulesets for clause in ruleset.clauses]
    scoped = [(scope.conditions, scope.exceptions) for ruleset in rulesets for scope in ruleset.scopes]
    scoped += [(clause.scope, clause.exceptions) for clause in clauses]
    scopes = [one for where, parts in scoped for one in (*where, *(part.condition for part in parts))]
    conditions = [*more, *scopes, *(one for clause in clauses for one in conditions_of(clause))]
    rules = [Rules(one.tolerance, one.nominal_metric, one.units) for one in rulesets]
    axes: list[Axis] = []
    for term, values, named in _collected(conditions):
        axes.append(TermAxis(term, cut(term, values, rules, rulesets[0].units)))
        axes += [ChoiceAxis(term, choice) for choice in named]
    axes += _orders(conditions, [one.tolerance for one in rules])
    at = list(enumerate(axes))
    return Axes(
        tuple(axes),
        rulesets[0].units,
        {axis.term.name: index for index, axis in at if isinstance(axis, TermAxis)},
        {(axis.term.name, axis.choice): index for index, axis in at if isinstance(axis, ChoiceAxis)},
        {(axis.left, axis.right, axis.tolerance): index for index, axis in at if isinstance(axis, OrderAxis)},
    )


def _collected(conditions: Sequence[Condition]) -> Iterator[tuple[Term, list[Single], list[str]]]:
    """Yield each term, what it is held against, and the choices of a set that are named; those used most come first.

    What many conditions ask for parts the systems best, and keeps the diagrams small where it is asked for first.
    """
    uses: dict[str, int] = {}
    terms: dict[str, Term] = {}
    values: dict[str, dict[Single, None]] = {}
    named: dict[str, dict[str, None]] = {}
    for condition in conditions:
        for term in terms_of([condition]):
            terms.setdefault(term.name, term)
            uses[term.name] = uses.get(term.name, 0) + 1
        for name, value in _held_against(condition):
            values.setdefault(name, {})[value] = None
        for node in walk([condition]):
            if isinstance(node, Includes):
                named.setdefault(node.term.name, {}).update(dict.fromkeys(node.options))
    for name in sorted(terms, key=lambda name: -uses[name]):
        yield terms[name], list(values.get(name, {})), list(named.get(name, {}))


def _held_against(condition: Condition) -> Iterator[tuple[str, Single]]:
    """Yield the values at which the truth of a condition can change, with the name of the term."""
    for comparison in comparisons_in(condition):
        for one, other in ((comparison.left, comparison.right), (comparison.right, comparison.left)):
            term = term_of(one)
            if term is not None and is_settled(other):
                yield from ((term.name, value) for value in settled_values(other))
    for node in walk([condition]):
        if isinstance(node, Lookup):
            for axis in node.table.axes:
                ends = (end for band in axis.bands if band.interval for end in (band.interval.low, band.interval.high))
                yield from ((axis.term.name, end) for end in ends if end is not None)


def _orders(conditions: Iterable[Condition], tolerances: Sequence[float]) -> list[OrderAxis]:
    """Return an axis for every two amounts that are compared and have no settled values."""
    found: dict[tuple[Amount, Amount, float], OrderAxis] = {}
    for condition in conditions:
        for comparison in comparisons_in(condition):
            if not is_plain(comparison):
                left, right = without_names(comparison.left), without_names(comparison.right)
                for tolerance in tolerances:
                    if (right, left, tolerance) not in found:
                        found.setdefault((left, right, tolerance), OrderAxis(left, right, tolerance))
    return sorted(found.values(), key=lambda axis: (amount_text(axis.left), amount_text(axis.right), axis.tolerance))


# ---- amounts -----------------------------------------------------------------------------------------------------


def comparisons_in(condition: Condition) -> Iterator[Comparison]:
    """Yield the comparisons in a condition; to be one of several values is to be equal to any of them."""
    for node in walk([condition]):
        if isinstance(node, Comparison):
            yield node
        elif isinstance(node, OneOf):
            yield from equalities(node)


def equalities(node: OneOf) -> Iterator[Comparison]:
    """Yield the comparisons of which one holds where an amount is one of several values."""
    for option in node.options:
        yield Comparison(node.amount, Relation.EQUAL, Literal(option, node.amount.kind))


def is_plain(comparison: Comparison) -> bool:
    """Say whether a comparison is settled by one term, or by terms that have a list of values."""
    left, right = comparison.left, comparison.right
    settled = is_settled(left), is_settled(right)
    return all(settled) or (settled[1] and term_of(left) is not None) or (settled[0] and term_of(right) is not None)


def term_of(amount: Amount) -> Term | None:
    """Return the term that an amount is, be it under the name of a definition."""
    if isinstance(amount, NamedAmount):
        return term_of(amount.amount)
    return amount.term if isinstance(amount, TermValue) else None


def is_settled(amount: Amount) -> bool:
    """Say whether an amount has a list of values: it is stated, looked up, or worked out from such amounts."""
    match amount:
        case Literal() | Lookup():
            return True
        case TermValue(term):
            return term.kind.form in LISTED
        case NamedAmount(_, inner):
            return is_settled(inner)
        case Arithmetic(_, left, right):
            return is_settled(left) and is_settled(right)
        case Adjusted(thickness, stated, proposed, diameter):
            return all(map(is_settled, (thickness, stated, proposed, diameter)))


def settled_values(amount: Amount) -> tuple[Single, ...]:
    """Return the values that a settled amount can have."""
    match amount:
        case Literal(value):
            return (value,)
        case Lookup(table):
            return tuple({cell.value: None for row in table.cells for cell in row if cell is not None})
        case NamedAmount(_, inner):
            return settled_values(inner)
        case TermValue():
            return ()
        case Arithmetic(_, left, right):
            rights = settled_values(right)
            found = (calculate(amount, one, other)[0] for one in settled_values(left) for other in rights)
        case Adjusted(thickness, stated, proposed, diameter):
            parts = [settled_values(part) for part in (thickness, stated, proposed, diameter)]
            found = (
                adjust(one, two, three, four)[0]
                for one in parts[0]
                for two in parts[1]
                for three in parts[2]
                for four in parts[3]
            )
    return tuple({value: None for value in found if value is not None})


def without_names(amount: Amount) -> Amount:
    """Return an amount with what its definitions mean in place of their names."""
    match amount:
        case NamedAmount(_, inner):
            return without_names(inner)
        case Arithmetic(operation, left, right, kind):
            return Arithmetic(operation, without_names(left), without_names(right), kind)
        case Adjusted(thickness, stated, proposed, diameter):
            parts = (without_names(part) for part in (thickness, stated, proposed, diameter))
            return Adjusted(*parts)  # type: ignore[arg-type]
        case _:
            return amount
