"""Surveying: which axes the clauses of some rulesets need, and at which values each of them is to be cut."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

from speccheck.engine.comparing import Rules
from speccheck.language.core import (
    Amount,
    Comparison,
    Condition,
    Given,
    Holds,
    Includes,
    Lookup,
    OneOf,
    Ruleset,
    TermValue,
)
from speccheck.language.values import Single
from speccheck.language.vocabulary import Term
from speccheck.language.walking import Node, walk
from speccheck.language.wording import amount_text
from speccheck.proofread.axes import Axes, Axis, ChoiceAxis, OrderAxis, TermAxis
from speccheck.proofread.cutting import cut
from speccheck.proofread.settled import equalities, is_plain, is_settled, settled_values, term_of, without_names


def axes_of(rulesets: Sequence[Ruleset], more: Iterable[Condition] = ()) -> Axes:
    """Return the axes of the systems that clauses and scopes of rulesets, and more conditions, speak of."""
    survey = _Survey()
    for ruleset in rulesets:
        for scope in ruleset.scopes:
            survey.add((*scope.conditions, *(part.condition for part in scope.exceptions)))
        for clause in ruleset.clauses:
            survey.add((*clause.scope, *(part.condition for part in clause.exceptions)), weight=2)
            survey.add((*clause.shall, *clause.should))
    survey.add(more)
    rules = [Rules(one.tolerance, one.nominal_metric, one.units) for one in rulesets]
    axes = tuple(survey.axes(rules, rulesets[0].units))
    at = list(enumerate(axes))
    return Axes(
        axes,
        rulesets[0].units,
        {axis.term.name: index for index, axis in at if isinstance(axis, TermAxis)},
        {(axis.term.name, axis.choice): index for index, axis in at if isinstance(axis, ChoiceAxis)},
        {(axis.left, axis.right, axis.tolerance): index for index, axis in at if isinstance(axis, OrderAxis)},
    )


@dataclass
class _Survey:
    """What conditions speak of: terms and how often, what they are held against, choices of sets, amounts compared."""

    terms: dict[str, Term] = field(default_factory=dict)
    uses: dict[str, int] = field(default_factory=dict)
    values: dict[str, dict[Single, None]] = field(default_factory=dict)
    named: dict[str, dict[str, None]] = field(default_factory=dict)
    compared: dict[tuple[Amount, Amount], None] = field(default_factory=dict)

    def add(self, conditions: Iterable[Condition], weight: int = 1) -> None:
        """Take conditions in; those that part systems into kinds weigh more than those that ask for something."""
        for node in walk(conditions):
            self._add(node, weight)

    def _add(self, node: Node, weight: int) -> None:
        match node:
            case TermValue(term) | Given(term) | Holds(term):
                self._use(term, weight)
            case Includes(term, _, options):
                self._use(term, weight)
                self.named.setdefault(term.name, {}).update(dict.fromkeys(options))
            case Comparison():
                self._compare(node)
            case OneOf():
                for comparison in equalities(node):
                    self._compare(comparison)
            case Lookup(table):
                for axis in table.axes:
                    self._use(axis.term, weight)
                    ends = (end for band in axis.bands if (i := band.interval) for end in (i.low, i.high))
                    self._hold(axis.term, (end for end in ends if end is not None))
            case _:
                pass

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
            yield TermAxis(term, cut(term, self.values.get(name, ()), rules, system))
            for choice in self.named.get(name, ()):
                yield ChoiceAxis(term, choice)
        for left, right in sorted(self.compared, key=lambda pair: (amount_text(pair[0]), amount_text(pair[1]))):
            for tolerance in sorted({one.tolerance for one in rules}):
                yield OrderAxis(left, right, tolerance)
