"""Two units in one header: "Thickness mm (in)". A pair of numbers, `25 (1)`, says which is in which; a number alone is
in the one unit in which it makes sense, and where it does in both it stays open.
"""

from __future__ import annotations

import re

from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import BareUnits, NotGiven, Value, read_value
from speccheck.quantities import Misread
from speccheck.schedule.doubtful import senseless
from speccheck.schedule.phrases_of_cells import are_alike

_PAIR = re.compile(r"(?P<first>[^()\[\]]+?)\s*(?:[(\[]\s*|\s/\s)(?P<second>[^()\[\]]+?)\s*[)\]]?")


def read_in_two_units(text: str, term: Term, units: tuple[str, str]) -> Value | Misread:
    """Return what a cell without a unit says under a header that names two, or why that is open."""
    pair = _PAIR.fullmatch(text)
    if pair is not None:
        for first, second in (units, units[::-1]):
            one, other = _in(pair["first"], term, first), _in(pair["second"], term, second)
            if one is not None and other is not None and are_alike(one, other):
                return one
        message = f"`{text}` holds two amounts that are not the same in {units[0]} and {units[1]}"
        return Misread(text, message, "write one amount with its unit", 0, len(text))
    found = [(value, unit) for unit in units if (value := _in(text, term, unit)) is not None]
    sensible = [value for value, _ in found if senseless(value, term, {}) is None]
    if len(sensible) == 1:
        return sensible[0]
    message = f"`{text}` may be in {units[0]} or in {units[1]}, which the header both names"
    return Misread(text, message, f"write the unit behind the number: {units[0]} or {units[1]}", 0, len(text))


def _in(text: str, term: Term, unit: str) -> Value | None:
    value = read_value(text, term, BareUnits(unit))
    return None if isinstance(value, Misread | NotGiven) else value
