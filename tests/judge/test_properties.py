"""What holds of every ruleset and every line, tried on drawn ones.

What missing data can do follows from statement 4 of the language (scope not known and requirement true complies, for
it does either way) and from strong Kleene logic, in which more data never change what was known. Say that a line knows
less than another one where it lacks a datum that the other states, and is the same otherwise. Then, clause by clause:

    the line that knows less    the line that knows more
    complies                    complies, or not applicable
    does not comply             does not comply
    not applicable              not applicable
    not checked                 anything: a datum is missing without which the clause is not to judge
    cannot tell                 anything

So a datum taken away turns a fail into a fail or a cannot tell, a cannot tell stays one, and nothing becomes a fail.
Only a line to which the clause does not apply can come to comply: its scope is then not known, and it complies either
way. None of this holds where a clause asks whether the datum is given; such data are left alone here.
"""

from __future__ import annotations

import random
from collections.abc import Hashable, Iterable, Mapping
from dataclasses import replace
from typing import Any

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from speccheck.judge import Cell, Verdict, judge_lines
from speccheck.judge.evaluation import evaluate
from speccheck.judge.explain.causes import TOO_MANY
from speccheck.judge.operations import Rules
from speccheck.language.core import Adjusted, Arithmetic, Clause, Every, Given, Negation, Ruleset, Some
from speccheck.language.core.walking import conditions_of, terms_of, walk
from speccheck.language.vocabulary.values import NotGiven, Value
from speccheck.quantities import Interval, NominalSize, Quantity, sizes_in
from speccheck.quantities.units import UNITS
from speccheck.schedule.lines import Datum, Line
from tests.strategies.rulesets import conditions, judged, lines
from tests.strategies.values import singles, vocabularies

Drawn = tuple[Ruleset, Line]
AS_DRAWN = settings(deadline=None, max_examples=60)

# What a line that knows more can come to, for each verdict of one that knows less.
WITH_MORE_DATA: Mapping[Verdict, set[Verdict]] = {
    Verdict.COMPLIES: {Verdict.COMPLIES, Verdict.NOT_APPLICABLE},
    Verdict.FAILS: {Verdict.FAILS},
    Verdict.NOT_APPLICABLE: {Verdict.NOT_APPLICABLE},
    Verdict.NOT_CHECKED: set(Verdict) - {Verdict.ACCEPTED},
    Verdict.CANNOT_TELL: set(Verdict) - {Verdict.ACCEPTED},
}
WORST_FIRST = (
    Verdict.FAILS,
    Verdict.CANNOT_TELL,
    Verdict.COMPLIES,
    Verdict.NOT_CHECKED,
    Verdict.NOT_APPLICABLE,
)


def cells_of(ruleset: Ruleset, line: Line) -> tuple[Cell, ...]:
    """Return the cells of one line."""
    return judge_lines(ruleset, [line])[0]


def said_of(cells: Iterable[Cell]) -> list[Hashable]:
    """Return all that a reader is told of cells."""
    return [cell.said for cell in cells]


def verdicts_of(ruleset: Ruleset, line: Line) -> tuple[tuple[Verdict, Verdict | None], ...]:
    """Return the verdict and the verdict on the advice of each clause."""
    return tuple((cell.verdict, cell.advice) for cell in cells_of(ruleset, line))


def with_data(line: Line, data: Mapping[str, Value | NotGiven]) -> Line:
    """Return a line with other values for some terms."""
    return replace(line, data={**line.data, **{name: Datum(value) for name, value in data.items()}})


# ---- what never changes a verdict ------------------------------------------------------------------------------------


def in_other_units(value: Any, draw: st.DataObject) -> Any:
    """Return a value as it is read where it is stated in another unit of its dimension, roundings included."""
    if isinstance(value, Interval):
        low, high = (None if end is None else in_other_units(end, draw) for end in (value.low, value.high))
        return Interval(low, high, value.low_closed, value.high_closed)
    if not isinstance(value, Quantity) or value.value == float("inf"):
        return value
    units = [name for name, unit in UNITS.items() if value.dimension in unit.dimensions and name not in ("R", "RSI")]
    unit = draw.draw(st.sampled_from(units))
    one, zero = Quantity(1.0, value.dimension, unit).in_unit(unit), Quantity(0.0, value.dimension, unit).in_unit(unit)
    return Quantity((value.in_unit(unit) - zero) / (one - zero), value.dimension, unit)


