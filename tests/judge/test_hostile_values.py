"""Values and rulesets that nobody sends in good faith: none of them raises, and none of them passes for a number."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from speccheck.judge import Judge, Verdict, judge_lines, rehearse
from speccheck.language.core import Ruleset
from speccheck.language.vocabulary.terms import COUNT, NUMBER, TEXT, Form, Kind, Term, Vocabulary
from speccheck.language.vocabulary.values import BareUnits, NotGiven, Value, read_value
from speccheck.quantities import Interval, Misread, NominalSize, Quantity
from speccheck.schedule.lines import Datum, Line
from tests.conformance.cases import load
from tests.strategies.rulesets import judged
from tests.strategies.values import LENGTH, RATIO, TEMPERATURE

HOSTILE = [
    *("nan", "NaN in", "-nan", "inf", "infinity in", "-inf F", "1e400 in", "1e309", "0x10 in", "1_000 in"),
    *("1/0 in", "0/0", "-0 in", "١ in", "1\u202e in", "1\x00 in", "\x1b[31m1 in", "1\n2 in", "=1+1", "@x", "-5 in"),
    *(
        "9" * 400,
        "9" * 150 + " in",
        "1 in to nan",
        "nan to 1 in",
        "2 in to 1 in",
        "<script>",
        '"',
        "' OR 1",
        "{}",
        "%s",
    ),
]
TERMS = [Term("it", kind) for kind in (LENGTH, TEMPERATURE, RATIO, COUNT, NUMBER)]


def numbers_in(value: Value | NotGiven) -> list[float]:
    """Return the bare numbers that a value holds."""
    ends = (value.low, value.high) if isinstance(value, Interval) else (value,)
    bare = [end.value if isinstance(end, Quantity) else end for end in ends]
    return [float(number) for number in bare if isinstance(number, float | int)]


@settings(deadline=None, max_examples=150)
@given(st.text(max_size=30) | st.sampled_from(HOSTILE), st.sampled_from(TERMS), st.sampled_from(["", "inch-pound"]))
def test_no_text_is_read_as_a_number_that_is_none(text: str, term: Term, system: str) -> None:
    """Whatever a cell says, what is read of it is finite, or nothing, or refused."""
    found = read_value(text, term, BareUnits(system=system))
    assert isinstance(found, Misread) or all(map(math.isfinite, numbers_in(found)))


@pytest.mark.parametrize("text", HOSTILE)
@pytest.mark.parametrize("term", TERMS, ids=lambda term: str(term.kind))
def test_hostile_texts_are_finite_or_refused(text: str, term: Term) -> None:
    """The same for texts that are written to break a reader."""
    found = read_value(text, term, BareUnits(system="inch-pound"))
    assert isinstance(found, Misread) or all(map(math.isfinite, numbers_in(found)))


EXTREMES = [0.0, 5e-324, 1e-200, 1e-9, 1e9, 1e200, math.inf]


def extreme(kind: Kind, number: float) -> Value | None:
    """Return a value of a kind that is as large or as small as a number; None where the kind has none such."""
    match kind.form:
        case Form.QUANTITY:
            unit = {"length": "in", "temperature": "F", "ratio": "%"}.get(kind.dimension, "")
            return Quantity(number, kind.dimension, unit) if (unit and number < math.inf) or kind == LENGTH else None
        case Form.COUNT | Form.NUMBER:
            return number if number < math.inf else None
        case Form.TEXT:
            return "\x00\x1b[31m\u202e" * 3
        case _:
            return None


@settings(deadline=None, max_examples=80)
@given(judged() | judged(ranges=True), st.lists(st.sampled_from(EXTREMES), min_size=20, max_size=20))
def test_extreme_values_never_raise(drawn: tuple[Ruleset, Line], numbers: list[float]) -> None:
    """Values beyond all sense come to a verdict with a reason, whatever is calculated, looked up or compared."""
    ruleset, line = drawn
    data = dict(line.data)
    for number, (name, term) in zip(numbers, ruleset.vocabulary.terms.items(), strict=False):
        value = extreme(term.kind, number)
        if value is not None and not (name in data and isinstance(data[name].value, Interval)):
            data[name] = Datum(value)
    for cell in judge_lines(ruleset, [Line("1", data)])[0]:
        assert cell.reason
        assert cell.verdict is not Verdict.ACCEPTED  # nobody has accepted anything here


@settings(deadline=None, max_examples=40)
@example("\x00")
@given(st.text(min_size=1, max_size=40))
def test_any_text_is_a_text_that_can_be_compared(text: str) -> None:
    """A text with anything in it is compared as it stands and told in the reason."""
    loaded = load('ruleset "case"\nspeaks "vocabulary"\nclause 1 "case"\nshall product be "Type 2"\n')
    assert loaded.ruleset is not None
    cell = Judge(loaded.ruleset).cell(0, Line("1", {"product": Datum(text)}))
    assert (cell.verdict is Verdict.COMPLIES) is (text == "Type 2")
    assert text in cell.reason


def test_a_ruleset_without_clauses_makes_rows_without_cells() -> None:
    """Nothing to judge and nothing judged are both without a verdict, and nothing raises."""
    empty = Ruleset("empty", Vocabulary("empty", {}), ())
    assert judge_lines(empty, [Line("1", {}), Line("2", {"nothing": Datum("x")})]) == ((), ())
    assert judge_lines(empty, []) == ()
    assert rehearse(empty).results == ()


def test_a_line_with_a_range_of_no_size_is_not_given() -> None:
    """A range in which no pipe size lies says nothing about the size."""
    loaded = load('ruleset "case"\nspeaks "vocabulary"\nclause 1 "case"\nshall pipe size be at least 2 in\n')
    assert loaded.ruleset is not None
    whole: Interval[Any] = Interval(_size("12 in"), _size("14 in"), False, False)
    cell = Judge(loaded.ruleset).cell(0, Line("1", {"pipe size": Datum(whole)}))
    assert (cell.verdict, cell.missing) == (Verdict.CANNOT_TELL, ("pipe size",))
    assert cell.reason == "pipe size is not given (no value that exists lies in the range)"


def _size(text: str) -> NominalSize:
    found = read_value(text, Term("it", Kind(Form.SIZE)))
    assert isinstance(found, NominalSize)
    return found


def test_ranges_that_stand_for_too_many_cases_are_cannot_tell() -> None:
    """A line whose ranges multiply beyond what can be judged is not judged in part, and says what to do."""
    names = ("operating temperature", "ambient temperature", "thickness", "jacket thickness", "spacing")
    limits = "".join(
        f"shall {name} be {'over' if 'temp' not in name else 'under'} {limit} {'F' if 'temp' in name else 'in'}\n"
        for name in names
        for limit in range(60, 72)
    )
    loaded = load(f'ruleset "case"\nspeaks "vocabulary"\nclause 1 "case"\n{limits}')
    assert loaded.ruleset is not None
    assert loaded.usable
    terms = loaded.ruleset.vocabulary.terms
    data = {}
    for name in names:
        value = read_value(f"50 {'F' if 'temp' in name else 'in'} to 80 {'F' if 'temp' in name else 'in'}", terms[name])
        assert isinstance(value, Interval)
        data[name] = Datum(value)
    cell = Judge(loaded.ruleset).cell(0, Line("1", data))
    assert cell.verdict is Verdict.CANNOT_TELL
    assert cell.reason == "the ranges of the line stand for more than 20,000 cases; split the line"


def test_texts_are_not_what_the_engine_takes_for_numbers() -> None:
    """A text term keeps words such as NaN as words."""
    assert read_value("NaN", Term("it", TEXT)) == "NaN"
