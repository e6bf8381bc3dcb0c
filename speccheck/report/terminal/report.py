"""The report in a terminal: what fails first, and what a review found beside the verdicts."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from speccheck.english import agree, count
from speccheck.judge.judgement import Verdict
from speccheck.language.core import Clause
from speccheck.report import wording
from speccheck.report.cautions import STANDING_CAUTIONS
from speccheck.report.doubts import doubts, silent_columns
from speccheck.report.html.findings import LineFinding, advice_by_clause, findings_by_clause
from speccheck.report.line_words import brief, line_names
from speccheck.report.requests import requests, requests_by_term, unchecked_sentence
from speccheck.report.sections import ReportTable
from speccheck.report.terminal.diagnostics import ConsolePage
from speccheck.review.matrix import Matrix
from speccheck.review.outcome import outcome_of
from speccheck.schedule.lines import Schedule

if TYPE_CHECKING:
    from rich.console import Console


_FAILS, _OPEN, _QUIET, _STRONG = "bold red", "bold cyan", "dim", "bold"
MOST_ROWS = 40
_SAID = ("Accepted as", "Then", "Now", "What to do", "Place")  # what does not speak for itself


def print_sections(page: ConsolePage, found: Iterable[ReportTable]) -> None:
    """Print sections, of each as many rows as somebody would read; what is settled is counted and not told."""
    for section in found:
        page.line()
        page.line(section.title, _STRONG)
        page.line(section.sentence, _QUIET)
        if section.settled:
            page.line(f"{count(len(section.rows), 'row')}, told in the page and the workbook.", indent=2)
            continue
        for row in section.rows[:MOST_ROWS]:
            _print_row(page, section, row)
        left = len(section.rows) - MOST_ROWS
        if left > 0:
            page.line(f"{left} more, told in the page and the workbook.", _QUIET, indent=2)


def _print_row(page: ConsolePage, section: ReportTable, row: tuple[str, ...]) -> None:
    """Print the first two texts of a row in front, the others below, with their headings where they need one."""
    first, second, *others = row
    page.line(second, lead=first, indent=2)
    for heading, text in zip(section.headings[2:], others, strict=True):
        if text:
            page.line(f"{heading.lower()}: {text}" if heading in _SAID else text, indent=4)


def print_matrix(matrix: Matrix, console: Console | None = None, *, width: int | None = None) -> None:
    """Print the report: the outcome, the findings, the missing data, what was not understood, the exit status.

    `console` is a rich console, by default one on standard output; `width` is how many columns to fill, by default
    as many as the terminal has, and 80 where there is none.
    """
    page = ConsolePage(console, width)
    result = outcome_of(matrix)
    page.line(wording.ruleset_heading(matrix.ruleset), _STRONG)
    page.line(f"{matrix.schedule.name}: {wording.extent(matrix)}")
    page.line()
    page.line(result.heading, {0: _STRONG, 1: _FAILS}.get(result.status, _OPEN))
    for sentence in result.details:
        page.line(sentence)
    _print_unread(page, matrix.schedule)
    _print_findings(page, matrix, Verdict.FAILS, _FAILS)
    _print_findings(page, matrix, Verdict.CANNOT_TELL, _OPEN)
    _print_findings(page, matrix, Verdict.NOT_CHECKED, _OPEN)
    _print_missing(page, matrix)
    _print_advice(page, matrix)
    _print_beside(page, matrix)
    _print_reading(page, matrix.schedule)
    page.line()
    for caution in STANDING_CAUTIONS:
        page.line(caution, _QUIET)
    page.line()
    page.line(result.meaning)
    if unchecked := unchecked_sentence(matrix.ruleset):
        page.line(unchecked)


def _print_unread(page: ConsolePage, schedule: Schedule) -> None:
    """Print what of the schedule a person has to read."""
    if not schedule.unread:
        return
    from speccheck.report.sections import to_be_read

    print_sections(page, to_be_read(schedule))


def _print_findings(page: ConsolePage, matrix: Matrix, verdict: Verdict, style: str) -> None:
    """Print the findings with one verdict: the clause, then the lines with the reason; equal reasons are told once."""
    groups = findings_by_clause(matrix, verdict)
    if not groups:
        return
    page.line()
    page.line(f"{str(verdict).capitalize()}", style)
    for group in groups:
        _print_clause(page, group.clause)
        _print_reasons(page, group.found)


def _print_clause(page: ConsolePage, clause: Clause) -> None:
    page.line(clause.title, lead=wording.clause_label(clause), indent=2)


def _print_reasons(page: ConsolePage, found: Sequence[LineFinding]) -> None:
    """Print each reason with the lines that it holds for."""
    for reason, at, alike in _alike(found):
        what = brief(alike[0].line) if len({brief(one.line) for one in alike}) == 1 else ""
        names = line_names([one.line for one in alike])
        page.line(what, _QUIET, lead=f"{names}:" if what else names, indent=4)
        page.line(f"{reason} (at {'; '.join(at)})" if at else reason, indent=6)


def _alike(found: Sequence[LineFinding]) -> Iterable[tuple[str, tuple[str, ...], list[LineFinding]]]:
    """Put findings with the same reason at the same sizes together."""
    together: dict[tuple[str, tuple[str, ...]], list[LineFinding]] = {}
    for one in found:
        together.setdefault((one.reason, one.cell.at), []).append(one)
    return ((reason, at, alike) for (reason, at), alike in together.items())


def _print_missing(page: ConsolePage, matrix: Matrix) -> None:
    """Print what to ask the contractor for, each datum once."""
    asked = requests_by_term(requests(matrix))
    if not asked:
        return
    page.line()
    page.line("Information needed", _OPEN)
    for request in asked:
        labels = ", ".join(wording.clause_label(clause) for clause in request.clauses)
        page.line(f"for {line_names(request.lines)}", lead=request.term, indent=2)
        page.line(f"{agree(len(request.clauses), 'clause', 'clauses')} {labels}", _QUIET, indent=4)


def _print_advice(page: ConsolePage, matrix: Matrix) -> None:
    """Print what is advised and not followed, or cannot be determined."""
    groups = advice_by_clause(matrix)
    if groups:
        page.line()
        page.line("Recommendations (non-mandatory)", _STRONG)
    for group in groups:
        _print_clause(page, group.clause)
        _print_reasons(page, group.found)


def _print_beside(page: ConsolePage, matrix: Matrix) -> None:
    """Print what a review found beside the verdicts."""
    if matrix.stands_alone:
        return
    from speccheck.report.sections import sections

    print_sections(page, sections(matrix))


def _print_reading(page: ConsolePage, schedule: Schedule) -> None:
    """Print what of the schedule was not understood."""
    silent, found = silent_columns(schedule), doubts(schedule.diagnostics)
    if not (silent or found):
        return
    page.line()
    page.line("In the schedule, not understood or in doubt", _STRONG)
    for where, message in silent:
        page.line(message, lead=f"{where}:", indent=2)
    for doubt in found:
        for where, message in doubt.messages:
            told = f"{doubt.severity} {doubt.code}: {message}"
            page.line(told, lead=f"{where}:" if where else "", indent=2)
        if doubt.help:
            page.line(doubt.help, _QUIET, indent=4)
