"""Rules in the sentences of a specification: what is asked, where it applies, what is left out.

What a definition gives a name is set in quotation marks, so that a reader knows to look the name up.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import assert_never

from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    Assumption,
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
    Relation,
    Some,
    TermValue,
)
from speccheck.language.core.walking import terms_of
from speccheck.language.core.wording import amount_text, value_text
from speccheck.report.wording import listed

_INCLUSIONS = {
    Inclusion.ALL: "include {}",
    Inclusion.ANY: "include at least one of {}",
    Inclusion.NONE: "not include {}",
}
_JOINED = {
    Operation.PLUS: "{} plus {}",
    Operation.MINUS: "{} less {}",
    Operation.TIMES: "{} times {}",
    Operation.DIVIDED_BY: "{} divided by {}",
    Operation.LARGER: "the larger of {} and {}",
    Operation.SMALLER: "the smaller of {} and {}",
}


# ---- sentences ---------------------------------------------------------------------------------------------------


def requirement_sentence(condition: Condition, system: str, *, verb: str = "shall") -> str:
    """Return one thing that a clause asks for as a sentence; `verb` is "shall" or, for advice, "should"."""
    return sentence(_asked(condition, system, verb))


def scope_sentence(conditions: Iterable[Condition], system: str) -> str:
    """Return where a clause applies as a sentence, "" where it applies to every line."""
    told = [_grouped(condition, system) for condition in conditions]
    return sentence(f"applies where {', and where '.join(told)}") if told else ""


def exception_sentence(exception: ExceptionPart, system: str) -> str:
    """Return what an exception leaves out as a sentence, with its reason."""
    because = f", because {exception.because}" if exception.because else ""
    return sentence(f"does not apply where {_grouped(exception.condition, system)}{because}")


def clause_sentences(clause: Clause, system: str) -> Iterator[str]:
    """Yield the sentences of a clause: where it applies, what it asks, what it advises, what it leaves out."""
    scope = scope_sentence(clause.scope, system)
    if scope:
        yield scope
    if clause.judged_only:
        names = " and ".join(one.term.name for one in clause.judged_only)
        yield sentence(f"judged only where {names} {'is' if len(clause.judged_only) == 1 else 'are'} stated")
    yield from (requirement_sentence(one, system) for one in clause.shall)
    yield from (requirement_sentence(one, system, verb="should") for one in clause.should)
    yield from (exception_sentence(one, system) for one in clause.exceptions)


def definition_sentence(name: str, meaning: Condition | Amount, system: str) -> str:
    """Return what a definition means as a sentence."""
    words = held(meaning, system) if isinstance(meaning, Condition) else amount_words(meaning, system)
    return f"“{name[:1].upper()}{name[1:]}” means: {sentence(words, capital=False)}"


def assumption_sentence(assumption: Assumption, system: str) -> str:
    """Return what is read as a term where nothing is stated, and where that is so."""
    where = [f"where {_grouped(condition, system)}" for condition in assumption.scope]
    taken = f"take {assumption.term.name} as {value_text(assumption.value, system)} unless the schedule states it"
    return sentence(", and ".join(where) + f", {taken}" if where else taken)


def sentence(text: str, *, capital: bool = True) -> str:
    """Return a text with a capital letter at its start, if it is to have one, and a full stop at its end."""
    stopped = text if text.endswith((".", ":", "?")) else f"{text}."
    return stopped[:1].upper() + stopped[1:] if capital else stopped


# ---- conditions that hold ----------------------------------------------------------------------------------------


def held(condition: Condition, system: str) -> str:
    """Return a condition as it stands behind "where"."""
    match condition:
        case Comparison(left, relation, right):
            return f"{amount_words(left, system)} {relation.value} {amount_words(right, system)}"
        case OneOf(amount, options):
            told = listed([value_text(option, system) for option in options], "or")
            return f"{amount_words(amount, system)} is {told}"
        case Includes(term, inclusion, options):
            joint = "or" if inclusion is Inclusion.ANY else "and"
            verb = _INCLUSIONS[inclusion].format(listed(options, joint))
            return f"{term.name} {verb.replace('not include', 'do not include')}"
        case Given(term):
            return f"{term.name} is stated"
        case Holds(term):
            return f"{term.name} is confirmed"
        case NamedCondition(name):
            return f"the line is “{name}”"
        case Negation(part):
            return _denied(part, system)
        case Every(parts):
            telling = _telling(parts)
            joint = "; and " if any(isinstance(part, Some) for part in telling) else " and "
            return joint.join(_grouped(part, system) for part in telling)
        case Some(parts):
            return ", or ".join(held(part, system) for part in parts)
        case _:
            assert_never(condition)


def _telling(parts: tuple[Condition, ...]) -> list[Condition]:
    """Return conditions that all hold, without those that only say that a term is stated of which others speak."""
    others = [part for part in parts if not isinstance(part, Given | Some)]
    named = {term.name for term in terms_of(others)}
    return [part for part in parts if not (isinstance(part, Given) and part.term.name in named)]


def _grouped(condition: Condition, system: str) -> str:
    """Return a condition that is one of several, so that its own `or` is not read as theirs."""
    text = held(condition, system)
    return f"either {text}" if isinstance(condition, Some) else text


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
            told = listed([value_text(option, system) for option in options], "or")
            return f"{amount_words(amount, system)} is not {told}"
        case Comparison(left, Relation.NOT_EQUAL, right):
            return f"{amount_words(left, system)} is {amount_words(right, system)}"
        case Comparison(left, relation, right):
            denied = relation.value.replace("is", "is not", 1)
            return f"{amount_words(left, system)} {denied} {amount_words(right, system)}"
        case Negation(inner):
            return held(inner, system)
        case Every(parts) if len(telling := _telling(parts)) == 1:
            return _denied(telling[0], system)
        case _:
            return f"it is not so that {held(part, system)}"


# ---- what is asked -----------------------------------------------------------------------------------------------


def _asked(condition: Condition, system: str, verb: str) -> str:
    match condition:
        case Comparison(left, relation, right):
            words = _relation_words(relation, verb)
            return f"{amount_words(left, system)} {words} {amount_words(right, system)}"
        case OneOf(amount, options):
            told = listed([value_text(option, system) for option in options], "or")
            return f"{amount_words(amount, system)} {verb} be {told}"
        case Includes(term, inclusion, options):
            joint = "or" if inclusion is Inclusion.ANY else "and"
            return f"{term.name} {verb} {_INCLUSIONS[inclusion].format(listed(options, joint))}"
        case Given(term):
            return f"{term.name} {verb} be stated"
        case Holds(term):
            return f"{term.name} {verb} be confirmed"
        case NamedCondition(name):
            return f"the line {verb} be “{name}”"
        case Negation(Holds(term)):
            return f"{term.name} {verb} be ruled out"
        case Negation(NamedCondition(name)):
            return f"the line {verb} not be “{name}”"
        case Negation(part):
            return f"it {verb} not be so that {held(part, system)}"
        case Every(parts):
            return "; and ".join(_asked(part, system, verb) for part in _telling(parts))
        case Some(parts):
            return "either " + ", or ".join(_asked(part, system, verb) for part in parts)
        case _:
            assert_never(condition)


def _relation_words(relation: Relation, verb: str) -> str:
    """Return a relation behind a shall or a should: "shall be at least", "shall not be"."""
    if relation is Relation.NOT_EQUAL:
        return f"{verb} not be"
    return f"{verb} be {relation.value.removeprefix('is')}".replace("  ", " ").rstrip()


def amount_words(amount: Amount, system: str) -> str:
    """Return an amount in words; what a table gives is "the hot water thickness scheduled"."""
    match amount:
        case Literal() | TermValue():
            return amount_text(amount, system)
        case Lookup(table):
            return f"the {table.name} scheduled"
        case NamedAmount(name):
            return f"“{name}”"
        case Adjusted(thickness, stated, proposed, diameter):
            parts = [amount_words(part, system) for part in (thickness, stated, proposed, diameter)]
            return "{}, carried over from {} to {} on pipe of {}".format(*parts)
        case Arithmetic(operation, left, right):
            return _JOINED[operation].format(amount_words(left, system), amount_words(right, system))
        case _:
            assert_never(amount)
