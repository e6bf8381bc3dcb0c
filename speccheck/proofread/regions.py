"""Regions: for which systems a condition holds, and for which it does not, as decision diagrams.

A condition has two regions, because a third part of the systems leaves it open: strong Kleene logic (see
`speccheck.judge.logic`) written as sets. What a single term is checked against is settled by the judge's own
comparison, tried on every atom of the term's axis, so that the two cannot differ.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple, assert_never

from speccheck.judge.operations import EXACTLY, Rules, compare
from speccheck.language.core import (
    AskedIf,
    CellSays,
    CellWord,
    Comparison,
    Condition,
    Every,
    Given,
    Holds,
    Includes,
    Inclusion,
    NamedCondition,
    Negation,
    OneOf,
    OrEqual,
    Readings,
    Relation,
    Some,
    Table,
)
from speccheck.language.core.walking import equalities, plain
from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import NotGiven, Single
from speccheck.proofread.amount_regions import NOT_GIVEN, AmountRegions
from speccheck.proofread.decision_diagrams import EMPTY, Diagram, Mask
from speccheck.proofread.finite_amounts import is_plain, is_settled, term_of
from speccheck.proofread.variables import NO, YES, ChoiceAxis, TermAxis


class Region(NamedTuple):
    """The systems for which something holds and those for which it does not; all others leave it open."""

    holds: Diagram
    fails: Diagram


@dataclass
class Regions(AmountRegions):
    """The regions of conditions, over given axes and by the comparisons of one ruleset."""

    rules: Rules
    _known: dict[int, tuple[Condition, Region]] = field(default_factory=dict, init=False)
    _masks: dict[tuple[int, Relation, Single, bool], tuple[Mask, Mask]] = field(default_factory=dict, init=False)

    # ---- conditions ----------------------------------------------------------------------------------------------

    def every(self, conditions: Iterable[Condition]) -> Region:
        """Return where all conditions hold, and where at least one does not."""
        parts = [self.of(condition) for condition in conditions]
        if len(parts) == 1:
            return parts[0]
        return Region(
            self.diagrams.every(part.holds for part in parts), self.diagrams.some(part.fails for part in parts)
        )

    def some(self, conditions: Iterable[Condition]) -> Region:
        """Return where at least one condition holds, and where none does."""
        parts = [self.of(condition) for condition in conditions]
        if len(parts) == 1:
            return parts[0]
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
            case Comparison(_, Relation() as relation):
                return self._comparison(condition, relation)
            case Comparison() | AskedIf():
                return self.of(plain(condition))
            case OneOf():
                return self.some(equalities(condition))
            case Every(parts):
                return self.every(parts)
            case Some(parts):
                return self.some(parts)
            case Negation(part):
                inner = self.of(part)
                return Region(inner.fails, inner.holds)
            case OrEqual(part):
                return Region(self.of(part).holds, EMPTY)
            case Readings(parts):
                return Region(self.every(parts).holds, self.some(parts).fails)
            case NamedCondition(_, inner_condition):
                return self.of(inner_condition)
            case Includes():
                return self._includes(condition)
            case Given(term):
                return Region(self.given([term]), self.diagrams.box({self.axes.of_term[term.name]: NOT_GIVEN}))
            case CellSays(table, word):
                return self._cell_says(table, word)
            case Holds(term):
                axis = self.axes.term_axis(term)
                masks = [
                    sum(1 << at for at, atom in enumerate(axis.atoms) if atom.value is truth) for truth in (True, False)
                ]
                index = self.axes.of_term[term.name]
                return Region(*(self.diagrams.box({index: mask}) for mask in masks))
            case _:
                assert_never(condition)

    def _cell_says(self, table: Table, word: CellWord) -> Region:
        """Return where the cell of a table says a word, and where another one does not."""
        boxes: dict[bool, list[Diagram]] = {True: [], False: []}
        for row, cells in enumerate(table.cells):
            for column in range(len(cells)):
                boxes[table.word(row, column) is word].append(self.cell_box(table, row, column))
        return Region(self.diagrams.some(boxes[True]), self.diagrams.some(boxes[False]))

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

    def _comparison(self, comparison: Comparison, relation: Relation) -> Region:
        if not is_plain(comparison):
            return self._order(comparison, relation)
        for turned, one, other in (
            (False, comparison.left, comparison.right),
            (True, comparison.right, comparison.left),
        ):
            term = term_of(one)
            if term is not None and is_settled(other):
                return self._held(term, comparison, relation, self.cases(other), turned)
        return self._settled(comparison, relation)

    def _rules_for(self, comparison: Comparison) -> Rules:
        counts = comparison.left.kind.form is Form.COUNT and comparison.right.kind.form is Form.COUNT
        return EXACTLY if counts else self.rules

    def _held(
        self,
        term: Term,
        comparison: Comparison,
        relation: Relation,
        cases: Sequence[tuple[Diagram, Single]],
        turned: bool,
    ) -> Region:
        """Return the region of a term checked against an amount with settled values."""
        index = self.axes.of_term[term.name]
        holds, fails = [], []
        for where, value in cases:
            masks = self._mask(index, comparison, relation, value, turned)
            holds.append(self.diagrams.both(where, self.diagrams.box({index: masks[0]})))
            fails.append(self.diagrams.both(where, self.diagrams.box({index: masks[1]})))
        return Region(self.diagrams.some(holds), self.diagrams.some(fails))

    def _mask(
        self, index: int, comparison: Comparison, relation: Relation, value: Single, turned: bool
    ) -> tuple[Mask, Mask]:
        """Return the atoms of an axis on which a comparison with a value holds, and those on which it does not."""
        rules = self._rules_for(comparison)
        key = (index, relation, value, turned)
        if key not in self._masks:
            axis = self.axes.axes[index]
            assert isinstance(axis, TermAxis), axis
            holds = fails = 0
            for at, atom in enumerate(axis.atoms):
                if isinstance(atom.value, NotGiven):
                    continue
                left, right = (value, atom.value) if turned else (atom.value, value)
                if compare(left, relation, right, rules)[0]:
                    holds |= 1 << at
                else:
                    fails |= 1 << at
            self._masks[key] = (holds, fails)
        return self._masks[key]

    def _settled(self, comparison: Comparison, relation: Relation) -> Region:
        """Return the region of two amounts that both have settled values."""
        rules = self._rules_for(comparison)
        found: tuple[list[Diagram], list[Diagram]] = ([], [])
        for where, left in self.cases(comparison.left):
            for other_where, right in self.cases(comparison.right):
                truth = compare(left, relation, right, rules)[0]
                found[0 if truth else 1].append(self.diagrams.both(where, other_where))
        return Region(self.diagrams.some(found[0]), self.diagrams.some(found[1]))

    def _order(self, comparison: Comparison, relation: Relation) -> Region:
        """Return the region of two amounts of which diagrams know no more than which is larger."""
        index, mask = self.axes.order(comparison, relation, self.rules.tolerance)
        known = self.diagrams.both(self.worked_out(comparison.left), self.worked_out(comparison.right))
        holds = self.diagrams.box({index: mask})
        return Region(self.diagrams.both(known, holds), self.diagrams.without(known, holds))

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
