"""Crossings: the values of a range at which a calculation reaches what it is compared with.

The two sides are worked out at a few values of the range; between two at which their order differs, the value at
which it changes is closed in on by halving. That finds every crossing of sums, differences, products and quotients
with one range in them, which rise or fall all the way between the values that are tried.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import pairwise, product

from speccheck.judge.evaluation import amount
from speccheck.judge.operations import Rules, bare, compare
from speccheck.language.core import Comparison, Relation
from speccheck.language.core.walking import terms_of
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import NotGiven, Single, Value
from speccheck.quantities import TOLERANCE, Interval, NominalSize, Quantity, sizes_in

Range = Interval[Quantity] | Interval[NominalSize] | Interval[float]
Order = Callable[[float], int | None]

# Into how many parts a range is cut to look for crossings, and how often a part is halved to close in on one.
PARTS = 16
HALVINGS = 60
# How often a third order between two others is looked into.
NESTED = 3
# Below this tolerance the values that are equal only by it are too few to be tried on their own.
FINE = 1e-5
# How many combinations of the other ranges in a calculation are looked at.
COMBINATIONS = 100
# How far beyond its known end a range without end is searched: in kelvin for temperatures, otherwise as a factor.
FAR_KELVIN = 2000.0
FAR = 1000.0


def crossings(
    comparison: Comparison,
    term: Term,
    stated: Mapping[str, Value | NotGiven],
    known: Sequence[float],
    others: Mapping[str, Sequence[float]],
    rules: Rules,
) -> set[float]:
    """Return the values of `term`, SI, at which the order of the two sides of a comparison changes on a line.

    `known` are breakpoints of the term found before, `others` values of the other ranged terms to combine with.
    """
    whole = stated[term.name]
    assert isinstance(whole, Interval), whole
    grid = _grid(whole, known, term)
    tried = [*known, *(bare(end) for end in (whole.low, whole.high) if end is not None)]
    found: list[float] = []
    for case in _cases(comparison, term, stated, others):

        def order(value: float, case: Mapping[str, Single | NotGiven] = case) -> int | None:
            return _order(comparison, {**case, term.name: _single(value, whole, term)}, rules)

        for low, high in pairwise(grid):
            for change in _changes(order, low, high, order(low), order(high)):
                if not any(math.isclose(change, one, rel_tol=TOLERANCE) for one in (*tried, *found)):
                    found.append(change)
    return set(found)


def evenly(whole: Interval[float], parts: int) -> Iterator[float]:
    """Yield the values, in the unit of the range, that cut it into equal parts; none for a range without end."""
    if whole.low is not None and whole.high is not None:
        for part in range(1, parts):
            yield whole.low + (whole.high - whole.low) * part / parts


def _grid(whole: Range, known: Sequence[float], term: Term) -> list[float]:
    """Return the values at which the two sides are worked out first, rising."""
    ends = [None if end is None else bare(end) for end in (whole.low, whole.high)]
    inner = [value for value in (*ends, *known) if value is not None] or [0.0]
    temperature = term.kind.dimension in ("temperature", "temperature difference")
    low = ends[0] if ends[0] is not None else (min(inner) - FAR_KELVIN if temperature else min(0.0, min(inner)))
    high = ends[1] if ends[1] is not None else (max(inner) + FAR_KELVIN if temperature else max(1.0, max(inner)) * FAR)
    marks = {low, high, *(value for value in known if low < value < high), *evenly(Interval(low, high), PARTS)}
    middles = {(first + second) / 2 for first, second in pairwise(sorted(marks))}
    return sorted(marks | middles)


def _cases(
    comparison: Comparison, term: Term, stated: Mapping[str, Value | NotGiven], others: Mapping[str, Sequence[float]]
) -> Iterator[dict[str, Single | NotGiven]]:
    """Yield the values of all terms of a comparison but one, in all combinations of the values of other ranges."""
    choices: dict[str, Sequence[Single | NotGiven]] = {}
    for other in terms_of([comparison]):
        value = stated.get(other.name, NotGiven())
        if other.name == term.name:
            continue
        if not isinstance(value, Interval):
            choices[other.name] = (value,)
        elif other.kind.form is Form.SIZE:
            choices[other.name] = sizes_in(value)
        else:
            choices[other.name] = [_single(one, value, other) for one in others.get(other.name, ())]
    for count, chosen in enumerate(product(*choices.values())):
        if count >= COMBINATIONS:
            return
        yield dict(zip(choices, chosen, strict=True))


def _single(value: float, whole: Range, term: Term) -> Single:
    end = whole.low if whole.low is not None else whole.high
    return Quantity(value, term.kind.dimension, end.unit) if isinstance(end, Quantity) else value


def _order(comparison: Comparison, case: Mapping[str, Single | NotGiven], rules: Rules) -> int | None:
    """Return -1, 0 or 1 as the left side is below, at or above the right one; None where one of them is not known."""
    left, right = amount(comparison.left, case, rules).value, amount(comparison.right, case, rules).value
    if left is None or right is None or isinstance(left, str | frozenset) or isinstance(right, str | frozenset):
        return None
    wide = rules.tolerance > FINE and comparison.left.kind.dimension != "temperature"
    if wide and compare(left, Relation.EQUAL, right, rules)[0]:
        return 0
    return (bare(left) > bare(right)) - (bare(left) < bare(right))


def _changes(
    order: Order, low: float, high: float, before: int | None, after: int | None, within: int = NESTED
) -> Iterator[float]:
    """Yield the values from `low` to `high` at which the order changes, as near as the machine can tell.

    A third order in between is looked into `within` times over. Below, equal, above needs it once; two sides that
    differ by roundings alone would have it without end.
    """
    if before is None or after is None or before == after:
        return
    first, last = low, high
    for _ in range(HALVINGS):
        middle = (first + last) / 2
        now = order(middle)
        if now not in (before, after) and within:
            yield middle
            yield from _changes(order, first, middle, before, now, within - 1)
            yield from _changes(order, middle, last, now, after, within - 1)
            return
        first, last = (middle, last) if now == before else (first, middle)
    yield first if before == 0 else last
