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
from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Term
from speccheck.proofread.clause_regions import ClauseRegions, Reading
from speccheck.proofread.decision_diagrams import EMPTY, Diagram
from speccheck.proofread.findings import Finding, Undecided
from speccheck.proofread.finite_amounts import term_of
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
            yield _finding("P303", clause, node, "never holds", "correct the value, or leave the condition out")
        elif fails == EMPTY and reading.is_exact(holds):
            yield _finding(
                "P304", clause, node, "holds whatever the schedule states", "leave it out, or correct the value"
            )


def _finding(code: str, clause: ClauseRegions, node: Condition, what: str, help: str) -> Finding:
    words = condition_text(node, system="inch-pound")
    message = f"`{words}` {what}"
    kind = f"condition that {'never' if code == 'P303' else 'always'} holds"
    return Finding(code, kind, (clause.label,), message, help, place=_place(node, clause))


def _place(node: Condition, clause: ClauseRegions) -> Place:
    return node.place if node.place.line else clause.clause.place


# ---- where -------------------------------------------------------------------------------------------------------


def _never_applies(reading: Reading, lines: Lines, clause: ClauseRegions) -> Iterator[Finding | Undecided]:
    """Yield that a clause applies to no system, by its conditions or because exceptions take out all."""
    complete = reading.complete([clause])
    in_scope = reading.diagrams.both(clause.scope.holds, complete)
    line = _find_where_needed(reading, lines, in_scope, _within(reading, clause))
    if line is NoWitness.NONE:
        message = f"clause `{clause.label}` never applies: no line meets all its conditions"
        help = "correct the conditions, or leave the clause out"
        yield Finding("P301", "clause that never applies", (clause.label,), message, help, place=clause.clause.place)
        return
    if line is NoWitness.UNDECIDED:
        yield _undecided("P301", clause, f"whether clause `{clause.label}` ever applies")
    if clause.exceptions and reading.diagrams.both(clause.applies, complete) == EMPTY:
        yield _nothing_left(reading, lines, clause, in_scope)


def _nothing_left(reading: Reading, lines: Lines, clause: ClauseRegions, in_scope: Diagram) -> Finding:
    """Return that exceptions take out all that a clause applies to, or leave open whether it applies."""
    message = f"the exceptions of clause `{clause.label}` take out every line that it applies to"
    example = lines.find(reading.sensible_part(in_scope), _excepted(reading, clause))
    if not isinstance(example, Line):
        message = f"the exceptions of clause `{clause.label}` leave it open for every line whether it applies"
        example = lines.find(reading.sensible_part(in_scope), _within(reading, clause))
    shown = lines.example(example) if isinstance(example, Line) else ()
    place, help = clause.clause.exceptions[0].place, "narrow an exception, or leave the clause out"
    return Finding("P302", "exceptions that take out all", (clause.label,), message, help, shown, place=place)


def _adding_nothing(reading: Reading, clause: ClauseRegions) -> Iterator[Finding]:
    """Yield the conditions under where without which the others say as much, for lines with missing data too."""
    for part in islice(_idle(reading, tuple(conjuncts(clause.clause.scope))), 1):
        words = condition_text(part)
        message = f"`{words}` changes nothing: the other conditions of clause `{clause.label}` say as much"
        place = _place(part, clause)
        yield Finding("P305", "condition that changes nothing", (clause.label,), message, "leave it out", place=place)


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
                words = condition_text(part)
                message = f"the alternative `{words}` adds nothing: the others let in as much without it"
                yield _absorbed_finding(clause, part, message)
                break
    for part in islice(_idle(reading, tuple(conjuncts(clause.clause.shall))), 1):
        message = f"`{condition_text(part)}` asks for nothing that clause `{clause.label}` does not ask for besides"
        yield _absorbed_finding(clause, part, message)


def _absorbed_finding(clause: ClauseRegions, part: Condition, message: str) -> Finding:
    help, place = "leave it out, or correct it: one of them was meant otherwise", _place(part, clause)
    return Finding("P313", "alternative that adds nothing", (clause.label,), message, help, place=place)


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
                message = f"`{condition}` holds for `{only}` alone: `and` goes before `or`"
                help = (
                    "write `is one of` and the condition after it, or the condition before its alternative; "
                    "or write in a note that `P314 is meant`"
                )
                yield Finding("P314", "`and` before `or`", (clause.label,), message, help, place=_place(node, clause))


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
            words = condition_text(part.condition)
            why = (
                "other exceptions take the same lines out" if taken != EMPTY else "no line that it applies to meets it"
            )
            message = f"the exception `{words}` of clause `{clause.label}` takes nothing out: {why}"
            yield Finding(
                "P306", "redundant exception", (clause.label,), message, "leave it out, or correct it", place=part.place
            )
        elif line is NoWitness.UNDECIDED:
            question = f"whether the exception `{condition_text(part.condition)}` takes any line out"
            yield _undecided("P306", clause, question)


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
        message = f"no line can meet clause `{clause.label}`"
        help = "correct what it asks for; the line is one of those that fail it"
        place = _place(clause.clause.shall[0], clause)
        yield Finding("P307", "requirement that cannot be met", (clause.label,), message, help, shown, place=place)
    elif met is NoWitness.UNDECIDED and not reading.is_met_by_an_example(clause):
        yield _undecided("P307", clause, f"whether any line can meet clause `{clause.label}`")
    if diagrams.within(applying, clause.shall.holds):
        met = lines.find(reading.sensible_part(applying), _verdict(reading, clause, Verdict.COMPLIES))
        shown = lines.example(met) if isinstance(met, Line) else ()
        message = f"clause `{clause.label}` asks for nothing: every line that it applies to meets it"
        place = _place(clause.clause.shall[0], clause)
        yield Finding("P308", "requirement that is always met", (clause.label,), message, "", shown, place=place)


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


def _undecided(code: str, clause: ClauseRegions, question: str) -> Undecided:
    return Undecided(code, (clause.label,), question, NoWitness.UNDECIDED.value, clause.clause.place)
