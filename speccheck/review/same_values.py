"""Whether two values mean the same: in other units, rounded to the digits that are written, or as a nominal size.

A value is the other one rounded where its number is the other's, in its unit, rounded to the places that it is
written with, and it is written with two significant digits at least: 38 mm is 1-1/2 in, and 1 in is not 1.4 in.
"""

from __future__ import annotations

import math
from decimal import Decimal

from speccheck.engine.comparing import Rules, compare
from speccheck.language.core import Relation
from speccheck.language.kinds import Form
from speccheck.language.values import NotGiven, Single, Value
from speccheck.language.vocabulary import Term, fold
from speccheck.quantities import Interval, NominalSize, Quantity
from speccheck.review.spans import span_of

FEWEST_DIGITS = 2
_DUST = 12  # significant digits of a number that units were converted in


def same(one: Value | NotGiven, other: Value | NotGiven, term: Term | None, rules: Rules) -> bool:
    """Return whether two values of a term mean the same. Two that are not given do, whatever stands in their place."""
    if isinstance(one, NotGiven) or isinstance(other, NotGiven):
        return isinstance(one, NotGiven) and isinstance(other, NotGiven)
    if isinstance(one, Interval) or isinstance(other, Interval):
        return _same_ranges(one, other, term, rules)
    return _same_single(one, other, term, rules)


def _same_ranges(one: Value, other: Value, term: Term | None, rules: Rules) -> bool:
    if not isinstance(one, Interval) or not isinstance(other, Interval):
        return False
    if (one.low_closed, one.high_closed) != (other.low_closed, other.high_closed):
        return False
    pairs = ((one.low, other.low), (one.high, other.high))
    return all(
        first is second if first is None or second is None else _same_single(first, second, term, rules)
        for first, second in pairs
    )


def _same_single(one: Single, other: Single, term: Term | None, rules: Rules) -> bool:
    if isinstance(one, str) and isinstance(other, str):
        return fold(one) == fold(other)
    if isinstance(one, Quantity) and isinstance(other, Quantity):
        if one.dimension != other.dimension:
            return False
        return compare(one, Relation.EQUAL, other, rules)[0] or _rounded(one, other) or _rounded(other, one)
    exact = term is not None and term.kind.form is Form.COUNT
    if exact or isinstance(one, str | bool | frozenset | NominalSize | Quantity):
        return type(one) is type(other) and one == other
    if isinstance(other, str | bool | frozenset | NominalSize | Quantity):
        return False
    return one == other or _is_rounding(other, one) or _is_rounding(one, other)


def _rounded(coarse: Quantity, fine: Quantity) -> bool:
    """Whether one quantity is the other one rounded, in its own unit."""
    if math.isinf(coarse.value) or math.isinf(fine.value):
        return False
    return _is_rounding(coarse.in_unit(coarse.unit), fine.in_unit(coarse.unit))


def _is_rounding(coarse: float, fine: float) -> bool:
    """Whether `coarse` is `fine` rounded to the places that it is written with."""
    written = Decimal(f"{coarse:.{_DUST}g}").normalize()
    digits, exponent = written.as_tuple().digits, written.as_tuple().exponent
    assert isinstance(exponent, int), coarse
    places = max(-exponent, 0)  # the zeros of a whole number count as written
    if len(digits) + max(exponent, 0) < FEWEST_DIGITS:
        return False
    half = Decimal(5).scaleb(-places - 1)
    return abs(Decimal(f"{fine:.{_DUST}g}") - written) <= half


def lies_in(stated: Value, whole: Value) -> bool:
    """Return whether a stated range holds the value or range `whole`, as "25 and under" holds 20."""
    if not isinstance(stated, Interval) or isinstance(whole, str | bool | frozenset | NominalSize):
        return False
    inner, outer = span_of(whole), span_of(stated)
    return outer.start <= inner.start and inner.end <= outer.end
