"""Ranges checked against narrow windows: the verdict of the line is the worst over a fine grid of the range.

The drawn clauses hold one or two temperatures against close limits, stated, calculated, looked up or those of one
another, so that the values at which they fail are often a small part of the range.
"""

from __future__ import annotations

from itertools import product

from hypothesis import example, given, settings
from hypothesis import strategies as st

from speccheck.judge import Verdict, judge_lines
from speccheck.language.core import (
    Amount,
    Arithmetic,
    Axis,
    Band,
    Clause,
    Comparison,
    Literal,
    Lookup,
    NamedAmount,
    Operation,
    Relation,
    Ruleset,
    Table,
    TermValue,
)
from speccheck.language.vocabulary.terms import Term, Vocabulary
from speccheck.quantities import Interval, Quantity, convert
from speccheck.schedule.lines import Datum, Line
from tests.strategies.values import DIFFERENCE, TEMPERATURE

OPERATING, AMBIENT = Term("operating temperature", TEMPERATURE), Term("ambient temperature", TEMPERATURE)
VOCABULARY = Vocabulary("windows", {term.name: term for term in (OPERATING, AMBIENT)})
WORST_FIRST = (Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.COMPLIES, Verdict.NOT_APPLICABLE)
FIRST, LAST = 50, 62


def fahrenheit(number: float) -> Quantity:
    """Return a temperature in F."""
    return Quantity(convert(number, "F", "K"), "temperature", "F")


def difference(number: float) -> Quantity:
    """Return a difference of temperatures in F."""
    return Quantity(convert(number, "F", "K", difference=True), "temperature difference", "F")


limits = st.integers(FIRST, LAST).map(lambda number: Literal(fahrenheit(number), TEMPERATURE))
steps = st.integers(1, 5).map(lambda number: Literal(difference(number), DIFFERENCE))
ONE = Literal(difference(1), DIFFERENCE)
plain = st.sampled_from([OPERATING, OPERATING, AMBIENT]).map(TermValue)
moved = st.builds(Arithmetic, st.sampled_from([Operation.PLUS, Operation.MINUS]), plain, steps, st.just(TEMPERATURE))
sides = limits | plain | moved | moved.map(lambda amount: NamedAmount("limit", amount))


@st.composite
def looked_up(draw: st.DrawFn) -> Lookup:
    """Draw a table of temperatures by operating temperature with two bands, a gap between them or none."""
    first, second = sorted(draw(st.lists(st.integers(FIRST, LAST), min_size=2, max_size=2)))
    ends = Interval(None, fahrenheit(first), True, draw(st.booleans())), Interval(fahrenheit(second), None, False)
    bands = tuple(Band(str(interval), interval) for interval in ends)
    cells = ((draw(limits),), (draw(limits | st.none()),))
    return Lookup(Table("limit", TEMPERATURE, (Axis(OPERATING, bands),), cells))


@st.composite
def comparisons(draw: st.DrawFn, calculated: bool) -> Comparison:
    """Draw a comparison with one of the temperatures in it; `calculated` lets it hold a sum or a difference."""
    left: Amount = draw(plain | moved if calculated else plain)
    right: Amount = draw((sides if calculated else limits | plain) | looked_up())
    return Comparison(left, draw(st.sampled_from(Relation)), right)


@st.composite
def clauses(draw: st.DrawFn, *, calculated: bool = True) -> Clause:
    """Draw a clause with one or two conditions in its scope and one that it requires."""
    compared = comparisons(calculated)
    scope = tuple(draw(st.lists(compared, min_size=1, max_size=2)))
    return Clause("1", "drawn", "drawn", label="1", scope=scope, shall=(draw(compared),))


@st.composite
def ranges(draw: st.DrawFn) -> Interval[Quantity]:
    """Draw a range of whole degrees."""
    low, high = sorted(draw(st.lists(st.integers(FIRST - 5, LAST + 5), min_size=2, max_size=2, unique=True)))
    return Interval(fahrenheit(low), fahrenheit(high), draw(st.booleans()), draw(st.booleans()))


