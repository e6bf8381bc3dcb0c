"""Subjects without a clause: systems that a ruleset says its clauses govern, and that none of them does.

A ruleset says with `scope` which systems the clauses of a subject are to govern. A system is governed where a mandatory
clause of the subject applies to it; whether its tables cover it is another question (see `gaps`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from speccheck.engine import Verdict
from speccheck.engine.evaluating import evaluate
from speccheck.language.core import SubjectScope
from speccheck.language.vocabulary import fold
from speccheck.language.walking import walk
from speccheck.proofread.clause_regions import ClauseRegions, Reading
from speccheck.proofread.describing import box_words
from speccheck.proofread.diagrams import EMPTY, Diagram
from speccheck.proofread.findings import Finding, Undecided
from speccheck.proofread.lines import Absent, Lines, Shows
from speccheck.quantities import Interval
from speccheck.submittal.lines import Line

# How many gaps of one subject are told; a subject with more is better told whole.
MOST = 12


def subject_gaps(reading: Reading, lines: Lines) -> Iterator[Finding | Undecided]:
    """Yield the systems in the scope of a subject to which no mandatory clause of it applies, and empty subjects."""
    for scope in reading.ruleset.scopes:
        clauses = [
            clause
            for clause in reading.clauses
            if clause.mandatory and fold(clause.clause.subject) == fold(scope.subject)
        ]
        if clauses:
            yield from _gaps(reading, lines, scope, clauses)
        else:
            message = f"no mandatory clause has the subject `{scope.subject}`"
            help = f"write `subject {scope.subject}` in the clauses that govern it, or leave the scope out"
            yield Finding("P104", "scope without clause", (), message, help, place=scope.place)


def _gaps(
    reading: Reading, lines: Lines, scope: SubjectScope, clauses: Sequence[ClauseRegions]
) -> Iterator[Finding | Undecided]:
    """Yield the gaps of one subject as boxes, each as wide as it can be, with a line in it."""
    diagrams, left = reading.diagrams, _ungoverned(reading, scope, clauses)
    for _ in range(MOST):
        if left == EMPTY:
            return
        box = lines.widest(left)
        region, words = diagrams.box(box), box_words(reading.axes, box)
        line = lines.find(diagrams.both(left, region), _shows(reading, scope, clauses))
        message = f"no clause governs `{scope.subject}` of some systems in its scope: {words}"
        if isinstance(line, Line):
            help = "write a clause for them, widen one, or except them from the scope"
            yield Finding("P103", "gap", (), message, help, lines.example(line), words, scope.place)
        elif line is Absent.UNDECIDED:
            yield Undecided("P103", (), f"whether `{scope.subject}` is governed for {words}", line.value, scope.place)
        left = diagrams.without(left, region)


def _ungoverned(reading: Reading, scope: SubjectScope, clauses: Sequence[ClauseRegions]) -> Diagram:
    """Return the systems in a scope that state everything and are out of every clause."""
    diagrams, regions = reading.diagrams, reading.regions
    inside = regions.every(scope.conditions)
    excepted = regions.some(part.condition for part in scope.exceptions)
    asked = reading.asked_whether_given(walk((*scope.conditions, *(part.condition for part in scope.exceptions))))
    missing = asked.union(*(clause.may_be_missing for clause in clauses))
    limits = [diagram for clause in clauses for diagram in (*clause.scope, clause.applies, clause.out)]
    stated = regions.stated((*inside, *excepted, *limits), missing)
    return diagrams.every((inside.holds, excepted.fails, stated, *(clause.out for clause in clauses)))


def _shows(reading: Reading, scope: SubjectScope, clauses: Sequence[ClauseRegions]) -> Shows:
    rules = reading.regions.rules

    def shows(line: Line) -> bool:
        case = {name: datum.value for name, datum in line.data.items() if not isinstance(datum.value, Interval)}
        if any(evaluate(condition, case, rules).truth is not True for condition in scope.conditions):
            return False
        if any(evaluate(part.condition, case, rules).truth is not False for part in scope.exceptions):
            return False
        verdicts = (reading.judge.cell(clause.number, line).verdict for clause in clauses)
        return all(verdict is Verdict.NOT_APPLICABLE for verdict in verdicts)

    return shows
