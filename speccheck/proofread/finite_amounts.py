"""Settled amounts: those that have a list of values, stated or looked up, and what they can come to."""

from __future__ import annotations

from typing import assert_never

from speccheck.judge.operations import NoResult, adjust, calculate
from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    Comparison,
    Literal,
    Lookup,
    NamedAmount,
    TermValue,
)
from speccheck.language.core.walking import rebuilt_amount
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import Single

LISTED = (Form.CHOICE, Form.SIZE)


def is_plain(comparison: Comparison) -> bool:
    """Say whether a comparison is settled by one term, or by terms that have a list of values."""
    left, right = comparison.left, comparison.right
    settled = is_settled(left), is_settled(right)
    return all(settled) or (settled[1] and term_of(left) is not None) or (settled[0] and term_of(right) is not None)


def term_of(amount: Amount) -> Term | None:
    """Return the term that an amount is, be it under the name of a definition."""
    if isinstance(amount, NamedAmount):
        return term_of(amount.amount)
    return amount.term if isinstance(amount, TermValue) else None


def is_settled(amount: Amount) -> bool:
    """Say whether an amount has a list of values: it is stated, looked up, or worked out from such amounts."""
    match amount:
        case Literal() | Lookup():
            return True
        case TermValue(term):
            return term.kind.form in LISTED
        case NamedAmount(_, inner):
            return is_settled(inner)
        case Arithmetic(_, left, right):
            return is_settled(left) and is_settled(right)
        case Adjusted(thickness, stated, proposed, diameter):
            return all(map(is_settled, (thickness, stated, proposed, diameter)))


def settled_values(amount: Amount) -> tuple[Single, ...]:
    """Return the values that a settled amount can have."""
    match amount:
        case Literal(value):
            return (value,)
        case Lookup(table):
            return tuple({cell.value: None for row in table.cells for cell in row if cell is not None})
        case NamedAmount(_, inner):
            return settled_values(inner)
        case TermValue():
            return ()
        case Arithmetic(_, left, right):
            rights = settled_values(right)
            found = (calculate(amount, one, other) for one in settled_values(left) for other in rights)
        case Adjusted(thickness, stated, proposed, diameter):
            parts = [settled_values(part) for part in (thickness, stated, proposed, diameter)]
            found = (
                adjust(one, two, three, four)
                for one in parts[0]
                for two in parts[1]
                for three in parts[2]
                for four in parts[3]
            )
    return tuple({value: None for value in found if not isinstance(value, NoResult)})


def without_names(amount: Amount) -> Amount:
    """Return an amount with what its definitions mean in place of their names."""
    match amount:
        case NamedAmount(_, inner):
            return without_names(inner)
        case Literal() | TermValue() | Lookup() | Arithmetic() | Adjusted():
            return rebuilt_amount(amount, without_names)
        case _:
            assert_never(amount)
