"""The Markdown report (CommonMark with tables), for wikis and letters, with its lists and tables; all text of others
is escaped.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from speccheck.judge.judgement import Verdict
from speccheck.report import wording
from speccheck.report.doubts import doubts, remarks_by_row
from speccheck.report.escaping import markdown_safe
from speccheck.report.html.findings import ClauseFindings, advice_by_clause, findings_by_clause
from speccheck.report.line_words import brief, line_names, place_words
from speccheck.report.requests import requests, requests_by_term, unchecked_sections
from speccheck.report.sections import ReportTable
from speccheck.review.matrix import Matrix
from speccheck.review.outcome import outcome_of

if TYPE_CHECKING:
    from speccheck.report.sections import ReportTable


def bullets(texts: Iterable[str]) -> tuple[str, ...]:
    """Return one list, or nothing if there are no texts."""
    items = [f"- {markdown_safe(text)}" for text in texts]
    return ("\n".join(items),) if items else ()


def table(headings: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Return a table; its headings come escaped."""
    lines = [headings, ["---"] * len(headings), *([markdown_safe(text) for text in row] for row in rows)]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)


def render_markdown(matrix: Matrix) -> str:
    """Return the report as Markdown: the outcome, the findings by clause, missing data, advice, matrix, reading."""
    result = outcome_of(matrix)
    parts = [
        f"# Compliance matrix: {markdown_safe(matrix.schedule.name)}",
        f"By {markdown_safe(wording.ruleset_heading(matrix.ruleset))}.",
        f"**{result.heading}**",
        *bullets(result.details),
        *_unread(matrix),
        *_findings("Does not comply", findings_by_clause(matrix, Verdict.FAILS)),
        *_findings("Cannot be determined", findings_by_clause(matrix, Verdict.CANNOT_TELL)),
        *_findings("Not checked for want of data", findings_by_clause(matrix, Verdict.NOT_CHECKED)),
        *_missing(matrix),
        *_findings("Recommendations", advice_by_clause(matrix)),
        *_sections(matrix),
        *_grid(matrix),
        *_reading(matrix),
        "## Cautions",
        *bullets(wording.cautions(matrix.ruleset)),
        *_tables(unchecked_sections(matrix.ruleset)),
    ]
    return "\n\n".join(parts) + "\n"


def _findings(title: str, groups: Sequence[ClauseFindings]) -> list[str]:
    """Return a section with a table for each clause."""
    parts = [f"## {title}"] if groups else []
    for group in groups:
        clause = group.clause
        parts.append(f"### {markdown_safe(f'{wording.clause_label(clause)} {clause.title}')}")
        if clause.wording:
            parts.append(f"> {markdown_safe(clause.wording)}")
        if clause.sources:
            parts.append(f"Source: {markdown_safe('; '.join(str(source) for source in clause.sources))}")
        rows = [
            (found.line.name, brief(found.line), place_words(found.line.place), found.reason, "; ".join(found.cell.at))
            for found in group.found
        ]
        parts.append(table(("Line", "What", "Place", "Reason", "At"), rows))
    return parts


def _missing(matrix: Matrix) -> list[str]:
    asked = requests_by_term(requests(matrix))
    rows = [
        (request.term, line_names(request.lines), ", ".join(wording.clause_label(clause) for clause in request.clauses))
        for request in asked
    ]
    return ["## Information needed", table(("Datum", "Lines", "Clauses that wait"), rows)] if rows else []


def _sections(matrix: Matrix) -> list[str]:
    """Return what a review found beside the verdicts."""
    if matrix.stands_alone:
        return []
    from speccheck.report.sections import sections

    return _tables(sections(matrix))


def _unread(matrix: Matrix) -> list[str]:
    """Return what of the schedule a person has to read."""
    from speccheck.report.sections import to_be_read

    return _tables(to_be_read(matrix.schedule)) if matrix.schedule.unread else []


def _tables(found: Iterable[ReportTable]) -> list[str]:
    """Return sections as tables under headings."""
    return [
        part
        for section in found
        for part in (
            f"## {markdown_safe(section.title)}",
            markdown_safe(section.sentence),
            table(section.headings, section.rows),
        )
    ]


def _grid(matrix: Matrix) -> list[str]:
    """Return the matrix itself, and what its marks mean."""
    headings = ["Line", *(markdown_safe(wording.clause_label(clause)) for clause in matrix.ruleset.clauses)]
    rows = [
        (line.name, *(wording.mark(cell) for cell in row))
        for line, row in zip(matrix.schedule.lines, matrix.cells, strict=True)
    ]
    meanings = markdown_safe("; ".join(f"{short} {meaning}" for short, meaning in wording.LEGEND))
    return ["## Matrix", table(headings, rows), meanings]


def _reading(matrix: Matrix) -> list[str]:
    """Return how the schedule was read."""
    schedule = matrix.schedule
    parts = ["## How the schedule was read"]
    columns = [
        (place_words(one.place), one.header, one.term or "no term", one.unit, one.note) for one in schedule.columns
    ]
    if columns:
        parts.append(table(("Place", "Heading as written", "Understood as", "Unit", "Why"), columns))
    diagnostics = [
        f"{doubt.severity} {doubt.code}, {where}: {message}" + (f" ({doubt.help})" if doubt.help else "")
        for doubt in doubts(schedule.diagnostics)
        for where, message in doubt.messages
    ]
    remarks = [f"{where}, no line: {text}" for where, text in remarks_by_row(schedule.remarks)]
    parts += bullets([*diagnostics, *remarks])
    return parts if len(parts) > 1 else [*parts, "Nothing to tell: every column and every line was understood."]
