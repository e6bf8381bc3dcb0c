"""Rules in the sentences of a specification: what is asked, where it applies, what is left out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import assert_never

from speccheck.language.core import (
    Amount,
    Clause,
    Comparison,
    Condition,
    Every,
    ExceptionPart,
    Given,
    Holds,
    Includes,
    Inclusion,
    NamedCondition,
    Negation,
    OneOf,
    Relation,
    Some,
)
from speccheck.language.wording import amount_text, condition_text, value_text
from speccheck.report.wording import listed

_INCLUSIONS = {
    Inclusion.ALL: "include {}",
    Inclusion.ANY: "include at least one of {}",
    Inclusion.NONE: "not include {}",
}


def requirement_sentence(condition: Condition, system: str, *, verb: str = "shall") -> str:
    """Return one thing that a clause asks for as a sentence; `verb` is "shall" or, for advice, "should"."""
    return sentence(_asked(condition, system, verb))


def scope_sentence(conditions: Iterable[Condition], system: str) -> str:
    """Return where a clause applies as a sentence, "" where it applies to every line."""
    told = [_held(condition, system) for condition in conditions]
    return sentence(f"applies where {', and where '.join(told)}") if told else ""


def exception_sentence(exception: ExceptionPart, system: str) -> str:
    """Return what an exception leaves out as a sentence, with its reason."""
    because = f", because {exception.because}" if exception.because else ""
    return sentence(f"does not apply where {_held(exception.condition, system)}{because}")


def clause_sentences(clause: Clause, system: str) -> Iterator[str]:
    """Yield the sentences of a clause: where it applies, what it asks, what it advises, what it leaves out."""
    scope = scope_sentence(clause.scope, system)
    if scope:
        yield scope
    yield from (requirement_sentence(one, system) for one in clause.shall)
    yield from (requirement_sentence(one, system, verb="should") for one in clause.should)
    yield from (exception_sentence(one, system) for one in clause.exceptions)


def definition_sentence(name: str, meaning: Condition | Amount, system: str) -> str:
    """Return what a definition means as a sentence."""
    if isinstance(meaning, Condition):
        return sentence(f"{name}: {condition_text(meaning, system=system)}")
    return sentence(f"{name}: {amount_text(meaning, system)}")


def sentence(text: str) -> str:
    """Return a text with a capital letter at its start and a full stop at its end."""
    stopped = text if text.endswith((".", ":", "?")) else f"{text}."
    return stopped[:1].upper() + stopped[1:]


def _held(condition: Condition, system: str) -> str:
    """Return a condition that is one of several, so that its own `or` is not taken for theirs."""
    text = condition_text(condition, system=system)
    return f"either {text}" if isinstance(condition, Some) else text


def _asked(condition: Condition, system: str, verb: str) -> str:
    match condition:
        case Comparison(left, relation, right):
            words = _relation_words(relation, verb)
            return f"{amount_text(left, system)} {words} {amount_text(right, system)}"
        case OneOf(amount, options):
            told = listed([value_text(option, system) for option in options], "or")
            return f"{amount_text(amount, system)} {verb} be {told}"
        case Includes(term, inclusion, options):
            joint = "or" if inclusion is Inclusion.ANY else "and"
            return f"{term.name} {verb} {_INCLUSIONS[inclusion].format(listed(options, joint))}"
        case Given(term):
            return f"{term.name} {verb} be stated"
        case Holds(term):
            return f"{term.name} {verb} be confirmed"
        case NamedCondition(name):
            return f"{verb} be so: {name}"
        case Negation(Holds(term)):
            return f"{term.name} {verb} be ruled out"
        case Negation(part):
            return f"{verb} not be so: {condition_text(part, system=system)}"
        case Every(parts):
            return "; and ".join(_asked(part, system, verb) for part in parts)
        case Some(parts):
            return "either " + ", or ".join(_asked(part, system, verb) for part in parts)
        case _:
            assert_never(condition)


def _relation_words(relation: Relation, verb: str) -> str:
    """Return a relation behind a shall or a should: "shall be at least", "shall not be"."""
    if relation is Relation.NOT_EQUAL:
        return f"{verb} not be"
    return f"{verb} be {relation.value.removeprefix('is')}".replace("  ", " ").rstrip()
