"""Proofreading in a terminal: what it comes to, tables, findings with the lines that show them, what stays open."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from speccheck.english import agree, listed
from speccheck.report.proofreading.report import ProofreadingRemark, ProofreadingReport
from speccheck.report.sections import ReportTable
from speccheck.report.terminal.diagnostics import ConsolePage

if TYPE_CHECKING:
    from rich.console import Console

_FOUND, _OPEN, _QUIET, _STRONG = "bold yellow", "bold cyan", "dim", "bold"
MOST_ROWS = 40
_SAID = ("Clause", "Before", "Now", "Its clauses on the same terms")  # what does not speak for itself


def print_proofreading(report: ProofreadingReport, console: Console | None = None, *, width: int | None = None) -> None:
    """Print a report of proofreading, with the outcome last, where it is seen; `console` and `width` as elsewhere."""
    page = ConsolePage(console, width)
    page.line(f"{report.title}, {report.beside_as} {report.beside}" if report.beside else report.title, _STRONG)
    page.line()
    for section in report.tables:
        _print_table(page, section)
    for group in report.groups:
        page.line(group.title, _STRONG)
        page.line()
        for remark in group.remarks:
            _print_remark(page, remark)
    _print_undecided(page, report.undecided)
    page.line(report.heading, _FOUND if report.status == 1 else _STRONG)
    for sentence in report.sentences:
        page.line(sentence)


def _print_table(page: ConsolePage, section: ReportTable) -> None:
    """Print the rows of a table, each in one paragraph, with its first text in front."""
    page.line(section.title, _STRONG)
    for first, *others in section.rows[:MOST_ROWS]:
        told = (
            f"{heading.lower()} {text}" if heading in _SAID else text
            for heading, text in zip(section.headings[1:], others, strict=True)
        )
        page.line("; ".join(told), lead=f"{first}:", indent=2)
    left = len(section.rows) - MOST_ROWS
    if left > 0:
        page.line(f"{left} more, told in the page.", _QUIET, indent=2)
    page.line()


def _print_remark(page: ConsolePage, remark: ProofreadingRemark) -> None:
    page.line(remark.message, lead=f"{remark.code}:" if remark.code else "", lead_style=_FOUND)
    if remark.place:
        page.line(f"at {remark.place}", _QUIET, indent=2)
    labels = [clause.label for clause in remark.clauses]
    if labels:
        page.line(listed(labels), lead=agree(len(labels), "clause", "clauses"), indent=2)
    if remark.systems:
        page.line(remark.systems, lead="among others:", indent=2)
    for line in remark.lines:
        page.line(line.text, lead=f"{line.shows}:", indent=2)
    if remark.help:
        page.line(remark.help, lead="help:", indent=2)
    page.line()


def _print_undecided(page: ConsolePage, undecided: Iterable[ProofreadingRemark]) -> None:
    questions = tuple(undecided)
    if not questions:
        return
    page.line("Not decided", _OPEN)
    page.line()
    for question in questions:
        _print_remark(page, question)
