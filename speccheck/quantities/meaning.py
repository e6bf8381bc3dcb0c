"""From a Reading to a value of the kind that is asked for: a quantity, a nominal size, a number."""

from __future__ import annotations

from fractions import Fraction

from speccheck.quantities.amounts import Amount, Reading, misread
from speccheck.quantities.conversion import canonical_unit, conversions, to_si
from speccheck.quantities.dimensions import DIMENSIONS
from speccheck.quantities.reading import misordered, read
from speccheck.quantities.values import Interval, Misread, Quantity, compare


def as_quantity(
    reading: Reading | Misread, dimension: str, bare_unit: str | None = None
) -> Quantity | Interval[Quantity] | Misread:
    """Return the quantity, or the range of quantities, that a reading says.

    `dimension` is a name in `DIMENSIONS`; `bare_unit` is the unit of numbers that carry none, such as "in" from a
    header "Thk (in)". Without it such a number is a Misread, except that a ratio from 0 to 1 needs no unit.
    A Misread is handed on as it is.
    """
    if isinstance(reading, Misread):
        return reading
    ends: list[Quantity | None] = []
    for amount in (reading.low, reading.high):
        found = None if amount is None else _quantity(reading, amount, dimension, bare_unit)
        if isinstance(found, Misread):
            return found
        ends.append(found)
    low, high = ends
    if not reading.is_range:
        assert low is not None
        return low
    problem = misordered(reading, compare(low, high)) if low is not None and high is not None else None
    return problem or Interval(low, high, reading.low_closed, reading.high_closed)


def _quantity(reading: Reading, amount: Amount, dimension: str, bare_unit: str | None) -> Quantity | Misread:
    """Return one amount as a quantity."""
    unit = _unit(reading, amount, dimension, bare_unit)
    if isinstance(unit, Misread):
        return unit
    conversion = conversions(unit).get(dimension)
    if conversion is None:
        return _wrong_dimension(reading, amount, unit, dimension)
    value = to_si(float(amount.number), conversion)
    if dimension == "temperature" and value < 0:
        return misread(
            reading.text, "{} is below absolute zero", "write a temperature above -459.67 F", amount.start, amount.end
        )
    return Quantity(value, dimension, unit)


def _unit(reading: Reading, amount: Amount, dimension: str, bare_unit: str | None) -> str | Misread:
    """Return the canonical unit of an amount: its own, the one that its designation stands for, or the bare one."""
    if amount.designation in ("R", "RSI") and amount.unit is None:
        return amount.designation
    if amount.designation in ("R", "RSI"):
        return misread(
            reading.text, "{} has both an R and a unit", "write R-6 or 6 h.ft2.F/Btu", amount.start, amount.end
        )
    if amount.designation is not None:
        return misread(
            reading.text,
            f"{{}} is a nominal pipe size, not a {dimension}",
            f"write a {dimension} in {_usual_units(dimension)}",
            amount.start,
            amount.end,
        )
    if amount.unit is not None:
        unit = canonical_unit(amount.unit)
        if unit is None:
            return misread(
                reading.text,
                "{} is not a known unit",
                f"write a {dimension} in {_usual_units(dimension)}",
                amount.unit_start,
                amount.end,
            )
        return unit
    if bare_unit is not None:
        known = canonical_unit(bare_unit)
        if known is None or dimension not in conversions(known):
            raise ValueError(f"{bare_unit!r} is not a unit of {dimension}")
        return known
    if dimension == "ratio" and 0 <= amount.number <= 1:
        return ""
    return misread(
        reading.text,
        "{} has no unit",
        f"write the unit after the number: {_usual_units(dimension)}",
        amount.start,
        amount.end,
    )


def _usual_units(dimension: str) -> str:
    """Name the two usual units of a dimension, or the one where both systems have the same."""
    usual = DIMENSIONS[dimension]
    return usual.inch_pound if usual.inch_pound == usual.metric else f"{usual.inch_pound} or {usual.metric}"


def _wrong_dimension(reading: Reading, amount: Amount, unit: str, dimension: str) -> Misread:
    """Say that a unit measures something else."""
    measured = " or ".join(conversions(unit))
    return misread(
        reading.text,
        f"{{}} is a unit of {measured}, not of {dimension}",
        f"write a {dimension} in {_usual_units(dimension)}",
        amount.unit_start if amount.unit is not None and amount.unit_start < amount.end else amount.start,
        amount.end,
    )


def as_number(reading: Reading | Misread) -> float | Interval[float] | Misread:
    """Return the plain number, or the range of plain numbers, that a reading says: a count or an index."""
    if isinstance(reading, Misread):
        return reading
    for amount in reading.amounts:
        if amount.unit is not None or amount.designation is not None:
            return misread(
                reading.text,
                "{} has a unit where a plain number is expected",
                f"write {_plain_number(amount.number)}",
                amount.start,
                amount.end,
            )
    low, high = (None if end is None else float(end.number) for end in (reading.low, reading.high))
    if not reading.is_range:
        assert low is not None
        return low
    return Interval(low, high, reading.low_closed, reading.high_closed)


def _plain_number(number: Fraction) -> str:
    """Write a number without its unit."""
    return f"{float(number):.6g}"


def quantity(text: str, dimension: str) -> Quantity:
    """Return the quantity that a text of our own says; raises `ValueError` where it says none."""
    found = as_quantity(read(text), dimension)
    if isinstance(found, Quantity):
        return found
    raise ValueError(found.message if isinstance(found, Misread) else f"{text!r} is a range")
