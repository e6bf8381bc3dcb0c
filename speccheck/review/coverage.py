"""Coverage: which sizes and temperatures of a design system no line of the schedule covers. Exact, by ranges.

Sizes are taken one by one, since there are few; temperatures are spans. What is left of a system when all lines that
claim it are taken from it is a gap. Lines that leave open what tells systems apart cover it perhaps.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from speccheck.judge import logic
from speccheck.quantities import NominalSize
from speccheck.review.intervals import EVERYTHING, NumberSpan, left_of, overlap
from speccheck.review.system_extent import Extent, claims, claims_size, temperatures_of


@dataclass(frozen=True, slots=True)
class Gap:
    """The temperatures of one size at which nothing covers a system; the size is None where the design has none."""

    size: NominalSize | None
    spans: tuple[NumberSpan, ...]


@dataclass(frozen=True)
class SystemCoverage:
    """How a design system is covered.

    `gaps` are what no line covers for certain, `gaps_at_least` what no line covers even if everything that lines leave
    open turns out in their favour. `by` are the lines that cover some of it, `perhaps` those that may.
    """

    design: Extent
    gaps: tuple[Gap, ...]
    gaps_at_least: tuple[Gap, ...]
    by: tuple[Extent, ...]
    perhaps: tuple[Extent, ...]

    @property
    def complete(self) -> bool:
        """Whether every size and temperature of the system is covered."""
        return not self.gaps

    @property
    def nothing(self) -> bool:
        """Whether no line covers anything of the system, not even perhaps."""
        return not self.by and not self.perhaps


def coverage(design: Extent, lines: Sequence[Extent]) -> SystemCoverage:
    """Return how the lines cover a design system."""
    claiming = [(line, claim) for line in lines if (claim := claims(design, line)) is not False]
    whole = design.span or EVERYTHING
    gaps, least = [], []
    covering: dict[int, logic.Truth] = {}
    for size in (None,) if design.sizes is None else design.sizes:
        reached = _reached(design, whole, claiming, size)
        for position, truth, _ in reached:
            covering[position] = logic.some((covering.get(position, False), truth))
        gaps += _gap(size, left_of(whole, [span for _, truth, span in reached if truth]))
        least += _gap(size, left_of(whole, [span for _, _, span in reached]))
    by = tuple(line for position, (line, _) in enumerate(claiming) if covering.get(position) is True)
    perhaps = tuple(line for position, (line, _) in enumerate(claiming) if covering.get(position, False) is None)
    return SystemCoverage(design, tuple(gaps), tuple(least), by, perhaps)


def _reached(
    design: Extent, whole: NumberSpan, claiming: Sequence[tuple[Extent, logic.Truth]], size: NominalSize | None
) -> list[tuple[int, logic.Truth, NumberSpan]]:
    """Return which of the claiming lines cover a size, for certain or perhaps, and at which temperatures."""
    found: list[tuple[int, logic.Truth, NumberSpan]] = []
    for position, (line, claim) in enumerate(claiming):
        span = EVERYTHING if design.span is None else temperatures_of(line)
        truth = logic.every((claim, claims_size(size, line), None if span is None else True))
        if truth is not False and overlap(whole, span or EVERYTHING) is not None:
            found.append((position, truth, span or EVERYTHING))
    return found


def _gap(size: NominalSize | None, spans: tuple[NumberSpan, ...]) -> list[Gap]:
    return [Gap(size, spans)] if spans else []
