"""Literals: a quantity as a clause writes it, turned into a value of the kind that the clause needs."""

from __future__ import annotations

import re
from typing import Any

from speccheck.language.core import Literal
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.messages.meaning import (
    AMOUNT_NOT_READ,
    DATE_OUT_OF_PLACE,
    NO_DIFFERENCE_OF_TEMPERATURES,
    QUANTITY_FOR_VALUE,
    QUANTITY_OUT_OF_PLACE,
    RANGE_BY_A_LIMIT,
    RANGE_FOR_ONE_VALUE,
    UNIT_FOR_A_NUMBER,
    UNIT_FOR_A_SIZE,
    UNIT_OF_ANOTHER_DIMENSION,
)
from speccheck.language.syntax.source_text import SourceText
from speccheck.language.syntax.tree import Measure
from speccheck.language.syntax.words_of_sections import INSTEAD
from speccheck.language.vocabulary.terms import DATE, NUMBER, Form, Kind, quantity_kind
from speccheck.quantities import (
    DIMENSIONS,
    Interval,
    Misread,
    NominalSize,
    Quantity,
    Reading,
    as_number,
    as_quantity,
    as_size,
    canonical_unit,
    read,
    read_day,
    unit_dimensions,
)

_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
DIFFERENCE = "temperature difference"


def resolve_literal(
    measure: Measure, wanted: Kind | None, source: SourceText, *, bare_unit: str = ""
) -> Literal | Diagnostic:
    """Return the value of a quantity in a clause, or what is wrong with it.

    `wanted` is the kind that the place asks for; None takes the first dimension that the unit can have. `bare_unit`
    is the unit of numbers that have none (the unit of a table).
    """
    if wanted == DATE or _DAY.fullmatch(measure.text):
        return _day(measure, wanted, source)
    reading = read(measure.text)
    if isinstance(reading, Misread):
        return _misread(source, reading, measure.place)
    kind = wanted if wanted is not None else _own_kind(measure)
    if not kind.ordered:
        said = QUANTITY_FOR_VALUE if kind.form in (Form.CHOICE, Form.SET) else QUANTITY_OUT_OF_PLACE
        return said.at(measure.place, source, amount=measure.text, kind=kind.described)
    if measure.difference and kind.dimension not in ("temperature", DIFFERENCE):
        return NO_DIFFERENCE_OF_TEMPERATURES.at(measure.place, source, amount=measure.text)
    if measure.difference:
        kind = quantity_kind(DIFFERENCE)
    value = _value(reading, kind, bare_unit)
    if isinstance(value, Misread):
        return _other_dimension(measure, kind, source) or _misread(source, value, measure.place)
    if isinstance(value, Interval):
        alone = next((word for word in ("max", "maximum", "min", "minimum") if measure.text.endswith(f" {word}")), "")
        if alone:
            return RANGE_BY_A_LIMIT.at(measure.place, source, amount=measure.text, instead=INSTEAD[alone], word=alone)
        return RANGE_FOR_ONE_VALUE.at(measure.place, source, amount=measure.text)
    return Literal(value, kind, measure.place)


def _day(measure: Measure, wanted: Kind | None, source: SourceText) -> Literal | Diagnostic:
    """Return a date, which stands where one is needed; an age is behind a date alone."""
    if wanted not in (None, DATE):
        return DATE_OUT_OF_PLACE.at(measure.place, source, date=measure.text, kind=wanted.described)
    found = read_day(measure.text)
    return _misread(source, found, measure.place) if isinstance(found, Misread) else Literal(found, DATE, measure.place)


def _own_kind(measure: Measure) -> Kind:
    if measure.difference:
        return quantity_kind(DIFFERENCE)
    unit = _unit_of(measure.text)
    dimensions = unit_dimensions(unit) if unit else ()
    return quantity_kind(dimensions[0]) if dimensions else NUMBER


def distance_kind(measure: Measure, kind: Kind) -> Kind | None:
    """Return the kind of an amount by which values of a kind may differ, None where it is no such amount.

    Temperatures differ by differences, all else by amounts of its own dimension; of a ratio `5 %` is a share.
    """
    wanted = DIFFERENCE if kind.dimension == "temperature" else kind.dimension
    if kind.form is not Form.QUANTITY or wanted == "ratio":
        return None
    return quantity_kind(wanted) if wanted in unit_dimensions(_unit_of(measure.text)) else None


def _unit_of(text: str) -> str:
    return text.lstrip("-−0123456789.,/ ½¼¾⅛⅜⅝⅞")


def _value(
    reading: Reading, kind: Kind, bare_unit: str
) -> Quantity | NominalSize | float | Interval[Quantity] | Interval[NominalSize] | Interval[float] | Misread:
    if kind.form is Form.SIZE:
        return as_size(reading)
    if kind.form in (Form.COUNT, Form.NUMBER):
        return as_number(reading)
    return as_quantity(reading, kind.dimension, bare_unit or None)


def _other_dimension(measure: Measure, kind: Kind, source: SourceText) -> Diagnostic | None:
    """Return a diagnostic where the unit is good, but of another dimension than the one that is asked for."""
    unit = canonical_unit(_unit_of(measure.text))
    dimensions = unit_dimensions(unit) if unit else ()
    if not dimensions or kind.dimension in dimensions:
        return None
    found = quantity_kind(dimensions[0]).described
    if kind.form is Form.QUANTITY:
        usual = DIMENSIONS[kind.dimension]
        units = " or ".join(dict.fromkeys((f"`{usual.inch_pound}`", f"`{usual.metric}`")))
        return UNIT_OF_ANOTHER_DIMENSION.at(
            measure.place, source, amount=measure.text, found=found, kind=kind.described, units=units
        )
    said = UNIT_FOR_A_SIZE if kind.form is Form.SIZE else UNIT_FOR_A_NUMBER
    return said.at(measure.place, source, amount=measure.text, found=found, kind=kind.described)


def _misread(source: SourceText, misread: Misread, place: Place) -> Diagnostic:
    start = max(misread.start, 0)
    inner = Place(place.file, place.line, place.column + start, max(misread.end - start, 1))
    return AMOUNT_NOT_READ.at(inner, source, sentence=misread.message, advice=misread.help)


def amount_of(value: Any) -> float:
    """Return the bare number of a quantity (SI), a nominal size (inches) or a number."""
    return float(getattr(value, "value", getattr(value, "inches", value)))
