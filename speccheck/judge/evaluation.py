"""Evaluating: what an amount is and whether a condition holds on one case, with the trace of how that came about.

A case gives one value, or `NotGiven`, for each term; a term that it does not name is not given. Nothing here raises:
a value that cannot be worked out is not known, with the missing term or the cause.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Mapping
from dataclasses import dataclass, field
from itertools import chain
from typing import Any, TypeVar, assert_never

from speccheck.judge import logic
from speccheck.judge.computing import NotWorkedOut
from speccheck.judge.lookup import OutsideBands, TableUse, band_of
from speccheck.judge.operations import EXACTLY, NominalStandIn, NoResult, Rules, adjust, calculate, compare
from speccheck.judge.unknown import (
    ApprovedEqual,
    CannotBeWorkedOut,
    Disagreement,
    NeededFor,
    NoCell,
    SourceReading,
    Unknown,
)
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
    Inclusion,
    Literal,
    Lookup,
    NamedAmount,
    NamedCondition,
    Negation,
    OneOf,
    OrEqual,
    Readings,
    Relation,
    Some,
    Table,
    TermValue,
)
from speccheck.language.core.walking import plain
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import NotGiven, Single

Said = TypeVar("Said")
Case = Mapping[str, Single | NotGiven]


@dataclass(slots=True)
class Amounted:
    """What an amount came to: its value, or None and why it is not known. Not frozen, for a check makes very many.

    `parts` are the amounts inside it (of a calculation and of a definition); `use` is the table cell looked up.
    """

    value: Single | None
    unknown: tuple[Unknown, ...] = ()
    parts: tuple[Amounted, ...] = ()
    use: TableUse | None = None

    @property
    def uses(self) -> tuple[TableUse, ...]:
        """The table cells that went into it."""
        inner = tuple(use for part in self.parts for use in part.uses)
        return inner if self.use is None else (self.use, *inner)


@dataclass(slots=True)
class ConditionOutcome:
    """What a condition came to, with its parts or the amounts that it compared. Not frozen, like `Amounted`.

    `_told` keeps what was once said of it, for all cells that share it.
    """

    node: Condition
    truth: logic.Truth
    parts: tuple[ConditionOutcome, ...] = ()
    amounts: tuple[Amounted, ...] = ()
    unknown: tuple[Unknown, ...] = ()
    stand_in: NominalStandIn | None = None
    _told: dict[Hashable, Any] | None = field(default=None, compare=False, repr=False)

    def once(self, what: Hashable, say: Callable[[], Said]) -> Said:
        """Return what was said of the outcome before under this name; else what is said now, which is kept."""
        if self._told is None:
            self._told = {}
        if what not in self._told:
            self._told[what] = say()
        said: Said = self._told[what]
        return said


NOT_STATED = NotGiven("", "not stated")


def evaluate(node: Condition, case: Case, rules: Rules) -> ConditionOutcome:
    """Return whether a condition holds on a case: True, False or None (not known), with its trace."""
    match node:
        case Comparison(_, Relation() as relation):
            return _comparison(node, relation, case, rules)
        case Comparison(left, _, right):
            inner = evaluate(plain(node), case, rules)
            compared = amount(left, case, rules), amount(right, case, rules)
            stand_in = next((part.stand_in for part in inner.parts if part.stand_in), None)
            return ConditionOutcome(node, inner.truth, (), compared, unknowns([inner]), stand_in)
        case OneOf():
            return _one_of(node, case, rules)
        case NamedCondition(_, condition):
            inner = evaluate(condition, case, rules)
            return ConditionOutcome(node, inner.truth, (inner,))
        case Every(parts):
            found = tuple(evaluate(part, case, rules) for part in parts)
            return ConditionOutcome(node, logic.every(part.truth for part in found), found)
        case Some(parts):
            found = tuple(evaluate(part, case, rules) for part in parts)
            return ConditionOutcome(node, logic.some(part.truth for part in found), found)
        case Negation(part):
            inner = evaluate(part, case, rules)
            return ConditionOutcome(node, logic.negation(inner.truth), (inner,))
        case OrEqual(part):
            return _or_equal(node, evaluate(part, case, rules))
        case Readings(parts):
            return _readings(node, tuple(evaluate(part, case, rules) for part in parts))
        case AskedIf():
            return _asked_if(node, case, rules)
        case Includes():
            return _includes(node, case)
        case Holds() | Given():
            return _of_term(node, case)
        case CellSays():
            return _cell_says(node, case)
        case _:
            assert_never(node)


def unknowns(outcomes: Iterable[ConditionOutcome]) -> tuple[Unknown, ...]:
    """Return what is missing in outcomes that are not known, each once, in the order in which it is met."""
    open_ones = [_unknowns_of(outcome) for outcome in outcomes if outcome.truth is None]
    return open_ones[0] if len(open_ones) == 1 else tuple(dict.fromkeys(chain.from_iterable(open_ones)))


def _unknowns_of(outcome: ConditionOutcome) -> tuple[Unknown, ...]:
    """Return what is missing in one outcome that is not known, which is gathered once for all who share it."""
    return outcome.once("unknown", lambda: tuple(dict.fromkeys((*outcome.unknown, *unknowns(outcome.parts)))))


def amount(node: Amount, case: Case, rules: Rules) -> Amounted:
    """Return what an amount is on a case."""
    match node:
        case TermValue(term):
            return _term_value(term, case)
        case Literal(value):
            return Amounted(value)
        case Lookup(table):
            return _lookup(table, case)
        case NamedAmount(_, meaning):
            inner = amount(meaning, case, rules)
            return Amounted(inner.value, inner.unknown, (inner,))
        case Arithmetic():
            return _calculation(node, case, rules)
        case Adjusted():
            return _adjusted(node, case, rules)
        case _:
            assert_never(node)


def _calculation(node: Arithmetic, case: Case, rules: Rules) -> Amounted:
    left, right = amount(node.left, case, rules), amount(node.right, case, rules)
    if left.value is None or right.value is None:
        return Amounted(None, left.unknown + right.unknown, (left, right))
    return _result(calculate(node, left.value, right.value), (left, right))


def _adjusted(node: Adjusted, case: Case, rules: Rules) -> Amounted:
    parts = tuple(amount(part, case, rules) for part in (node.thickness, node.stated, node.proposed, node.diameter))
    values = [part.value for part in parts if part.value is not None]
    if len(values) < len(parts):
        return Amounted(None, tuple(unknown for part in parts for unknown in part.unknown), parts)
    return _result(adjust(*values), parts)


def _result(found: Single | NoResult, parts: tuple[Amounted, ...]) -> Amounted:
    return Amounted(None, (Unknown("", found),), parts) if isinstance(found, NoResult) else Amounted(found, (), parts)


def _term_value(term: Term, case: Case) -> Amounted:
    value = case.get(term.name, NOT_STATED)
    if isinstance(value, NotWorkedOut):
        needed = tuple(Unknown(name, NeededFor(term.name, value.stated)) for name in value.missing)
        return Amounted(None, needed or (Unknown("", CannotBeWorkedOut(term.name, value)),))
    if isinstance(value, NotGiven):
        return Amounted(None, (Unknown(term.name, value),))
    return Amounted(value)


def _of_term(node: Holds | Given, case: Case) -> ConditionOutcome:
    """Return whether an answer is yes, or whether a term is given at all, which is always known."""
    amounted = _term_value(node.term, case)
    if isinstance(node, Given):
        value = case.get(node.term.name, NOT_STATED)
        return ConditionOutcome(node, not isinstance(value, NotGiven), (), (amounted,))
    truth = None if amounted.value is None else bool(amounted.value)
    return ConditionOutcome(node, truth, (), (amounted,), amounted.unknown)


def _or_equal(node: OrEqual, inner: ConditionOutcome) -> ConditionOutcome:
    """Return that something holds, or that a person has to say whether what is proposed instead is as good."""
    if inner.truth is not False:
        return ConditionOutcome(node, inner.truth, (inner,))
    return ConditionOutcome(node, None, (inner,), (), (Unknown("", ApprovedEqual(node.part)),))


def _readings(node: Readings, found: tuple[ConditionOutcome, ...]) -> ConditionOutcome:
    """Return what all readings of a source come to; where some hold and others do not, the sources disagree."""
    truths = {one.truth for one in found}
    if len(truths) == 1:
        return ConditionOutcome(node, truths.pop(), found)
    if None in truths:
        return ConditionOutcome(node, None, found)
    met, missed = (tuple(_reading(one) for one in found if one.truth is truth) for truth in (True, False))
    return ConditionOutcome(node, None, found, (), (Unknown("", Disagreement(met, missed)),))


def _reading(outcome: ConditionOutcome) -> SourceReading:
    """Return what one reading asks, with the value of what it compares with."""
    if isinstance(outcome.node, Comparison) and not isinstance(outcome.node.right, Literal):
        return SourceReading(outcome.node, outcome.amounts[1].value)
    return SourceReading(outcome.node)


def _asked_if(node: AskedIf, case: Case, rules: Rules) -> ConditionOutcome:
    """Return what a requirement with a condition comes to; its parts are the condition and what is asked by it."""
    condition = evaluate(node.condition, case, rules)
    branches = [node.asked] if condition.truth is not False else []
    if condition.truth is not True and node.otherwise is not None:
        branches.append(node.otherwise)
    asked = tuple(evaluate(branch, case, rules) for branch in branches)
    truths = {one.truth for one in asked} | ({True} if node.otherwise is None and condition.truth is None else set())
    truth = next(iter(truths)) if len(truths) == 1 else None if truths else True
    return ConditionOutcome(node, truth, (condition, *asked))


def _comparison(node: Comparison, relation: Relation, case: Case, rules: Rules) -> ConditionOutcome:
    left, right = amount(node.left, case, rules), amount(node.right, case, rules)
    if left.value is None or right.value is None:
        return ConditionOutcome(node, None, (), (left, right), left.unknown + right.unknown)
    both_counts = node.left.kind.form is Form.COUNT and node.right.kind.form is Form.COUNT
    truth, stand_in = compare(left.value, relation, right.value, EXACTLY if both_counts else rules)
    return ConditionOutcome(node, truth, (), (left, right), (), stand_in)


def _one_of(node: OneOf, case: Case, rules: Rules) -> ConditionOutcome:
    found = amount(node.amount, case, rules)
    if found.value is None:
        return ConditionOutcome(node, None, (), (found,), found.unknown)
    held = EXACTLY if node.amount.kind.form is Form.COUNT else rules
    for option in node.options:
        equal, stand_in = compare(found.value, Relation.EQUAL, option, held)
        if equal:
            return ConditionOutcome(node, True, (), (found,), (), stand_in)
    return ConditionOutcome(node, False, (), (found,))


def _includes(node: Includes, case: Case) -> ConditionOutcome:
    found = _term_value(node.term, case)
    if found.value is None:
        return ConditionOutcome(node, None, (), (found,), found.unknown)
    assert isinstance(found.value, frozenset), found.value
    wanted = frozenset(node.options)
    truth = {
        Inclusion.ALL: wanted <= found.value,
        Inclusion.ANY: bool(wanted & found.value),
        Inclusion.NONE: not wanted & found.value,
    }[node.inclusion]
    return ConditionOutcome(node, truth, (), (found,))


def _lookup(table: Table, case: Case) -> Amounted:
    use = _cell(table, case)
    if not isinstance(use, TableUse):
        return Amounted(None, use)
    if use.cell is not None:
        return Amounted(use.cell.value, use=use)
    return Amounted(None, (Unknown("", NoCell(use)),), use=use)


def _cell_says(node: CellSays, case: Case) -> ConditionOutcome:
    """Return whether the cell of a table says a word, which is not known only where no cell is known."""
    use = _cell(node.table, case)
    if not isinstance(use, TableUse):
        return ConditionOutcome(node, None, (), (Amounted(None, use),), use)
    return ConditionOutcome(node, node.table.word(use.row, use.column) is node.word, (), (Amounted(None, use=use),))


def _cell(table: Table, case: Case) -> TableUse | tuple[Unknown, ...]:
    """Return the cell of a table for the values of its axes, or why it is not known which one that is."""
    positions: list[int] = []
    unknown: list[Unknown] = []
    for axis in table.axes:
        found = _term_value(axis.term, case)
        if found.value is None:
            unknown += found.unknown
            continue
        position = band_of(found.value, axis.bands)
        if position is None:
            unknown.append(Unknown("", OutsideBands(table, axis, found.value)))
        else:
            positions.append(position)
    return tuple(unknown) or TableUse(table, *table.place_of(positions))
