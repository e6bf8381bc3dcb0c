"""Breakpoints: the values of a term at which the verdict of a clause could change.

A line that covers a range is judged at its ends, at each breakpoint inside it and between every two of them. That is
exact wherever the clause holds the term against stated values, bands of tables, or values that the same line states.
A term inside a calculation has no stated breakpoints; it is tried at evenly spaced values besides.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from speccheck.engine.comparing import bare
from speccheck.language.core import Amount, Arithmetic, Comparison, Literal, Lookup, NamedAmount, OneOf, TermValue
from speccheck.language.kinds import Form
from speccheck.language.values import NotGiven, Single, Value
from speccheck.language.vocabulary import Term
from speccheck.language.walking import Node, walk
from speccheck.quantities import Interval

# Into how many parts a range is cut where a calculation hides the values that matter.
PARTS = 16


def breakpoints(nodes: Iterable[Node], stated: Mapping[str, Value | NotGiven]) -> Mapping[str, tuple[float, ...]]:
    """Return, for each term whose value is a range on this line, the values to try, SI, in rising order.

    `stated` holds what the line states for the terms that the nodes draw on.
    """
    ranged = {name: value for name, value in stated.items() if isinstance(value, Interval)}
    found: dict[str, set[float]] = {name: set() for name in ranged}
    for node in walk(nodes):
        if isinstance(node, Comparison):
            _from_comparison(node, stated, found)
        elif isinstance(node, OneOf):
            for name in _names(node.amount) & found.keys():
                found[name].update(bare(option) for option in node.options if not isinstance(option, str))
        elif isinstance(node, Lookup):
            for axis in node.table.axes:
                if axis.term.name in found:
                    found[axis.term.name].update(_band_ends(axis.term, [band.interval for band in axis.bands]))
        elif isinstance(node, Arithmetic):
            for name in _names(node) & found.keys():
                found[name].update(_evenly(ranged[name]))
    return {name: tuple(sorted(values)) for name, values in found.items()}


def _from_comparison(node: Comparison, stated: Mapping[str, Value | NotGiven], found: dict[str, set[float]]) -> None:
    """Add the values that the one side of a comparison can have to the terms of the other side."""
    for side, other in ((node.left, node.right), (node.right, node.left)):
        term = _term(side)
        if term is not None and term.name in found:
            found[term.name].update(_possible(other, stated))


def _possible(amount: Amount, stated: Mapping[str, Value | NotGiven]) -> set[float]:
    """Return the values that an amount can have on this line, as far as they are stated."""
    match amount:
        case Literal(value):
            return _ends(value)
        case NamedAmount(_, inner_amount):
            return _possible(inner_amount, stated)
        case TermValue(term):
            given = stated.get(term.name)
            return set() if given is None or isinstance(given, NotGiven) else _ends(given)
        case Lookup(table):
            cells = {cell.value for row in table.cells for cell in row if cell is not None}
            return {end for cell in cells for end in _ends(cell)}
        case _:
            return set()


def _ends(value: Value) -> set[float]:
    if isinstance(value, Interval):
        return {bare(end) for end in (value.low, value.high) if end is not None}
    return set() if isinstance(value, str | bool | frozenset) else {bare(value)}


def _term(amount: Amount) -> Term | None:
    if isinstance(amount, NamedAmount):
        return _term(amount.amount)
    return amount.term if isinstance(amount, TermValue) and amount.term.kind.form is not Form.SIZE else None


def _names(amount: Amount) -> set[str]:
    return {node.term.name for node in walk([amount]) if isinstance(node, TermValue)}


def _band_ends(term: Term, intervals: Iterable[object]) -> set[float]:
    ends = (end for interval in intervals if isinstance(interval, Interval) for end in (interval.low, interval.high))
    return {bare(end) for end in ends if end is not None} if term.kind.form is not Form.SIZE else set()


def _evenly(value: Single | Value) -> set[float]:
    if not isinstance(value, Interval) or value.low is None or value.high is None:
        return set()
    low, high = bare(value.low), bare(value.high)
    return {low + (high - low) * part / PARTS for part in range(1, PARTS)}
