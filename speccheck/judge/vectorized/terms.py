"""Terms: the column of a term, completed with what the ruleset assumes and with what is worked out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

import numpy as np
from numpy.typing import NDArray

from speccheck.judge.computing import inputs_of
from speccheck.judge.operations import Rules
from speccheck.judge.vectorized.column import CodeColumn, NumberColumn, Numbers, SetColumn
from speccheck.judge.vectorized.expression_graph import ExpressionGraph
from speccheck.judge.vectorized.operand import CODED, bare_number, codes_of, size_code
from speccheck.judge.vectorized.physics import is_worked_out, worked_out
from speccheck.judge.vectorized.program import RowBlock
from speccheck.judge.vectorized.thresholds import UNIT_CODES, unit_code
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.language.vocabulary.values import Single


@dataclass(frozen=True, slots=True)
class Assumed:
    """A value that stands where a line states none, and the result that says where its conditions hold."""

    value: Single
    holds: int


@dataclass(frozen=True, slots=True)
class Terms:
    """Turns terms into operations of a circuit: as stated, or completed as `speccheck.judge.completing` does it.

    With `completing` False terms are as the lines state them.
    """

    circuit: ExpressionGraph
    rules: Rules
    vocabulary: Vocabulary
    assumed: Mapping[str, tuple[Assumed, ...]] = field(default_factory=dict)
    completing: bool = True

    def values(self, term: Term) -> int:
        """Return the result that holds the numbers or the codes of a term; for a set its column."""
        if not (term.computed and self.completing):
            return self._with_assumptions(term)
        if not is_worked_out(term):
            return self._nothing()
        stated, worked = self._with_assumptions(term), self._worked_out(term)
        return self.circuit.result("worked or stated", _worked_or_stated, worked, stated)

    def given(self, term: Term) -> int:
        """Return the result that says where a term is given."""
        return self.known(term.kind.form, self.values(term))

    def known(self, form: Form, values: int) -> int:
        """Return the result that says where values are known."""
        if form is Form.SET:
            return self.circuit.result("set known", lambda _, column: column.given, values)
        if form in CODED:
            return self.circuit.result("code known", lambda _, codes: codes >= 0, values)
        return self.circuit.result("number known", lambda _, numbers: numbers == numbers, values)

    def units(self, term: Term) -> int:
        """Return the result that holds the units of a length."""
        found = self.circuit.result(("units", term.name), lambda block: _units(block, term.name))
        for number, (one, stands) in enumerate(self._standing(term)):
            code = np.int8(unit_code(one.value))
            found = self.circuit.result(
                ("assumed unit", term.name, number),
                lambda _, units, rows, code=code: np.where(rows, code, units),
                found,
                stands,
            )
        if not (term.computed and self.completing and is_worked_out(term)):
            return found
        usual = np.int8(UNIT_CODES.get(term.metric if self.rules.system == "metric" else term.inch_pound, 0))
        return self.circuit.result(
            ("worked unit", usual),
            lambda _, worked, units: np.where(np.isnan(worked), units, usual),
            self._worked_out(term),
            found,
        )

    def _nothing(self) -> int:
        return self.circuit.result("nothing", lambda block: np.full(block.count, np.nan))

    def _stated(self, term: Term) -> int:
        """Return the result that holds what lines state; for a term that is only computed, that does not stand."""
        if self.completing and term.only_computed:
            return self._nothing()
        return self.circuit.result(("values", term.name), lambda block: _column_values(block, term.name))

    def _with_assumptions(self, term: Term) -> int:
        found = self._stated(term)
        for one, stands in self._standing(term):
            if term.kind.form is Form.TEXT:
                found = self._assumed_text(str(one.value), found, stands)
                continue
            value = self._column_value(one.value, term)
            found = self.circuit.result(
                ("assumed", repr(value)),
                lambda _, values, rows, value=value: np.where(rows, value, values),
                found,
                stands,
            )
        return found

    def _assumed_text(self, text: str, found: int, stands: int) -> int:
        """Return a column of texts with an assumed one where it stands; its code is that of the columns at hand."""
        return self.circuit.result(
            ("assumed text", text),
            lambda block, values, rows: np.where(rows, block.columns.texts[text], values),
            found,
            stands,
        )

    def _standing(self, term: Term) -> list[tuple[Assumed, int]]:
        """Return what is assumed of a term, and where each assumption stands: the first one whose conditions hold."""
        found: list[tuple[Assumed, int]] = []
        given = self.known(term.kind.form, self._stated(term))
        for one in self.assumed.get(term.name, ()):
            open_rows = self.circuit.result("not", lambda _, flags: ~flags, given)
            stands = self.circuit.both(open_rows, one.holds)
            found.append((one, stands))
            given = self.circuit.either(given, stands)
        return found

    def _column_value(self, value: Single, term: Term) -> Any:
        """Return an assumed value as it stands in the column of its term."""
        if term.kind.form is Form.SIZE:
            return np.int8(size_code(value))
        if term.kind.form is Form.YES_NO:
            return np.int8(bool(value))
        if term.kind.form is Form.CHOICE:
            return np.int16(codes_of(term)[str(value)])
        return bare_number(value)

    def _worked_out(self, term: Term) -> int:
        """Return the result that holds what is worked out for a term; what is worked out does not go into it again."""
        inputs = [one for one in inputs_of([term], self.vocabulary) if one.name != term.name]
        columns = [self._with_assumptions(one) for one in inputs]

        def operation(block: RowBlock, *values: Any) -> Numbers:
            given = {one.name: (one, column) for one, column in zip(inputs, values, strict=True)}
            return worked_out(term, given, block, self.rules)

        return self.circuit.result(("worked out", term.name), operation, *columns)


def _worked_or_stated(_: RowBlock, worked: Numbers, stated: Numbers) -> Numbers:
    return np.where(np.isnan(worked), stated, worked)


def _column_values(block: RowBlock, name: str) -> Any:
    """Return the numbers or the codes of a column; a column of sets as it is."""
    match block.column(name):
        case NumberColumn(values):
            return values
        case CodeColumn(codes):
            return codes
        case SetColumn() as column:
            return column


def _units(block: RowBlock, name: str) -> NDArray[np.int8]:
    column = block.column(name)
    assert isinstance(column, NumberColumn), name
    assert column.units is not None, name
    return column.units
