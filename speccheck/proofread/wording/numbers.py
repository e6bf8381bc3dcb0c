"""Numbers in wording and in rules: quantities found in free text, and those that a clause compares anything with."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from speccheck.language.core import Assumption, Clause, Condition, Ruleset
from speccheck.language.core.walking import conditions_of, tables_of, terms_of, values_of
from speccheck.language.vocabulary.values import Single
from speccheck.quantities import Interval, NominalSize, Quantity, as_quantity, as_size, read, unit_dimensions
from speccheck.quantities.conversion import listed_unit

_NUMBER = r"(?:\d{1,3}(?:,\d{3})+|\d+)(?:\.\d+|[- ]?[½¼¾⅛⅜⅝⅞]|(?:[- ]\d+)?/\d+)?|\.\d+|[½¼¾⅛⅜⅝⅞]"
_UNIT = r"(?:°\s?)?[A-Za-zµ](?:[\w²³·./^]|\([^\s()]*\))*|[\"″'′%°]"
_NAMED = re.compile(rf"(?<![\w.-])(DN|NPS|RSI|R)[ -]?({_NUMBER})")
_MEASURED = re.compile(rf"(?<![\w.-])([-−]?(?:{_NUMBER}))[ -]?({_UNIT})")
# A number without a unit is one where it limits something or counts parts: "not more than 25", "2 layers".
_LIMITED = re.compile(
    r"\b(?:at least|at most|(?:not|no) (?:more|less|over|fewer) than|not exceed(?:ing)?|maximum of|minimum of)"
    r"\s+(\d+)(?!\.?\d|[-/\w])(?!\s*[%°″\"'])",
    re.IGNORECASE,
)
_COUNTED = re.compile(
    r"(?<![\w./-])(\d+)\s+(?:layers?|coats?|fasteners?|bands?|rivets|screws|vapor stops|plies)\b", re.IGNORECASE
)
# "2 in the plant room" is no length.
_NO_UNIT = re.compile(r"\s+(?:the|a|an|each|all|any|which|this|that|its|place)\b")


@dataclass(frozen=True, slots=True)
class WordedNumber:
    """A quantity or a nominal size as a text has it: the words, and what they can mean by dimension.

    `start` and `end` say where in the text it stands.
    """

    text: str
    size: NominalSize | None
    quantities: tuple[Quantity, ...]
    decimals: int
    count: float | None = None
    start: int = 0
    end: int = 0

    def comparable(self, value: Single) -> bool:
        """Say whether a value is of a kind that the words can mean."""
        if isinstance(value, NominalSize):
            return self.size is not None
        if isinstance(value, float) and not isinstance(value, bool):
            return self.count is not None
        return isinstance(value, Quantity) and any(one.dimension == value.dimension for one in self.quantities)

    def says(self, value: Single) -> bool:
        """Say whether the words state a value, rounded to the digits that are written where the units differ."""
        if isinstance(value, NominalSize):
            return self.size == value
        if isinstance(value, float):
            return self.count == value
        return isinstance(value, Quantity) and any(self._states(one, value) for one in self.quantities)

    def _states(self, stated: Quantity, value: Quantity) -> bool:
        if stated.dimension != value.dimension or math.isinf(value.value):
            return False
        if math.isclose(stated.value, value.value, rel_tol=1e-6, abs_tol=1e-12):
            return True
        if stated.unit == value.unit:
            return False
        here = value.in_unit(stated.unit)
        return abs(here - stated.in_unit(stated.unit)) <= 0.51 * 10.0**-self.decimals


def numbers_of_wording(wording: str) -> Iterator[WordedNumber]:
    """Yield the quantities that a text states, in order; numbers without a unit are none."""
    named = [(found, _named(found[1], found[2], found[0])) for found in _NAMED.finditer(wording)]
    measured = [
        (found, _measured(found[1], found[2], found[0]))
        for found in _MEASURED.finditer(wording)
        if found[2] != "in" or not _NO_UNIT.match(wording, found.end())
    ]
    taken = {found.end(2 if found.re is _NAMED else 1) for found, one in (*named, *measured) if one is not None}
    counted = {
        found.start(1): (found, WordedNumber(found[1], None, (), 0, float(found[1])))
        for pattern in (_LIMITED, _COUNTED)
        for found in pattern.finditer(wording)
        if found.end(1) not in taken
    }
    for at, (_, number) in sorted(counted.items()):
        yield replace(number, start=at, end=at + len(number.text))
    for found, one in sorted([*named, *measured], key=lambda pair: pair[0].start()):
        if one is not None:
            yield replace(one, start=found.start(), end=found.start() + len(found[0].rstrip(".")))


def _named(mark: str, number: str, shown: str) -> WordedNumber | None:
    """Return what a nominal size or a thermal resistance with its mark before it is."""
    size = as_size(read(f"{mark} {number}"), None) if mark in ("DN", "NPS") else None
    resistance = as_quantity(read(f"{mark}-{number}"), "thermal resistance") if size is None else None
    quantities = (resistance,) if isinstance(resistance, Quantity) else ()
    return _worded(shown, size if isinstance(size, NominalSize) else None, quantities, number)


def _measured(number: str, unit: str, shown: str) -> WordedNumber | None:
    """Return what a number with a unit is, be it a quantity, a nominal size, or both."""
    unit = unit.rstrip(".")
    if unit.isalpha() and listed_unit(unit) is None:
        return None  # "2 layers": a word is no unit unless the trade's table has it
    text = f"{number}{unit}" if unit in "\"″'′%°" else f"{number} {unit}"
    found = (as_quantity(read(text), dimension) for dimension in unit_dimensions(unit))
    size = as_size(read(text), None)
    quantities = tuple(one for one in found if isinstance(one, Quantity))
    return _worded(shown.rstrip("."), size if isinstance(size, NominalSize) else None, quantities, number)


def _worded(shown: str, size: NominalSize | None, quantities: tuple[Quantity, ...], number: str) -> WordedNumber | None:
    decimals = len(number.partition(".")[2])
    return WordedNumber(shown, size, quantities, decimals) if quantities or size else None


def numbers_of_rule(clause: Clause, ruleset: Ruleset) -> tuple[Single, ...]:
    """Return every number that a clause draws on, through definitions, tables and assumptions too."""
    nodes = conditions_of(clause)
    names = {term.name for term in terms_of(nodes)}
    assumed = [one for one in ruleset.assumptions if one.term.name in names]
    found = _numbers_in(nodes)
    found += [value for one in assumed for value in _assumed(one)]
    return tuple(dict.fromkeys(value for value in found if isinstance(value, Quantity | NominalSize | float)))


def _assumed(assumption: Assumption) -> list[Single]:
    return [assumption.value, *_numbers_in(assumption.scope)]


def _numbers_in(conditions: Iterable[Condition]) -> list[Single]:
    """Return the values that conditions state, with the cells of tables and the ends of their bands."""
    conditions = tuple(conditions)
    bands = (band for table in tables_of(conditions) for axis in table.axes for band in axis.bands)
    return [*values_of(conditions), *(end for band in bands for end in _ends(band.interval))]


def _ends(interval: Interval[Quantity] | Interval[NominalSize] | Interval[float] | None) -> list[Single]:
    ends = (interval.low, interval.high) if interval is not None else ()
    return [end for end in ends if end is not None]
