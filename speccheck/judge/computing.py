"""Computing: terms that are worked out from the others of a case by the physics of the floor `physics`.

A term that the vocabulary calls computed takes the value that is worked out for it. Where that cannot be had, the term
is not given, and what stopped it is named: the data that are missing, or the cause. A value that the line states for it
is not verified then, and is only shown; it stands where the vocabulary calls the term `computed or stated`, or where it
is assumed, and the note says so.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from speccheck.judge.operations import Rules
from speccheck.language.core import Assumption
from speccheck.language.core.documents import Age
from speccheck.language.core.review_days import DAY_OF_REVIEW, age_of
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.language.vocabulary.values import NotGiven, Single
from speccheck.physics.working import Working
from speccheck.quantities import Day, NominalSize, Quantity

if TYPE_CHECKING:
    from speccheck.physics.calculations.calculation import CalculatedColumn

# Two values of one thing that differ by less than this, as a ratio of SI values, are taken to agree.
AGREEMENT = 0.005


@dataclass(frozen=True, slots=True)
class NotWorkedOut(NotGiven):
    """A computed value that cannot be had: the names of the data that would settle it, or the cause in `why`.

    Without either, no calculation of this program gives it. `stated` is the value that the line states for it, which
    nothing verifies.
    """

    missing: tuple[str, ...] = ()
    stated: Single | None = None


@dataclass(frozen=True, slots=True)
class StandsAsStated:
    """A computed term has the value that the line states, for it cannot be worked out."""

    term: str
    instead: NotWorkedOut


@dataclass(frozen=True, slots=True)
class NotVerified:
    """The line states a value of a term that cannot be worked out, and that value does not stand."""

    term: str
    instead: NotWorkedOut


@dataclass(frozen=True, slots=True)
class StatedOtherwise:
    """The line states another value of a computed term than the one that was worked out and used."""

    term: str
    stated: Quantity
    value: Quantity


Note = Assumption | StandsAsStated | NotVerified | StatedOtherwise
"""What goes with the values of a case: a value that the ruleset assumes, and what became of those that are stated."""


@dataclass(frozen=True, slots=True, eq=False)
class Worked:
    """What a calculation came to on a case; its working is written out when somebody asks.

    `value` is in SI, None where there is none; then `missing` names the inputs that would settle it, or `cannot` says
    why there is none.
    """

    name: str
    value: float | None
    missing: tuple[str, ...]
    cannot: str
    column: CalculatedColumn
    row: int

    @classmethod
    def of(cls, column: CalculatedColumn, row: int) -> Worked:
        """Return what a column of results has in a row."""
        return cls(column.calculation.name, *column.result(row), column, row)

    @property
    def working(self) -> Working:
        """The value with its inputs, method, steps and source."""
        return self.column.working(self.row)


@dataclass(frozen=True, slots=True)
class WorkedOut:
    """What became of a computed term: its value, what was worked out, and a note on a stated value beside it."""

    value: Single | NotGiven
    worked: Worked | None
    note: Note | None = None


def inputs_of(terms: Iterable[Term], vocabulary: Vocabulary) -> tuple[Term, ...]:
    """Return the terms of a vocabulary that the computed ones among `terms` are worked out from, through all steps."""
    from speccheck.physics.calculations.all import JUDGED

    found: dict[str, Term] = {}
    open_names = [term.name for term in terms if term.computed]
    seen: set[str] = set()
    while open_names:
        name = open_names.pop(0)
        if age_of(name) is not None:
            found[DAY_OF_REVIEW.name] = DAY_OF_REVIEW
        if name in seen or name not in JUDGED:
            continue
        seen.add(name)
        for needed in JUDGED[name].inputs:
            open_names.append(needed.name)
            term = vocabulary.terms.get(needed.name)
            if term is not None:
                found.setdefault(term.name, term)
    return tuple(found.values())


def work_out(
    term: Term,
    case: Mapping[str, Single | NotGiven],
    given: Inputs,
    stated: Single | NotGiven | None,
    rules: Rules,
) -> WorkedOut:
    """Return what a computed term is on a case, in the units and from the stocked thicknesses of the rules.

    `case` has what stands, `given` what of that the term is worked out from; `stated` is what the line says of the
    term, whether it stands or not.
    """
    age = age_of(term.name)
    if age is not None:
        return _counted_back(age, case.get(DAY_OF_REVIEW.name))
    worked = _worked(term.name, given, stocked_by(rules))
    if worked is None:
        return WorkedOut(NotWorkedOut("", ""), None)
    if worked.value is None:
        return _without_value(term, case.get(term.name), stated, worked)
    value = _value(term, worked.value, rules.system)
    return WorkedOut(value, worked, _differing(term, stated, value))


def _counted_back(age: Age, day: Single | NotGiven | None) -> WorkedOut:
    """Return the day that lies so long before the one of the review."""
    if isinstance(day, Day):
        return WorkedOut(Day.of(age.earliest(day.date)), None)
    name = DAY_OF_REVIEW.name
    return WorkedOut(NotWorkedOut("", "", (name,)), None)


@cache
def _drawn_on(name: str) -> frozenset[str]:
    """Return the names of all that a value is worked out from, through all steps, without its own.

    Lines that differ in other things only share one working.
    """
    from speccheck.physics.calculations.all import JUDGED

    seen: set[str] = set()
    open_names = [name]
    while open_names:
        one = open_names.pop()
        if one not in seen:
            seen.add(one)
            open_names += [needed.name for needed in JUDGED[one].inputs] if one in JUDGED else []
    return frozenset(seen - {name})


def stocked_by(rules: Rules) -> Stocked:
    """Return the thicknesses (m) that can be had: those that the ruleset says, else those common in its system."""
    from speccheck.physics.thickness import stocked_in

    return rules.stocked or stocked_in(rules.system)


def prepare(term: Term, cases: Iterable[Mapping[str, Single | NotGiven]], rules: Rules) -> list[Inputs]:
    """Return what each case gives for a computed term; it is worked out for all of them at once, for `work_out`.

    One call for all costs little more than one for a single case.
    """
    from speccheck.physics.calculations.all import JUDGED, work_out_lines

    keys, stocked = [_given(term, case) for case in cases], stocked_by(rules)
    open_keys = [key for key in dict.fromkeys(keys) if (term.name, key, stocked) not in _WORKED]
    if len(open_keys) < 2 or term.name not in JUDGED:
        return keys
    rows = [dict(key) for key in open_keys]
    names = sorted({name for row in rows for name in row})
    columns = {name: _column([row.get(name) for row in rows]) for name in names}
    column = work_out_lines(term.name, columns, JUDGED, stocked)
    for position, key in enumerate(open_keys):
        _remember((term.name, key, stocked), Worked.of(column, position))
    return keys


def _column(values: list[float | str | None]) -> list[float] | list[str]:
    """Return values of one term as the floor `physics` takes a column: empty words or NaN where one is not given."""
    if any(isinstance(value, str) for value in values):
        return ["" if value is None else str(value) for value in values]
    return [math.nan if value is None else float(value) for value in values]


Inputs = tuple[tuple[str, float | str], ...]
"""What a case gives for a computed term, by name, as `physics` takes it."""

Stocked = tuple[float, ...]
_Asked = tuple[str, Inputs, Stocked]
_WORKED: dict[_Asked, Worked] = {}
_MOST_WORKED = 50_000


def _remember(asked: _Asked, worked: Worked) -> Worked:
    if len(_WORKED) >= _MOST_WORKED:
        _WORKED.clear()
    _WORKED[asked] = worked
    return worked


def _given(term: Term, case: Mapping[str, Single | NotGiven]) -> Inputs:
    """Return what a case gives for a computed term, as `physics` takes it, by name."""
    drawn_on = _drawn_on(term.name)
    given: list[tuple[str, float | str]] = []
    for name, value in case.items():  # a loop, for this is asked more often than anything else
        if name in drawn_on and (bare := plain(value)) is not None:
            given.append((name, bare))
    given.sort()
    return tuple(given)


def _worked(name: str, given: Inputs, stocked: Stocked) -> Worked | None:
    from speccheck.physics.calculations.all import JUDGED, work_out_lines

    known = _WORKED.get((name, given, stocked))
    if known is not None or name not in JUDGED:
        return known
    return _remember((name, given, stocked), Worked.of(work_out_lines(name, dict(given), JUDGED, stocked), 0))


def plain(value: Single | NotGiven) -> float | str | None:
    """Return a value as `physics` takes it: SI, a size in inches, a word; None for what it cannot use."""
    if isinstance(value, Quantity):
        return value.value
    if isinstance(value, NominalSize):
        return float(value.inches)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value if isinstance(value, float | int | str) else None


def _value(term: Term, number: float, system: str) -> Single:
    if term.kind.form is not Form.QUANTITY:
        return number
    return Quantity(number, term.kind.dimension, term.metric if system == "metric" else term.inch_pound)


def _without_value(
    term: Term, standing: Single | NotGiven | None, stated: Single | NotGiven | None, worked: Worked
) -> WorkedOut:
    """Return the value that stands for a term that cannot be worked out, or why there is none."""
    if standing is not None and not isinstance(standing, NotGiven):
        instead = NotWorkedOut("", worked.cannot, worked.missing)
        return WorkedOut(standing, None, StandsAsStated(term.name, instead))
    if stated is None or isinstance(stated, NotGiven):
        return WorkedOut(NotWorkedOut("", worked.cannot, worked.missing), worked)
    instead = NotWorkedOut("", worked.cannot, worked.missing, stated)
    return WorkedOut(instead, worked, NotVerified(term.name, instead))


def _differing(term: Term, stated: Single | NotGiven | None, value: Single) -> StatedOtherwise | None:
    """Return a note where the line states another value than the one worked out."""
    if not isinstance(stated, Quantity) or not isinstance(value, Quantity):
        return None
    if abs(stated.value - value.value) <= AGREEMENT * max(abs(stated.value), abs(value.value)):
        return None
    return StatedOtherwise(term.name, stated, value)
