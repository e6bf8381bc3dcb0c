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

from speccheck.judge.operations import Rules
from speccheck.language.core import Assumption
from speccheck.language.core.documents import Age
from speccheck.language.core.review_days import DAY_OF_REVIEW, age_of
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.language.vocabulary.values import NotGiven, Single
from speccheck.physics.working import Working
from speccheck.quantities import Day, NominalSize, Quantity

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


@dataclass(frozen=True, slots=True)
class WorkedOut:
    """What became of a computed term: its value, the working behind it, and a note on a stated value beside it."""

    value: Single | NotGiven
    working: Working | None
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
    term: Term, case: Mapping[str, Single | NotGiven], stated: Single | NotGiven | None, rules: Rules
) -> WorkedOut:
    """Return what a computed term is on a case, in the units and from the stocked thicknesses of the rules.

    `case` has what stands; `stated` is what the line says of the term, whether it stands or not.
    """
    age = age_of(term.name)
    if age is not None:
        return _counted_back(age, case.get(DAY_OF_REVIEW.name))
    working = _working(term.name, _given(term, case), stocked_by(rules))
    if working is None:
        return WorkedOut(NotWorkedOut("", ""), None)
    if working.value is None:
        return _without_working(term, case.get(term.name), stated, working)
    value = _value(term, working.value, rules.system)
    return WorkedOut(value, working, _differing(term, stated, value))


def _counted_back(age: Age, day: Single | NotGiven | None) -> WorkedOut:
    """Return the day that lies so long before the one of the review."""
    if isinstance(day, Day):
        return WorkedOut(Day.of(age.earliest(day.date)), None)
    name = DAY_OF_REVIEW.name
    return WorkedOut(NotWorkedOut("", "", (name,)), None)


@cache
def _drawn_on(name: str) -> tuple[str, ...]:
    """Return the names of all that a value is worked out from, through all steps, without its own, sorted.

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
    return tuple(sorted(seen - {name}))


def stocked_by(rules: Rules) -> Stocked:
    """Return the thicknesses (m) that can be had: those that the ruleset says, else those common in its system."""
    from speccheck.physics.thickness import stocked_in

    return rules.stocked or stocked_in(rules.system)


def prepare(term: Term, cases: Iterable[Mapping[str, Single | NotGiven]], rules: Rules) -> None:
    """Work a computed term out for many cases at once, for `work_out` to find; one call for all costs little more."""
    from speccheck.physics.calculations.all import JUDGED, work_out_lines

    stocked = stocked_by(rules)
    open_keys = [
        key for key in dict.fromkeys(_given(term, case) for case in cases) if (term.name, key, stocked) not in _WORKINGS
    ]
    if len(open_keys) < 2 or term.name not in JUDGED:
        return
    rows = [dict(key) for key in open_keys]
    names = sorted({name for row in rows for name in row})
    columns = {name: _column([row.get(name) for row in rows]) for name in names}
    column = work_out_lines(term.name, columns, JUDGED, stocked)
    for position, key in enumerate(open_keys):
        _remember((term.name, key, stocked), column.working(position))


def _column(values: list[float | str | None]) -> list[float] | list[str]:
    """Return values of one term as the floor `physics` takes a column: empty words or NaN where one is not given."""
    if any(isinstance(value, str) for value in values):
        return ["" if value is None else str(value) for value in values]
    return [math.nan if value is None else float(value) for value in values]


_Given = tuple[tuple[str, float | str], ...]
Stocked = tuple[float, ...]
_Asked = tuple[str, _Given, Stocked]
_WORKINGS: dict[_Asked, Working] = {}
_MOST_WORKINGS = 50_000


def _remember(asked: _Asked, working: Working) -> Working:
    if len(_WORKINGS) >= _MOST_WORKINGS:
        _WORKINGS.clear()
    _WORKINGS[asked] = working
    return working


def _given(term: Term, case: Mapping[str, Single | NotGiven]) -> _Given:
    """Return what a case gives for a computed term, as `physics` takes it."""
    given: list[tuple[str, float | str]] = []
    for name in _drawn_on(term.name):  # a loop, for this is asked more often than anything else
        value = case.get(name)
        bare = None if value is None else plain(value)
        if bare is not None:
            given.append((name, bare))
    return tuple(given)


def _working(name: str, given: _Given, stocked: Stocked) -> Working | None:
    from speccheck.physics.calculations.all import JUDGED, work_out

    known = _WORKINGS.get((name, given, stocked))
    if known is not None or name not in JUDGED:
        return known
    return _remember((name, given, stocked), work_out(name, dict(given), JUDGED, stocked))


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


def _without_working(
    term: Term, standing: Single | NotGiven | None, stated: Single | NotGiven | None, working: Working
) -> WorkedOut:
    """Return the value that stands for a term that cannot be worked out, or why there is none."""
    if standing is not None and not isinstance(standing, NotGiven):
        instead = NotWorkedOut("", working.cannot, working.missing)
        return WorkedOut(standing, None, StandsAsStated(term.name, instead))
    if stated is None or isinstance(stated, NotGiven):
        return WorkedOut(NotWorkedOut("", working.cannot, working.missing), working)
    instead = NotWorkedOut("", working.cannot, working.missing, stated)
    return WorkedOut(instead, working, NotVerified(term.name, instead))


def _differing(term: Term, stated: Single | NotGiven | None, value: Single) -> StatedOtherwise | None:
    """Return a note where the line states another value than the one worked out."""
    if not isinstance(stated, Quantity) or not isinstance(value, Quantity):
        return None
    if abs(stated.value - value.value) <= AGREEMENT * max(abs(stated.value), abs(value.value)):
        return None
    return StatedOtherwise(term.name, stated, value)
