"""One step of a value: the next one up or down that a writer could have meant instead.

A step is one degree, one nominal size, one in a count; an inch has halves, quarters, eighths or sixteenths, as the
number is written, up to six inches; any other number has its last digit that is written, and at least two digits.
"""

from __future__ import annotations

import math

from speccheck.language.values import Single
from speccheck.quantities import NOMINAL_SIZES, NominalSize, Quantity
from speccheck.quantities.conversion import conversions, to_si
from speccheck.quantities.writing import write_number

# Dimensions whose values can lie below zero.
SIGNED = frozenset({"temperature", "temperature difference", "heat flow", "heat flow per length", "heat flow per area"})
_FRACTIONS = (2, 4, 8, 16)
# Insulation is made in half inches up to about this thickness; longer pieces differ in whole inches.
_WHOLE_INCHES_FROM = 6.0


def one_step(value: Single) -> tuple[Single, ...]:
    """Return the values one step below and one step above; fewer where there is none, none for words and sets."""
    if isinstance(value, bool | str | frozenset):
        return ()
    if isinstance(value, NominalSize):
        place = NOMINAL_SIZES.index(value)
        return (*NOMINAL_SIZES[max(place - 1, 0) : place], *NOMINAL_SIZES[place + 1 : place + 2])
    if isinstance(value, Quantity):
        return _quantity_steps(value)
    step = _last_digit(value)
    return tuple(_rounded(number) for number in (value - step, value + step) if number >= 0)


def _quantity_steps(value: Quantity) -> tuple[Quantity, ...]:
    if math.isinf(value.value):
        return ()
    number = _rounded(value.in_unit(value.unit))
    step = _step_of(number, value)
    found = (_with_number(_rounded(one), value) for one in (number - step, number + step))
    least = -math.inf if value.dimension in SIGNED else 0.0
    return tuple(one for one in found if one.value >= least)


def _step_of(number: float, value: Quantity) -> float:
    if value.dimension in ("temperature", "temperature difference"):
        return 1.0
    if value.unit == "in":
        part = next((part for part in _FRACTIONS if (number * part).is_integer()), None)
        if part == _FRACTIONS[0] and number >= _WHOLE_INCHES_FROM and number.is_integer():
            return 1.0
        if part is not None and number:
            return 1 / part
    return _last_digit(number)


def _last_digit(number: float) -> float:
    """Return one in the last decimal of a number as it is written, of two digits at least; 1 for a whole number."""
    if number.is_integer():
        return 1.0
    decimals = len(write_number(abs(number)).partition(".")[2])
    second_digit = 1 - math.floor(math.log10(abs(number)))
    return float(10 ** -max(decimals, second_digit))


def _with_number(number: float, like: Quantity) -> Quantity:
    """Return the quantity that a number of the unit of another one is."""
    return Quantity(to_si(number, conversions(like.unit)[like.dimension]), like.dimension, like.unit)


def _rounded(number: float) -> float:
    """Return a number without the last digits that conversions leave behind."""
    return float(f"{number:.10g}")
