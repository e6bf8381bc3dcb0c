"""The sheets of the workbook: the matrix, and the lists that a reviewer filters, pastes into a reply or sends on."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

from speccheck.judge.judgement import Verdict
from speccheck.language.diagnostics import in_order
from speccheck.report import wording
from speccheck.report.line_words import place_words, service, shown, stated_terms
from speccheck.report.requests import requests, unchecked_sentence
from speccheck.report.workbook.cells import (
    CLAUSE_HEADER,
    HEADER,
    SUBTITLE,
    TEXT,
    TITLE,
    finish,
    set_widths,
)
from speccheck.report.workbook.streaming import StreamedSheet, needed_height
from speccheck.review.matrix import Matrix, MatrixFinding
from speccheck.review.outcome import outcome_of

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

    from speccheck.report.sections import ReportTable

HEADER_ROW = 4
_HEADER_HEIGHT = 150.0  # points
_LINE_WIDTH, _DATUM_WIDTH, _MARK_WIDTH = 14.0, 18.0, 6.0  # characters
_FROZEN_TERMS = 2  # the service and the nominal size, which tell one line from another, stay in sight

FINDING_HEADINGS = (
    ("Line", 12.0),
    ("Place in the schedule", 16.0),
    ("Service", 18.0),
    ("Clause", 10.0),
    ("Clause title", 24.0),
    ("Verdict", 16.0),
    ("Reason", 42.0),
    ("At", 12.0),
    ("Required wording", 42.0),
    ("Source", 24.0),
    ("Confidence", 14.0),
    ("Reviewer's note", 30.0),
)
_ADVICE_HEADINGS = tuple(pair for pair in FINDING_HEADINGS if pair[0] != "At")
_MISSING_HEADINGS = (
    ("Line", 12.0),
    ("Place in the schedule", 16.0),
    ("Service", 18.0),
    ("Datum", 28.0),
    ("The schedule says", 30.0),
    ("Clauses that wait", 30.0),
    ("Contractor's answer", 36.0),
)
_READING_HEADINGS = (
    ("What", 14.0),
    ("Place", 20.0),
    ("As written", 48.0),
    ("Understood as", 26.0),
    ("Unit", 10.0),
    ("Remark", 48.0),
)


def fill_matrix(sheet: StreamedSheet, matrix: Matrix) -> None:
    """Fill the sheet "Matrix": the lines' names and data on the left, then a column of marks for each clause.

    Of the data only those that tell one line from another are unfolded, so that the marks stand close to them.
    """
    terms = [term.name for term in stated_terms(matrix)]
    _fill_heading(sheet, matrix, folded=len(terms) > _FROZEN_TERMS)
    clauses = [f"{wording.clause_label(clause)} {clause.title}" for clause in matrix.ruleset.clauses]
    headings = ["Line", *terms]
    sheet.add([*headings, *clauses], [HEADER] * len(headings) + [CLAUSE_HEADER] * len(clauses), _HEADER_HEIGHT)
    _fill_rows(sheet, matrix, terms)
    _lay_out(sheet.frame, matrix, len(terms))


def _fill_heading(sheet: StreamedSheet, matrix: Matrix, *, folded: bool) -> None:
    """Write what stands above the header row: what is judged by what, the outcome, what the marks mean."""
    result = outcome_of(matrix)
    meanings = "; ".join(f"{short} {meaning}" for short, meaning in wording.LEGEND)
    unfold = ". More data are folded before the first clause: press + above the columns." if folded else "."
    sheet.add([f"{wording.ruleset_heading(matrix.ruleset)}: {matrix.schedule.name}"], [TITLE])
    sheet.add([" ".join((result.heading, *result.details))], [SUBTITLE])
    sheet.add([f"{meanings}{unfold}"], [SUBTITLE])


def _fill_rows(sheet: StreamedSheet, matrix: Matrix, terms: Sequence[str]) -> None:
    """Write the rows of the matrix below its header."""
    before = [HEADER, *[TEXT] * len(terms)]
    for line, cells in zip(matrix.schedule.lines, matrix.cells, strict=True):
        data = [shown(line.data.get(name)) for name in terms]
        unfolded = data[:_FROZEN_TERMS]
        height = needed_height([line.name, *unfolded], [_LINE_WIDTH, *(_DATUM_WIDTH for _ in unfolded)])
        marks = [wording.mark(cell) for cell in cells]
        verdicts = [str(cell.verdict if cell.mandatory else Verdict.COMPLIES) for cell in cells]
        sheet.add([line.name, *data, *marks], [*before, *verdicts], height)


def _lay_out(sheet: Worksheet, matrix: Matrix, terms: int) -> None:
    """Set widths, folds, frozen panes and print for a matrix with so many columns of data."""
    from openpyxl.utils import get_column_letter

    clauses, frozen = len(matrix.ruleset.clauses), min(_FROZEN_TERMS, terms)
    set_widths(sheet, [_LINE_WIDTH, *[_DATUM_WIDTH] * terms, *[_MARK_WIDTH] * clauses])
    for column in range(frozen + 2, terms + 2):
        folded = sheet.column_dimensions[get_column_letter(column)]
        folded.outlineLevel, folded.hidden = 1, True
    sheet.freeze_panes = f"{get_column_letter(frozen + 2)}{HEADER_ROW + 1}"
    last_row = HEADER_ROW + len(matrix.schedule.lines)
    finish(sheet, header_row=HEADER_ROW, last_row=last_row, last_column=1 + terms + clauses)
    sheet.print_title_cols = "A:A"


def fill_findings(sheet: StreamedSheet, matrix: Matrix) -> None:
    """Fill the sheet "Findings": one row a finding, those that do not comply first."""
    sheet.add_table(FINDING_HEADINGS, finding_rows(matrix))


def finding_rows(matrix: Matrix) -> Iterator[tuple[str, ...]]:
    """Yield one row for each finding, as `FINDING_HEADINGS` names the columns; the last one is blank for a note."""
    for found in matrix.findings(Verdict.FAILS, Verdict.CANNOT_TELL):
        row = _finding_row(found, str(found.cell.verdict), found.cell.reason)
        yield (*row[:7], "; ".join(found.cell.at), *row[7:])


def fill_advice(sheet: StreamedSheet, matrix: Matrix) -> None:
    """Fill the sheet "Recommendations": what is advised and not followed, or cannot be determined."""
    rows = (
        _finding_row(found, str(found.cell.advice), found.cell.advice_reason or found.cell.reason)
        for found in matrix.advice
    )
    sheet.add_table(_ADVICE_HEADINGS, rows)


def _finding_row(found: MatrixFinding, verdict: str, reason: str) -> tuple[str, ...]:
    """Return the row of a finding without the column "At"."""
    clause, line = found.clause, found.line
    return (
        line.name,
        place_words(line.place),
        service(line),
        wording.clause_label(clause),
        clause.title,
        verdict,
        reason,
        clause.wording,
        "; ".join(source.text for source in clause.sources),
        "; ".join(str(source.confidence) or "not stated" for source in clause.sources),
        "",
    )


def fill_missing(sheet: StreamedSheet, matrix: Matrix) -> None:
    """Fill the sheet "Information needed": what to ask the contractor for, with a column for the answer."""
    rows = (
        (
            request.line.name,
            place_words(request.line.place),
            service(request.line),
            request.term,
            request.says,
            ", ".join(wording.clause_label(clause) for clause in request.clauses),
            "",
        )
        for request in requests(matrix)
    )
    sheet.add_table(_MISSING_HEADINGS, rows)


def fill_reading(sheet: StreamedSheet, matrix: Matrix) -> None:
    """Fill the sheet "How it was read": each column, each diagnostic, and the text that belongs to no line."""
    sheet.add_table(_READING_HEADINGS, _reading_rows(matrix))


def _reading_rows(matrix: Matrix) -> Iterable[tuple[str, ...]]:
    schedule = matrix.schedule
    for column in schedule.columns:
        yield ("column", place_words(column.place), column.header, column.term or "no term", column.unit, column.note)
    for found in in_order(schedule.diagnostics):
        what = f"{found.severity} {found.code}"
        yield (what, place_words(found.place), found.message, "", "", found.help)
    for remark in schedule.remarks:
        yield ("remark", place_words(remark.place), remark.text, "", "", "belongs to no line")


def fill_section(section: ReportTable, sheet: StreamedSheet, matrix: Matrix) -> None:
    """Fill a sheet with a section of what a review found beside the verdicts, with a column for the reviewer's note."""
    longest = (max((len(row[column]) for row in section.rows), default=0) for column in range(len(section.headings)))
    widths = (min(max(length, len(heading)) + 2, 60) for length, heading in zip(longest, section.headings, strict=True))
    headings = (*zip(section.headings, map(float, widths), strict=True), ("Reviewer's note", 30.0))
    sheet.add_table(headings, ((*row, "") for row in section.rows))


def fill_cautions(sheet: StreamedSheet, matrix: Matrix) -> None:
    """Fill the sheet "Cautions"."""
    told = filter(None, (*wording.cautions(matrix.ruleset), unchecked_sentence(matrix.ruleset)))
    sheet.add_table((("Cautions", 120.0),), ((caution,) for caution in told))
    sheet.frame.freeze_panes = "A2"
