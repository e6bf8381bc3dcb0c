"""Amounts as regions: for which systems an amount has a value, which values it can have, which cell a table gives.

Settled amounts (stated, looked up, worked out from such) have a list of values, each with the systems that have it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import assert_never

from speccheck.judge.lookup import lies_in
from speccheck.judge.operations import NoResult, adjust, calculate
from speccheck.language.core import Adjusted, Amount, Arithmetic, Literal, Lookup, NamedAmount, Table, TermValue
from speccheck.language.core import Axis as TableAxis
from speccheck.language.core.walking import plain_terms_of, tables_of
from speccheck.language.vocabulary.terms import Term
from speccheck.language.vocabulary.values import NotGiven, Single
from speccheck.proofread.decision_diagrams import EMPTY, FULL, Diagram, Diagrams, Mask
from speccheck.proofread.variables import Variables

NOT_GIVEN = 1


@dataclass
class AmountRegions:
    """The regions of amounts, over given axes."""

    axes: Variables
    diagrams: Diagrams
    _cells: dict[str, tuple[tuple[Diagram, Single], ...]] = field(default_factory=dict, init=False)

    def given(self, terms: Iterable[Term]) -> Diagram:
        """Return the systems for which all of some terms are given."""
        at = (self.axes.of_term[term.name] for term in terms)
        return self.diagrams.box({index: self.diagrams.whole[index] & ~NOT_GIVEN for index in at})

    # ---- amounts -------------------------------------------------------------------------------------------------

    def worked_out(self, amount: Amount) -> Diagram:
        """Return the systems for which an amount has a value: its terms are given, its tables cover them."""
        tables = [self.covered(table) for table in tables_of([amount])]
        return self.diagrams.every([self.given(plain_terms_of([amount])), *tables])

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
                worked = ((where, calculate(amount, *values)) for where, values in parts)
            case Adjusted(thickness, stated, proposed, diameter):
                parts = self._combined((thickness, stated, proposed, diameter))
                worked = ((where, adjust(*values)) for where, values in parts)
            case _:
                assert_never(amount)
        return tuple((where, value) for where, value in worked if not isinstance(value, NoResult))

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
            across = (0,) if table.across is None else self.bands(table.across)
            for row, cells in enumerate(table.cells):
                columns: dict[Single, Mask] = {}
                for mask, cell in zip(across, cells, strict=True):
                    if cell is not None:
                        columns[cell.value] = columns.get(cell.value, 0) | mask
                for value, mask in columns.items():
                    boxes.setdefault(value, []).append(self._row_box(table, row, mask))
            self._cells[table.name] = tuple((self.diagrams.some(found), value) for value, found in boxes.items())
        return self._cells[table.name]

    def covered(self, table: Table) -> Diagram:
        """Return the systems for which a table has a cell."""
        return self.diagrams.some(where for where, _ in self.table_cases(table))

    def cell_box(self, table: Table, row: int, column: int) -> Diagram:
        """Return the systems that a table looks up in one cell."""
        return self._row_box(table, row, 0 if table.across is None else self.bands(table.across)[column])

    def _row_box(self, table: Table, row: int, columns: Mask) -> Diagram:
        """Return the systems that a table looks up in one row, and in columns given as a mask of their axis."""
        positions = table.positions(row, 0)
        masks = [(axis.term, self.bands(axis)[at]) for axis, at in zip(table.down, positions, strict=False)]
        masks += [] if table.across is None else [(table.across.term, columns)]
        return self.diagrams.every(self.diagrams.box({self.axes.of_term[term.name]: mask}) for term, mask in masks)

    def bands(self, axis: TableAxis) -> tuple[Mask, ...]:
        """Return the atoms that lie in each band of a table's axis."""
        atoms = self.axes.term_axis(axis.term).atoms
        given = [(1 << at, atom.value) for at, atom in enumerate(atoms) if not isinstance(atom.value, NotGiven)]
        return tuple(sum(bit for bit, value in given if lies_in(value, band)) for band in axis.bands)
