"""Doubtful amounts: numbers that no insulation has, which mostly stand under a header with another unit.

The limits lie well outside what the trade knows, so that nothing that is merely unusual is doubted (common practice, no
source): no wall of over 10 in, let alone of a foot, is put on pipe or duct, no jacket has a quarter of an inch, and no
insulation at the pressure of the air conducts less than 0.01 W/(m.K), well below aerogel and half of still air.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import NamedTuple

from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import NotGiven, Value, write_value
from speccheck.quantities import Interval, Quantity

# Days since 1900 in spreadsheets, from 2000 to 2050: what "1/2" becomes as a date, and then as a number.
_DAYS = range(36_526, 55_154)


class _Sensible(NamedTuple):
    """What lies outside is doubtful, in SI units; how that is said, and the unit that is mostly meant."""

    least: float
    most: float
    said: str
    meant: str


_SENSIBLE: Mapping[str, _Sensible] = {
    "thickness": _Sensible(0.0, 10 * 0.0254, "thicker than insulation is put on", "mm"),
    "jacket thickness": _Sensible(0.0, 0.25 * 0.0254, "thicker than jackets are", "mm or mil"),
    "conductivity": _Sensible(0.01, math.inf, "less than any insulation has", "W/(m.K)"),
}


def doubt(text: str, value: Value | NotGiven, term: Term) -> tuple[str, str] | None:
    """Return why an amount is doubtful and what to write instead, or None where it is not."""
    if text.isdecimal() and int(text) in _DAYS and term.kind.form in (Form.QUANTITY, Form.SIZE):
        help = "format the cell as text and type the value again; programs turn 1/2 into a date and then into a number"
        return f"`{text}` is the number of a day, as programs keep dates, and no `{term.name}`", help
    sensible = _SENSIBLE.get(term.name)
    if sensible is None:
        return None
    for end in (value.low, value.high) if isinstance(value, Interval) else (value,):
        if isinstance(end, Quantity) and not sensible.least <= end.value <= sensible.most * (1 + 1e-9):
            message = f"a `{term.name}` of {write_value(end, term)} is {sensible.said}, so its unit is in doubt"
            return message, f"write the unit that is meant, perhaps {sensible.meant}, or settle it in a mapping file"
    return None
