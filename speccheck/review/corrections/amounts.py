"""Amounts to try for a term: those that are stocked, or those at which a verdict on the line can change.

Between two values at which some clause could change its mind all verdicts are the same. So each such value is tried,
and one value between each two of them: a plain number near the end that lies towards what the line states now.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from speccheck.judge.breakpoints import breakpoints
from speccheck.judge.operations import NOMINAL_INCHES, Rules, bare
from speccheck.language.core import Lookup
from speccheck.language.core.walking import Node, adjusts, comparisons, plain_terms_of, tables_of, terms_of
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import NotGiven, Single, Value
from speccheck.quantities import TOLERANCE, Interval, Quantity

# Preferred numbers, ISO 3, series R 10: tried where the effect of a term goes through a calculation and nothing is
# stocked, from a tenth of what the line states to ten times that.
PREFERRED = (1.0, 1.25, 1.6, 2.0, 2.5, 3.15, 4.0, 5.0, 6.3, 8.0)
THICKNESS = "thickness"
_NEAR = 0.1
_DIVISIONS = {"in": (1, 2, 4, 8, 16, 32), "ft": (1, 2, 4, 8, 16, 32)}
_TENTHS = tuple(10.0**power for power in range(-3, 7))
_MAY_BE_NEGATIVE = ("temperature difference", "angle")


def values_that_matter(
    term: Term,
    stated: Mapping[str, Value | NotGiven],
    nodes: Sequence[Node],
    hidden: Sequence[Term],
    rules: Rules,
) -> list[float]:
    """Return the values of a term, SI, at which a verdict by `nodes` could change on a line, rising.

    `stated` is what the line states for all terms; `hidden` are the terms from which computed ones are worked out.
    """
    everything = _everything(term)
    exactly = replace(rules, nominal_metric=False)
    plainly, worked_out = _drawing_on(term, nodes)
    found = breakpoints(plainly, {**stated, term.name: everything}, exactly).get(term.name, ())
    if worked_out or is_hidden(term, hidden):
        in_stock = term.name == THICKNESS
        found = (*found, *(stocked(rules) if in_stock else _preferred(stated.get(term.name), term, rules)))
    kept = sorted(value for value in found if math.isfinite(value) and (value >= 0 or _signed(term)))
    return [value for number, value in enumerate(kept) if not number or not _same(value, kept[number - 1])]


def is_worked_out(term: Term, nodes: Sequence[Node], hidden: Sequence[Term]) -> bool:
    """Say whether what `nodes` make of a term goes through a calculation, so that no value of it is marked out."""
    return is_hidden(term, hidden) or _drawing_on(term, nodes)[1]


def is_hidden(term: Term, hidden: Sequence[Term]) -> bool:
    """Say whether computed terms are worked out from a term, so that what clauses make of it does not show."""
    return any(one.name == term.name for one in hidden)


def between(marks: Sequence[float], term: Term, present: float | None, rules: Rules) -> Iterator[float]:
    """Yield one value between each two marks, below the first and above the last, all in SI units or plain numbers.

    It has few digits in the unit that the system of `rules` has for the term.
    """
    if term.kind.form is Form.COUNT:
        yield from sorted({float(math.floor(mark) + shift) for mark in marks for shift in (-1, 1) if mark + shift >= 0})
        return
    if not marks:
        return
    low, high = _outside(marks, term)
    for first, last in pairwise([low, *marks, high]):
        if last > first:
            yield _plain(first, last, term, present, usual_unit(term, rules))


def stocked(rules: Rules) -> tuple[float, ...]:
    """Return the thicknesses of insulation, SI, that are commonly stocked where the system of the ruleset is used."""
    from speccheck.physics.thickness import stocked_in

    return stocked_in(rules.system)


def usual_unit(term: Term, rules: Rules) -> str:
    """Return the unit in which a term is written in the system of the ruleset, "" where it has none."""
    if term.kind.form is not Form.QUANTITY:
        return ""
    return term.metric if rules.system == "metric" else term.inch_pound


def single(value: float, term: Term) -> Single:
    """Return a value of a term from its SI number."""
    if term.kind.form is not Form.QUANTITY:
        return value
    return Quantity(value, term.kind.dimension, term.inch_pound)


def shown_in(value: Single, present: Value | NotGiven | None, term: Term, rules: Rules) -> Single:
    """Return a quantity in the unit in which the line states the term, else in that of the ruleset's system.

    Where nominal metric sizes stand for inch sizes, an inch size is written as the metric size that stands for it.
    """
    if not isinstance(value, Quantity):
        return value
    end = present.low if isinstance(present, Interval) and present.low is not None else present
    unit = end.unit if isinstance(end, Quantity) else usual_unit(term, rules)
    if unit == "mm" and rules.nominal_metric:
        return Quantity(_nominal(value.value), value.dimension, unit)
    return Quantity(value.value, value.dimension, unit)


def _nominal(metres: float) -> float:
    """Return the nominal metric size of what is a whole inch size, in metres; any other length as it is."""
    named = (size for size, inches in NOMINAL_INCHES.items() if math.isclose(float(inches) * 0.0254, metres))
    return next((size / 1000 for size in named), metres)


def number_of(value: Value | NotGiven | None) -> float | None:
    """Return the SI number of what a line states, that of the low end for a range, None where it has none."""
    if isinstance(value, Interval):
        return number_of(value.low if value.low is not None else value.high)
    if value is None or isinstance(value, NotGiven | str | bool | frozenset):
        return None
    return bare(value)


def _same(value: float, other: float) -> bool:
    """Say whether two numbers differ only by the conversion of units."""
    return math.isclose(value, other, rel_tol=TOLERANCE)


def _drawing_on(term: Term, nodes: Sequence[Node]) -> tuple[list[Node], bool]:
    """Return the comparisons that draw on a term and the tables read by it, and whether others work something out."""
    plainly: list[Node] = []
    worked_out = False
    for comparison in comparisons(nodes):
        if term not in terms_of([comparison]):
            continue
        if adjusts([comparison]) or any(one.computed for one in plain_terms_of([comparison])):
            worked_out = True
            plainly += [Lookup(table) for table in tables_of([comparison])]
        else:
            plainly.append(comparison)
    return plainly, worked_out


def _everything(term: Term) -> Interval[Quantity] | Interval[float]:
    lowest = 0.0 if not _signed(term) else -1e6
    if term.kind.form is not Form.QUANTITY:
        return Interval(lowest, None)
    return Interval(Quantity(lowest, term.kind.dimension, term.inch_pound), None)


def _signed(term: Term) -> bool:
    return term.kind.dimension in _MAY_BE_NEGATIVE


def _preferred(present: Value | NotGiven | None, term: Term, rules: Rules) -> Iterable[float]:
    """Yield preferred numbers in the usual unit of a term, in SI, around what the line states."""
    start, unit = number_of(present), usual_unit(term, rules)
    shown = _in_unit(start, term, unit) if start is not None and math.isfinite(start) else 0.0
    if shown <= 0:
        return
    decade = 10.0 ** math.floor(math.log10(shown))
    for power in (-1, 0, 1):
        yield from (_si(decade * 10.0**power * number, term, unit) for number in PREFERRED)


def _outside(marks: Sequence[float], term: Term) -> tuple[float, float]:
    """Return ends beyond the first and the last mark, between which a value outside of them can lie."""
    if term.kind.dimension == "temperature":
        return max(marks[0] - 100.0, 0.0), marks[-1] + 100.0
    if _signed(term):
        return marks[0] - 100.0, marks[-1] + 100.0
    return 0.0, marks[-1] * 2 if marks[-1] > 0 else 1.0


def _plain(first: float, last: float, term: Term, present: float | None, unit: str) -> float:
    """Return a number between two others that is written in few digits, near the one towards the present value."""
    reach = (last - first) * _NEAR
    downward = present is None or present >= last
    low, high = (last - reach, last) if downward else (first, first + reach)
    shown = sorted((_in_unit(low, term, unit), _in_unit(high, term, unit)))
    for division in _DIVISIONS.get(unit, ()) + _TENTHS:
        steps = math.floor(shown[1] * division) if downward else math.ceil(shown[0] * division)
        for step in (steps, steps - 1 if downward else steps + 1):
            value = _si(step / division, term, unit)
            if low < value < high:
                return value
    return (first + last) / 2


def _in_unit(value: float, term: Term, unit: str) -> float:
    return Quantity(value, term.kind.dimension, unit).in_unit(unit) if unit else value


def _si(number: float, term: Term, unit: str) -> float:
    if not unit:
        return number
    zero, one = (Quantity(value, term.kind.dimension, unit).in_unit(unit) for value in (0.0, 1.0))
    return (number - zero) / (one - zero)
