"""Two limits for one system: clauses of a ruleset that set different limits for the same thing of one system.

Both can be met, by what meets the stricter, so that they do not clash; but a reader who finds only one of the two will
take it for the whole. Asked for limits of single terms that go the same way, of the ruleset's own clauses.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from speccheck.judge import Verdict
from speccheck.language.core import Clause
from speccheck.language.core.walking import asked_comparisons
from speccheck.language.vocabulary.terms import Term, fold
from speccheck.proofread.clause_regions import ClauseRegions, Reading
from speccheck.proofread.conflicts import Hulls, bits
from speccheck.proofread.decision_diagrams import EMPTY, Diagram
from speccheck.proofread.findings import Finding
from speccheck.proofread.finite_amounts import is_settled, term_of
from speccheck.proofread.messages.clauses import TWO_LIMITS
from speccheck.proofread.witnesses import Lines, Shows
from speccheck.schedule.lines import Line


@dataclass(frozen=True, eq=False)
class _Limit:
    """A limit that a clause sets for a term, and the systems that meet it."""

    clause: ClauseRegions
    term: Term
    upward: bool
    holds: Diagram
    fails: Diagram


def two_limits(reading: Reading, lines: Lines, without_use: Sequence[str]) -> Iterator[Finding]:
    """Yield the clauses that limit a system by another number than an earlier one does, each once for a term.

    Clauses `without_use` are told as such already.
    """
    told: set[tuple[int, str]] = set()
    limits = tuple(one for one in _limits(reading) if one.clause.label not in without_use)
    for first, second in _pairs(reading, limits):
        if (second.clause.number, second.term.name) in told or not _is_alike(first, second):
            continue
        line = _line(reading, lines, first, second)
        if line is not None:
            told.add((second.clause.number, second.term.name))
            yield _finding(first, second, lines, line)


def _pairs(reading: Reading, limits: Sequence[_Limit]) -> Iterator[tuple[_Limit, _Limit]]:
    """Yield the pairs of limits of one term that go the same way, by another number, for clauses that may meet."""
    groups: dict[tuple[str, bool], list[_Limit]] = {}
    for limit in limits:
        groups.setdefault((limit.term.name, limit.upward), []).append(limit)
    found = []
    for group in groups.values():
        applies = [limit.clause.applies for limit in group]
        hulls = Hulls(reading.diagrams, applies)
        for at, first in enumerate(group):
            for other in bits(hulls.near(reading.diagrams.hull(applies[at])) >> (at + 1)):
                second = group[at + 1 + other]
                if first.clause is not second.clause and first.holds != second.holds:
                    found.append((first, second))
    return iter(sorted(found, key=lambda pair: (pair[0].clause.number, pair[1].clause.number)))


def _is_alike(first: _Limit, second: _Limit) -> bool:
    """Say whether two clauses are of one subject, and neither says that there is the other."""
    one, other = first.clause.clause, second.clause.clause
    alike = not one.subject or not other.subject or fold(one.subject) == fold(other.subject)
    return alike and not (_names(one, other) or _names(other, one))


def _names(clause: Clause, other: Clause) -> bool:
    """Say whether the wording, a note or an exception of a clause names another one by its number."""
    told = (clause.wording, clause.reason, *clause.notes, *(part.because for part in clause.exceptions))
    named = rf"(?<![\w.-]){re.escape(other.name)}(?![\w-])"
    return any(other.name in text and re.search(named, text) for text in told)


def _limits(reading: Reading) -> Iterator[_Limit]:
    for clause in reading.clauses:
        if not clause.mandatory or clause.clause.ruleset != reading.ruleset.name:
            continue
        for node, where in asked_comparisons(clause.clause.shall):
            term = term_of(node.left) if node.relation.is_limit else None
            if term is not None and not term.computed and is_settled(node.right):
                region, asked = reading.regions.of(node), reading.regions.every(where).holds
                fails = reading.diagrams.both(region.fails, asked)
                yield _Limit(clause, term, node.relation.is_minimum, region.holds, fails)


def _line(reading: Reading, lines: Lines, first: _Limit, second: _Limit) -> Line | None:
    """Return a line that meets one of two clauses and not the limit of the other; None where there is none."""
    diagrams = reading.diagrams
    if not diagrams.meet(first.clause.applies, second.clause.applies):
        return None
    pair = first.clause, second.clause
    together = reading.sensible(diagrams.every((pair[0].applies, pair[1].applies, reading.complete(pair))))
    if together == EMPTY:
        return None
    for met, failed in ((first, second), (second, first)):
        region = diagrams.every((together, met.clause.shall.holds, failed.fails))
        region = _accepted_besides(reading, region, failed.clause) if region != EMPTY else EMPTY
        if region == EMPTY or not reading.is_exact(region):
            continue
        line = lines.find(region, _shows(reading, met.clause, failed.clause))
        if isinstance(line, Line):
            return line
    return None


def _accepted_besides(reading: Reading, region: Diagram, failed: ClauseRegions) -> Diagram:
    """Return the systems of a region that no other clause rejects by what the region says of them."""
    asked = reading.diagrams.axes(region)
    others = (one for one in reading.clauses if one.mandatory and one is not failed)
    rejecting = (one.fails for one in others if reading.diagrams.axes(one.fails) <= asked)
    return reading.diagrams.without(region, reading.diagrams.some(rejecting))


def _shows(reading: Reading, met: ClauseRegions, failed: ClauseRegions) -> Shows:
    def shows(line: Line) -> bool:
        verdicts = [reading.judge.cell(one.number, line).verdict for one in (met, failed)]
        return verdicts == [Verdict.COMPLIES, Verdict.FAILS]

    return shows


def _finding(first: _Limit, second: _Limit, lines: Lines, line: Line) -> Finding:
    labels = (first.clause.label, second.clause.label)
    place = second.clause.clause.place
    return Finding(
        TWO_LIMITS.at(place, first=labels[0], second=labels[1], term=second.term.name), labels, lines.example(line)
    )
