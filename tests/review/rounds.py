"""A small plant, and its schedule written in other words, for the tests of the review."""

from __future__ import annotations

import random
from collections.abc import Iterable
from dataclasses import replace
from functools import cache
from pathlib import Path

from speccheck.language import load_ruleset
from speccheck.language.core import Ruleset
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import NotGiven, Value, read_value
from speccheck.quantities import Interval, Misread, Quantity
from speccheck.review import judge_schedule
from speccheck.review.matrix import Matrix
from speccheck.schedule import Schedule, read_schedule
from speccheck.schedule.lines import Datum, Line

FILES = Path(__file__).parent / "files"


@cache
def ruleset() -> Ruleset:
    """Return the specification of the plant."""
    loaded = load_ruleset(FILES / "plant.clauses")
    assert loaded.ruleset is not None, loaded.diagnostics
    return loaded.ruleset


@cache
def plant() -> tuple[Line, ...]:
    """Return the lines of the plant's schedule."""
    return read_schedule(FILES / "plant.csv", ruleset().vocabulary).lines


def line_of(name: str) -> Line:
    """Return a line of the plant by its name."""
    return next(line for line in plant() if line.name == name)


def value(term: str, text: str) -> Value | NotGiven:
    """Return what a text means for a term."""
    found = read_value(text, ruleset().vocabulary.terms[term])
    assert not isinstance(found, Misread), found
    return found


def matrix_of(lines: Iterable[Line], name: str = "schedule.xlsx", judged_by: Ruleset | None = None) -> Matrix:
    """Return the matrix of lines by a ruleset, by default that of the plant."""
    return judge_schedule(Schedule(name, tuple(lines)), judged_by or ruleset())


def line_with(line: Line, **values: Value | NotGiven) -> Line:
    """Return a line that states other values; underscores in names stand for blanks."""
    data = {name.replace("_", " "): Datum(stated, str(stated)) for name, stated in values.items()}
    return replace(line, data={**line.data, **data})


def rewritten(line: Line, generator: random.Random, digits: int) -> Line:
    """Return a line with each quantity in one of the units of its term, rounded to some significant digits."""
    terms = ruleset().vocabulary.terms
    data = {
        name: replace(datum, value=_in_other_words(datum.value, terms[name], generator, digits))
        for name, datum in line.data.items()
    }
    return replace(line, data=dict(generator.sample(list(data.items()), len(data))))


def _in_other_words(value: Value | NotGiven, term: Term, generator: random.Random, digits: int) -> Value | NotGiven:
    if isinstance(value, Interval) and isinstance(value.low or value.high, Quantity):
        ends = (_rounded(end, term, generator, digits) for end in (value.low, value.high))
        return Interval(*ends, value.low_closed, value.high_closed)
    return _rounded(value, term, generator, digits) if isinstance(value, Quantity) else value


def _rounded(end: Quantity | None, term: Term, generator: random.Random, digits: int) -> Quantity | None:
    if end is None or end.value in (0.0, float("inf")):
        return end
    unit = generator.choice((term.inch_pound, term.metric))
    number = float(f"{end.in_unit(unit):.{digits}g}")
    found = read_value(f"{number:.12f}".rstrip("0").rstrip(".") + f" {unit}", term)
    assert isinstance(found, Quantity), found
    return found
