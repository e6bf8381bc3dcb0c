"""Amounts: what a clause compares, as operations on columns."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import assert_never

import numpy as np

from speccheck.judge.operations import NoResult, Rules, calculate
from speccheck.judge.vectorized.calculating import CALCULATIONS, adjusted, larger_size, smaller_size
from speccheck.judge.vectorized.expression_graph import ExpressionGraph, Masks
from speccheck.judge.vectorized.operand import CODED, Operand, StatedOperand, bare_number, codes_of, size_code
from speccheck.judge.vectorized.program import ALWAYS
from speccheck.judge.vectorized.tables import cell_places
from speccheck.judge.vectorized.terms import Terms
from speccheck.judge.vectorized.thresholds import UNIT_CODES, unit_code
from speccheck.language.core import (
    Adjusted,
    Amount,
    Arithmetic,
    CellSays,
    Literal,
    Lookup,
    NamedAmount,
    Operation,
    TermValue,
)
from speccheck.language.vocabulary.terms import Form, Kind, Term
from speccheck.language.vocabulary.values import Single
from speccheck.quantities import DIMENSIONS

Cells = tuple[Single | None, ...]


@dataclass(frozen=True, slots=True)
class Amounts:
    """Turns amounts into operations of a circuit."""

    circuit: ExpressionGraph
    rules: Rules
    terms: Terms

    def worth(self, node: Amount) -> Operand:
        """Return what an amount is to the program."""
        match node:
            case TermValue(term):
                return self.of_term(term)
            case Literal():
                return self._literal(node)
            case NamedAmount(_, meaning):
                return self.worth(meaning)
            case Lookup():
                return self._lookup(node)
            case Arithmetic():
                return self._arithmetic(node)
            case Adjusted():
                return self._adjusted(node)
            case _:
                assert_never(node)

    def of_term(self, term: Term) -> Operand:
        """Return what the lines state for a term, completed."""
        units = (lambda: self.terms.units(term)) if self._units_matter(term.kind) else None
        values = self.terms.values(term)
        return Operand(term.kind, self.terms.given(term), lambda: values, units=units, choices=codes_of(term))

    def _literal(self, node: Literal) -> Operand:
        value = node.value
        if node.kind.form is Form.SIZE:
            values = self._constant(size_code(value), np.int8)
        elif node.kind.form in CODED:
            values = _no_values
        else:
            values = self._constant(bare_number(value), np.float64)
        units = self._constant(unit_code(value), np.int8) if self._units_matter(node.kind) else None
        return Operand(node.kind, ALWAYS, values, StatedOperand((value,)), units)

    def _constant(self, value: float, dtype: type[np.generic]) -> Callable[[], int]:
        key = ("constant", repr(value), dtype.__name__)
        return lambda: self.circuit.result(key, lambda block: np.full(block.count, value, dtype))

    def _lookup(self, node: Lookup) -> Operand:
        table = node.table
        places = cell_places(self.circuit, table, [self.terms.values(axis.term) for axis in table.axes])
        literals = [None if place is None else table.cells[place[0]][place[1]] for place in places.cells]
        cells = tuple(None if literal is None else literal.value for literal in literals)
        return self._of_cells(node.kind, cells, places.result, codes_of(table.of) if table.of is not None else {})

    def cell_says(self, node: CellSays) -> Masks:
        """Return where the cell of a table says a word, and where another one does not."""
        table = node.table
        places = cell_places(self.circuit, table, [self.terms.values(axis.term) for axis in table.axes])
        says = [None if place is None else table.word(*place) is node.word for place in places.cells]
        true, false = (
            self._taken([one is truth for one in says], np.bool_, places.result)() for truth in (True, False)
        )
        return Masks(true, false)

    def _of_cells(self, kind: Kind, cells: Cells, place: int, choices: Mapping[str, int]) -> Operand:
        """Return the amount that is one of some stated values, that with the number which each row has at `place`."""
        if kind.form is Form.SIZE:
            values = self._taken([-1 if cell is None else size_code(cell) for cell in cells], np.int8, place)
        elif kind.form in CODED:
            values = self._taken([-1 if cell is None else choices[str(cell)] for cell in cells], np.int16, place)
        else:
            values = self._taken([np.nan if cell is None else bare_number(cell) for cell in cells], np.float64, place)
        given = self._taken([cell is not None for cell in cells], np.bool_, place)()
        units = None
        if self._units_matter(kind):
            units = self._taken([unit_code(cell) for cell in cells], np.int8, place)
        return Operand(kind, given, values, StatedOperand(cells, place), units, choices)

    def _taken(self, entries: Sequence[float], dtype: type[np.generic], place: int) -> Callable[[], int]:
        """Return the result that has, for each row, the entry with the number that the row has at `place`."""
        listed = np.array(entries, dtype)
        key = ("taken", dtype.__name__, listed.tobytes())
        return lambda: self.circuit.result(key, lambda _, places: listed.take(places, mode="clip"), place)

    def _arithmetic(self, node: Arithmetic) -> Operand:
        left, right = self.worth(node.left), self.worth(node.right)
        folded = self._folded(node, left.stated, right.stated)
        if folded is not None:
            return folded
        inputs = (left.values(), right.values())
        if node.kind.form is Form.SIZE:
            sizes = larger_size if node.operation is Operation.LARGER else smaller_size
            values = self.circuit.result(("sizes", node.operation), lambda _, one, other: sizes(one, other), *inputs)
        else:
            numbers = CALCULATIONS[node.operation]
            values = self.circuit.result(node.operation, lambda _, one, other: numbers(one, other), *inputs)
        units = self._result_units(node, left, right) if self._units_matter(node.kind) else None
        return Operand(node.kind, self.terms.known(node.kind.form, values), lambda: values, units=units)

    def _folded(self, node: Arithmetic, left: StatedOperand | None, right: StatedOperand | None) -> Operand | None:
        """Return what comes of values that stand in the ruleset, calculated once for each; None for any others."""
        if left is None or right is None or (left.place != right.place and None not in (left.place, right.place)):
            return None
        place = left.place if left.place is not None else right.place
        count = max(len(left.cells), len(right.cells))
        pairs = zip(left.cells * (count // len(left.cells)), right.cells * (count // len(right.cells)), strict=True)
        cells = tuple(None if one is None or other is None else _value_of(node, one, other) for one, other in pairs)
        if place is not None:
            return self._of_cells(node.kind, cells, place, {})
        return None if cells[0] is None else self._literal(Literal(cells[0], node.kind))

    def _result_units(self, node: Arithmetic, left: Operand, right: Operand) -> Callable[[], int]:
        """Return the units of results: of the operand taken, of the first one of that dimension, else usual."""
        if node.operation in (Operation.LARGER, Operation.SMALLER):
            assert left.units is not None
            assert right.units is not None
            larger = node.operation is Operation.LARGER
            inputs = (left.values(), right.values(), left.units(), right.units())
            return lambda: self.circuit.result(
                ("taken units", larger),
                lambda _, one, other, first, second: np.where((one >= other) == larger, first, second),
                *inputs,
            )
        for operand in (left, right):
            if operand.units is not None:
                return operand.units
        return self._constant(UNIT_CODES.get(DIMENSIONS[node.kind.dimension].inch_pound, 0), np.int8)

    def _adjusted(self, node: Adjusted) -> Operand:
        parts = [self.worth(part) for part in (node.thickness, node.stated, node.proposed, node.diameter)]
        values = self.circuit.result(
            "adjusted", lambda _, *columns: adjusted(*columns), *(part.values() for part in parts)
        )
        given = self.terms.known(node.kind.form, values)
        return Operand(node.kind, given, lambda: values, units=parts[0].units)

    def _units_matter(self, kind: Kind) -> bool:
        return self.rules.nominal_metric and kind.dimension == "length"


def _no_values() -> int:
    raise AssertionError("a choice or a text that a clause states is compared by its code")


def _value_of(node: Arithmetic, left: Single, right: Single) -> Single | None:
    found = calculate(node, left, right)
    return None if isinstance(found, NoResult) else found
