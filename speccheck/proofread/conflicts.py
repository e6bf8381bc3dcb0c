"""Clashes: two clauses that a system cannot meet together, though it could meet either; found over bounding boxes.

What a clause demands (the terms under `shall`) can be chosen freely, but for what its tables are read by; all else is
given with the system. Two clauses clash on a system where some choice meets the one, some choice meets the other, and
no choice meets both.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import combinations

from speccheck.judge import Verdict
from speccheck.proofread.clause_regions import ClauseRegions, Reading
from speccheck.proofread.decision_diagrams import EMPTY, FULL, Diagram, Diagrams, Mask
from speccheck.proofread.findings import Finding, Undecided
from speccheck.proofread.messages.clauses import CANNOT_BE_MET_TOGETHER, NEVER_MET_TOGETHER, WHETHER_MET_TOGETHER
from speccheck.proofread.witnesses import Lines, NoWitness, Shows
from speccheck.schedule.lines import Line


class Hulls:
    """The smallest boxes of regions; answers are numbers with a bit for each region, in their order."""

    def __init__(self, diagrams: Diagrams, regions: Sequence[Diagram]) -> None:
        self.everyone = (1 << len(regions)) - 1
        self._free = dict.fromkeys(range(len(diagrams.whole)), self.everyone)
        self._holding: dict[tuple[int, int], int] = {}
        for number, region in enumerate(regions):
            for axis, mask in diagrams.hull(region).items():
                if mask | 1 == diagrams.whole[axis]:
                    continue
                self._free[axis] &= ~(1 << number)
                for atom in bits(mask):
                    self._holding[axis, atom] = self._holding.get((axis, atom), 0) | 1 << number

    def around(self, box: Mapping[int, Mask]) -> int:
        """Return the regions whose boxes hold all of a box."""
        kept = self.everyone
        for axis, unbound in self._free.items():
            if axis not in box:
                kept &= unbound
            for atom in bits(box.get(axis, 0)):
                kept &= self._holding.get((axis, atom), 0) | unbound
        return kept

    def near(self, box: Mapping[int, Mask]) -> int:
        """Return the regions whose boxes have something in common with a box."""
        kept = self.everyone
        for axis, mask in box.items():
            shared = self._free[axis]
            for atom in bits(mask):
                shared |= self._holding.get((axis, atom), 0)
            kept &= shared
        return kept


def bits(mask: int) -> Iterator[int]:
    """Yield the places of the bits of a number."""
    while mask:
        lowest = mask & -mask
        yield lowest.bit_length() - 1
        mask ^= lowest


# What clauses that demand the same have in common: where it is met, the axes of what is demanded, those of its tables.
_Demand = tuple[Diagram, frozenset[int], frozenset[int]]


def clashes(reading: Reading, lines: Lines) -> Iterator[Finding | Undecided]:
    """Yield the pairs of mandatory clauses that clash, each with a line that meets one and fails the other."""
    for first, second in _pairs(reading, [clause for clause in reading.clauses if clause.mandatory]):
        yield from _clash(reading, lines, first, second)


def _pairs(reading: Reading, clauses: Iterable[ClauseRegions]) -> Iterator[tuple[ClauseRegions, ClauseRegions]]:
    """Yield the pairs that may clash: their demands contradict one another somewhere, and they apply together.

    Clauses that demand the same are looked at together first, so that a large table of rules makes few pairs.
    """
    diagrams = reading.diagrams
    groups: dict[_Demand, list[ClauseRegions]] = {}
    for clause in clauses:
        groups.setdefault((clause.shall.holds, clause.chosen, clause.read_by), []).append(clause)
    applies = {key: diagrams.some(one.applies for one in group) for key, group in groups.items()}
    for first, second in combinations(groups, 2):
        if not first[1] & second[1] or not diagrams.meet(applies[first], applies[second]):
            continue
        chosen = (first[1] | second[1]) - first[2] - second[2]
        together = diagrams.whatever(diagrams.both(first[0], second[0]), chosen)
        if together == FULL and reading.is_exact(first[0], second[0]):
            continue
        for one in groups[first]:
            if diagrams.meet(one.applies, applies[second]):
                pairs = ((one, other) if one.number < other.number else (other, one) for other in groups[second])
                yield from pairs


def _clash(
    reading: Reading, lines: Lines, first: ClauseRegions, second: ClauseRegions
) -> Iterator[Finding | Undecided]:
    diagrams, pair = reading.diagrams, (first, second)
    if not diagrams.meet(first.applies, second.applies):
        return
    both_apply = reading.sensible(diagrams.every((first.applies, second.applies, reading.complete(pair))))
    if both_apply == EMPTY:
        return
    chosen = (first.chosen | second.chosen) - first.read_by - second.read_by
    complete = reading.complete(pair)
    accepts = [diagrams.both(one.accepts, complete) for one in pair]
    alone = [diagrams.whatever(diagrams.both(region, complete), chosen) for region in accepts]
    together = diagrams.whatever(diagrams.both(*accepts), chosen)
    clash = diagrams.every((*alone, diagrams.negation(together), both_apply))
    if clash != EMPTY:
        yield from _found(reading, lines, pair, clash, chosen)
    elif not reading.is_exact(diagrams.both(*accepts), both_apply):
        yield from _by_arithmetic(reading, lines, pair, both_apply)


def _found(
    reading: Reading,
    lines: Lines,
    pair: tuple[ClauseRegions, ClauseRegions],
    clash: Diagram,
    chosen: frozenset[int],
) -> Iterator[Finding | Undecided]:
    """Yield the clash with a line that meets one of the clauses and fails the other."""
    diagrams, found = reading.diagrams, []
    for met, failed in (pair, pair[::-1]):
        region = diagrams.every((clash, met.shall.holds, failed.fails))
        line = lines.find(region, _shows(reading, met, failed))
        found.append(line)
        if isinstance(line, Line):
            yield _finding(met, failed, lines, line, lines.systems(diagrams.whatever(region, chosen)))
            return
    if NoWitness.UNDECIDED in found:
        yield _undecided(*pair)


def _by_arithmetic(
    reading: Reading, lines: Lines, pair: tuple[ClauseRegions, ClauseRegions], both_apply: Diagram
) -> Iterator[Finding | Undecided]:
    """Yield the clash of clauses that are never met together where both apply, which only arithmetic can tell."""
    diagrams, (first, second) = reading.diagrams, pair
    meets = [diagrams.both(both_apply, one.shall.holds) for one in pair]
    together = lines.any(diagrams.both(*meets), _both_comply(reading, pair))
    if isinstance(together, Line):
        return
    if together is NoWitness.UNDECIDED:
        if not reading.is_met_by_an_example(first, second):
            yield _undecided(first, second)
        return
    found = lines.find(meets[0], _shows(reading, first, second))
    other = lines.find(meets[1], _shows(reading, second, first))
    if isinstance(found, Line) and isinstance(other, Line):
        yield _finding(first, second, lines, found, "all to which both clauses apply")


def _finding(first: ClauseRegions, second: ClauseRegions, lines: Lines, line: Line, systems: str) -> Finding:
    said = NEVER_MET_TOGETHER if systems.startswith("all") else CANNOT_BE_MET_TOGETHER
    told = said.at(second.clause.place, first=first.label, second=second.label)
    return Finding(told, (first.label, second.label), lines.example(line), systems)


def _undecided(first: ClauseRegions, second: ClauseRegions) -> Undecided:
    question = WHETHER_MET_TOGETHER.at(second.clause.place, first=first.label, second=second.label)
    return Undecided(question, (first.label, second.label), NoWitness.UNDECIDED.value)


def _shows(reading: Reading, met: ClauseRegions, failed: ClauseRegions) -> Shows:
    def shows(line: Line) -> bool:
        verdicts = [reading.judge.cell(one.number, line).verdict for one in (met, failed)]
        return verdicts == [Verdict.COMPLIES, Verdict.FAILS]

    return shows


def _both_comply(reading: Reading, pair: Iterable[ClauseRegions]) -> Shows:
    def shows(line: Line) -> bool:
        return all(reading.judge.cell(one.number, line).verdict is Verdict.COMPLIES for one in pair)

    return shows