@AS_DRAWN
@given(judged(nominal_metric=False) | judged(nominal_metric=False, ranges=True), st.data())
def test_the_unit_of_a_value_never_changes_a_verdict(drawn: Drawn, data: st.DataObject) -> None:
    """A line whose data are stated in other units of the same dimensions has the same verdicts."""
    ruleset, line = drawn
    other = with_data(line, {name: in_other_units(datum.value, data) for name, datum in line.data.items()})
    assert verdicts_of(ruleset, other) == verdicts_of(ruleset, line)


@AS_DRAWN
@given(judged() | judged(ranges=True), st.randoms(use_true_random=False))
def test_the_order_of_clauses_and_of_data_never_changes_a_cell(drawn: Drawn, shuffled: random.Random) -> None:
    """Clauses in another order, and data in another order, come to the same cells."""
    ruleset, line = drawn
    order = shuffled.sample(range(len(ruleset.clauses)), len(ruleset.clauses))
    names = shuffled.sample(list(line.data), len(line.data))
    other = replace(ruleset, clauses=tuple(ruleset.clauses[number] for number in order))
    cells, found = cells_of(ruleset, line), cells_of(other, replace(line, data={n: line.data[n] for n in names}))
    assert said_of(found) == said_of(cells[number] for number in order)


@AS_DRAWN
@given(judged(), st.data())
def test_the_lines_beside_a_line_never_change_its_cells(drawn: Drawn, data: st.DataObject) -> None:
    """A line has the same cells alone, before and after other lines."""
    ruleset, line = drawn
    others = data.draw(st.lists(lines(ruleset.vocabulary), min_size=1, max_size=3))
    rows = judge_lines(ruleset, [line, *others, line])
    assert said_of(rows[0]) == said_of(rows[-1]) == said_of(cells_of(ruleset, line))


@AS_DRAWN
@given(judged(ranges=True))
def test_data_that_no_clause_draws_on_never_change_a_cell(drawn: Drawn) -> None:
    """A line without the data that the clauses do not draw on has the same cells."""
    ruleset, line = drawn
    met = {term.name for clause in ruleset.clauses for term in terms_of(conditions_of(clause))}
    bare = replace(line, data={name: datum for name, datum in line.data.items() if name in met})
    assert said_of(cells_of(ruleset, bare)) == said_of(cells_of(ruleset, line))


# ---- what missing data can do ----------------------------------------------------------------------------------------


def asked_whether_given(clause: Clause) -> set[str]:
    """Return the names of the terms of which a clause asks whether they are given."""
    return {node.term.name for node in walk(conditions_of(clause)) if isinstance(node, Given)}


def assert_more_data_keep_what_is_known(ruleset: Ruleset, less: Line, more: Line, changed: Iterable[str]) -> None:
    """Hold the verdicts of two lines, of which one lacks the data named by `changed`, against one another."""
    pairs = zip(ruleset.clauses, cells_of(ruleset, less), cells_of(ruleset, more), strict=True)
    for clause, before, after in pairs:
        if asked_whether_given(clause) & set(changed) or TOO_MANY in (before.reason, after.reason):
            continue
        assert after.verdict in WITH_MORE_DATA[before.verdict]
        if before.advice is not None and after.advice is not None:
            assert after.advice in WITH_MORE_DATA[before.advice]


@AS_DRAWN
@given(judged() | judged(ranges=True), st.data())
def test_a_datum_taken_away_never_makes_a_pass_of_a_fail(drawn: Drawn, data: st.DataObject) -> None:
    """A line without one of its data knows less, and comes to no other verdict than the table above allows."""
    ruleset, line = drawn
    assume(line.data)
    name = data.draw(st.sampled_from(sorted(line.data)))
    poorer = replace(line, data={key: datum for key, datum in line.data.items() if key != name})
    assert_more_data_keep_what_is_known(ruleset, poorer, line, [name])


@AS_DRAWN
@given(judged() | judged(ranges=True), st.data())
def test_whatever_the_missing_data_are_a_known_verdict_stands(drawn: Drawn, data: st.DataObject) -> None:
    """Any completion of the missing data of a line comes to its verdict, or to not applicable where it complies."""
    ruleset, line = drawn
    terms = ruleset.vocabulary.terms
    missing = [name for name in terms if name not in line.data or isinstance(line.data[name].value, NotGiven)]
    for _ in range(3):
        completed = with_data(line, {name: data.draw(singles(terms[name].kind, terms[name])) for name in missing})
        assert_more_data_keep_what_is_known(ruleset, line, completed, missing)


@AS_DRAWN
@given(judged() | judged(ranges=True))
def test_cannot_tell_names_what_would_settle_it_or_a_cause(drawn: Drawn) -> None:
    """A cell that cannot be determined or is not checked names only data that are not given; no other names any."""
    ruleset, line = drawn
    for cell in cells_of(ruleset, line):
        assert cell.reason
        assert cell.verdict in (Verdict.CANNOT_TELL, Verdict.NOT_CHECKED) or not cell.missing
        for name in cell.missing:
            datum = line.data.get(name)
            assert datum is None or isinstance(datum.value, NotGiven | Interval)
            assert name in cell.reason


