"""Regions: for which systems a condition holds, and for which it does not, as decision diagrams.

A condition has two regions, because a third part of the systems leaves it open: strong Kleene logic (see
`speccheck.engine.kleene`) written as sets. What a single term is held against is settled by the judge's own
comparison, tried on every atom of the term's axis, so that the two cannot differ.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple, assert_never

from speccheck.engine.calculating import adjust, calculate
from speccheck.engine.comparing import EXACTLY, Rules, compare
from speccheck.engine.looking_up import lies_in
from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
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
from speccheck.language.core import Axis as TableAxis
from speccheck.language.kinds import Form
from speccheck.language.values import NotGiven, Single
from speccheck.language.vocabulary import Term
from speccheck.language.walking import walk
from speccheck.proofread.axes import NO, YES, Axes, ChoiceAxis, TermAxis
from speccheck.proofread.diagrams import EMPTY, FULL, Diagram, Diagrams, Mask
from speccheck.proofread.settled import equalities, is_plain, is_settled, term_of

NOT_GIVEN = 1


class Region(NamedTuple):
    """The systems for which something holds and those for which it does not; all others leave it open."""

    holds: Diagram
    fails: Diagram


@dataclass
class Regions:
    """The regions of conditions, over given axes and by the comparisons of one ruleset."""

    axes: Axes
    diagrams: Diagrams
    rules: Rules
    _known: dict[int, tuple[Condition, Region]] = field(default_factory=dict)
    _masks: dict[tuple[int, Relation, Single, bool], tuple[Mask, Mask]] = field(default_factory=dict)
    _cells: dict[str, tuple[tuple[Diagram, Single], ...]] = field(default_factory=dict)

    # ---- conditions ----------------------------------------------------------------------------------------------

    def every(self, conditions: Iterable[Condition]) -> Region:
        """Return where all conditions hold, and where at least one does not."""
        parts = [self.of(condition) for condition in conditions]
        return Region(
            self.diagrams.every(part.holds for part in parts), self.diagrams.some(part.fails for part in parts)
        )

    def some(self, conditions: Iterable[Condition]) -> Region:
        """Return where at least one condition holds, and where none does."""
        parts = [self.of(condition) for condition in conditions]
        return Region(
            self.diagrams.some(part.holds for part in parts), self.diagrams.every(part.fails for part in parts)
        )

    def of(self, condition: Condition) -> Region:
        """Return where a condition holds and where it does not."""
        known = self._known.get(id(condition))
        if known is None:
            known = self._known[id(condition)] = (condition, self._of(condition))
        return known[1]

    def _of(self, condition: Condition) -> Region:
        match condition:
            case Comparison():
                return self._comparison(condition)
            case OneOf():
                return self.some(equalities(condition))
            case Every(parts):
                return self.every(parts)
            case Some(parts):
                return self.some(parts)
            case Negation(part):
                inner = self.of(part)
                return Region(inner.fails, inner.holds)
            case NamedCondition(_, inner_condition):
                return self.of(inner_condition)
            case Includes():
                return self._includes(condition)
            case Given(term):
                return Region(self.given([term]), self.diagrams.box({self.axes.of_term[term.name]: NOT_GIVEN}))
            case Holds(term):
                axis = self.axes.term_axis(term)
                masks = [
                    sum(1 << at for at, atom in enumerate(axis.atoms) if atom.value is truth) for truth in (True, False)
                ]
                index = self.axes.of_term[term.name]
                return Region(*(self.diagrams.box({index: mask}) for mask in masks))
            case _:
                assert_never(condition)

    def given(self, terms: Iterable[Term]) -> Diagram:
        """Return the systems for which all of some terms are given."""
        at = (self.axes.of_term[term.name] for term in terms)
        return self.diagrams.box({index: self.diagrams.whole[index] & ~NOT_GIVEN for index in at})

    def _includes(self, condition: Includes) -> Region:
        term = condition.term
        listed = [self.axes.of_choice[term.name, option] for option in condition.options]
        given = self.given([term])
        wanted = 1 << (NO if condition.inclusion is Inclusion.NONE else YES)
        boxes = [self.diagrams.box({index: wanted}) for index in listed]
        join = self.diagrams.some if condition.inclusion is Inclusion.ANY else self.diagrams.every
        holds = join(boxes)
        return Region(self.diagrams.both(given, holds), self.diagrams.without(given, holds))

    # ---- comparisons ---------------------------------------------------------------------------------------------

    def _comparison(self, comparison: Comparison) -> Region:
        if not is_plain(comparison):
            return self._order(comparison)
        for turned, one, other in (
            (False, comparison.left, comparison.right),
            (True, comparison.right, comparison.left),
        ):
            term = term_of(one)
            if term is not None and is_settled(other):
                return self._held(term, comparison, self.cases(other), turned)
        return self._settled(comparison)

    def _rules_for(self, comparison: Comparison) -> Rules:
        counts = comparison.left.kind.form is Form.COUNT and comparison.right.kind.form is Form.COUNT
        return EXACTLY if counts else self.rules

    def _held(
        self, term: Term, comparison: Comparison, cases: Sequence[tuple[Diagram, Single]], turned: bool
    ) -> Region:
        """Return the region of a term held against an amount with settled values."""
        index = self.axes.of_term[term.name]
        holds, fails = [], []
        for where, value in cases:
            masks = self._mask(index, comparison, value, turned)
            holds.append(self.diagrams.both(where, self.diagrams.box({index: masks[0]})))
            fails.append(self.diagrams.both(where, self.diagrams.box({index: masks[1]})))
        return Region(self.diagrams.some(holds), self.diagrams.some(fails))

    def _mask(self, index: int, comparison: Comparison, value: Single, turned: bool) -> tuple[Mask, Mask]:
        """Return the atoms of an axis on which a comparison with a value holds, and those on which it does not."""
        rules = self._rules_for(comparison)
        key = (index, comparison.relation, value, turned)
        if key not in self._masks:
            axis = self.axes.axes[index]
            assert isinstance(axis, TermAxis), axis
            holds = fails = 0
            for at, atom in enumerate(axis.atoms):
                if isinstance(atom.value, NotGiven):
                    continue
                left, right = (value, atom.value) if turned else (atom.value, value)
                if compare(left, comparison.relation, right, rules)[0]:
                    holds |= 1 << at
                else:
                    fails |= 1 << at
            self._masks[key] = (holds, fails)
        return self._masks[key]

    def _settled(self, comparison: Comparison) -> Region:
        """Return the region of two amounts that both have settled values."""
        rules = self._rules_for(comparison)
        found: tuple[list[Diagram], list[Diagram]] = ([], [])
        for where, left in self.cases(comparison.left):
            for other_where, right in self.cases(comparison.right):
                truth = compare(left, comparison.relation, right, rules)[0]
                found[0 if truth else 1].append(self.diagrams.both(where, other_where))
        return Region(self.diagrams.some(found[0]), self.diagrams.some(found[1]))

    def _order(self, comparison: Comparison) -> Region:
        """Return the region of two amounts of which diagrams know no more than which is larger."""
        index, mask = self.axes.order(comparison, self.rules.tolerance)
        known = self.diagrams.both(self.worked_out(comparison.left), self.worked_out(comparison.right))
        holds = self.diagrams.box({index: mask})
        return Region(self.diagrams.both(known, holds), self.diagrams.without(known, holds))

    # ---- amounts -------------------------------------------------------------------------------------------------

    def worked_out(self, amount: Amount) -> Diagram:
        """Return the systems for which an amount has a value: its terms are given, its tables cover them."""
        terms = [node.term for node in walk([amount]) if isinstance(node, TermValue)]
        tables = [self.covered(node.table) for node in walk([amount]) if isinstance(node, Lookup)]
        return self.diagrams.every([self.given(terms), *tables])

    def cases(self, amount: Amount) -> tuple[tuple[Diagram, Single], ...]:
        """Return the values that a settled amount can have, each with the systems for which it has it."""
        match amount:
            case Literal(value):
                return ((FULL, value),)
            case NamedAmount(_, inner):
                return self.cases(inner)
            case Lookup(table):
                return self.table_cases(table)
            case TermValue(term):
                index, atoms = self.axes.of_term[term.name], self.axes.term_axis(term).atoms
                return tuple(
                    (self.diagrams.box({index: 1 << at}), atom.value)
                    for at, atom in enumerate(atoms)
                    if not isinstance(atom.value, NotGiven)
                )
            case Arithmetic(_, left, right):
                parts = self._combined((left, right))
                worked = ((where, calculate(amount, *values)[0]) for where, values in parts)
            case Adjusted(thickness, stated, proposed, diameter):
                parts = self._combined((thickness, stated, proposed, diameter))
                worked = ((where, adjust(*values)[0]) for where, values in parts)
            case _:
                assert_never(amount)
        return tuple((where, value) for where, value in worked if value is not None)

    def _combined(self, amounts: Sequence[Amount]) -> list[tuple[Diagram, list[Single]]]:
        """Return all combinations of the values of amounts that some system can have."""
        found: list[tuple[Diagram, list[Single]]] = [(FULL, [])]
        for amount in amounts:
            joined = (
                (self.diagrams.both(where, other), [*values, value])
                for where, values in found
                for other, value in self.cases(amount)
            )
            found = [(where, values) for where, values in joined if where != EMPTY]
        return found

    # ---- tables --------------------------------------------------------------------------------------------------

    def table_cases(self, table: Table) -> tuple[tuple[Diagram, Single], ...]:
        """Return the values in a table's cells, each with the systems for which the table gives it."""
        if table.name not in self._cells:
            boxes: dict[Single, list[Diagram]] = {}
            across = self.bands(table.axes[1]) if len(table.axes) > 1 else (0,)
            for band, row in zip(self.bands(table.axes[0]), table.cells, strict=True):
                columns: dict[Single, Mask] = {}
                for mask, cell in zip(across, row, strict=True):
                    if cell is not None:
                        columns[cell.value] = columns.get(cell.value, 0) | mask
                for value, mask in columns.items():
                    boxes.setdefault(value, []).append(self.place(table, band, mask))
            self._cells[table.name] = tuple((self.diagrams.some(found), value) for value, found in boxes.items())
        return self._cells[table.name]

    def covered(self, table: Table) -> Diagram:
        """Return the systems for which a table has a cell."""
        return self.diagrams.some(where for where, _ in self.table_cases(table))

    def place(self, table: Table, row: Mask, column: Mask) -> Diagram:
        """Return the systems that a table looks up in some rows and columns, given as masks of its axes."""
        found = self.diagrams.box({self.axes.of_term[table.axes[0].term.name]: row})
        if len(table.axes) == 1:
            return found
        return self.diagrams.both(found, self.diagrams.box({self.axes.of_term[table.axes[1].term.name]: column}))

    def bands(self, axis: TableAxis) -> tuple[Mask, ...]:
        """Return the atoms that lie in each band of a table's axis."""
        atoms = self.axes.term_axis(axis.term).atoms
        given = [(1 << at, atom.value) for at, atom in enumerate(atoms) if not isinstance(atom.value, NotGiven)]
        return tuple(sum(bit for bit, value in given if lies_in(value, band)) for band in axis.bands)

    # ---- what is stated ------------------------------------------------------------------------------------------

    def stated(self, diagrams: Iterable[Diagram], except_axes: frozenset[int] = frozenset()) -> Diagram:
        """Return the systems for which every term that some diagrams ask for is given, but for those excepted."""
        asked = frozenset[int]().union(*(self.diagrams.axes(diagram) for diagram in diagrams))
        return self.diagrams.box(dict.fromkeys((asked & self.term_axes) - except_axes, ~NOT_GIVEN))

    @cached_property
    def term_axes(self) -> frozenset[int]:
        """The axes of terms."""
        return frozenset(self.axes.of_term.values())

    @cached_property
    def choice_axes(self) -> dict[str, tuple[int, ...]]:
        """The axes of the choices of each set."""
        found: dict[str, tuple[int, ...]] = {}
        for index, axis in enumerate(self.axes.axes):
            if isinstance(axis, ChoiceAxis):
                found[axis.term.name] = (*found.get(axis.term.name, ()), index)
        return found
