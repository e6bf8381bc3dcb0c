"""Statements resolved: what the writer holds to be true of the rules, with the terms and values it speaks of."""

from __future__ import annotations

from collections.abc import Sequence

from speccheck.language.core import (
    Amount,
    AmountTrend,
    Claim,
    Comparison,
    Condition,
    DemandContrast,
    DemandTrend,
    Holds,
    Literal,
    Negation,
    Never,
    Relation,
    Statement,
    TermValue,
)
from speccheck.language.diagnostics import Place
from speccheck.language.messages.rulesets import (
    NEITHER_RISES_NOR_FALLS,
    NOT_TWO_VALUES_OF_ONE_TERM,
    STATED_NOT_ASKED,
    TERM_DOES_NOT_GROW,
)
from speccheck.language.resolve.amounts import resolve_amount
from speccheck.language.resolve.clauses import check_once, resolve_conditions, sources_of, texts_of
from speccheck.language.resolve.conditions import resolve_condition
from speccheck.language.resolve.names import Names
from speccheck.language.syntax.tree import AmountSyntax, ConditionSyntax, StatementSyntax, Words
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import Single


def resolve_statement(names: Names, syntax: StatementSyntax, ruleset: str) -> Statement | None:
    """Return what a statement means, or None after what is wrong with it was reported."""
    check_once(names, syntax.parts)
    conditions = resolve_conditions(names, syntax.parts, "where")
    claim = _claim(names, syntax)
    if claim is None:
        return None
    return Statement(
        syntax.title.text,
        claim,
        conditions,
        "".join(texts_of(syntax.parts, "subject")[:1]),
        sources_of(syntax.parts),
        texts_of(syntax.parts, "note"),
        ruleset,
        syntax.place,
    )


def _claim(names: Names, syntax: StatementSyntax) -> Claim | None:
    word, _, joint = syntax.form.partition(" ")
    never = Never(word)
    if joint == "where":
        return _contrast(names, never, syntax.of)  # type: ignore[arg-type]
    last = syntax.of[-1]
    assert isinstance(last, Words), last
    term = _growing(names, last)
    if joint == "as":
        return DemandTrend(never, term) if term is not None else None
    amount = _ordered(names, syntax.of[0])  # type: ignore[arg-type]
    return AmountTrend(amount, never, term) if amount is not None and term is not None else None


def _growing(names: Names, words: Words) -> Term | None:
    """Return the term that grows, which must have an order."""
    term = names.term(words.text)
    if term is None:
        names.unknown(words)
    elif not term.kind.ordered:
        names.tell(TERM_DOES_NOT_GROW, words.place, term=term.name, kind=term.kind.described)
        return None
    return term


def _ordered(names: Names, syntax: AmountSyntax) -> Amount | None:
    """Return an amount, which must have an order."""
    amount = resolve_amount(names, syntax)
    if isinstance(amount, TermValue) and amount.kind.ordered:
        names.tell(STATED_NOT_ASKED, syntax.place, term=amount.term.name)
        return None
    if amount is None or amount.kind.ordered:
        return amount
    names.tell(NEITHER_RISES_NOR_FALLS, syntax.place, kind=amount.kind.described)
    return None


def _contrast(names: Names, never: Never, syntax: Sequence[ConditionSyntax]) -> DemandContrast | None:
    """Return the claim about two values of one term."""
    conditions = [resolve_condition(names, one) for one in syntax]
    if None in conditions:
        return None
    values = [_value_of(condition) for condition in conditions if condition is not None]
    settled = [value for value in values if value is not None]
    if len(settled) == 2 and settled[0][0] == settled[1][0] and settled[0][1] != settled[1][1]:
        return DemandContrast(never, settled[0][0], settled[0][1], settled[1][1])
    place = _joined([one.place for one in syntax])
    names.tell(NOT_TWO_VALUES_OF_ONE_TERM, place)
    return None


def _value_of(condition: Condition) -> tuple[Term, Single] | None:
    """Return the term and the value that a condition asks it to have."""
    match condition:
        case Comparison(TermValue(term), Relation.EQUAL, Literal(value)):
            return term, value
        case Holds(term):
            return term, True
        case Negation(Holds(term)):
            return term, False
        case _:
            return None


def _joined(places: Sequence[Place]) -> Place:
    """Return the place from the first to the last of places, where they are on one line; otherwise the first."""
    first, last = places[0], places[-1]
    if first.line != last.line:
        return first
    return Place(first.file, first.line, first.column, last.column + last.length - first.column)
