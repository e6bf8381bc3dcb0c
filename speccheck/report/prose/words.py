"""Rules in the sentences of a specification: what is asked, where it applies, what is left out.

What a definition gives a name is set in quotation marks, so that a reader knows to look the name up.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import assert_never

from speccheck.english import agree, capitalized, listed
from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    AskedIf,
    Assumption,
    CellSays,
    Clause,
    Comparison,
    Condition,
    Every,
    ExceptionPart,
    Given,
    Holds,
    Includes,
    Inclusion,
    Literal,
    Lookup,
    NamedAmount,
    NamedCondition,
    Negation,
    OneOf,
    Operation,
    OrEqual,
    Readings,
    Relation,
    Some,
    TermValue,
)
from speccheck.language.core.relations import AnyRelation
from speccheck.language.core.walking import terms_of
from speccheck.language.core.wording import amount_text, value_text
from speccheck.language.vocabulary.values import Single

_JOINED = {
    Operation.PLUS: "{} plus {}",
    Operation.MINUS: "{} minus {}",
    Operation.TIMES: "{} times {}",
    Operation.DIVIDED_BY: "{} divided by {}",
    Operation.LARGER: "the larger of {} and {}",
    Operation.SMALLER: "the smaller of {} and {}",
}


# ---- sentences ---------------------------------------------------------------------------------------------------


def clause_sentences(clause: Clause, system: str) -> Iterator[str]:
    """Yield the sentences of a clause: what it asks where, what it advises, what it leaves out.

    The first says where the clause applies, and that holds for all of them.
    """
    where = scope_words(clause.scope, system)
    for conditions, verb in ((clause.shall, "shall"), (clause.should, "should")):
        if conditions:
            asked = "; and ".join(_asked(one, system, verb, inner=False) for one in conditions)
            yield sentence(f"{where}, {asked}" if where else asked)
            where = ""
    yield from (exception_sentence(one, system) for one in clause.exceptions)
    if clause.judged_only:
        names = " and ".join(one.term.name for one in clause.judged_only)
        yield sentence(f"this is judged only where {names} {agree(len(clause.judged_only), 'is', 'are')} stated")


def scope_words(conditions: Iterable[Condition], system: str) -> str:
    """Return where a clause applies: "where ..., and where ...", "" where it applies to every line."""
    told = [held(condition, system) for condition in conditions]
    return f"where {', and where '.join(told)}" if told else ""


def exception_sentence(exception: ExceptionPart, system: str) -> str:
    """Return what an exception leaves out as a sentence, with its reason."""
    because = f", because {exception.because}" if exception.because else ""
    return sentence(f"this does not apply where {held(exception.condition, system)}{because}")


def definition_sentence(name: str, meaning: Condition | Amount, system: str) -> str:
    """Return what a definition means as a sentence."""
    words = held(meaning, system) if isinstance(meaning, Condition) else amount_words(meaning, system)
    return f"“{name}” means: {sentence(words, capital=False)}"


def assumption_sentence(assumption: Assumption, system: str) -> str:
    """Return what is read as a term where nothing is stated, and where that is so."""
    where = scope_words(assumption.scope, system)
    taken = f"take {assumption.term.name} as {value_text(assumption.value, system)} unless the schedule states it"
    return sentence(f"{where}, {taken}" if where else taken)


def sentence(text: str, *, capital: bool = True) -> str:
    """Return a text with a capital letter at its start, if it is to have one, and a full stop at its end."""
    stopped = text if text.endswith((".", ":", "?")) else f"{text}."
    return capitalized(stopped) if capital else stopped


# ---- conditions that hold ----------------------------------------------------------------------------------------


def held(condition: Condition, system: str) -> str:
    """Return a condition as it stands behind "where"; conditions joined inside another one stand in parentheses."""
    match condition:
        case Comparison(left, relation, right):
            return f"{amount_words(left, system)} {relation.words} {amount_words(right, system)}"
        case OneOf(amount, options):
            return f"{amount_words(amount, system)} is {_listed(options, system)}"
        case Includes(term, inclusion, options):
            return f"{term.name} {_INCLUDED[inclusion]} {_options(options, inclusion)}"
        case Given(term):
            return f"{term.name} is stated"
        case Holds(term):
            return f"{term.name} is confirmed"
        case NamedCondition(name):
            return f"the line is “{name}”"
        case Negation(part):
            return _denied(part, system)
        case Every(parts):
            return " and ".join(_grouped(part, system) for part in parts)
        case Some(parts):
            return "either " + ", or ".join(_grouped(part, system) for part in parts)
        case Readings(parts):
            return ", or by another reading of the source ".join(_grouped(part, system) for part in parts)
        case OrEqual(part):
            return f"{_grouped(part, system)} or approved equal"
        case CellSays(table, word):
            return f"the {table.name} says {word}"
        case AskedIf(asked, by_table=True):
            return held(asked, system)
        case AskedIf(asked, only_if, otherwise):
            told = f"{_grouped(asked, system)} if {_grouped(only_if, system)}"
            return told if otherwise is None else f"{told}, otherwise {_grouped(otherwise, system)}"
        case _:
            assert_never(condition)


_INCLUDED = {Inclusion.ALL: "include", Inclusion.ANY: "include at least one of", Inclusion.NONE: "do not include"}


def _options(options: Iterable[str], inclusion: Inclusion) -> str:
    return listed(options, "and" if inclusion is Inclusion.ALL else "or")


def _listed(options: Iterable[Single], system: str) -> str:
    """Return the values of which one is meant: "aluminum or PVC"."""
    told = [value_text(option, system) for option in options]
    return listed(told, "or") if len(told) > 1 else f"one of {told[0]}"


def _grouped(part: Condition, system: str) -> str:
    """Return a condition that is one of several; one that is joined itself stands in parentheses."""
    text = held(part, system)
    return f"({text})" if isinstance(part, Some | Every) else text


def _denied(part: Condition, system: str) -> str:
    """Return that a condition does not hold."""
    match part:
        case Given(term):
            return f"{term.name} is not stated"
        case Holds(term):
            return f"{term.name} is ruled out"
        case NamedCondition(name):
            return f"the line is not “{name}”"
        case OneOf(amount, options):
            return f"{amount_words(amount, system)} is not {_listed(options, system)}"
        case _:
            return f"it is not so that {_grouped(part, system)}"


# ---- what is asked -----------------------------------------------------------------------------------------------


def _asked(condition: Condition, system: str, verb: str, *, inner: bool = True) -> str:
    """Return what is asked; `inner` says that it is one of several, so that what is joined stands in parentheses."""
    match condition:
        case Comparison(left, relation, right):
            return f"{amount_words(left, system)} {_relation_words(relation, verb)} {amount_words(right, system)}"
        case OneOf(amount, options):
            return f"{amount_words(amount, system)} {verb} be {_listed(options, system)}"
        case Includes(term, inclusion, options):
            included = _INCLUDED[inclusion].replace("do not", "not")
            return f"{term.name} {verb} {included} {_options(options, inclusion)}"
        case Given(term):
            return f"{term.name} {verb} be stated"
        case Holds(term):
            return f"{term.name} {verb} be confirmed"
        case NamedCondition(name):
            return f"the line {verb} be “{name}”"
        case Negation(part):
            return _forbidden(part, system, verb)
        case Every(parts):
            return f"({_all_of(parts, system, verb)})" if inner else "; and ".join(_each(parts, system, verb))
        case Some(parts):
            told = _one_of_several(parts, system, verb)
            return f"({told})" if inner else told
        case Readings(parts):
            return ", or by another reading of the source ".join(_asked(part, system, verb) for part in parts)
        case OrEqual(part):
            return f"{_asked(part, system, verb)} or approved equal"
        case CellSays(table, word):
            return f"the {table.name} {verb} say {word}"
        case AskedIf(asked, by_table=True):
            return _asked(asked, system, verb, inner=inner)
        case AskedIf(asked, only_if, otherwise):
            told = f"{_asked(asked, system, verb)} if {_grouped(only_if, system)}"
            return told if otherwise is None else f"{told}, otherwise {_asked(otherwise, system, verb)}"
        case _:
            assert_never(condition)


def _each(parts: Iterable[Condition], system: str, verb: str) -> list[str]:
    return [_asked(part, system, verb) for part in parts]


def _all_of(parts: tuple[Condition, ...], system: str, verb: str) -> str:
    """Return one alternative of several parts; what speaks of the building alone is where it is one."""
    conditions, asks = _parted(parts)
    if not conditions:
        return " and ".join(_each(parts, system, verb))
    where = " and ".join(_grouped(part, system) for part in conditions)
    return f"{' and '.join(_each(asks, system, verb))} where {where}"


def _forbidden(part: Condition, system: str, verb: str) -> str:
    """Return that something is not to be."""
    match part:
        case Holds(term):
            return f"{term.name} {verb} be ruled out"
        case NamedCondition(name):
            return f"the line {verb} not be “{name}”"
        case OneOf(amount, options):
            return f"{amount_words(amount, system)} {verb} not be {_listed(options, system)}"
        case _:
            return f"it {verb} not be so that {_grouped(part, system)}"


def _one_of_several(parts: tuple[Condition, ...], system: str, verb: str) -> str:
    """Return alternatives; those that speak of the building alone are when nothing is asked, and no demands."""
    conditions, asks = _parted(parts)
    told = [_asked(part, system, verb) for part in asks]
    asked = f"either {', or '.join(told)}" if len(told) > 1 else told[0]
    if not conditions:
        return asked
    unless = [_grouped(part, system) for part in conditions]
    return f"{asked}, unless {'either ' if len(unless) > 1 else ''}{', or '.join(unless)}"


def _parted(parts: Iterable[Condition]) -> tuple[list[Condition], list[Condition]]:
    """Return which parts of a requirement are when it asks something, and which are what it asks; some always are.

    What speaks of the building alone nobody can be asked to change. That something is stated is asked only where
    nothing else is.
    """
    asks = [part for part in parts if not _is_of_building(part)] or list(parts)
    asks = [part for part in asks if not _is_given(part)] or asks
    return [part for part in parts if part not in asks], asks


def _is_of_building(part: Condition) -> bool:
    terms = terms_of([part])
    return bool(terms) and not any(term.proposed or term.computed for term in terms)


def _is_given(part: Condition) -> bool:
    return isinstance(part, Given) or (isinstance(part, Negation) and isinstance(part.part, Given))


def _relation_words(relation: AnyRelation, verb: str) -> str:
    """Return a relation behind a shall or a should: "shall be at least", "shall not be"."""
    if relation is Relation.NOT_EQUAL:
        return f"{verb} not be"
    return relation.behind(f"{verb} be")


def amount_words(amount: Amount, system: str) -> str:
    """Return an amount in words; what a table gives is "the hot water thickness scheduled"."""
    match amount:
        case Literal() | TermValue():
            return amount_text(amount, system)
        case Lookup(table):
            return f"the {table.whole.name} scheduled{table.name.removeprefix(table.whole.name)}"
        case NamedAmount(name):
            return f"“{name}”"
        case Adjusted(thickness, stated, proposed, diameter):
            parts = [amount_words(part, system) for part in (thickness, stated, proposed, diameter)]
            return "{}, carried over from {} to {} on pipe of {}".format(*parts)
        case Arithmetic(operation, left, right):
            return _JOINED[operation].format(amount_words(left, system), amount_words(right, system))
        case _:
            assert_never(amount)
