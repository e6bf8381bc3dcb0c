"""Numbers in wording and in rules: quantities found in free text, and those that a clause compares anything with."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from speccheck.language.core import Assumption, Clause, Condition, Ruleset
from speccheck.language.core.walking import conditions_of, tables_of, terms_of, values_of
from speccheck.language.vocabulary.values import Single
from speccheck.phrases.worded_amounts import WordedAmount, amounts_in
from speccheck.quantities import Interval, NominalSize, Quantity, as_quantity, as_size, read, unit_dimensions

# A number without a unit is one where it limits something or counts parts: "not more than 25", "2 layers".
_LIMITED = re.compile(
    r"\b(?:at least|at most|(?:not|no) (?:more|less|over|fewer) than|not exceed(?:ing)?|maximum of|minimum of)"
    r"\s+(\d+)(?!\.?\d|[-/\w])(?!\s*[%°″\"'])",
    re.IGNORECASE,
)
_COUNTED = re.compile(
    r"(?<![\w./-])(\d+)\s+(?:layers?|coats?|fasteners?|bands?|rivets|screws|vapor stops|plies)\b", re.IGNORECASE
)


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
    """Yield the quantities that a text states, in order, after its counts; other numbers without a unit are none."""
    found = [(amount, _number(amount)) for amount in amounts_in(wording) if amount.unit or amount.mark]
    taken = {amount.number_start for amount, number in found if number is not None}
    counted = {
        match.start(1): WordedNumber(match[1], None, (), 0, float(match[1]))
        for pattern in (_LIMITED, _COUNTED)
        for match in pattern.finditer(wording)
        if match.start(1) not in taken
    }
    for at, count in sorted(counted.items()):
        yield replace(count, start=at, end=at + len(count.text))
    for amount, number in found:
        if number is not None:
            yield replace(number, start=amount.number_start, end=amount.number_start + len(amount.written))


def _number(amount: WordedAmount) -> WordedNumber | None:
    """Return what an amount is: a quantity, a nominal size, a thermal resistance, or both of the first."""
    if amount.mark in ("R", "RSI"):
        resistance = as_quantity(read(f"{amount.mark}-{amount.number}"), "thermal resistance")
        return _worded(amount, None, (resistance,) if isinstance(resistance, Quantity) else ())
    reading = read(f"{amount.mark} {amount.number} {amount.unit}".strip())
    size = as_size(reading, None)
    found = () if amount.mark else (as_quantity(reading, dimension) for dimension in unit_dimensions(amount.unit))
    quantities = tuple(one for one in found if isinstance(one, Quantity))
    return _worded(amount, size if isinstance(size, NominalSize) else None, quantities)


def _worded(amount: WordedAmount, size: NominalSize | None, quantities: tuple[Quantity, ...]) -> WordedNumber | None:
    decimals = len(amount.number.partition(".")[2])
    return WordedNumber(amount.written, size, quantities, decimals) if quantities or size else None


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