def grid(whole: Interval[Quantity] | Quantity, step: float) -> list[Quantity]:
    """Return the values of a range in steps of a part of a degree; the value itself where it is none."""
    if isinstance(whole, Quantity):
        return [whole]
    numbers = (FIRST - 5 + number * step for number in range(round((LAST - FIRST + 10) / step) + 1))
    return [value for number in numbers if whole.contains(value := fahrenheit(number))]


def worst_on_grid(clause: Clause, stated: dict[str, Interval[Quantity] | Quantity], step: float) -> Verdict:
    """Return the worst verdict over all values of a grid."""
    ruleset = Ruleset("windows", VOCABULARY, (clause,))
    points = product(*(grid(value, step) for value in stated.values()))
    lines = [Line("1", {name: Datum(one) for name, one in zip(stated, point, strict=True)}) for point in points]
    found = {row[0].verdict for row in judge_lines(ruleset, lines)}
    return next(verdict for verdict in WORST_FIRST if verdict in found)


def verdict_of(clause: Clause, stated: dict[str, Interval[Quantity] | Quantity]) -> Verdict:
    """Return the verdict of a line with ranges."""
    line = Line("1", {name: Datum(value) for name, value in stated.items()})
    return judge_lines(Ruleset("windows", VOCABULARY, (clause,)), [line])[0][0].verdict


AT_AN_OPEN_END = Clause(
    "1",
    "a calculation that is met at the end that does not belong to the range",
    "drawn",
    label="1",
    scope=(
        Comparison(
            TermValue(AMBIENT), Relation.EQUAL, Arithmetic(Operation.PLUS, TermValue(OPERATING), ONE, TEMPERATURE)
        ),
    ),
    shall=(Comparison(TermValue(OPERATING), Relation.EQUAL, TermValue(AMBIENT)),),
)


@settings(deadline=None, max_examples=200)
@example(AT_AN_OPEN_END, Interval(fahrenheit(48), fahrenheit(49), False, False), fahrenheit(49))
@given(clauses(), ranges(), st.integers(FIRST, LAST).map(fahrenheit))
def test_one_range_is_as_bad_as_its_worst_value(clause: Clause, whole: Interval[Quantity], ambient: Quantity) -> None:
    """With one range the verdict of the line is the worst over a grid that meets all limits and all gaps between."""
    stated: dict[str, Interval[Quantity] | Quantity] = {OPERATING.name: whole, AMBIENT.name: ambient}
    assert verdict_of(clause, stated) is worst_on_grid(clause, stated, 0.5)


def held(left: Amount, relation: Relation, right: Amount) -> Comparison:
    """Return a comparison."""
    return Comparison(left, relation, right)


WINDOW = Clause(
    "1",
    "a window of one degree between two terms that are compared with one another",
    "drawn",
    label="1",
    scope=(
        held(TermValue(OPERATING), Relation.LESS_THAN, TermValue(AMBIENT)),
        held(TermValue(OPERATING), Relation.MORE_THAN, Literal(fahrenheit(53), TEMPERATURE)),
    ),
    shall=(held(TermValue(AMBIENT), Relation.AT_LEAST, Literal(fahrenheit(54), TEMPERATURE)),),
)
WHOLE = Interval(fahrenheit(50), fahrenheit(60))


@settings(deadline=None, max_examples=60)
@example(WINDOW, WHOLE, WHOLE)
@given(clauses(calculated=False), ranges(), ranges())
def test_two_ranges_are_as_bad_as_their_worst_pair(
    clause: Clause, operating: Interval[Quantity], ambient: Interval[Quantity]
) -> None:
    """Two ranges that are compared with each other, without a calculation, are as bad as their worst pair of values."""
    stated: dict[str, Interval[Quantity] | Quantity] = {OPERATING.name: operating, AMBIENT.name: ambient}
    assert verdict_of(clause, stated) is worst_on_grid(clause, stated, 1 / 3)
