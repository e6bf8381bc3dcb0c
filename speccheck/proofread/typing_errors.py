"""Changes: what a ruleset would say after one typing error, for every place where one could have happened.

Numbers are off by one step, "at least" and "more than" are exchanged, a condition or an exception is left
out, a cell or the limit of a band of a table is another. Only what the ruleset itself says is changed; what it builds
on is tried with its own ruleset.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import assert_never

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
    ExceptionPart,
    Given,
    Holds,
    Includes,
    Literal,
    Lookup,
    NamedAmount,
    NamedCondition,
    Negation,
    OneOf,
    OrEqual,
    Readings,
    Ruleset,
    Some,
    Table,
    TermValue,
)
from speccheck.language.core.walking import Node, conditions_of, literals_in, tables_of, walk
from speccheck.language.core.wording import amount_text, condition_text, value_text
from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Form
from speccheck.language.vocabulary.values import Single
from speccheck.proofread.steps import moved_limits, one_step
from speccheck.proofread.substituting import Part, in_assumption, in_clause, parts_of


class ChangeKind(StrEnum):
    """What a change does."""

    THRESHOLD = "number one step off"
    RELATION = "limit in or out"
    CONDITION = "condition left out"
    EXCEPTION = "exception left out"
    CELL = "table cell"
    BAND = "table band"


@dataclass(frozen=True)
class TypingError:
    """One change: what was written, what stands there instead, where, and which clauses it touches.

    `old` is the part of the core that is changed and `new` what takes its place, None where it is left out.
    """

    kind: ChangeKind
    was: str
    becomes: str
    place: Place
    clauses: tuple[int, ...]
    old: Part
    new: Part | None

    @property
    def words(self) -> str:
        """The change in words: "`1-1/2 in` becomes `2 in`"."""
        return f"`{self.was}` {f'becomes `{self.becomes}`' if self.becomes else 'is left out'}"

    def applied(self, ruleset: Ruleset) -> Ruleset:
        """Return the ruleset as it is after the change."""
        clauses = list(ruleset.clauses)
        for number in self.clauses:
            clauses[number] = in_clause(clauses[number], self.old, self.new)
        assumptions = tuple(in_assumption(one, self.old, self.new) for one in ruleset.assumptions)
        return replace(ruleset, clauses=tuple(clauses), assumptions=assumptions)


@dataclass(frozen=True)
class _Draft:
    """A change before it is known which clauses it touches."""

    kind: ChangeKind
    was: str
    becomes: str
    place: Place
    old: Part
    new: Part | None


def changes_of(ruleset: Ruleset) -> tuple[TypingError, ...]:
    """Return all changes of what a ruleset says of its own, in the order in which it is written."""
    own = [number for number, clause in enumerate(ruleset.clauses) if clause.ruleset == ruleset.name]
    files = {ruleset.clauses[number].place.file for number in own}
    touched: dict[int, list[int]] = {}
    for number in own:
        for part in parts_of(ruleset.clauses[number]):
            touched.setdefault(part, []).append(number)
    drafts = (draft for draft in _drafts([ruleset.clauses[number] for number in own], ruleset.units))
    found = (
        TypingError(one.kind, one.was, one.becomes, one.place, tuple(touched[id(one.old)]), one.old, one.new)
        for one in drafts
        if one.place.file in files
    )
    return tuple(sorted(found, key=lambda change: (change.place, change.kind, change.was, change.becomes)))


def _drafts(clauses: Iterable[Clause], system: str) -> Iterator[_Draft]:
    """Yield the changes of clauses; what a definition or a table says, once for all clauses."""
    seen: set[int] = set()
    for clause in clauses:
        for conditions in (clause.scope, clause.shall, clause.should):
            if len(conditions) > 1 or conditions is clause.scope:
                yield from _left_out(conditions, system)
        for exception in clause.exceptions:
            yield _without_exception(exception, system)
        for node in walk(conditions_of(clause)):
            if id(node) not in seen:
                seen.add(id(node))
                yield from _of_node(node, system)
        for table in tables_of(conditions_of(clause)):
            if id(table) not in seen:
                seen.add(id(table))
                yield from _of_table(table, system)


def _of_node(node: Node, system: str) -> Iterator[_Draft]:
    """Yield the changes of one node and of the literals directly inside it."""
    match node:
        case Comparison(left, relation, right, place) if relation.exchanged is not None:
            swapped = Comparison(left, relation.exchanged, right, place)
            was, becomes = (condition_text(one, system=system) for one in (node, swapped))
            yield _Draft(ChangeKind.RELATION, was, becomes, place, node, swapped)
        case Every(parts) | Some(parts) | Readings(parts):
            yield from _left_out(parts, system)
        case OneOf():
            yield from _of_options(node, system)
        case AskedIf(by_table=True) | CellSays():  # what is wrong with a table is tried on the table
            pass
        case AskedIf(asked, condition, otherwise, place):
            yield _always_asked(node, asked, condition, system)
            if otherwise is not None:
                only = AskedIf(asked, condition, None, place)
                was = condition_text(otherwise, be=True, system=system)
                yield _Draft(ChangeKind.CONDITION, f"otherwise {was}", "", place, node, only)
        case Comparison() | Includes() | Given() | Holds() | Negation() | OrEqual() | NamedCondition():
            pass
        case Literal() | TermValue() | Lookup() | Arithmetic() | Adjusted() | NamedAmount():
            pass
        case _:
            assert_never(node)
    for literal in literals_in(node):
        yield from _of_literal(literal, _node_text(node, system), system)


def _always_asked(node: AskedIf, asked: Condition, condition: Condition, system: str) -> _Draft:
    was = condition_text(condition, system=system)
    return _Draft(ChangeKind.CONDITION, f"if {was}", "", node.place, node, asked)


def _of_literal(literal: Literal, around: str, system: str) -> Iterator[_Draft]:
    was = value_text(literal.value, system)
    for value in one_step(literal.value):
        becomes, new = value_text(value, system), replace(literal, value=value)
        yield _Draft(ChangeKind.THRESHOLD, f"{was}` in `{around}", becomes, literal.place, literal, new)


def _of_options(node: OneOf, system: str) -> Iterator[_Draft]:
    """Yield a list of values with one of its numbers one step off."""
    for position, option in enumerate(node.options):
        for value in one_step(option):
            options = (*node.options[:position], value, *node.options[position + 1 :])
            was, becomes = value_text(option, system), value_text(value, system)
            yield _Draft(ChangeKind.THRESHOLD, was, becomes, node.place, node, replace(node, options=options))


def _left_out(conditions: Iterable[Condition], system: str) -> Iterator[_Draft]:
    for one in conditions:
        yield _Draft(ChangeKind.CONDITION, condition_text(one, system=system), "", one.place, one, None)


def _without_exception(exception: ExceptionPart, system: str) -> _Draft:
    words = f"except where {condition_text(exception.condition, system=system)}"
    place = exception.place if exception.place.line else exception.condition.place
    return _Draft(ChangeKind.EXCEPTION, words, "", place, exception, None)


def _node_text(node: Node, system: str) -> str:
    if isinstance(node, Amount):
        return amount_text(node, system)
    return condition_text(node, system=system)


# ---- tables ------------------------------------------------------------------------------------------------------


def _of_table(table: Table, system: str) -> Iterator[_Draft]:
    for row, column, cell in table.filled():
        yield from _of_cell(table, row, column, cell, system)
    for moved in moved_limits(table, system):
        yield _Draft(ChangeKind.BAND, moved.was, moved.becomes, moved.place, table, moved.table)


def _of_cell(table: Table, row: int, column: int, cell: Literal, system: str) -> Iterator[_Draft]:
    """Yield the table with one cell a step off, or with the next choice of its list in it."""
    where = f"{table.name}, {', '.join(table.headings_at(row, column))}: "
    for value in _other_cells(table, cell):
        changed = replace(cell, value=value)
        rows = [list(cells) for cells in table.cells]
        rows[row][column] = changed
        new = replace(table, cells=tuple(tuple(cells) for cells in rows))
        was, becomes = value_text(cell.value, system), value_text(value, system)
        yield _Draft(ChangeKind.CELL, where + was, becomes, cell.place, table, new)


def _other_cells(table: Table, cell: Literal) -> Iterator[Single]:
    if cell.kind.form is Form.CHOICE and table.of is not None:
        names = [choice.name for choice in table.of.choices]
        yield from [names[(names.index(str(cell.value)) + 1) % len(names)]] if len(names) > 1 else []
    else:
        yield from one_step(cell.value)
