"""Examples of a ruleset judged: does each come out as it says, and which clauses and table cells does none touch."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from speccheck.judge.cell import Cell
from speccheck.judge.explain.causes import place_in
from speccheck.judge.judgement import BareVerdict, Verdict
from speccheck.judge.judging import Judge
from speccheck.judge.lookup import TableUse
from speccheck.language.core import Clause, Example, Expected, Ruleset
from speccheck.language.core.walking import conditions_of, tables_of
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.messages.tables import (
    EXAMPLE_COMES_OUT_OTHERWISE,
    NO_EXAMPLE_LOOKS_UP_CELL,
    NO_EXAMPLE_OF_CLAUSE,
)
from speccheck.language.vocabulary.values import BareUnits, read_value
from speccheck.quantities import Misread
from speccheck.schedule.lines import Datum, Line

EXPECTED_VERDICTS = {
    Expected.COMPLIES: Verdict.COMPLIES,
    Expected.COMPLIES_AGAINST_ADVICE: Verdict.COMPLIES,
    Expected.FAILS: Verdict.FAILS,
    Expected.DOES_NOT_APPLY: Verdict.NOT_APPLICABLE,
    Expected.NOT_CHECKED: Verdict.NOT_CHECKED,
    Expected.CANNOT_TELL: Verdict.CANNOT_TELL,
}


@dataclass(frozen=True, slots=True)
class ExampleResult:
    """An example of a clause and the cell that the judge gives for it."""

    clause: Clause
    example: Example
    cell: Cell
    right: bool


@dataclass(frozen=True, slots=True)
class Rehearsal:
    """All examples of a ruleset judged; the clauses without any; the table cells looked up and not looked up."""

    results: tuple[ExampleResult, ...]
    clauses: int
    without_example: tuple[Clause, ...]
    cells: int
    untouched: tuple[TableUse, ...]
    diagnostics: tuple[Diagnostic, ...]


def rehearse(ruleset: Ruleset) -> Rehearsal:
    """Judge every example of the ruleset's own clauses, each by its own clause.

    Inherited clauses are rehearsed with the ruleset that they come from: their examples count on its tolerance, its
    units and its assumptions, and this one may have others.
    """
    judge = Judge(ruleset)
    results: list[ExampleResult] = []
    touched: set[tuple[str, int, int]] = set()
    own = [(number, clause) for number, clause in enumerate(ruleset.clauses) if clause.ruleset == ruleset.name]
    for number, clause in own:
        for example in clause.examples:
            line = example_line(example, ruleset.units)
            cell = judge.cell(number, line)
            results.append(ExampleResult(clause, example, cell, comes_out(example, cell)))
            uses = (use for one in judge.judgements(clause, line) for use in one.uses)
            touched.update((use.table.name, use.row, use.column) for use in uses)
    cells = _table_cells([clause for _, clause in own], ruleset.name)
    untouched = tuple(use for use in cells if (use.table.name, use.row, use.column) not in touched)
    without = tuple(clause for _, clause in own if not clause.examples)
    diagnostics = (
        *(_wrong(result) for result in results if not result.right),
        *(_bare_clause(clause) for clause in without),
        *(_untouched(use) for use in untouched),
    )
    return Rehearsal(tuple(results), len(own), without, len(cells), untouched, diagnostics)


def example_line(example: Example, system: str) -> Line:
    """Return the line that an example describes; its values are read as those of a schedule are."""
    data: dict[str, Datum] = {}
    for assignment in example.data:
        value = read_value(assignment.text, assignment.term, BareUnits(system=system))
        assert not isinstance(value, Misread), value
        data[assignment.term.name] = Datum(value, assignment.text, assignment.place)
    return Line(example.title, data, example.place)


def comes_out(example: Example, cell: BareVerdict) -> bool:
    """Say whether a cell is what the example expects, advice included."""
    if cell.verdict is not EXPECTED_VERDICTS[example.expected]:
        return False
    if not cell.mandatory or example.expected not in (Expected.COMPLIES, Expected.COMPLIES_AGAINST_ADVICE):
        return True
    return (cell.advice is Verdict.FAILS) is (example.expected is Expected.COMPLIES_AGAINST_ADVICE)


def _table_cells(clauses: Sequence[Clause], ruleset: str) -> tuple[TableUse, ...]:
    """Return every cell, dashes left out, of the ruleset's own tables that the clauses look up."""
    tables = tables_of(condition for clause in clauses for condition in conditions_of(clause))
    return tuple(
        TableUse(table, row, column)
        for table in tables
        if table.ruleset == ruleset
        for row, cells in enumerate(table.cells)
        for column, cell in enumerate(cells)
        if cell is not None or table.word(row, column)
    )


def _wrong(result: ExampleResult) -> Diagnostic:
    verdict, reason = result.cell.verdict.value, result.cell.reason
    if result.cell.verdict is EXPECTED_VERDICTS[result.example.expected]:
        verdict += " against advice" if result.cell.advice is Verdict.FAILS else " with the advice followed"
        reason = result.cell.advice_reason
    return EXAMPLE_COMES_OUT_OTHERWISE.at(
        result.example.place,
        example=result.example.title,
        clause=result.clause.label,
        expected=result.example.expected,
        verdict=verdict,
        reason=reason,
    )


def _bare_clause(clause: Clause) -> Diagnostic:
    return NO_EXAMPLE_OF_CLAUSE.at(clause.place, clause=clause.label)


def _untouched(use: TableUse) -> Diagnostic:
    return NO_EXAMPLE_LOOKS_UP_CELL.at(use.table.place, table=use.table.name, place_in=place_in(use))
