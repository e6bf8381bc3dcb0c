"""Gaps: systems that no clause of a subject governs though its scope names them, and holes in tables that clauses look
up.

A ruleset says with `scope` which systems the clauses of a subject are to govern. A system is governed where a mandatory
clause of the subject applies to it; whether its tables cover it is another question (see `gaps`).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from speccheck.judge import Verdict
from speccheck.judge.evaluation import evaluate
from speccheck.language.core import Axis as TableAxis
from speccheck.language.core import SubjectScope, Table
from speccheck.language.core.walking import tables_of
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.vocabulary.terms import Form, fold
from speccheck.proofread.clause_regions import ClauseRegions, Reading
from speccheck.proofread.covering import Cover
from speccheck.proofread.decision_diagrams import EMPTY, Diagram, Mask
from speccheck.proofread.describing import box_condition, box_words, mask_words, runs
from speccheck.proofread.findings import Finding, Undecided
from speccheck.proofread.messages.clauses import (
    DASHES_LOOKED_UP,
    HOLE_BETWEEN_BANDS,
    MORE_DASHES_LOOKED_UP,
    NO_BAND_FOR,
    NO_CLAUSE_OF_SUBJECT,
    NOT_GOVERNED,
    NOT_GOVERNED_WHERE,
    WHETHER_GOVERNED,
)
from speccheck.proofread.variables import TermAxis
from speccheck.proofread.witnesses import Lines, NoWitness, Shows
from speccheck.quantities import Interval
from speccheck.schedule.lines import Line

# How many dashes of a table are told by their place.
DASHES_TOLD = 4


@dataclass(frozen=True)
class _Uncovered:
    """A part of a table that has no cell: what is said of it, and its region."""

    said: Diagnostic
    region: Diagram


def table_holes(reading: Reading, lines: Lines) -> Iterator[Finding | Undecided]:
    """Yield the holes and the dashes of tables that systems in the scope of a clause fall into, each once."""
    tables: dict[str, tuple[Table, list[ClauseRegions]]] = {}
    for clause in reading.clauses:
        for table in tables_of((*clause.clause.shall, *clause.clause.should)):
            tables.setdefault(table.name, (table, []))[1].append(clause)
    for table, clauses in tables.values():
        for hole in (*_holes(reading, table, clauses), *_dashes(reading, table, clauses)):
            yield from _finding(reading, lines, table, hole, clauses)


def _finding(
    reading: Reading, lines: Lines, table: Table, hole: _Uncovered, clauses: Sequence[ClauseRegions]
) -> Iterator[Finding | Undecided]:
    """Yield the finding that some clauses look up a hole, with a line from the first of them."""
    reaching = [clause for clause in clauses if _reached(reading, clause, hole.region) != EMPTY]
    labels = tuple(clause.label for clause in reaching)
    example: Line | NoWitness = NoWitness.NONE
    for clause in reaching:
        example = lines.find(_reached(reading, clause, hole.region), _open(reading, clause))
        if isinstance(example, Line):
            yield Finding(hole.said, labels, lines.example(example))
            return
    if example is NoWitness.UNDECIDED:
        yield Undecided(hole.said, labels, example.value)


def _reached(reading: Reading, clause: ClauseRegions, region: Diagram) -> Diagram:
    """Return the systems that state everything, to which a clause applies, and of which it cannot tell."""
    diagrams = reading.diagrams
    known = diagrams.either(clause.shall.holds, clause.shall.fails)
    if not clause.mandatory:
        known = diagrams.either(clause.should.holds, clause.should.fails)
    asked = (*clause.scope, clause.applies, *clause.shall, *clause.should, region)
    stated = reading.regions.stated(asked)
    return reading.sensible(diagrams.every((clause.applies, region, diagrams.negation(known), stated)))


def _open(reading: Reading, clause: ClauseRegions) -> Shows:
    def shows(line: Line) -> bool:
        cell = reading.judge.cell(clause.number, line)
        return cell.verdict is Verdict.CANNOT_TELL and not cell.missing

    return shows


def _holes(reading: Reading, table: Table, clauses: Sequence[ClauseRegions]) -> Iterator[_Uncovered]:
    """Yield what lies in no band of an axis, as far as a clause reaches it."""
    for axis in table.axes:
        index = reading.axes.of_term[axis.term.name]
        covered = 0
        for mask in reading.regions.bands(axis):
            covered |= mask
        bare = reading.diagrams.whole[index] & ~covered & ~1
        reached = 0
        for clause in clauses:
            region = _reached(reading, clause, reading.diagrams.box({index: bare}))
            reached |= reading.diagrams.hull(region).get(index, 0) if region != EMPTY else 0
        for part in _parts(reading, axis, bare & reached):
            yield _hole(reading, table, axis, index, part)


def _parts(reading: Reading, axis: TableAxis, mask: Mask) -> Iterator[Mask]:
    """Yield the parts of a mask that lie together: runs of an ordered axis, all choices at once."""
    if axis.term.kind.form is Form.CHOICE:
        yield from (mask,) if mask else ()
        return
    for first, last in runs(reading.axes.term_axis(axis.term), mask):
        yield (1 << last + 1) - (1 << first)


def _hole(reading: Reading, table: Table, axis: TableAxis, index: int, mask: Mask) -> _Uncovered:
    term_axis = reading.axes.term_axis(axis.term)
    words = f"{axis.term.name} {mask_words(term_axis, mask)}"
    placed = [
        (within & term_axis.ordinary, band.text)
        for within, band in zip(reading.regions.bands(axis), axis.bands, strict=True)
    ]
    below, above = [one for one in placed if 0 < one[0] < mask], [one for one in placed if one[0] > mask]
    if axis.term.kind.form is not Form.CHOICE and below and above:
        first, second = max(below)[1], min(above)[1]
        said = HOLE_BETWEEN_BANDS.at(table.place, table=table.name, first=first, second=second, systems=words)
    else:
        said = NO_BAND_FOR.at(table.place, table=table.name, systems=words)
    return _Uncovered(said, reading.diagrams.box({index: mask}))


def _dashes(reading: Reading, table: Table, clauses: Sequence[ClauseRegions]) -> Iterator[_Uncovered]:
    """Yield the cells of a table that hold a dash and that clauses look up, all at once."""
    found: list[tuple[str, Diagram]] = []
    for row, cells in enumerate(table.cells):
        for column, cell in enumerate(cells):
            if cell is not None or table.word(row, column):
                continue
            region = reading.regions.cell_box(table, row, column)
            if any(_reached(reading, clause, region) != EMPTY for clause in clauses):
                headings = table.headings_at(row, column)
                found.append((" and ".join(f"`{heading}`" for heading in headings), region))
    if found:
        places = "; ".join(place for place, _ in found[:DASHES_TOLD])
        more = len(found) - DASHES_TOLD
        region = reading.diagrams.some(one for _, one in found)
        if more > 0:
            said = MORE_DASHES_LOOKED_UP.at(table.place, table=table.name, places=places, more=more)
        else:
            said = DASHES_LOOKED_UP.at(table.place, table=table.name, places=places)
        yield _Uncovered(said, region)


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
            yield Finding(NO_CLAUSE_OF_SUBJECT.at(scope.place, subject=scope.subject), ())


def _gaps(
    reading: Reading, lines: Lines, scope: SubjectScope, clauses: Sequence[ClauseRegions]
) -> Iterator[Finding | Undecided]:
    """Yield the gaps of one subject, each reason once, with a line that names every value that makes it."""
    diagrams, (left, allowed) = reading.diagrams, _ungoverned(reading, scope, clauses)
    for box in Cover(lines, left, allowed).boxes(MOST):
        region, words = diagrams.box(box), box_words(reading.axes, box)
        line = lines.find(diagrams.both(left, region), _shows(reading, scope, clauses, _named(reading, box)))
        if isinstance(line, Line):
            condition = box_condition(reading.axes, box)
            if condition:
                said = NOT_GOVERNED_WHERE.at(scope.place, subject=scope.subject, systems=words, condition=condition)
            else:
                said = NOT_GOVERNED.at(scope.place, subject=scope.subject, systems=words)
            yield Finding(said, (), lines.example(line), words)
        elif line is NoWitness.UNDECIDED:
            question = WHETHER_GOVERNED.at(scope.place, subject=scope.subject, systems=words)
            yield Undecided(question, (), line.value)


def _named(reading: Reading, box: Mapping[int, Mask]) -> frozenset[str]:
    """Return the names of the terms that a box asks for and that a line can state."""
    axes = (reading.axes.axes[index] for index, mask in box.items() if not mask & 1)
    return frozenset(axis.term.name for axis in axes if isinstance(axis, TermAxis))


def _ungoverned(reading: Reading, scope: SubjectScope, clauses: Sequence[ClauseRegions]) -> tuple[Diagram, Diagram]:
    """Return the systems in a scope that state everything and are out of every clause, and all that are not governed.

    The second holds besides what is not in the scope, what leaves something out and what nobody would build.
    """
    diagrams, regions = reading.diagrams, reading.regions
    inside = regions.every(scope.conditions)
    excepted = regions.some(part.condition for part in scope.exceptions)
    asked = reading.asked_whether_given((*scope.conditions, *(part.condition for part in scope.exceptions)))
    missing = asked.union(*(clause.may_be_missing for clause in clauses))
    limits = [diagram for clause in clauses for diagram in (*clause.scope, clause.applies, clause.out)]
    stated = regions.stated((*inside, *excepted, *limits), missing)
    meant, out = diagrams.every((inside.holds, excepted.fails, stated)), diagrams.every(one.out for one in clauses)
    governed = reading.sensible(diagrams.without(meant, out))
    return reading.sensible(diagrams.both(meant, out)), diagrams.negation(governed)


def _shows(reading: Reading, scope: SubjectScope, clauses: Sequence[ClauseRegions], named: frozenset[str]) -> Shows:
    rules = reading.regions.rules

    def shows(line: Line) -> bool:
        if not named <= line.data.keys():
            return False
        case = {name: datum.value for name, datum in line.data.items() if not isinstance(datum.value, Interval)}
        if any(evaluate(condition, case, rules).truth is not True for condition in scope.conditions):
            return False
        if any(evaluate(part.condition, case, rules).truth is not False for part in scope.exceptions):
            return False
        return all(reading.is_out(clause, line) for clause in clauses)

    return shows
