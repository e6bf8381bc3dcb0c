"""Shortfalls: how far a specification falls short of a limit of the code, and on which systems by most.

A limit is a comparison under `shall` of a term with an amount that has settled values: stated, or looked up. The
systems that the specification accepts and the code does not are looked through for the largest difference.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from speccheck.language.core import Comparison, Condition
from speccheck.language.core.walking import asked_comparisons
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import Single, write_value
from speccheck.proofread.clause_regions import ClauseRegions, Reading
from speccheck.proofread.decision_diagrams import EMPTY, Diagram, Mask
from speccheck.proofread.finite_amounts import is_settled, term_of
from speccheck.proofread.partition import Atom
from speccheck.proofread.variables import TermAxis
from speccheck.quantities import NominalSize, Quantity
from speccheck.schedule.lines import Line


@dataclass(frozen=True, slots=True)
class Shortfall:
    """What the code asks of a term on a system, what the specification accepts there, and the difference as a share."""

    term: Term
    upward: bool
    asked: Single
    accepted: str
    share: float

    @property
    def text(self) -> str:
        """The shortfall in words: "`thickness` 1/2 in instead of at least 3 in"."""
        limit = "at least" if self.upward else "at most"
        return f"`{self.term.name}` {self.accepted} instead of {limit} {write_value(self.asked, self.term)}"


@dataclass(frozen=True, slots=True)
class FallingShort:
    """The systems of a region that fall short by most: their region, the limit, what it asks there, and the share."""

    region: Diagram
    term: Term
    upward: bool
    asked: Single
    share: float

    def shown_by(self, line: Line) -> Shortfall:
        """Return the shortfall that a line of the region shows."""
        return Shortfall(self.term, self.upward, self.asked, line.data[self.term.name].text, self.share)


def largest_shortfall(code: Reading, clause: ClauseRegions, region: Diagram) -> FallingShort | None:
    """Return where in a region that a clause of the code fails its limits are missed by most; None without limits."""
    found = [
        one
        for limit, where in limits_in(clause.clause.shall)
        for one in _of_limit(code, limit, code.diagrams.both(region, code.regions.every(where).holds))
    ]
    return max(found, key=lambda one: one.share, default=None)


def limits_in(conditions: tuple[Condition, ...]) -> Iterator[tuple[Comparison, tuple[Condition, ...]]]:
    """Yield the limits of single terms that have to be met, each with the conditions that it is asked under."""
    return ((limit, where) for limit, where in asked_comparisons(conditions) if _is_limit(limit))


def _is_limit(condition: Comparison) -> bool:
    settled = term_of(condition.left) is not None and is_settled(condition.right)
    return settled and condition.relation.is_limit


def _of_limit(code: Reading, limit: Comparison, region: Diagram) -> Iterator[FallingShort]:
    """Yield for each amount that a limit asks for the systems that fall short of it by most."""
    term, upward = term_of(limit.left), limit.relation.is_minimum
    assert term is not None, limit
    index = code.axes.of_term[term.name]
    axis = code.axes.named(term.name)
    failing = code.diagrams.both(region, code.regions.of(limit).fails)
    for where, asked in code.regions.cases(limit.right):
        part = code.diagrams.both(failing, where)
        if part == EMPTY:
            continue
        reached = code.diagrams.hull(part).get(index, code.diagrams.whole[index])
        at = _farthest(axis, reached, upward)
        if at is not None:
            farthest = code.diagrams.both(part, code.diagrams.box({index: 1 << at}))
            yield FallingShort(farthest, term, upward, asked, _share(axis.atoms[at], asked, upward))


def _farthest(axis: TermAxis, reached: Mask, upward: bool) -> int | None:
    """Return the lowest atom that is reached for a limit from below, the highest for one from above."""
    given = [at for at in range(1, axis.width) if reached >> at & 1 and not axis.atoms[at].stand_in]
    return (given[0] if upward else given[-1]) if given else None


def _share(atom: Atom, asked: Single, upward: bool) -> float:
    """Return how far an atom is from what is asked, as a share of that; infinite for no end."""
    number = _number(asked)
    end = (atom.low if upward else atom.high) if not atom.single else atom.low
    if number is None or end is None or math.isinf(end):
        return 1.0 if upward else math.inf
    return abs(number - end) / abs(number) if number else abs(end)


def _number(value: Single) -> float | None:
    if isinstance(value, Quantity):
        return value.value
    if isinstance(value, NominalSize):
        return float(value.inches)
    return value if isinstance(value, float) and not isinstance(value, bool) else None
