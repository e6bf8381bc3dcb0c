"""Redundant conditions: parts of a clause that never hold, always hold, or change nothing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import islice

from speccheck.judge import Verdict
from speccheck.judge.judgement import Basis
from speccheck.language.core import Comparison, Condition, Every, OneOf, Relation, Some
from speccheck.language.core.walking import (
    alternatives_in,
    comparing_conditions,
    conditions_of,
    conjuncts,
    has_readings,
)
from speccheck.language.core.wording import condition_text
from speccheck.language.diagnostic_rules import Wording
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.vocabulary.terms import Term
from speccheck.proofread.clause_regions import ClauseRegions, Reading
from speccheck.proofread.decision_diagrams import EMPTY, Diagram
from speccheck.proofread.findings import Finding, Undecided
from speccheck.proofread.finite_amounts import term_of
from speccheck.proofread.messages.redundancy import (
    ALTERNATIVE_ADDS_NOTHING,
    ALWAYS_HOLDS,
    AND_GOES_BEFORE_OR,
    ASKED_FOR_BESIDES,
    ASKS_FOR_NOTHING,
    CANNOT_BE_MET,
    CHANGES_NOTHING,
    EXCEPTION_OF_NO_LINE,
    EXCEPTIONS_LEAVE_ALL_OPEN,
    EXCEPTIONS_TAKE_OUT_ALL,
    NEVER_APPLIES,
    NEVER_HOLDS,
    TAKEN_OUT_BY_OTHERS,
    WHETHER_APPLIES,
    WHETHER_CAN_BE_MET,
    WHETHER_EXCEPTION_TAKES_OUT,
)
from speccheck.proofread.witnesses import Lines, NoWitness, Shows
from speccheck.schedule.lines import Line


def idle_conditions(reading: Reading, lines: Lines) -> Iterator[Finding | Undecided]:
    """Yield the conditions of all clauses that never hold, always hold or change nothing, each place once."""
    for clause in reading.clauses:
        own = tuple(_never_or_always(reading, clause))
        yield from own
        applying = tuple(_never_applies(reading, lines, clause))
        yield from applying
        if any(isinstance(one, Finding) for one in (*own, *applying)):
            continue
        yield from _adding_nothing(reading, clause)
        yield from _absorbed(reading, clause)
        yield from _precedence(clause)
        yield from _redundant_exceptions(reading, lines, clause)
        if clause.mandatory:
            yield from _requirement(reading, lines, clause)


# ---- single conditions -------------------------------------------------------------------------------------------


def _never_or_always(reading: Reading, clause: ClauseRegions) -> Iterator[Finding]:
    """Yield the comparisons of a clause that no value makes true, and those that every value makes true."""
    for node in comparing_conditions(conditions_of(clause.clause)):
        holds, fails = reading.regions.of(node)
        if holds == EMPTY:
            yield _finding(NEVER_HOLDS, clause, node)
        elif fails == EMPTY and reading.is_exact(holds):
            yield _finding(ALWAYS_HOLDS, clause, node)


def _finding(said: Wording, clause: ClauseRegions, node: Condition) -> Finding:
    words = condition_text(node, system="inch-pound")
    return Finding(said.at(_place(node, clause), condition=words), (clause.label,))


def _place(node: Condition, clause: ClauseRegions) -> Place:
    return node.place if node.place.line else clause.clause.place


# ---- where -------------------------------------------------------------------------------------------------------


def _never_applies(reading: Reading, lines: Lines, clause: ClauseRegions) -> Iterator[Finding | Undecided]:
    """Yield that a clause applies to no system, by its conditions or because exceptions take out all."""
    complete = reading.complete([clause])
    in_scope = reading.diagrams.both(clause.scope.holds, complete)
    line = _find_where_needed(reading, lines, in_scope, _within(reading, clause))
    if line is NoWitness.NONE:
        yield Finding(NEVER_APPLIES.at(clause.clause.place, clause=clause.label), (clause.label,))
        return
    if line is NoWitness.UNDECIDED:
        yield _undecided(WHETHER_APPLIES.at(clause.clause.place, clause=clause.label), clause)
    if clause.exceptions and not reading.diagrams.meet(clause.applies, complete):
        yield _nothing_left(reading, lines, clause, in_scope)


def _nothing_left(reading: Reading, lines: Lines, clause: ClauseRegions, in_scope: Diagram) -> Finding:
    """Return that exceptions take out all that a clause applies to, or leave open whether it applies."""
    said = EXCEPTIONS_TAKE_OUT_ALL
    example = lines.find(reading.sensible_part(in_scope), _excepted(reading, clause))
    if not isinstance(example, Line):
        said = EXCEPTIONS_LEAVE_ALL_OPEN
        example = lines.find(reading.sensible_part(in_scope), _within(reading, clause))
    shown = lines.example(example) if isinstance(example, Line) else ()
    place = clause.clause.exceptions[0].place
    return Finding(said.at(place, clause=clause.label), (clause.label,), shown)


def _adding_nothing(reading: Reading, clause: ClauseRegions) -> Iterator[Finding]:
    """Yield the conditions under where without which the others say as much, for lines with missing data too."""
    for part in islice(_idle(reading, tuple(conjuncts(clause.clause.scope))), 1):
        words = condition_text(part)
        place = _place(part, clause)
        yield Finding(CHANGES_NOTHING.at(place, words=words, clause=clause.label), (clause.label,))


def _idle(reading: Reading, parts: Sequence[Condition]) -> Iterator[Condition]:
    """Yield the conditions without which others, that all have to hold, say as much.

    Only those that ask for an axis that one of them asks for, directly or through others, can say what it says.
    """
    asked = [_asked(reading, part) for part in parts]
    for number, part in enumerate(parts) if len(parts) > 1 else ():
        near, axes = {number}, asked[number]
        while more := {at for at, one in enumerate(asked) if at not in near and axes & one}:
            near |= more
            axes = axes.union(*(asked[at] for at in more))
        others = [parts[at] for at in sorted(near) if at != number]
        if reading.regions.every(others) == reading.regions.every([*others, part]):
            yield part


def _asked(reading: Reading, condition: Condition) -> frozenset[int]:
    """Return the axes that decide whether a condition holds, and whether it does not."""
    holds, fails = reading.regions.of(condition)
    return reading.diagrams.axes(holds) | reading.diagrams.axes(fails)


def _absorbed(reading: Reading, clause: ClauseRegions) -> Iterator[Finding]:
    """Yield the alternatives and the requirements without which the others say as much, each list once."""
    for node in alternatives_in(conditions_of(clause.clause)):
        whole = reading.regions.of(node)
        for part in reversed(node.parts):
            others = [other for other in node.parts if other is not part]
            if reading.regions.some(others) == whole:
                said = ALTERNATIVE_ADDS_NOTHING.at(_place(part, clause), condition=condition_text(part))
                yield Finding(said, (clause.label,))
                break
    for part in islice(_idle(reading, tuple(conjuncts(clause.clause.shall))), 1):
        place, words = _place(part, clause), condition_text(part)
        yield Finding(ASKED_FOR_BESIDES.at(place, condition=words, clause=clause.label), (clause.label,))


def _precedence(clause: ClauseRegions) -> Iterator[Finding]:
    """Yield choices of one term joined by `or` of which only the last has a further condition: `A or B and C`."""
    for node in _written(conditions_of(clause.clause)):
        if not isinstance(node, Some) or sum(isinstance(part, Every) for part in node.parts) != 1:
            continue
        terms = {term.name for part in node.parts if (term := _chosen_by(part)) is not None}
        for part in node.parts:
            if not isinstance(part, Every):
                continue
            same = [one for one in part.parts if (term := _chosen_by(one)) is not None and term.name in terms]
            others = [one for one in part.parts if one not in same]
            if same and others and part.parts.index(same[-1]) < part.parts.index(others[-1]):
                condition, only = condition_text(others[0]), condition_text(same[0])
                yield Finding(
                    AND_GOES_BEFORE_OR.at(_place(node, clause), condition=condition, only=only), (clause.label,)
                )


def _written(conditions: Iterable[Condition]) -> Iterator[Condition]:
    """Yield conditions and those inside them that are written in the clause itself, not behind a definition."""
    for condition in conditions:
        yield condition
        if isinstance(condition, Every | Some):
            yield from _written(condition.parts)


def _chosen_by(condition: Condition) -> Term | None:
    """Return the term of which a condition says which choice it is; None for other conditions."""
    if isinstance(condition, Comparison) and condition.relation is Relation.EQUAL:
        return term_of(condition.left)
    return term_of(condition.amount) if isinstance(condition, OneOf) else None


# ---- except ------------------------------------------------------------------------------------------------------


def _redundant_exceptions(reading: Reading, lines: Lines, clause: ClauseRegions) -> Iterator[Finding | Undecided]:
    """Yield the exceptions that take no line out of a clause which is not out already.

    What only one reading of a source takes out leaves a line undetermined, and is no redundant exception.
    """
    diagrams, complete = reading.diagrams, reading.complete([clause])
    for at, (part, region) in enumerate(zip(clause.clause.exceptions, clause.exceptions, strict=True)):
        if has_readings([part.condition]):
            continue
        others = [other.holds for place, other in enumerate(clause.exceptions) if place != at]
        taken = diagrams.every((clause.scope.holds, region.holds, complete))
        alone = diagrams.without(taken, diagrams.some(others))
        line = _find_where_needed(reading, lines, alone, _excepted(reading, clause))
        if line is NoWitness.NONE:
            said = TAKEN_OUT_BY_OTHERS if taken != EMPTY else EXCEPTION_OF_NO_LINE
            words = condition_text(part.condition)
            yield Finding(said.at(part.place, exception=words, clause=clause.label), (clause.label,))
        elif line is NoWitness.UNDECIDED:
            words = condition_text(part.condition)
            yield _undecided(WHETHER_EXCEPTION_TAKES_OUT.at(clause.clause.place, exception=words), clause)


# ---- shall -------------------------------------------------------------------------------------------------------


def _requirement(reading: Reading, lines: Lines, clause: ClauseRegions) -> Iterator[Finding | Undecided]:
    """Yield that a clause can never be met, or is always met, where it applies."""
    diagrams = reading.diagrams
    applying = diagrams.both(clause.applies, reading.complete([clause]))
    met = _find_where_needed(
        reading, lines, diagrams.both(applying, clause.shall.holds), _verdict(reading, clause, Verdict.COMPLIES)
    )
    if met is NoWitness.NONE:
        fails = reading.sensible_part(diagrams.both(applying, clause.shall.fails))
        failing = lines.find(fails, _verdict(reading, clause, Verdict.FAILS))
        shown = lines.example(failing) if isinstance(failing, Line) else ()
        place = _place(clause.clause.shall[0], clause)
        yield Finding(CANNOT_BE_MET.at(place, clause=clause.label), (clause.label,), shown)
    elif met is NoWitness.UNDECIDED and not reading.is_met_by_an_example(clause):
        yield _undecided(WHETHER_CAN_BE_MET.at(clause.clause.place, clause=clause.label), clause)
    if diagrams.within(applying, clause.shall.holds):
        met = lines.find(reading.sensible_part(applying), _verdict(reading, clause, Verdict.COMPLIES))
        shown = lines.example(met) if isinstance(met, Line) else ()
        place = _place(clause.clause.shall[0], clause)
        yield Finding(ASKS_FOR_NOTHING.at(place, clause=clause.label), (clause.label,), shown)


# ---- shared ------------------------------------------------------------------------------------------------------


def _find_where_needed(reading: Reading, lines: Lines, region: Diagram, shows: Shows) -> Line | NoWitness | None:
    """Return whether there is a line in a region; None where there surely is one, since single terms settle it."""
    if region == EMPTY:
        return NoWitness.NONE
    return None if reading.is_exact(region) else lines.any(region, shows)


def _within(reading: Reading, clause: ClauseRegions) -> Shows:
    def shows(line: Line) -> bool:
        cell = reading.judge.cell(clause.number, line)
        return cell.basis is not Basis.OUT_OF_SCOPE and not _scope_open(reading, clause, line)

    return shows


def _scope_open(reading: Reading, clause: ClauseRegions, line: Line) -> bool:
    """Say whether it is not known if a line is in the scope of a clause."""
    judgements = reading.judge.judgements(clause.clause, line)
    return any(outcome.truth is not True for one in judgements for outcome in one.scope)


def _excepted(reading: Reading, clause: ClauseRegions) -> Shows:
    def shows(line: Line) -> bool:
        return reading.judge.cell(clause.number, line).basis is Basis.EXCEPTED

    return shows


def _verdict(reading: Reading, clause: ClauseRegions, verdict: Verdict) -> Shows:
    def shows(line: Line) -> bool:
        cell = reading.judge.cell(clause.number, line)
        return cell.verdict is verdict and cell.basis is not Basis.MET_EITHER_WAY

    return shows


def _undecided(question: Diagnostic, clause: ClauseRegions) -> Undecided:
    return Undecided(question, (clause.label,), NoWitness.UNDECIDED.value)
