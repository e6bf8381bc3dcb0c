"""Emittance of jackets and surfaces from the published table."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from speccheck.trade.published import number, table


@dataclass(frozen=True)
class Emittance:
    """Emittance of a surface. Where the table prints a range, `least` and `greatest` are its ends.

    The least is the unfavorable one for condensation and for touch, the greatest for heat loss.
    """

    surface: str
    least: float
    greatest: float
    source: str


@cache
def emittances() -> dict[str, Emittance]:
    """Return every surface of the table by name."""
    printed = table("emittance")
    return {
        row["surface"]: Emittance(row["surface"], number(row["least"]), number(row["greatest"]), printed.source)
        for row in printed.rows
    }


def emittance(surface: str) -> Emittance | None:
    """Return the emittance of a surface named as in the table; None for a surface that it does not have."""
    return emittances().get(surface)
