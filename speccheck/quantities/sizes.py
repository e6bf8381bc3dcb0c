"""Nominal sizes of pipe and tube: one size under two names, NPS (inches) and DN (millimetres).

Source of the pairs: ASME B36.10M, table 1, and ISO 6708 for DN (both from memory; a test checks the list against the
reference library fluids). NPS 4-1/2 and other sizes that ASME B36.10M no longer lists are left out. Two sizes are those
of copper tube alone and have no DN: 5/8 in of ASTM B88, and 7/8 in, by which tube for refrigerant is called after its
outside diameter (ASTM B280, from memory).
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, Literal

from speccheck.quantities.writing import write_exact

if TYPE_CHECKING:
    from speccheck.quantities.values import Interval

System = Literal["inch-pound", "metric"]
SYSTEMS: tuple[System, System] = ("inch-pound", "metric")

_DN_OF_NPS: dict[Fraction, int | None] = {
    Fraction(nps): dn
    for nps, dn in (
        *(("1/8", 6), ("1/4", 8), ("3/8", 10), ("1/2", 15), ("5/8", None), ("3/4", 20), ("7/8", None)),
        *(("1", 25), ("5/4", 32), ("3/2", 40)),
        *(("2", 50), ("5/2", 65), ("3", 80), ("7/2", 90), ("4", 100), ("5", 125), ("6", 150), ("8", 200)),
        *(("10", 250), ("12", 300), ("14", 350), ("16", 400), ("18", 450), ("20", 500), ("22", 550), ("24", 600)),
        *(("26", 650), ("28", 700), ("30", 750), ("32", 800), ("34", 850), ("36", 900)),
        *(("38", 950), ("40", 1000), ("42", 1050), ("44", 1100), ("46", 1150), ("48", 1200)),
    )
}
_NPS_OF_DN = {dn: nps for nps, dn in _DN_OF_NPS.items() if dn is not None}


@dataclass(frozen=True, slots=True, eq=False)
class NominalSize:
    """A nominal pipe size, kept as its NPS in inches. Raises `ValueError` for a size that does not exist.

    Sizes are compared by `rank`, the same inches as a float: every NPS is a whole number of eighths, which a float
    holds exactly, and fractions take many times as long to compare.
    """

    inches: Fraction
    rank: float = field(init=False, repr=False)

    def __post_init__(self) -> None:
        if self.inches not in _DN_OF_NPS:
            raise ValueError(f"there is no pipe size NPS {self.inches}")
        object.__setattr__(self, "rank", float(self.inches))

    def __eq__(self, other: object) -> bool:
        return isinstance(other, NominalSize) and self.rank == other.rank

    def __hash__(self) -> int:
        return hash(self.rank)

    def __lt__(self, other: NominalSize) -> bool:
        return self.rank < other.rank

    def __le__(self, other: NominalSize) -> bool:
        return self.rank <= other.rank

    def __gt__(self, other: NominalSize) -> bool:
        return self.rank > other.rank

    def __ge__(self, other: NominalSize) -> bool:
        return self.rank >= other.rank

    @property
    def dn(self) -> int | None:
        """The DN of this size; None for a size of tube that has none."""
        return _DN_OF_NPS[self.inches]

    def written(self, system: System) -> str:
        """Write the size in one system: "1-1/2 in" or "DN 40"; one without a DN is written in inches in both."""
        return f"DN {self.dn}" if system == "metric" and self.dn else f"{write_exact(self.inches)} in"

    def __str__(self) -> str:
        return f"NPS {write_exact(self.inches)}"


ALL_SIZES: tuple[NominalSize, ...] = tuple(map(NominalSize, _DN_OF_NPS))
"""Every nominal size from 1/8 in to 48 in, those of tube alone among them, rising."""

NOMINAL_SIZES: tuple[NominalSize, ...] = tuple(size for size in ALL_SIZES if size.dn is not None)
"""The sizes of pipe, rising: those that a range of sizes holds, and that printed tables have rows for."""


def size_of(number: Fraction, system: System) -> NominalSize | None:
    """Return the size with this NPS or DN, or None where there is no such size."""
    inches = number if system == "inch-pound" else _NPS_OF_DN.get(number.numerator) if number.denominator == 1 else None
    return NominalSize(inches) if inches in _DN_OF_NPS else None


def nearest_sizes(number: Fraction, system: System) -> tuple[NominalSize, ...]:
    """Return the one or two sizes next to a number that is no size: the one below and the one above it."""
    inches = system == "inch-pound"
    named = [(size.inches if inches else Fraction(size.dn or 0), size) for size in ALL_SIZES if inches or size.dn]
    below = [size for name, size in named if name < number][-1:]
    above = [size for name, size in named if name > number][:1]
    return (*below, *above)


@cache
def sizes_in(interval: Interval[NominalSize]) -> tuple[NominalSize, ...]:
    """Return every size of pipe in an interval, rising, and a size of tube where the interval ends at it."""
    ends = (interval.low, interval.high)
    return tuple(size for size in ALL_SIZES if interval.contains(size) and (size.dn or size in ends))