# ---- logic -------------------------------------------------------------------------------------------------------


@AS_DRAWN
@given(st.data())
def test_de_morgan(data: st.DataObject) -> None:
    """Not all of several is one of them not; not any of several is all of them not; not not is as it was."""
    vocabulary = data.draw(vocabularies())
    parts = tuple(data.draw(st.lists(conditions(vocabulary, 1), min_size=2, max_size=3)))
    line = data.draw(lines(vocabulary))
    case: dict[str, Any] = {name: datum.value for name, datum in line.data.items()}
    negated = tuple(Negation(part) for part in parts)

    def truth(condition: Every | Some | Negation) -> bool | None:
        return evaluate(condition, case, Rules()).truth

    assert truth(Negation(Every(parts))) is truth(Some(negated))
    assert truth(Negation(Some(parts))) is truth(Every(negated))
    assert truth(Negation(Negation(parts[0]))) is evaluate(parts[0], case, Rules()).truth


# ---- ranges ------------------------------------------------------------------------------------------------------


def values_inside(value: Interval[Any], name: str, data: random.Random) -> list[Value]:
    """Return every size of a range of sizes; of other ranges many values, the ends among them where they belong."""
    low, high = value.low, value.high
    if isinstance(low if low is not None else high, NominalSize):
        return list(sizes_in(value))
    quantity = low if isinstance(low, Quantity) else high
    bare: list[Any] = [end.value if isinstance(end, Quantity) else end for end in (low, high)]
    first = bare[0] if bare[0] is not None else bare[1] - 50.0 if bare[1] > 100 else 0.0
    last = bare[1] if bare[1] is not None else first + 50.0 if first > 100 else first * 3 + 5
    found: list[Any]
    if isinstance(quantity, Quantity):
        numbers = [first, last, *(data.uniform(first, last) for _ in range(200))]
        found = [Quantity(number, quantity.dimension, quantity.unit) for number in numbers]
    else:
        whole = range(int(first), int(last) + 1)
        found = [float(number) for number in whole] if name in ("fasteners", "rows") else [first, last]
    return [one for one in found if value.contains(one)]


@settings(deadline=None, max_examples=60)
@given(judged(ranges=True), st.integers(0, 1_000_000))
def test_a_line_with_ranges_is_never_judged_more_leniently_than_a_value_in_it(drawn: Drawn, seed: int) -> None:
    """No size and no value of a range has a worse verdict than the line; for sizes alone the worst is that verdict.

    A calculation with two ranges in it is tried at many values, not at all that matter, and is left out here.
    """
    ruleset, line = drawn
    chance = random.Random(seed)
    ranges = {name: datum.value for name, datum in line.data.items() if isinstance(datum.value, Interval)}
    inside = {name: values_inside(value, name, chance) for name, value in ranges.items()}
    assume(ranges and all(inside.values()))
    sizes_alone = all(isinstance(found[0], NominalSize) for found in inside.values())
    cells = cells_of(ruleset, line)
    worst = [Verdict.NOT_APPLICABLE] * len(cells)
    for chosen in _combinations(inside, chance):
        for number, one in enumerate(cells_of(ruleset, with_data(line, chosen))):
            worst[number] = min(worst[number], one.verdict, key=WORST_FIRST.index)
    for clause, cell, found in zip(ruleset.clauses, cells, worst, strict=True):
        if _calculates_with_two(clause, ranges) or cell.reason == TOO_MANY:
            continue
        assert WORST_FIRST.index(cell.verdict) <= WORST_FIRST.index(found)
        assert cell.verdict is found or not sizes_alone


def _combinations(inside: Mapping[str, list[Value]], chance: random.Random) -> list[dict[str, Value]]:
    """Return all combinations of values where they are few, otherwise as many as the values, by chance."""
    combined: list[dict[str, Value]] = [{}]
    for name, values in inside.items():
        combined = [{**one, name: value} for one in combined for value in values]
    return combined if len(combined) <= 400 else chance.sample(combined, 400)


def _calculates_with_two(clause: Clause, ranges: Mapping[str, Value]) -> bool:
    """Say whether a calculation of a clause draws on two ranges."""
    nodes = (node for node in walk(conditions_of(clause)) if isinstance(node, Arithmetic | Adjusted))
    return any(len({term.name for term in terms_of([node])} & ranges.keys()) > 1 for node in nodes)
