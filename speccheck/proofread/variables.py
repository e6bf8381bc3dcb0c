"""Variables: what the systems of some rulesets can differ in, as far as their clauses care, and where each is to be
cut.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import assert_never

from speccheck.judge.operations import Rules
from speccheck.language.core import (
    Amount,
    CellSays,
    Comparison,
    Condition,
    Given,
    Holds,
    Includes,
    Order,
    Relation,
    Ruleset,
)
from speccheck.language.core.walking import Atom as SingleCondition
from speccheck.language.core.walking import atoms_at, tables_of, terms_at, terms_of, walk
from speccheck.language.core.wording import amount_text
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import Single
from speccheck.proofread.finite_amounts import is_plain, is_settled, settled_values, term_of, without_names
from speccheck.proofread.partition import Atom, cut
from speccheck.quantities import Quantity
from speccheck.quantities.conversion import conversions, to_si

NO, YES = 0, 1
BELOW, AT, ABOVE = (int(order) for order in (Order.BELOW, Order.AT, Order.ABOVE))


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

    @cached_property
    def terms(self) -> tuple[Term, ...]:
        """The terms that the two amounts are worked out from."""
        return terms_of((self.left, self.right))


Axis = TermAxis | ChoiceAxis | OrderAxis


@dataclass(frozen=True)
class Variables:
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

    def order(self, comparison: Comparison, relation: Relation, tolerance: float) -> tuple[int, int]:
        """Return the axis of a comparison without settled values, and the mask on which it holds.

        `tolerance` is a share of what is compared. Raises `KeyError` for a comparison that no clause makes.
        """
        left, right = without_names(comparison.left), without_names(comparison.right)
        order = relation.order
        if (left, right, tolerance) in self.of_order:
            return self.of_order[left, right, tolerance], int(order)
        return self.of_order[right, left, tolerance], int(order.turned)


def axes_of(rulesets: Sequence[Ruleset], more: Iterable[Condition] = ()) -> Variables:
    """Return the axes of the systems that clauses and scopes of rulesets, and more conditions, speak of."""
    survey = _Survey()
    for ruleset in rulesets:
        for scope in ruleset.scopes:
            survey.add((*scope.conditions, *(part.condition for part in scope.exceptions)))
        for document in ruleset.documents:
            survey.add(document.conditions)
        for relation in ruleset.relations:
            survey.add(relation.conditions)
        for clause in ruleset.clauses:
            survey.add((*clause.scope, *clause.judged_only, *(part.condition for part in clause.exceptions)), weight=2)
            survey.add((*clause.shall, *clause.should))
    survey.add(tuple(more))
    rules = [Rules.of(one) for one in rulesets]
    axes = tuple(survey.axes(rules, rulesets[0].units))
    at = list(enumerate(axes))
    return Variables(
        axes,
        rulesets[0].units,
        {axis.term.name: index for index, axis in at if isinstance(axis, TermAxis)},
        {(axis.term.name, axis.choice): index for index, axis in at if isinstance(axis, ChoiceAxis)},
        {(axis.left, axis.right, axis.tolerance): index for index, axis in at if isinstance(axis, OrderAxis)},
    )


@dataclass
class _Survey:
    """What conditions speak of: terms and how often, what they are compared with, choices of sets, amounts compared."""

    terms: dict[str, Term] = field(default_factory=dict)
    uses: dict[str, int] = field(default_factory=dict)
    values: dict[str, dict[Single, None]] = field(default_factory=dict)
    named: dict[str, dict[str, None]] = field(default_factory=dict)
    compared: dict[tuple[Amount, Amount], None] = field(default_factory=dict)

    def add(self, conditions: Sequence[Condition], weight: int = 1) -> None:
        """Take conditions in; those that part systems into kinds weigh more than those that ask for something."""
        for node in walk(conditions):
            for term in terms_at(node):
                self._use(term, weight)
            for atom in atoms_at(node):
                self._add(atom)
        for axis in (axis for table in tables_of(conditions) for axis in table.axes):
            ends = (end for band in axis.bands if (i := band.interval) for end in (i.low, i.high))
            self._hold(axis.term, (end for end in ends if end is not None))

    def _add(self, atom: SingleCondition) -> None:
        match atom:
            case Comparison():
                self._compare(atom)
            case Includes(term, _, options):
                self.named.setdefault(term.name, {}).update(dict.fromkeys(options))
            case Given() | Holds() | CellSays():
                pass
            case _:
                assert_never(atom)

    def _use(self, term: Term, weight: int) -> None:
        self.terms.setdefault(term.name, term)
        self.uses[term.name] = self.uses.get(term.name, 0) + weight

    def _hold(self, term: Term, values: Iterable[Single]) -> None:
        self.values.setdefault(term.name, {}).update(dict.fromkeys(values))

    def _compare(self, comparison: Comparison) -> None:
        left, right = comparison.left, comparison.right
        if not is_plain(comparison):
            pair = without_names(left), without_names(right)
            if (pair[1], pair[0]) not in self.compared:
                self.compared[pair] = None
        for one, other in ((left, right), (right, left)):
            term = term_of(one)
            if term is not None and is_settled(other):
                self._hold(term, settled_values(other))

    def axes(self, rules: Sequence[Rules], system: str) -> Iterator[Axis]:
        """Yield the axes; those used most come first.

        What many conditions ask for parts the systems best, and keeps the diagrams small where it is asked for first.
        """
        for name in sorted(self.terms, key=lambda name: -self.uses[name]):
            term = self.terms[name]
            self._hold(term, (in_usual_unit(end, term, system) for end in _sensible_ends(term, self.terms)))
            yield TermAxis(term, cut(term, self.values.get(name, ()), rules, system))
            for choice in self.named.get(name, ()):
                yield ChoiceAxis(term, choice)
        for left, right in sorted(self.compared, key=lambda pair: (amount_text(pair[0]), amount_text(pair[1]))):
            for tolerance in sorted({one.tolerance for one in rules}):
                yield OrderAxis(left, right, tolerance)


def in_usual_unit(value: Single, term: Term, system: str) -> Single:
    """Return an end of a sensible range in the usual unit of a ruleset, rounded: no writer has stated its own unit."""
    usual, other = (term.metric, term.inch_pound) if system == "metric" else (term.inch_pound, term.metric)
    if not isinstance(value, Quantity) or value.unit != other or usual == other:
        return value
    shown = value.in_unit(usual)
    digits = 1 - math.floor(math.log10(abs(shown))) if shown else 0
    return Quantity(to_si(round(shown, digits), conversions(usual)[value.dimension]), value.dimension, usual)


def _sensible_ends(term: Term, terms: Mapping[str, Term]) -> Iterator[Single]:
    """Yield the ends of the ranges that the vocabulary gives a term, for values of some terms, to cut its axis at."""
    for one in term.sensible:
        if one.range is not None and (not one.where or one.where in terms):
            yield from (end for end in (one.range.low, one.range.high) if end is not None)
