"""The bounds of an evaluation: it ends, and says so, whatever a clause compares and however much a line covers."""

from __future__ import annotations

import math
from random import Random

from speccheck.judge import Cell, Judge, Verdict
from speccheck.judge.crossings import HALVINGS, NESTED, _changes
from speccheck.judge.explain.causes import TOO_MANY
from speccheck.judge.operations import Rules, compare
from speccheck.language.core import Relation
from speccheck.language.vocabulary.values import BareUnits, read_value
from speccheck.quantities import Misread, Quantity
from speccheck.schedule.lines import Datum, Line
from tests.conformance.cases import load


def cell_of(clause: str, **cells: str) -> Cell:
    """Return what a clause in the vocabulary of the conformance cases makes of a line."""
    ruleset = load(f'ruleset "bounds"\nspeaks "vocabulary"\nclause 1 "bounds"\n{clause}\n').ruleset
    assert ruleset is not None
    data = {}
    for name, text in cells.items():
        term = ruleset.vocabulary.terms[name.replace("_", " ")]
        value = read_value(text, term, BareUnits(system="inch-pound"))
        assert not isinstance(value, Misread), value
        data[term.name] = Datum(value, text)
    return Judge(ruleset).cell(0, Line("1", data))


def test_sides_that_differ_by_roundings_alone_are_looked_into_a_few_times() -> None:
    """Where the order of two sides comes and goes at random, the search for its changes still ends soon."""
    chance, asked = Random(1), 0

    def order(_: float) -> int:
        nonlocal asked
        asked += 1
        return chance.choice((-1, 0, 1))

    list(_changes(order, 0.0, 1.0, -1, 1))
    assert asked <= HALVINGS * 2 ** (NESTED + 1)


def test_a_range_compared_with_itself_by_way_of_a_formula() -> None:
    """A thickness adjusted from a conductivity to the same one is that thickness, all over a range of it."""
    found = cell_of(
        "shall thickness is thickness adjusted from conductivity to conductivity around spacing",
        thickness="1/2 in to 3 in",
        conductivity="0.036 W/(m.K)",
        spacing="2 in",
    )
    assert found.verdict is Verdict.COMPLIES


def test_a_length_without_limit_in_millimetres_is_no_nominal_size() -> None:
    """Where nominal metric sizes may stand for inch sizes, no limit at all is compared as what it is."""
    unlimited, inch = Quantity(math.inf, "length", "mm"), Quantity(0.0254, "length", "in")
    assert compare(unlimited, Relation.AT_MOST, inch, Rules(nominal_metric=True)) == (False, None)


def test_too_many_cases_leave_the_advice_open_as_well() -> None:
    """A line that stands for more cases than are tried cannot be determined, nor whether it follows the advice."""
    found = cell_of(
        "shall thickness is at least smaller of spacing and jacket thickness\n"
        "should thickness is at least larger of spacing and jacket thickness\n"
        "where operating temperature is at least ambient temperature minus temperature drop",
        thickness="1/2 in to 3 in",
        spacing="1 in to 3 in",
        jacket_thickness="1 in to 2 in",
        operating_temperature="40 F to 200 F",
        ambient_temperature="60 F to 90 F",
        temperature_drop="5 F to 10 F",
    )
    assert (found.verdict, found.reason) == (Verdict.CANNOT_TELL, TOO_MANY)
    assert (found.advice, found.advice_reason) == (Verdict.CANNOT_TELL, TOO_MANY)
