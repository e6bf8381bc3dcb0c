"""Breakpoints: the values of a term at which the verdict of a clause could change.

A line that covers a range is judged at its ends, at each breakpoint inside it and between every two of them. That is
exact wherever the clause holds the term against stated values, cells and bands of tables, values that the same line
states, or a calculation with one range in it (see `crossings`). Where two ranges meet in one calculation the values
that matter have no end; evenly spaced ones are tried besides.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from itertools import pairwise
from typing import assert_never

from speccheck.judge.crossings import FINE, PARTS, crossings, evenly
from speccheck.judge.operations import NOMINAL_INCHES, Rules, bare
from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    Comparison,
    Literal,
    Lookup,
    NamedAmount,
    Table,
    TermValue,
)
from speccheck.language.core.walking import Node, comparisons, tables_of, terms_of, works_out
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import NotGiven, Value
from speccheck.quantities import Interval

Stated = Mapping[str, Value | NotGiven]


def breakpoints(
    nodes: Iterable[Node], stated: Stated, rules: Rules, hidden: Iterable[Term] = ()
) -> Mapping[str, tuple[float, ...]]:
    """Return, for each term whose value is a range on this line, the values to try, SI, in rising order.

    `stated` holds what the line states for the terms that the nodes draw on. Sizes are tried one by one and have none.
    `hidden` are terms from which computed ones are worked out; where they are ranges, evenly spaced values are tried.
    """
    return Limits.of(nodes, hidden).breakpoints(stated, rules)


@dataclass(frozen=True)
class Limits:
    """What of conditions can set a breakpoint on any line: the tables and comparisons, and the terms of both."""

    terms: tuple[Term, ...]
    hidden: tuple[Term, ...]
    tables: tuple[Table, ...]
    comparisons: tuple[Comparison, ...]

    @classmethod
    def of(cls, nodes: Iterable[Node], hidden: Iterable[Term] = ()) -> Limits:
        """Return what sets breakpoints among conditions and amounts."""
        nodes, hidden = tuple(nodes), tuple(hidden)
        return cls((*terms_of(nodes), *hidden), hidden, tables_of(nodes), tuple(comparisons(nodes)))

    def breakpoints(self, stated: Stated, rules: Rules) -> Mapping[str, tuple[float, ...]]:
        """Return the breakpoints on a line, as the function of this name does."""
        ranged = {
            term.name: term
            for term in self.terms
            if isinstance(stated.get(term.name), Interval) and term.kind.form is not Form.SIZE
        }
        if not ranged:
            return {}
        search = _Search(stated, rules, ranged, {name: set() for name in ranged})
        search.bands(self.tables)
        for comparison in self.comparisons:
            search.plain(comparison)
        search.tolerances()
        search.evenly_spaced(term.name for term in self.hidden)
        plain = {name: frozenset(values) for name, values in search.found.items()}
        for comparison in self.comparisons:
            search.calculated(comparison, plain)
        search.shared()
        return {name: tuple(sorted(values)) for name, values in search.found.items()}


@dataclass
class _Search:
    """The search for breakpoints on one line: the terms with ranges, and what was found for each so far."""

    stated: Stated
    rules: Rules
    ranged: Mapping[str, Term]
    found: dict[str, set[float]]
    links: list[tuple[str, str]] = field(default_factory=list)

    def bands(self, tables: Iterable[Table]) -> None:
        """Add the ends of the bands of tables that are read by a range."""
        for table in tables:
            for axis in table.axes:
                if axis.term.name in self.found:
                    for band in axis.bands:
                        self.found[axis.term.name] |= _ends(band.interval) if band.interval is not None else set()

    def plain(self, comparison: Comparison) -> None:
        """Add the values that the one side of a comparison can have to a range on the other side."""
        names = _name(comparison.left), _name(comparison.right)
        for name, other in ((names[0], comparison.right), (names[1], comparison.left)):
            if name in self.found:
                self.found[name] |= self._possible(other)
        if names[0] in self.found and names[1] in self.found:
            self.links.append(names)

    def _possible(self, amount: Amount) -> set[float]:
        """Return the values that an amount without calculation can have on this line."""
        match amount:
            case Literal(value):
                return _ends(value)
            case NamedAmount(_, meaning):
                return self._possible(meaning)
            case TermValue(term):
                given = self.stated.get(term.name)
                return set() if given is None or isinstance(given, NotGiven) else _ends(given)
            case Lookup(table):
                return {end for row in table.cells for cell in row if cell is not None for end in _ends(cell.value)}
            case Arithmetic() | Adjusted():
                return set()
            case _:
                assert_never(amount)

    def tolerances(self) -> None:
        """Add the values between which a wide tolerance takes two for equal, and the nominal sizes that stand in."""
        for name, term in self.ranged.items():
            exact = term.kind.dimension == "temperature" or term.kind.form is Form.COUNT
            if self.rules.tolerance > FINE and not exact:
                kept = 1 - min(self.rules.tolerance, 0.5)
                self.found[name] |= {near for value in self.found[name] for near in (value * kept, value / kept)}
            if self.rules.nominal_metric and term.kind.dimension == "length":
                self.found[name] |= {millimetres / 1000 for millimetres in NOMINAL_INCHES}

    def evenly_spaced(self, names: Iterable[str]) -> None:
        """Add evenly spaced values of ranges whose effect on the verdict goes through a computed term."""
        for name in names:
            if name in self.found:
                self.found[name] |= set(evenly(self._range(name), PARTS))

    def calculated(self, comparison: Comparison, plain: Mapping[str, frozenset[float]]) -> None:
        """Add the values of each range at which a calculation reaches what it is compared with.

        `plain` are the values found before; another range in the calculation is taken at these and at its ends.
        """
        if not works_out([comparison]):
            return
        names = [term.name for term in terms_of([comparison]) if term.name in self.found]
        for name in names:
            others = {other: self._tried(other, plain[other]) for other in names if other != name}
            known = sorted(self.found[name])
            self.found[name] |= crossings(comparison, self.ranged[name], self.stated, known, others, self.rules)
            if len(names) > 1:
                self.found[name] |= set(evenly(self._range(name), PARTS))

    def _range(self, name: str) -> Interval[float]:
        value = self.stated[name]
        assert isinstance(value, Interval), value
        low, high = (None if end is None else bare(end) for end in (value.low, value.high))
        return Interval(low, high, value.low_closed, value.high_closed)

    def _tried(self, name: str, plain: frozenset[float]) -> tuple[float, ...]:
        whole = self._range(name)
        return tuple(sorted(value for value in plain | _ends(whole) if whole.contains(value)))

    def shared(self) -> None:
        """Let ranges that are compared with one another try the same values, close enough for every order of them."""
        for group in _groups(self.links):
            marks = {value for name in group for value in self.found[name] if math.isfinite(value)}
            marks |= {end for name in group for end in _ends(self._range(name))}
            inside = 1
            while inside < len(group):
                marks |= {(first + second) / 2 for first, second in pairwise(sorted(marks))}
                inside = 2 * inside + 1
            for name in group:
                self.found[name] |= marks


def _groups(links: Iterable[tuple[str, str]]) -> list[set[str]]:
    """Return the names that are linked to one another, directly or through others."""
    groups: list[set[str]] = []
    for link in links:
        joined = set(link)
        for group in [group for group in groups if group & joined]:
            joined |= group
            groups.remove(group)
        groups.append(joined)
    return groups


def _ends(value: Value) -> set[float]:
    if isinstance(value, Interval):
        return {bare(end) for end in (value.low, value.high) if end is not None}
    return set() if isinstance(value, str | bool | frozenset) else {bare(value)}


def _name(amount: Amount) -> str:
    """Return the name of the term that an amount is, be it under the name of a definition; "" for other amounts."""
    if isinstance(amount, NamedAmount):
        return _name(amount.amount)
    return amount.term.name if isinstance(amount, TermValue) else ""
