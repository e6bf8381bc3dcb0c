"""From a Reading to a value of the kind that is asked for: a quantity, a nominal size, a number."""

from __future__ import annotations

from speccheck.quantities.amounts import DEGREES, Amount, Reading
from speccheck.quantities.conversion import canonical_unit, conversions, to_si
from speccheck.quantities.ends import misread_amount, misread_unit, value_or_interval
from speccheck.quantities.reading import read
from speccheck.quantities.units import DIMENSIONS
from speccheck.quantities.values import Interval, Misread, Quantity
from speccheck.quantities.writing import write_number


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
    return value_or_interval(reading, lambda amount: _quantity(reading, amount, dimension, bare_unit))


def _quantity(reading: Reading, amount: Amount, dimension: str, bare_unit: str | None) -> Quantity | Misread:
    """Return one amount as a quantity. A fraction of a degree is no temperature: "35/64" is a supply and a return."""
    if dimension == "temperature" and amount.is_fraction and abs(amount.number) < 1:
        message = "{} is a fraction, which no temperature is"
        return misread_amount(reading, amount, message, "write both temperatures as a range, such as 40 F to 55 F")
    unit = _marked_unit(reading, amount, dimension) or _written_unit(reading, amount, dimension)
    if unit is None:
        unit = _bare_unit(reading, amount, dimension, bare_unit)
    if isinstance(unit, Misread):
        return unit
    conversion = conversions(unit).get(dimension)
    if conversion is None:
        message = f"{{}} is a unit of {' or '.join(conversions(unit))}, not of {dimension}"
        return misread_unit(reading, amount, message, _write_in_usual_units(dimension))
    value = to_si(float(amount.number), conversion)
    if dimension == "temperature" and value < 0:
        return misread_amount(reading, amount, "{} is below absolute zero", "write a temperature above -459.67 F")
    return Quantity(value, dimension, unit)


def _marked_unit(reading: Reading, amount: Amount, dimension: str) -> str | Misread | None:
    """Return the unit that an R before the number stands for, or None where there is no mark."""
    if amount.designation is None:
        return None
    if amount.designation not in ("R", "RSI"):
        message = f"{{}} is a nominal pipe size, not a {dimension}"
        return misread_amount(reading, amount, message, _write_in_usual_units(dimension))
    if amount.unit is not None:
        return misread_amount(
            reading, amount, "{} has both an R and a unit", "write R-6 or 6 h.ft2.F/Btu, and not both"
        )
    return amount.designation


def _written_unit(reading: Reading, amount: Amount, dimension: str) -> str | Misread | None:
    """Return the canonical spelling of the unit after the number, or None where there is no unit.

    A degree sign alone is half a unit of temperature; whether F or C is meant is left to what says so for bare numbers.
    """
    if amount.unit is None or (dimension == "temperature" and amount.unit in DEGREES):
        return None
    known = canonical_unit(amount.unit)
    return known or misread_unit(reading, amount, "{} is not a known unit", _write_in_usual_units(dimension))


def _bare_unit(reading: Reading, amount: Amount, dimension: str, bare_unit: str | None) -> str | Misread:
    """Return the unit of a number that carries none: the given one, or none at all for a ratio from 0 to 1."""
    if bare_unit is None:
        if dimension == "ratio" and 0 <= amount.number <= 1:
            return ""
        help = f"write the unit after the number: {_usual_units(dimension)}"
        return misread_amount(reading, amount, "{} has no unit", help)
    known = canonical_unit(bare_unit)
    if known is None or dimension not in conversions(known):
        raise ValueError(f"{bare_unit!r} is not a unit of {dimension}")
    return known


def _usual_units(dimension: str) -> str:
    """Name the two usual units of a dimension, or the one where both systems have the same."""
    usual = DIMENSIONS[dimension]
    return usual.inch_pound if usual.inch_pound == usual.metric else f"{usual.inch_pound} or {usual.metric}"


def _write_in_usual_units(dimension: str) -> str:
    """Say what to write where a quantity of this dimension is expected."""
    return f"write a {dimension} in {_usual_units(dimension)}"


def as_number(reading: Reading | Misread) -> float | Interval[float] | Misread:
    """Return the plain number, or the range of plain numbers, that a reading says: a count or an index."""
    if isinstance(reading, Misread):
        return reading
    return value_or_interval(reading, lambda amount: _number(reading, amount))


def _number(reading: Reading, amount: Amount) -> float | Misread:
    """Return one amount as a plain number."""
    number = float(amount.number)
    if amount.unit is None and amount.designation is None:
        return number
    message = "{} has a unit where a plain number is expected"
    return misread_amount(reading, amount, message, f"write {write_number(number)}")


def quantity(text: str, dimension: str) -> Quantity:
    """Return the quantity, in SI units, that a text of our own says; raises `ValueError` where it says none."""
    found = as_quantity(read(text), dimension)
    if isinstance(found, Quantity):
        return found
    raise ValueError(found.message if isinstance(found, Misread) else f"{text!r} is a range")
