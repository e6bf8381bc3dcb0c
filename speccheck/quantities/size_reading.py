"""From a Reading to a nominal pipe size, in inches or DN, whichever was meant."""

from __future__ import annotations

from speccheck.quantities.amounts import Amount, Reading, misread
from speccheck.quantities.conversion import canonical_unit
from speccheck.quantities.ends import misread_amount, value_or_interval
from speccheck.quantities.sizes import SYSTEMS, NominalSize, System, nearest_sizes, size_of
from speccheck.quantities.values import Interval, Misread


def as_size(reading: Reading | Misread, bare: System | None = None) -> NominalSize | Interval[NominalSize] | Misread:
    """Return the nominal size, or the range of sizes, that a reading says.

    "2 in", "NPS 2", "DN 50" and "50 mm" are one size. A bare number with a fraction is in inches; a bare whole number
    is of the system `bare`, or of the only system that has such a size. A Misread is handed on as it is.
    """
    if isinstance(reading, Misread):
        return reading
    systems = _systems(reading, bare)
    if isinstance(systems, Misread):
        return systems
    return value_or_interval(reading, lambda amount: _size(reading, amount, systems[amount]))


def _size(reading: Reading, amount: Amount, system: System) -> NominalSize | Misread:
    """Return the size that an amount names in a system."""
    size = size_of(amount.number, system)
    if size is not None:
        return size
    nearest = " and ".join(near.written(system) for near in nearest_sizes(amount.number, system))
    many = "sizes are" if " and " in nearest else "size is"
    return misread_amount(reading, amount, "there is no nominal pipe size {}", f"the nearest {many} {nearest}")


def _systems(reading: Reading, bare: System | None) -> dict[Amount, System] | Misread:
    """Return the system of each amount; in a range, an end that could be either follows the other end."""
    found: dict[Amount, System] = {}
    open_ends: list[Amount] = []
    for amount in reading.amounts:
        system = _written_system(reading, amount)
        if isinstance(system, Misread):
            return system
        system = system or _bare_system(amount, bare)
        if system is None:
            open_ends.append(amount)
        else:
            found[amount] = system
    named = set(found.values())
    if open_ends and len(named) != 1:
        return _ambiguous(reading, open_ends[0])
    if len(named) == 2 and all(amount.unit is None and amount.designation is None for amount in found):
        return misread(reading.text, "{} begins in inches and ends in DN", "write both ends in one system")
    return found | {amount: next(iter(named)) for amount in open_ends}


def _written_system(reading: Reading, amount: Amount) -> System | Misread | None:
    """Return the system that a designation or a unit says, or None for a bare number."""
    if amount.designation in ("R", "RSI"):
        return _no_size(reading, amount)
    unit = None if amount.unit is None else canonical_unit(amount.unit)
    if amount.designation == "NPS":
        return "inch-pound" if amount.unit is None or unit == "in" else _no_size(reading, amount)
    if amount.designation == "DN":
        return "metric" if amount.unit is None or unit == "mm" else _no_size(reading, amount)
    if amount.unit is None:
        return None
    return "inch-pound" if unit == "in" else "metric" if unit == "mm" else _no_size(reading, amount)


def _bare_system(amount: Amount, bare: System | None) -> System | None:
    """Return the system of a bare number, or None where both systems have such a size."""
    if amount.number.denominator != 1 or amount.is_fraction:
        return "inch-pound"
    if bare is not None:
        return bare
    having = [system for system in SYSTEMS if size_of(amount.number, system) is not None]
    if len(having) == 2:
        return None
    return having[0] if having else "inch-pound" if amount.number <= 48 else "metric"


def _ambiguous(reading: Reading, amount: Amount) -> Misread:
    """Say that a bare number is a size in both systems."""
    sizes = [size_of(amount.number, system) for system in SYSTEMS]
    written = " or ".join(size.written(system) for size, system in zip(sizes, SYSTEMS, strict=True) if size)
    return misread_amount(reading, amount, "{} is a size both in inches and in DN", f"write {written}")


def _no_size(reading: Reading, amount: Amount) -> Misread:
    """Say that an amount is no pipe size at all."""
    return misread_amount(reading, amount, "{} is not a nominal pipe size", "write a size such as 2 in or DN 50")
