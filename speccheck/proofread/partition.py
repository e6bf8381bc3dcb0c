"""The axis of a term cut at every value that a clause compares it with, so that all within an atom are alike.

In: a term and the values that clauses compare it with. Out: its atoms, each with a value that stands for it, in words
that a schedule could hold. The first atom is always the value that is not given. What no schedule can state (a
thickness below zero, half a fastener) has no atom.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeGuard

from speccheck.judge.operations import METRIC_LENGTHS, NOMINAL_INCHES, Rules, bare
from speccheck.language.vocabulary.terms import DATE, Form, Term
from speccheck.language.vocabulary.values import BareUnits, NotGiven, Single, read_value
from speccheck.quantities import NOMINAL_SIZES, TOLERANCE, Day, Interval, Misread, NominalSize, Quantity, convert
from speccheck.quantities.writing import write_number, write_with_unit

# A number that stands for all between two ends keeps this part of their distance away from either.
MARGIN = 0.05
# Temperatures have no zero to stop at: what stands for all beyond an end lies so many degrees beyond it.
BEYOND_DEGREES = 10.0
# What stands for all numbers where no end is known.
ANYWHERE = (1.0, 70.0, 0.5)
_INCHES = ("in", "ft")
_DENOMINATORS = (1, 2, 4, 8, 16, 32, 64)


def numbers_between(low: float | None, high: float | None, unit: str = "", *, signed: bool = False) -> Iterator[float]:
    """Yield numbers between two others, in their `unit`, the shortest to write first; None is no end.

    Inches and feet are cut in halves, quarters and so on. `signed` numbers may lie below zero.
    """
    if low is None and high is None:
        yield from ANYWHERE
        return
    low, high = _closed(low, high, signed)
    middle, margin = (low + high) / 2, (high - low) * MARGIN
    fractions = (round(middle * parts) / parts for parts in _DENOMINATORS) if unit in _INCHES else ()
    decimals = (round(middle, digits) for digits in range(-4, 12))
    for number in (*fractions, *decimals, middle):
        if low + margin <= number <= high - margin:
            yield float(number)


def whole_numbers_between(low: float | None, high: float | None) -> Iterator[float]:
    """Yield a whole number of 0 or more between two others, if there is one; None is no end."""
    first = 0 if low is None else max(math.floor(low) + 1, 0)
    last = first if high is None else math.ceil(high) - 1
    if first <= last:
        yield float((first + last) // 2)


def _closed(low: float | None, high: float | None, signed: bool) -> tuple[float, float]:
    """Return two ends, with one put in where there is none."""
    if low is None:
        assert high is not None
        return (high - 2 * BEYOND_DEGREES if signed or high <= 0 else 0.0), high
    if high is None:
        return low, (low + 2 * BEYOND_DEGREES if signed or low <= 0 else 2 * low)
    return low, high


# Two marks closer than this, as a ratio, are one: the tolerance of comparisons would not tell what lies between apart.
NEAR = 3e-6
# Tolerances below this one are too narrow for a value that is equal only by them to be worth an atom.
FINE = 1e-5
OTHER_TEXT = "something else"
_LARGE = 1e30


@dataclass(frozen=True, slots=True)
class Atom:
    """A part of an axis: a value that stands for all in it, its words in a schedule, and where it begins and ends.

    `low` and `high` are SI values, None for no end and for what has no order; they are equal for a single value.
    A `stand_in` is a nominal metric size that a ruleset lets stand for an inch size, or that inch size stated in mm.
    """

    value: Single | NotGiven
    text: str
    low: float | None = None
    high: float | None = None
    stand_in: bool = False

    @property
    def single(self) -> bool:
        """Whether the atom is one value."""
        return self.low is not None and self.low == self.high


NOT_GIVEN_ATOM = Atom(NotGiven("", "not stated"), "")


def cut(term: Term, values: Iterable[Single], rules: Sequence[Rules], system: str) -> tuple[Atom, ...]:
    """Return the atoms of a term that is checked against `values`; `system` has its usual unit.

    `rules` are those of the rulesets that hold it against them: their tolerances and stand-in sizes add marks.
    """
    match term.kind.form:
        case Form.QUANTITY | Form.NUMBER | Form.COUNT:
            found = _amounts(term, values, rules, system)
        case Form.SIZE:
            sizes = sorted({*NOMINAL_SIZES, *(value for value in values if isinstance(value, NominalSize))})
            found = (Atom(size, size.written("metric" if system == "metric" else "inch-pound")) for size in sizes)
        case Form.CHOICE:
            found = (Atom(choice.name, choice.name) for choice in term.choices)
        case Form.YES_NO:
            found = iter((Atom(True, "yes"), Atom(False, "no")))
        case Form.TEXT:
            texts = sorted({value for value in values if isinstance(value, str)})
            found = (Atom(text, text) for text in (*texts, OTHER_TEXT))
        case Form.SET:
            found = iter((Atom(frozenset(), "none"),))
    return (NOT_GIVEN_ATOM, *(atom for atom in found if read_value(atom.text, term, BareUnits()) == atom.value))


def _amounts(term: Term, values: Iterable[Single], rules: Sequence[Rules], system: str) -> Iterator[Atom]:
    """Yield the atoms of an ordered term: every mark, and every stretch between two marks."""
    marks = _marks(term, values, rules)
    usual, other = (term.metric, term.inch_pound) if system == "metric" else (term.inch_pound, term.metric)
    units = [unit for _, unit in marks] or [usual]
    yield from _stretch(term, None, marks[0][0] if marks else None, _in_order(units[0], usual, other))
    for (number, unit), (following, _) in pairwise([*marks, (math.inf, "")]):
        yield from _point(term, number, unit if number else usual)  # nothing is nothing in any unit
        high = None if math.isinf(following) else following
        if high is None or high - number > NEAR * max(abs(high), abs(number)):
            yield from _stretch(term, number, high, _in_order(unit, usual, other))
    if term.none_is == math.inf:
        yield Atom(Quantity(math.inf, term.kind.dimension, term.inch_pound), "unlimited", math.inf, math.inf)
    if marks and term.kind.dimension == "length" and any(one.nominal_metric for one in rules):
        for text in _sizes_in_millimetres():
            value = read_value(text, term, BareUnits())
            if isinstance(value, Quantity) and not isinstance(value, Interval):
                yield Atom(value, text, stand_in=True)


def _sizes_in_millimetres() -> Iterator[str]:
    """Yield the nominal metric sizes, and the inch sizes that they stand for, stated in mm, which stand for none."""
    for millimetres, inches in NOMINAL_INCHES.items():
        yield f"{millimetres} mm"
        yield f"{float(inches) * 25.4:g} mm"


def _in_order(unit: str, usual: str, other: str) -> tuple[str, str]:
    """Return the units in which to write a value: that of the mark beside it, unless it is the usual one elsewhere."""
    return (usual, unit) if unit == other else (unit, usual)


def _marks(term: Term, values: Iterable[Single], rules: Sequence[Rules]) -> list[tuple[float, str]]:
    """Return the values at which an axis is cut, SI and rising, each with the unit to write it in."""
    found = [(bare(value), value.unit if isinstance(value, Quantity) else "") for value in values]
    if term.kind.dimension == "length" and any(one.nominal_metric for one in rules):
        found += [(convert(float(NOMINAL_INCHES[at]), "in", "m"), "in") for at in _nominal(found)]
    exact = term.kind.dimension == "temperature" or term.kind.form is Form.COUNT
    for tolerance in {one.tolerance for one in rules if one.tolerance > FINE and not exact}:
        kept = 1 - min(tolerance, 0.5)
        found += [(near, unit) for number, unit in found for near in (number * kept, number / kept)]
    rising: list[tuple[float, str]] = []
    for number, unit in sorted(one for one in found if abs(one[0]) < _LARGE):
        if not rising or not math.isclose(number, rising[-1][0], rel_tol=TOLERANCE):
            rising.append((number, unit))
    return rising


def _nominal(marks: Sequence[tuple[float, str]]) -> Iterator[int]:
    """Yield the nominal thicknesses in mm among the marks."""
    for number, unit in marks:
        if unit in METRIC_LENGTHS and round(number * 1000) in NOMINAL_INCHES:
            yield round(number * 1000)


def _point(term: Term, number: float, unit: str) -> Iterator[Atom]:
    """Yield the atom of one value, if a schedule can state it."""
    shown = Quantity(number, term.kind.dimension, unit).in_unit(unit) if unit else number
    for text in (_written(shown, unit, term), f"{shown:.15g} {unit}".strip()):
        value = read_value(text, term, BareUnits())
        if _is_amount(value) and math.isclose(bare(value), number, rel_tol=1e-9, abs_tol=1e-12):
            yield Atom(value, text, number, number)
            return


def _stretch(term: Term, low: float | None, high: float | None, units: Iterable[str]) -> Iterator[Atom]:
    """Yield the atom of all values between two, if a schedule can state any of them."""
    for unit in dict.fromkeys(units):
        first, last = (end if end is None or not unit else _in_unit(end, term, unit) for end in (low, high))
        numbers = numbers_between(first, last, unit, signed=term.kind.dimension.startswith("temperature"))
        for shown in whole_numbers_between(low, high) if term.kind.form is Form.COUNT else numbers:
            text = _written(shown, unit, term)
            value = read_value(text, term, BareUnits())
            if _is_amount(value) and (low is None or bare(value) > low) and (high is None or bare(value) < high):
                yield Atom(value, text, low, high)
                return


def _in_unit(number: float, term: Term, unit: str) -> float:
    return Quantity(number, term.kind.dimension, unit).in_unit(unit)


def _written(number: float, unit: str, term: Term) -> str:
    if term.kind == DATE:
        return str(Day(number))
    return write_with_unit(number, unit) if unit else write_number(number)


def _is_amount(value: object) -> TypeGuard[Quantity | float]:
    return isinstance(value, Quantity | float | int) and not isinstance(value, bool | Misread)
