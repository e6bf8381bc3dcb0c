"""Requirements: which clauses apply to a line, which may, and what each asks of it with the numbers for this line.

In: a line and rulesets. Out: for each ruleset the clauses whose scope holds, and those of which it is not known whether
it holds, with the data that would tell. Nothing is judged here: a line that states no thickness is told what it needs.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from speccheck.judge import logic
from speccheck.judge.cell import RangePart
from speccheck.judge.evaluation import Amounted, ConditionOutcome, unknowns
from speccheck.judge.explain.amounts import Stating
from speccheck.judge.explain.causes import TOO_MANY, note_text, open_text
from speccheck.judge.explain.ranges import holding
from speccheck.judge.judgement import Judgement
from speccheck.judge.judging import Judge
from speccheck.language import load_ruleset, shipped_ruleset_names
from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    Clause,
    Comparison,
    Every,
    NamedCondition,
    Negation,
    Operation,
    Readings,
    Ruleset,
    Some,
    Source,
)
from speccheck.language.core.wording import amount_text, condition_text
from speccheck.schedule.lines import Line


def asked_text(outcome: ConditionOutcome, stating: Stating) -> str:
    """Return what a condition asks for, with the number of a table, a definition or a term where it is known."""
    system = stating.system
    match outcome.node:
        case Comparison(left, relation, right):
            verb = relation.behind("be")
            return f"{amount_text(left, system)} {verb} {_wanted(right, outcome.amounts[1], stating)}"
        case NamedCondition(name):
            return f"{name} ({asked_text(outcome.parts[0], stating)})"
        case Negation():
            inner = asked_text(outcome.parts[0], stating)
            return f"not ({inner})" if isinstance(outcome.parts[0].node, Every | Some) else f"not {inner}"
        case Every():
            return " and ".join(_grouped(part, stating) for part in outcome.parts)
        case Some():
            return " or ".join(asked_text(part, stating) for part in outcome.parts)
        case Readings():
            return " or by another reading ".join(_grouped(part, stating) for part in outcome.parts)
        case node:
            return condition_text(node, be=True, system=system)


def _wanted(node: Amount, found: Amounted, stating: Stating) -> str:
    """Return the amount that is asked for and where it comes from; with what is known of it, where it is not whole."""
    if found.value is not None:
        return stating.other(node, found)
    match node:
        case Adjusted(thickness, stated, proposed, diameter):
            nodes = (thickness, stated, proposed, diameter)
            words = [_part(part, inner, stating) for part, inner in zip(nodes, found.parts, strict=True)]
            return "{} adjusted from {} to {} around {}".format(*words)
        case Arithmetic(operation, left, right):
            first, second = (
                _part(part, inner, stating) for part, inner in zip((left, right), found.parts, strict=True)
            )
            if operation in (Operation.LARGER, Operation.SMALLER):
                return f"{operation} {first} and {second}"
            return f"{first} {operation} {second}"
        case _:
            return amount_text(node, stating.system)


def _part(node: Amount, found: Amounted, stating: Stating) -> str:
    """Return a part of a calculation by its name, with its value where that is known."""
    if found.value is None:
        return _wanted(node, found, stating)
    return stating.worked(node, found)


def _grouped(part: ConditionOutcome, stating: Stating) -> str:
    text = asked_text(part, stating)
    return f"({text})" if isinstance(part.node, Some) else text


@dataclass(frozen=True, slots=True)
class AskedCondition:
    """One thing that a clause asks: "shall" or "should", the condition in words, and for which part of a range."""

    part: str
    text: str
    at: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PublishedRequirement:
    """A clause that applies to a line, or may.

    `depends_on` names what would tell whether it applies, and is empty where it does. `at` names the sizes and
    temperatures at which it does, where these are not all. `sources` are those of the clause and of the tables that
    were looked up; `notes` say what was assumed.
    """

    clause: Clause
    asked: tuple[AskedCondition, ...]
    sources: tuple[Source, ...]
    depends_on: tuple[str, ...] = ()
    at: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class RulesetRequirements:
    """What one ruleset asks of a line: what applies for certain, and what perhaps."""

    ruleset: Ruleset
    applying: tuple[PublishedRequirement, ...]
    perhaps: tuple[PublishedRequirement, ...]


def shipped_rulesets() -> tuple[Ruleset, ...]:
    """Return all shipped rulesets in the order of their names; vocabularies are none."""
    loaded = (load_ruleset(name).ruleset for name in shipped_ruleset_names())
    return tuple(ruleset for ruleset in loaded if ruleset is not None)


def requirements_of(line: Line, rulesets: Iterable[Ruleset], *, inherited: bool) -> tuple[RulesetRequirements, ...]:
    """Return what each ruleset asks of a line.

    `inherited` says whether the clauses that a ruleset takes over from others are told with it.
    """
    return tuple(_of_ruleset(line, ruleset, inherited) for ruleset in rulesets)


def _of_ruleset(line: Line, ruleset: Ruleset, inherited: bool) -> RulesetRequirements:
    judge = Judge(ruleset)
    clauses = [clause for clause in ruleset.clauses if inherited or clause.ruleset == ruleset.name]
    found = [one for clause in clauses if (one := _requirement(judge, clause, line)) is not None]
    applying = tuple(one for one in found if not one.depends_on)
    return RulesetRequirements(ruleset, applying, tuple(one for one in found if one.depends_on))


def _requirement(judge: Judge, clause: Clause, line: Line) -> PublishedRequirement | None:
    """Return what a clause asks of a line, None where it does not apply to it."""
    judgements = judge.judgements(clause, line)
    if not judgements:
        return PublishedRequirement(clause, (), clause.sources, (TOO_MANY,))
    system = judge.ruleset.units
    applies = [_applies(one) for one in judgements]
    truth = logic.some(applies)
    if truth is False:
        return None
    chosen = [one is truth for one in applies]
    reached = [one for one, kept in zip(judgements, chosen, strict=True) if kept]
    return PublishedRequirement(
        clause,
        _asked(judge, clause, line, judgements, chosen),
        _sources(clause, reached),
        () if truth else _depends_on(reached, system),
        _where(judge, line, judgements, chosen),
        tuple(dict.fromkeys(note_text(note, system) for one in reached for note in one.notes)),
    )


def _applies(judgement: Judgement) -> logic.Truth:
    """Say whether the clause applies to a case: its scope holds, and none of its exceptions does."""
    scope = logic.every(outcome.truth for outcome in judgement.scope)
    excepted = logic.some(outcome.truth for outcome in judgement.exceptions)
    return logic.every((scope, logic.negation(excepted)))


def _depends_on(judgements: Sequence[Judgement], system: str) -> tuple[str, ...]:
    """Return the data, or the causes, that leave open whether the clause applies."""
    found = (unknown for one in judgements for unknown in unknowns((*one.scope, *one.exceptions)))
    return tuple(dict.fromkeys(open_text(unknown, system) for unknown in found))


def _asked(
    judge: Judge, clause: Clause, line: Line, judgements: Sequence[Judgement], chosen: Sequence[bool]
) -> tuple[AskedCondition, ...]:
    """Return what the clause asks, part by part; where the numbers change along a range, each with its part of it."""
    texts = [_texts(clause, one, judge.ruleset.units) for one in judgements]
    found = dict.fromkeys(text for each, kept in zip(texts, chosen, strict=True) if kept for text in each)
    return tuple(
        AskedCondition(part, text, _part_of(judge, line, judgements, chosen, [(part, text) in each for each in texts]))
        for part, text in sorted(found, key=lambda each: ("shall", "should").index(each[0]))
    )


def _texts(clause: Clause, judgement: Judgement, system: str) -> tuple[tuple[str, str], ...]:
    """Return the parts of a clause in words for one case."""
    shall = judgement.shall if clause.shall else ()
    parts = (*(("shall", one) for one in shall), *(("should", one) for one in judgement.should))
    stating = Stating(system, worked_out=judgement.worked_out)
    return tuple((part, asked_text(outcome, stating)) for part, outcome in parts)


def _part_of(
    judge: Judge, line: Line, judgements: Sequence[Judgement], chosen: Sequence[bool], has: Sequence[bool]
) -> tuple[str, ...]:
    """Return the part of a range that a text is for; nothing where it is for all that the clause applies to."""
    holds = [kept and held for kept, held in zip(chosen, has, strict=True)]
    return () if holds == list(chosen) else _where(judge, line, judgements, holds)


def _where(judge: Judge, line: Line, judgements: Sequence[Judgement], holds: Sequence[bool]) -> tuple[str, ...]:
    """Return the sizes and temperatures of the cases that hold; nothing where all of them do."""
    stated = {name: line.data[name].value for name, _ in judgements[0].varied}
    part = RangePart(tuple(one.varied for one in judgements), tuple(holds), stated)
    return holding(part, judge.ruleset.units)


def _sources(clause: Clause, judgements: Sequence[Judgement]) -> tuple[Source, ...]:
    """Return the sources of the clause, then those of the tables whose cells it asks for."""
    tables = (source for one in judgements for use in one.uses for source in use.table.sources)
    return tuple(dict.fromkeys((*clause.sources, *tables)))
