"""Evaluating: what an amount is and whether a condition holds on one case, with the trace of how that came about.

A case gives one value, or `NotGiven`, for each term; a term that it does not name is not given. Nothing here raises:
a value that cannot be worked out is not known, with the missing term or the cause.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import assert_never

from speccheck.engine import kleene
from speccheck.engine.calculating import calculate
from speccheck.engine.comparing import Rules, bare, compare
from speccheck.language.core import (
    Amount,
    Arithmetic,
    Band,
    Comparison,
    Condition,
    Every,
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
    Relation,
    Some,
    Table,
    TermValue,
)
from speccheck.language.values import NotGiven, Single
from speccheck.language.vocabulary import Term

Case = Mapping[str, Single | NotGiven]


@dataclass(frozen=True, slots=True)
class Unknown:
    """Why something is not known: the term whose value is missing, or a cause; `why` says it in words."""

    term: str
    why: str


@dataclass(frozen=True, slots=True)
class TableUse:
    """The cell of a table that was looked up: its row and its column (0 for tables with one axis)."""

    table: Table
    row: int
    column: int


@dataclass(frozen=True, slots=True)
class Amounted:
    """What an amount came to: its value, or None and why it is not known, and the table cells that went into it."""

    value: Single | None
    unknown: tuple[Unknown, ...] = ()
    uses: tuple[TableUse, ...] = ()


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a condition came to, with its parts or the amounts that it compared."""

    node: Condition
    truth: kleene.Truth
    parts: tuple[Outcome, ...] = ()
    amounts: tuple[Amounted, ...] = ()
    unknown: tuple[Unknown, ...] = ()
    note: str = ""


NOT_STATED = NotGiven("", "not stated")


def evaluate(node: Condition, case: Case, rules: Rules) -> Outcome:
    """Return whether a condition holds on a case: True, False or None (not known), with its trace."""
    match node:
        case Comparison():
            return _comparison(node, case, rules)
        case OneOf():
            return _one_of(node, case, rules)
        case NamedCondition(_, condition):
            inner = evaluate(condition, case, rules)
            return Outcome(node, inner.truth, (inner,))
        case Every(parts):
            found = tuple(evaluate(part, case, rules) for part in parts)
            return Outcome(node, kleene.every(part.truth for part in found), found)
        case Some(parts):
            found = tuple(evaluate(part, case, rules) for part in parts)
            return Outcome(node, kleene.some(part.truth for part in found), found)
        case Negation(part):
            inner = evaluate(part, case, rules)
            return Outcome(node, kleene.negation(inner.truth), (inner,))
        case Includes():
            return _includes(node, case)
        case Holds(term):
            amounted = _term_value(term, case)
            truth = None if amounted.value is None else bool(amounted.value)
            return Outcome(node, truth, (), (amounted,), amounted.unknown)
        case Given(term):
            value = case.get(term.name, NOT_STATED)
            return Outcome(node, not isinstance(value, NotGiven), (), (_term_value(term, case),))
        case _:
            assert_never(node)


def amount(node: Amount, case: Case) -> Amounted:
    """Return what an amount is on a case."""
    match node:
        case TermValue(term):
            return _term_value(term, case)
        case Literal(value):
            return Amounted(value)
        case Lookup(table):
            return _lookup(table, case)
        case NamedAmount(_, inner):
            return amount(inner, case)
        case Arithmetic():
            left, right = amount(node.left, case), amount(node.right, case)
            uses = left.uses + right.uses
            if left.value is None or right.value is None:
                return Amounted(None, left.unknown + right.unknown, uses)
            result, cause = calculate(node, left.value, right.value)
            return Amounted(result, (Unknown("", cause),) if result is None else (), uses)
        case _:
            assert_never(node)


def _term_value(term: Term, case: Case) -> Amounted:
    value = case.get(term.name, NOT_STATED)
    if isinstance(value, NotGiven):
        return Amounted(None, (Unknown(term.name, value.why),))
    return Amounted(value)


def _comparison(node: Comparison, case: Case, rules: Rules) -> Outcome:
    left, right = amount(node.left, case), amount(node.right, case)
    if left.value is None or right.value is None:
        return Outcome(node, None, (), (left, right), left.unknown + right.unknown)
    truth, note = compare(left.value, node.relation, right.value, rules)
    return Outcome(node, truth, (), (left, right), (), note)


def _one_of(node: OneOf, case: Case, rules: Rules) -> Outcome:
    found = amount(node.amount, case)
    if found.value is None:
        return Outcome(node, None, (), (found,), found.unknown)
    note = ""
    for option in node.options:
        equal, note = compare(found.value, Relation.EQUAL, option, rules)
        if equal:
            return Outcome(node, True, (), (found,), (), note)
    return Outcome(node, False, (), (found,))


def _includes(node: Includes, case: Case) -> Outcome:
    found = _term_value(node.term, case)
    if found.value is None:
        return Outcome(node, None, (), (found,), found.unknown)
    assert isinstance(found.value, frozenset), found.value
    wanted = frozenset(node.options)
    truth = {
        Inclusion.ALL: wanted <= found.value,
        Inclusion.ANY: bool(wanted & found.value),
        Inclusion.NONE: not wanted & found.value,
    }[node.inclusion]
    return Outcome(node, truth, (), (found,))


def _lookup(table: Table, case: Case) -> Amounted:
    positions: list[int] = []
    unknown: list[Unknown] = []
    for axis in table.axes:
        found = _term_value(axis.term, case)
        if found.value is None:
            unknown += found.unknown
            continue
        position = next((n for n, band in enumerate(axis.bands) if lies_in(found.value, band)), None)
        if position is None:
            unknown.append(Unknown("", not_covered(table, axis.term, axis.bands, found.value)))
        else:
            positions.append(position)
    if unknown:
        return Amounted(None, tuple(unknown))
    row, column = (*positions, 0)[:2]
    cell, use = table.cells[row][column], TableUse(table, row, column)
    if cell is None:
        return Amounted(None, (Unknown("", f"`{table.name}` covers nothing at {place_in(use)}"),), (use,))
    return Amounted(cell.value, (), (use,))


def lies_in(value: Single, band: Band) -> bool:
    """Say whether a value lies in a band."""
    return band.interval.contains(value) if band.interval is not None else value in band.choices  # type: ignore[arg-type]


def place_in(use: TableUse) -> str:
    """Return the row and the column of a table cell in words."""
    row = f"row {use.table.axes[0].bands[use.row].text}"
    return f"{row}, column {use.table.axes[1].bands[use.column].text}" if len(use.table.axes) > 1 else row


def not_covered(table: Table, term: Term, bands: tuple[Band, ...], value: Single) -> str:
    """Return in words that a value lies in no band of an axis, with the bands on either side of it."""
    if isinstance(value, str):
        return f"`{table.name}` does not cover {term.name} {value}"
    below = [band for band in bands if band.interval and _ends_below(band, value)]
    above = [band for band in bands if band.interval and not _ends_below(band, value)]
    if below and above:
        return (
            f"{term.name} {value} lies in no band of `{table.name}`: "
            f"it is between `{below[-1].text}` and `{above[0].text}`"
        )
    if below:
        return f"{term.name} {value} lies above the last band of `{table.name}`, `{below[-1].text}`"
    return f"{term.name} {value} lies below the first band of `{table.name}`, `{above[0].text}`"


def _ends_below(band: Band, value: Single) -> bool:
    return band.interval is not None and band.interval.high is not None and bare(band.interval.high) <= bare(value)
