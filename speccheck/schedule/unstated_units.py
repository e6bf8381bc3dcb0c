"""Numbers for which nothing states a unit: a 9 among 13, 19 and 25 is millimetres, whatever the ruleset is written in.

Such a number has the usual unit of the ruleset. Where another one like it in the sheet makes sense only in the other
system, that guess is no better than the other for any number that would make sense in both.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from speccheck.language.diagnostics import Diagnostic
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.language.vocabulary.values import BareUnits, NotGiven, Value, read_value
from speccheck.quantities import SYSTEMS, Misread
from speccheck.schedule.doubtful import senseless
from speccheck.schedule.lines import Datum, Line
from speccheck.schedule.messages.cells import PERHAPS_OTHER_UNITS


class _Number(NamedTuple):
    """A number without a unit that makes sense in the other system too: the index of its line, its term, its datum."""

    line: int
    term: Term
    datum: Datum


def states_no_unit(text: str, term: Term) -> bool:
    """Whether a text is a number of a term that needs a unit, and has none: it means another thing in each system."""
    if term.kind.form not in (Form.QUANTITY, Form.SIZE):
        return False
    inch_pound, metric = (read_value(text, term, BareUnits(system=system)) for system in SYSTEMS)
    return inch_pound != metric and not (isinstance(inch_pound, Misread) and isinstance(metric, Misread))


def units_in_doubt(lines: Sequence[Line], vocabulary: Vocabulary) -> Iterator[tuple[int, str, Diagnostic]]:
    """Yield the numbers that may as well be in the other units: the index of the line, the term, and what to say."""
    by_sheet: defaultdict[tuple[str, str, str], list[_Number]] = defaultdict(list)
    for number in _numbers(lines, vocabulary):
        place = number.datum.place
        by_sheet[number.term.name, place.file, place.sheet].append(number)
    for numbers in by_sheet.values():
        telling = [each for each in numbers if isinstance(each.datum.value, NotGiven)]
        for each in numbers:
            if telling and not isinstance(each.datum.value, NotGiven):
                yield each.line, each.term.name, _doubt(each, telling[0])


def _numbers(lines: Sequence[Line], vocabulary: Vocabulary) -> Iterator[_Number]:
    """Yield the numbers whose unit is assumed and that make sense in the other system."""
    for index, line in enumerate(lines):
        beside: Mapping[str, Value | NotGiven] = {name: datum.value for name, datum in line.data.items()}
        for name, datum in line.data.items():
            if not datum.units_assumed:
                continue
            term = vocabulary.terms[name]
            value = read_value(datum.text, term, BareUnits(system=_other_system(datum)))
            if isinstance(value, Misread | NotGiven) or senseless(value, term, beside, unit_assumed=True) is not None:
                continue
            yield _Number(index, term, datum)


def _other_system(datum: Datum) -> str:
    """Return the system of units in which a number was not read."""
    return next(each for each in SYSTEMS if each != datum.units_assumed)


def _doubt(number: _Number, telling: _Number) -> Diagnostic:
    datum = number.datum
    seen = f"`{telling.datum.text}` in {telling.datum.place.cell} makes sense only in them"
    return PERHAPS_OTHER_UNITS.at(datum.place, text=datum.text, system=_other_system(datum), seen=seen)
