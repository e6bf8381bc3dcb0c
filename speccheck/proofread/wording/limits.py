"""Limits in wording: "not less than 1 in", "over 140 F", "2 in and larger", checked against the relations of the rule.

A number of the wording that the rule has too is to limit the same way: `at most` in a rule whose wording says "not
less than" is a fault in one of the two, and so is `over 140 F` beside "140 F and above". What the rule does with a
number is read from its comparisons and from the bands and cells of its tables, through definitions too.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import assert_never, cast

from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    AskedIf,
    CellSays,
    Clause,
    Comparison,
    Condition,
    Every,
    Given,
    Holds,
    Includes,
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
    Table,
    TermValue,
)
from speccheck.language.core.relations import by_order
from speccheck.language.core.walking import inner
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import Single
from speccheck.proofread.finite_amounts import term_of
from speccheck.proofread.wording.numbers import WordedNumber

_BEFORE = (
    (
        Relation.AT_LEAST,
        r"(?:not|no|never) (?:less|thinner|smaller|lower|fewer|narrower|shorter|colder|lighter) than|at least"
        r"|upwards? of"
        r"|not (?:under|below)"
        r"|(?:a )?minimum(?: of)?|min\.?",
    ),
    (
        Relation.AT_MOST,
        r"(?:not|no|never) (?:more|thicker|larger|greater|higher|hotter|wider|longer|farther|further|heavier) than"
        r"|limited to"
        r"|at most|not (?:to )?exceed(?:ing)?|(?:not|no) (?:over|above)|(?:a )?maximum(?: of)?|max\.?"
        r"|up to(?: and including)?|within",
    ),
    (
        Relation.MORE_THAN,
        r"(?:more|thicker|larger|greater|higher|hotter|warmer|wider|longer|heavier) than|over|above|exceed(?:s|ing)?"
        r"|in excess of|beyond",
    ),
    (Relation.LESS_THAN, r"(?:less|thinner|smaller|lower|fewer|colder|cooler|narrower|shorter) than|under|below"),
)
_AFTER = (
    (
        Relation.AT_LEAST,
        r"(?:or|and) (?:more|above|over|larger|greater|thicker|better|up|hotter|warmer|higher|wider|longer|upward)"
        r"|minimum|as a minimum|at the least",
    ),
    (
        Relation.AT_MOST,
        r"(?:or|and) (?:less|below|under|smaller|thinner|colder|cooler|lower|closer|fewer|narrower|shorter)|maximum"
        r"|as a maximum|at the most",
    ),
)
_MEASURE = (
    r"(?:thick(?:ness)?|apart|on cent(?:er|re)s?|o\.c\.|deep|high|wide|long"
    r"|(?:nominal )?pipe(?: size)?|NPS|in size|in diameter)"
)
_STARTS = tuple(
    (relation, re.compile(rf"(?<![\w-])(?:{words})\s+(?:of\s+)?(?:NPS\s+)?$", re.IGNORECASE))
    for relation, words in _BEFORE
)
_ENDS = tuple(
    (relation, re.compile(rf"\s*,?\s*(?:{_MEASURE}\s+)?(?:{words})\b", re.IGNORECASE)) for relation, words in _AFTER
)
_LEAVES_OUT = re.compile(
    r"\b(?:except|unless|other than|but not|need not|is not required|may|leave|do not|no)\b", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class RuleLimit:
    """A value of a rule and how something is compared with it there; None where no single relation says that.

    `term` is the term that is compared with it, `named` whether a definition or a table comes between.
    """

    value: Single
    relation: Relation | None
    term: Term | None
    named: bool = False


def worded_relation(text: str, start: int, end: int) -> Relation | None:
    """Return how a text limits by the number that stands in it from `start` to `end`; None where it does not say."""
    for relation, pattern in _STARTS:
        if pattern.search(text, max(0, start - 60), start):
            return relation
    for relation, pattern in _ENDS:
        if pattern.match(text, end):
            return relation
    return None


def limits_of(clause: Clause) -> tuple[RuleLimit, ...]:
    """Return the values that a clause compares anything with, with how it does so."""
    exceptions = (part.condition for part in clause.exceptions)
    conditions = (*clause.scope, *clause.shall, *clause.should, *exceptions)
    return tuple(limit for one in conditions for limit in _limits(one, False, False))


def contradicts(worded: Relation, stated: WordedNumber, limits: tuple[RuleLimit, ...], text: str) -> RuleLimit | None:
    """Return the limit of a rule that goes another way than the wording does with the same number; None for none.

    Where the wording leaves something out (`except`, `unless`), the rule may say the same the other way round.
    """
    same = [limit for limit in limits if stated.says(limit.value)]
    if not same or any(limit.relation in (None, worded, Relation.NOT_EQUAL) for limit in same):
        return None
    measured = re.search(rf"{re.escape(stated.text)}\s*{_MEASURE}", text)
    if worded is Relation.MORE_THAN and not measured and all(_is_minimum(limit) for limit in same):
        return None  # "over 3 in" of what is proposed means across as often as beyond
    if worded is Relation.AT_MOST and all(_is_capacity(limit) for limit in same):
        return None
    if _LEAVES_OUT.search(text) and any(limit.relation is worded.denial for limit in same):
        return None
    return next((limit for limit in same if not limit.named), same[0])


def _is_minimum(limit: RuleLimit) -> bool:
    """Say whether a limit is a minimum for what a contractor proposes."""
    return limit.relation is Relation.AT_LEAST and limit.term is not None and limit.term.proposed


def _is_capacity(limit: RuleLimit) -> bool:
    """Say whether a limit asks how much something has to bear: "for service up to 850 F" is 850 F or more of that."""
    upward = limit.relation is not None and limit.relation.is_minimum
    return upward and limit.term is not None and limit.term.name.startswith(("highest", "maximum"))


# ---- the limits of a rule ----------------------------------------------------------------------------------------


def _limits(condition: Condition, denied: bool, named: bool) -> Iterator[RuleLimit]:
    match condition:
        case Comparison(left, relation, right):
            ordered = by_order(relation.denial if denied else relation)
            yield from _held(right, ordered, term_of(left), named)
            yield from _held(left, ordered and ordered.turned, term_of(right), named)
        case OneOf(amount, options):
            for option in options:
                yield RuleLimit(option, None, term_of(amount), named)
        case Negation(part):
            yield from _limits(part, not denied, named)
        case AskedIf(_, only_if, otherwise) if otherwise is not None:
            for one in (*inner(condition), Negation(only_if, only_if.place)):  # what is asked otherwise is asked else
                yield from _limits(cast(Condition, one), denied, named)
        case Every() | Some() | Readings() | AskedIf() | OrEqual():
            for one in inner(condition):
                yield from _limits(cast(Condition, one), denied, named)
        case NamedCondition(_, part):
            yield from _limits(part, denied, True)
        case Includes() | Given() | Holds() | CellSays():
            return
        case _:
            assert_never(condition)


def _held(amount: Amount, relation: Relation | None, term: Term | None, named: bool) -> Iterator[RuleLimit]:
    match amount:
        case Literal(value):
            yield RuleLimit(value, relation, term, named)
        case NamedAmount(_, inner):
            yield from _held(inner, relation, term, True)
        case Arithmetic(operation, left, right):
            kept = relation if operation in (Operation.LARGER, Operation.SMALLER) else None
            for part in (left, right):
                yield from _held(part, kept, term, named)
        case Lookup(table):
            yield from _of_table(table, relation, term)
        case TermValue() | Adjusted():
            return
        case _:
            assert_never(amount)


def _of_table(table: Table, relation: Relation | None, term: Term | None) -> Iterator[RuleLimit]:
    """Yield the cells of a table as limits of a term, and the ends of its bands as limits of the terms of its axes."""
    yield from (RuleLimit(cell.value, relation, term, True) for row in table.cells for cell in row if cell is not None)
    for axis in table.axes:
        for band in axis.bands:
            if axis.term.kind.form is not Form.CHOICE and band.interval is not None:
                yield from _band(band.interval, axis.term)


def _band(interval: object, term: Term) -> Iterator[RuleLimit]:
    low, high = interval.low, interval.high  # type: ignore[attr-defined]
    if low is not None and low == high:
        yield RuleLimit(low, Relation.EQUAL, term, True)
        return
    if low is not None:
        closed = interval.low_closed  # type: ignore[attr-defined]
        yield RuleLimit(low, Relation.AT_LEAST if closed else Relation.MORE_THAN, term, True)
    if high is not None:
        closed = interval.high_closed  # type: ignore[attr-defined]
        yield RuleLimit(high, Relation.AT_MOST if closed else Relation.LESS_THAN, term, True)
