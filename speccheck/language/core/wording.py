"""Wording: conditions and amounts of the core back in the words of the clause language."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import assert_never

from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    AskedIf,
    CellSays,
    Comparison,
    Condition,
    Every,
    Given,
    Holds,
    Includes,
    LineRelation,
    Literal,
    Lookup,
    NamedAmount,
    NamedCondition,
    Negation,
    OneOf,
    Operation,
    OrEqual,
    Readings,
    RequiredDocument,
    Some,
    TermValue,
)
from speccheck.language.vocabulary.values import Single
from speccheck.physics.weather_words import told_in_short
from speccheck.quantities import NominalSize, Quantity
from speccheck.quantities.writing import write_number


@lru_cache(maxsize=20_000, typed=True)  # 0 and no are equal to one another
def value_text(value: Single, system: str = "inch-pound") -> str:
    """Return a value as a person would write it; a nominal size in the units of `system`, a year's weather in short."""
    if isinstance(value, Quantity):
        return "unlimited" if math.isinf(value.value) else str(value)
    if isinstance(value, NominalSize):
        return value.written("metric" if system == "metric" else "inch-pound")
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, frozenset):
        return ", ".join(sorted(value)) or "none"
    return told_in_short(value) if isinstance(value, str) else write_number(value)


def amount_text(node: Amount, system: str = "inch-pound") -> str:
    """Return an amount in words."""
    match node:
        case Literal(value, kind):
            difference = " difference" if kind.dimension == "temperature difference" else ""
            return value_text(value, system) + difference
        case TermValue(term):
            return term.name
        case Lookup(table):
            return table.name
        case NamedAmount(name):
            return name
        case Adjusted(thickness, stated, proposed, diameter):
            parts = [amount_text(part, system) for part in (thickness, stated, proposed, diameter)]
            return "{} adjusted from {} to {} around {}".format(*parts)
        case Arithmetic(operation, left, right):
            words = amount_text(left, system), amount_text(right, system)
            if operation in (Operation.LARGER, Operation.SMALLER):
                return f"{operation} {words[0]} and {words[1]}"
            return f"{words[0]} {operation} {words[1]}"
        case _:
            assert_never(node)


# Conditions that were put in words, by identity: hashing one means hashing all that is in it. The condition is kept
# beside its words, so that its identity cannot pass to another one.
_WORDS: dict[tuple[int, bool, str], tuple[Condition, str]] = {}
_MOST_WORDS = 20_000


def condition_text(node: Condition, *, be: bool = False, system: str = "inch-pound") -> str:
    """Return a condition in words, with "is", or with "be" as after a shall. Each is put in words once."""
    key = (id(node), be, system)
    known = _WORDS.get(key)
    if known is None:
        if len(_WORDS) >= _MOST_WORDS:
            _WORDS.clear()
        known = _WORDS[key] = (node, _condition_text(node, be, system))
    return known[1]


def _condition_text(node: Condition, be: bool, system: str) -> str:
    match node:
        case Comparison(left, relation, right):
            related = relation.behind("be") if be else relation.words
            return f"{amount_text(left, system)} {related} {amount_text(right, system)}"
        case OneOf(amount, options):
            listed = ", ".join(value_text(option, system) for option in options)
            return f"{amount_text(amount, system)} {'be' if be else 'is'} one of {listed}"
        case Includes(term, inclusion, options):
            return f"{term.name} {inclusion} {', '.join(options)}"
        case Given(term):
            return f"{term.name} {'be' if be else 'is'} given"
        case Holds(term):
            return term.name
        case CellSays(table, word):
            return f"{table.name} says {word}"
        case AskedIf(asked, by_table=True):
            return condition_text(asked, be=be, system=system)
        case AskedIf(asked, condition, otherwise):
            only = f"{_text_in(asked, be, system)} if {condition_text(condition, system=system)}"
            return only if otherwise is None else f"{only} otherwise {condition_text(otherwise, be=be, system=system)}"
        case Readings(parts):
            return " or by another reading ".join(_grouped(part, be, system, (Some, Readings)) for part in parts)
        case OrEqual(part):
            return f"{_grouped(part, be, system, Some)} or approved equal"
        case NamedCondition(name):
            return name
        case Negation(part):
            inner = condition_text(part, be=be, system=system)
            return f"not ({inner})" if isinstance(part, Every | Some) else f"not {inner}"
        case Every(parts):
            return " and ".join(_grouped(part, be, system, Some) for part in parts)
        case Some(parts):
            return " or ".join(_grouped(part, be, system, ()) for part in parts)
        case _:
            assert_never(node)


def _text_in(part: Condition, be: bool, system: str) -> str:
    return _grouped(part, be, system, AskedIf)


def _grouped(part: Condition, be: bool, system: str, needs: type | tuple[type, ...]) -> str:
    text = condition_text(part, be=be, system=system)
    return f"({text})" if isinstance(part, needs) else text


def document_sentence(document: RequiredDocument, system: str = "inch-pound") -> str:
    """Return what a paragraph asks to be submitted in words: for each of what, where, how old, what it leaves out."""
    each = f" of each {' and each '.join(term.name for term in document.each)}" if document.each else ""
    where = " and ".join(_grouped(part, False, system, Some) for part in document.scope)
    dated = f", dated within {document.within} of the review" if document.within else ""
    left = "".join(f", except where {condition_text(one.condition, system=system)}" for one in document.exceptions)
    return f"submit {document.kind.value}{each}{f' where {where}' if where else ''}{dated}{left}"


def relation_sentence(relation: LineRelation, system: str = "inch-pound") -> str:
    """Return in words which lines belong together by a relation, and what is asked of them."""
    where = _lines_where(relation.scope, system)
    alike = " and ".join(term.name for term in relation.alike)
    left = "".join(f", except where {condition_text(one.condition, system=system)}" for one in relation.exceptions)
    if relation.has_line:
        others = _lines_where(relation.beside, system)
        return f"beside each of the {where}, the schedule shall have one of the {others} that is alike in {alike}{left}"
    if relation.total is not None:
        total = condition_text(relation.total, be=True, system=system).replace(" be ", " shall be ", 1)
        return f"the total of the {where} that are alike in {alike}: {total}{left}"
    others = f" as the {_lines_where(relation.beside, system)}" if relation.beside else " as one another"
    same = " and the same ".join(term.name for term in relation.same)
    return f"the {where} shall have the same {same}{others} that are alike in {alike}{left}"


def _lines_where(conditions: tuple[Condition, ...], system: str) -> str:
    where = " and ".join(_grouped(part, False, system, Some) for part in conditions)
    return f"lines where {where}" if where else "lines"
