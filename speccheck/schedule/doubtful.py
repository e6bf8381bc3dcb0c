"""Doubtful amounts: numbers that hardly anybody means, which mostly stand under a header with another unit.

What is sensible of a term, alone or for some services or places, stands in the vocabulary (`sensible`); here it is
asked.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from speccheck.language.diagnostic_rules import Wording
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.vocabulary.terms import Form, Sensible, Term
from speccheck.language.vocabulary.values import NotGiven, Value, write_value
from speccheck.quantities import Interval
from speccheck.schedule.messages.cells import NOT_SENSIBLE, NOT_SENSIBLE_IN_UNIT, NOT_SENSIBLE_TOGETHER, NUMBER_OF_A_DAY

# Days since 1900 in spreadsheets, from 2000 to 2050: what "1/2" becomes as a date, and then as a number.
_DAYS = range(36_526, 55_154)
# The unit that is mostly meant where an amount is senseless, by dimension and the unit that it was read in.
_MEANT = {"length": "mm or mil", "conductivity": "W/(m.K)", "temperature": "C"}


@dataclass(frozen=True, slots=True)
class DoubtfulAmount:
    """What is to be said of a doubtful amount, with its facts."""

    said: Wording
    facts: Mapping[str, str]

    def at(self, place: Place) -> Diagnostic:
        """Return the diagnostic at the place of the amount."""
        return self.said.at(place, near=None, **self.facts)


def doubt(text: str, value: Value | NotGiven, term: Term, *, unit_assumed: bool = False) -> DoubtfulAmount | None:
    """Return what is doubtful of an amount by itself, or None where nothing is."""
    if text.isdecimal() and int(text) in _DAYS and term.kind.form in (Form.QUANTITY, Form.SIZE):
        return DoubtfulAmount(NUMBER_OF_A_DAY, {"text": text, "term": term.name})
    return senseless(value, term, {}, unit_assumed=unit_assumed)


def senseless(
    value: Value | NotGiven, term: Term, data: Mapping[str, Value | NotGiven], *, unit_assumed: bool = False
) -> DoubtfulAmount | None:
    """Return what is not sensible of a value beside the other data of its line, or None where nothing is.

    `data` are the values of the line by term name; a range that holds for some values of a term is asked only where
    the line states one of them, and one for numbers without a unit only where the unit is assumed.
    """
    for sensible in (*term.sensible, *(term.sensible_numbers if unit_assumed else ())):
        other = data.get(sensible.where, "") if sensible.where else ""
        if sensible.where and other not in sensible.values:
            continue
        for end in (value.low, value.high) if isinstance(value, Interval) else (value,):
            if end is not None and not isinstance(end, NotGiven) and not sensible.allows(end):
                return _said(end, term, sensible, f" for `{sensible.where}` {other}" if sensible.where else "")
    return None


def _said(end: Value, term: Term, sensible: Sensible, where: str) -> DoubtfulAmount:
    facts = {"term": term.name, "value": write_value(end, term), "where": where}
    if sensible.range is None:
        return DoubtfulAmount(NOT_SENSIBLE_TOGETHER, facts)
    facts |= {"a": "an" if term.name[0] in "aeiou" else "a", "range": str(sensible.range)}
    meant = _MEANT.get(term.kind.dimension, "")
    return (
        DoubtfulAmount(NOT_SENSIBLE_IN_UNIT, facts | {"unit": meant}) if meant else DoubtfulAmount(NOT_SENSIBLE, facts)
    )
