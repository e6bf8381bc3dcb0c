"""Doubtful amounts: numbers that hardly anybody means, which mostly stand under a header with another unit.

What is sensible of a term, alone or for some services or places, stands in the vocabulary (`sensible`); here it is
asked.
"""

from __future__ import annotations

from collections.abc import Mapping

from speccheck.language.vocabulary.terms import Form, Sensible, Term
from speccheck.language.vocabulary.values import NotGiven, Value, write_value
from speccheck.quantities import Interval

# Days since 1900 in spreadsheets, from 2000 to 2050: what "1/2" becomes as a date, and then as a number.
_DAYS = range(36_526, 55_154)
# The unit that is mostly meant where an amount is senseless, by dimension and the unit that it was read in.
_MEANT = {"length": "mm or mil", "conductivity": "W/(m.K)", "temperature": "C"}


def doubt(text: str, value: Value | NotGiven, term: Term, *, unit_assumed: bool = False) -> tuple[str, str] | None:
    """Return why an amount by itself is doubtful and what to write instead, or None where it is not."""
    if text.isdecimal() and int(text) in _DAYS and term.kind.form in (Form.QUANTITY, Form.SIZE):
        help = "format the cell as text and type the value again; programs turn 1/2 into a date and then into a number"
        return f"`{text}` is the number of a day, as programs keep dates, and no `{term.name}`", help
    return senseless(value, term, {}, unit_assumed=unit_assumed)


def senseless(
    value: Value | NotGiven, term: Term, data: Mapping[str, Value | NotGiven], *, unit_assumed: bool = False
) -> tuple[str, str] | None:
    """Return why a value is not sensible beside the other data of its line, and what to write instead, or None.

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


def _said(end: Value, term: Term, sensible: Sensible, where: str) -> tuple[str, str]:
    article = "an" if term.name[0] in "aeiou" else "a"
    stated = f"{article} `{term.name}` of {write_value(end, term)}"
    if sensible.range is None:
        said = f"`{term.name}` {write_value(end, term)}"
        return (
            f"{said} is not sensible{where}, so it is in doubt",
            "correct one of the two, or settle it in a mapping file",
        )
    message = f"{stated} is not sensible{where} ({sensible.range}), so it is in doubt"
    meant = _MEANT.get(term.kind.dimension, "")
    help = "write the unit that is meant" + (f", perhaps {meant}" if meant else "") + ", or settle it in a mapping file"
    return message, help
