"""Clauses that several others imply together: no line fails them without failing one of those.

Asked for lines that state everything (but for what clauses ask whether it is given), of clauses that single terms
settle; what amounts held against one another would add is left out of the account, which can only miss such a clause.
What one other clause implies by itself is another finding (see `idle_clauses`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from speccheck.engine import Verdict
from speccheck.proofread.clause_regions import ClauseRegions, Reading
from speccheck.proofread.diagrams import EMPTY, Diagram
from speccheck.proofread.findings import Finding
from speccheck.proofread.hulls import Hulls, bits
from speccheck.proofread.lines import Lines, Shows
from speccheck.submittal.lines import Line

# A clause that more others than this imply together is left alone: nobody could follow why.
MOST_TOGETHER = 8


def implied_together(reading: Reading, lines: Lines, told: Sequence[str]) -> Iterator[Finding]:
    """Yield the mandatory clauses that several others imply together, later ones first, as far as not `told` yet."""
    left = _Failing(reading, lines, told)
    for clause in reversed(left.clauses):
        others = left.covering(clause)
        line = lines.find(left.regions[clause], _shows(reading, clause, others)) if others else None
        if isinstance(line, Line):
            del left.regions[clause]
            yield _finding(clause, others, lines, line)


class _Failing:
    """The lines that state everything and fail each clause, of those that could do without or imply another."""

    def __init__(self, reading: Reading, lines: Lines, told: Sequence[str]) -> None:
        self.diagrams = reading.diagrams
        self.lines = lines
        self.regions: dict[ClauseRegions, Diagram] = {}
        stated = reading.complete(reading.clauses)
        for clause in reading.clauses:
            if clause.mandatory and clause.label not in told and reading.is_exact(clause.fails):
                region = self.diagrams.both(clause.fails, stated)
                met = self.diagrams.every((clause.applies, clause.shall.holds, reading.complete([clause])))
                if EMPTY not in (region, met):
                    self.regions[clause] = region
        self.clauses = tuple(self.regions)
        self._hulls = Hulls(self.diagrams, list(self.regions.values()))

    def covering(self, clause: ClauseRegions) -> tuple[ClauseRegions, ...]:
        """Return others that together imply a clause, none of which can be left out; () where they do not.

        One system after the other that fails the clause is taken, and a clause that fails it too: most clauses have a
        system that no other one fails, and are done with at once.
        """
        rest, chosen = self.regions[clause], list[ClauseRegions]()
        while rest != EMPTY and len(chosen) < MOST_TOGETHER:
            other = self._failing_too(clause, self.lines.point(rest))
            if other is None:
                return ()
            chosen.append(other)
            rest = self.diagrams.without(rest, self.regions[other])
        if rest != EMPTY:
            return ()
        for other in tuple(chosen):
            kept = [one for one in chosen if one is not other]
            if self.diagrams.within(self.regions[clause], self.diagrams.some(self.regions[one] for one in kept)):
                chosen = kept
        return tuple(sorted(chosen, key=lambda one: one.number))

    def _failing_too(self, clause: ClauseRegions, point: Diagram) -> ClauseRegions | None:
        """Return another clause that fails a system."""
        for at in bits(self._hulls.near(self.diagrams.hull(point))):
            other = self.clauses[at]
            if other is clause or other not in self.regions:
                continue
            if self.diagrams.both(point, self.regions[other]) != EMPTY:
                return other
        return None


def _shows(reading: Reading, clause: ClauseRegions, others: Sequence[ClauseRegions]) -> Shows:
    def shows(line: Line) -> bool:
        verdicts = [reading.judge.cell(one.number, line).verdict for one in (clause, *others)]
        return verdicts[0] is Verdict.FAILS and Verdict.FAILS in verdicts[1:]

    return shows


def _finding(clause: ClauseRegions, others: Sequence[ClauseRegions], lines: Lines, line: Line) -> Finding:
    labels = tuple(one.label for one in others)
    named = " or ".join(f"`{label}`" for label in labels)
    message = f"clause `{clause.label}` adds nothing: every line that fails it fails clause {named}"
    help, place = "leave it out, or say what it asks beyond them", clause.clause.place
    kind = "clause that others imply together"
    return Finding("P309", kind, (clause.label, *labels), message, help, lines.example(line), place=place)
