"""The report in a terminal as it is printed unless all of it is asked for: about 40 lines, the verdict last.

Each clause with findings has one line: its number, the lines of the schedule, and the first reason as far as it fits.
What does not fit is counted and named, never left out without a word.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from speccheck.english import count, listed
from speccheck.judge.judgement import Verdict
from speccheck.report import wording
from speccheck.report.cautions import SHORT_CAUTION
from speccheck.report.html.findings import ClauseFindings, findings_by_clause
from speccheck.report.line_words import line_names
from speccheck.report.requests import requests, requests_by_term, unchecked_sentence
from speccheck.report.terminal.diagnostics import ConsolePage
from speccheck.review.matrix import Matrix
from speccheck.review.outcome import Outcome, outcome_of
from speccheck.schedule.lines import Line

if TYPE_CHECKING:
    from rich.console import Console

_STYLES = {Verdict.FAILS: "bold red", Verdict.CANNOT_TELL: "bold cyan"}
MOST_CLAUSES = {Verdict.FAILS: 8, Verdict.CANNOT_TELL: 2}
MOST_DATA, MOST_ROWS, MOST_LINES = 6, 5, 4
_REST = "`--full` prints every reason, what is needed, and how the schedule was read."


def print_short(matrix: Matrix, console: Console | None = None, *, width: int | None = None) -> None:
    """Print the findings in short, the data that are needed, and last the outcome with its counts.

    `console` and `width` are as in `print_matrix`.
    """
    page = ConsolePage(console, width)
    result = outcome_of(matrix)
    page.line(wording.ruleset_heading(matrix.ruleset), "bold")
    page.line(f"{matrix.schedule.name}: {wording.extent(matrix)}")
    for verdict in _STYLES:
        _print_clauses(page, findings_by_clause(matrix, verdict), verdict)
    _print_needed(page, matrix)
    _print_beside(page, matrix)
    page.line()
    page.line(SHORT_CAUTION, "dim")
    page.line()
    _print_outcome(page, matrix, result)


def _print_clauses(page: ConsolePage, groups: tuple[ClauseFindings, ...], verdict: Verdict) -> None:
    """Print one line for each clause, as many as are read at a glance; of the others their numbers."""
    if not groups:
        return
    page.line()
    page.line(str(verdict).capitalize(), _STYLES[verdict])
    shown = groups[: MOST_CLAUSES[verdict]]
    column = max(len(wording.clause_label(group.clause)) for group in shown)
    for group in shown:
        label = wording.clause_label(group.clause)
        page.verbatim(_cut(f"  {label:<{column}}  {_finding(group)}", page.width))
    others = groups[len(shown) :]
    if others:
        labels = listed(wording.clause_label(group.clause) for group in others)
        page.line(f"and {count(len(others), 'more clause')}: {labels}", indent=2)


def _finding(group: ClauseFindings) -> str:
    """Return the lines of a clause and the reason of the first, and that others have other reasons."""
    reasons = list(dict.fromkeys(one.reason for one in group.found))
    others = f" (and {count(len(reasons) - 1, 'other reason')})" if len(reasons) > 1 else ""
    return f"{line_names([one.line for one in group.found])}{others}: {reasons[0]}"


def _cut(text: str, width: int) -> str:
    return text if len(text) <= width else f"{text[: width - 3].rstrip()}..."


def _lines(lines: Sequence[Line]) -> str:
    """Return the names of a few lines, or how many they are."""
    return line_names(lines) if len(lines) <= MOST_LINES else count(len(lines), "line")


def _print_needed(page: ConsolePage, matrix: Matrix) -> None:
    """Print the data to ask for in one sentence."""
    needed = requests_by_term(requests(matrix))
    if not needed:
        return
    words = [f"{one.term} ({_lines(one.lines)})" for one in needed[:MOST_DATA]]
    left = len(needed) - len(words)
    page.line()
    page.line(listed([*words, *([f"{left} more"] if left else [])]), lead="Information needed:", lead_style="bold cyan")


def _print_beside(page: ConsolePage, matrix: Matrix) -> None:
    """Print what a review found beside the verdicts, a line for each; what is settled is only counted."""
    if matrix.stands_alone:
        return
    from speccheck.report.sections import sections

    for section in sections(matrix):
        rows = () if section.settled else section.rows[:MOST_ROWS]
        left = len(section.rows) - len(rows)
        page.line()
        page.line(section.title, "bold")
        for row in rows:
            page.verbatim(_cut(f"  {'  '.join(filter(None, row))}", page.width))
        if left:
            page.line(f"{count(left, 'more row' if rows else 'row')}, told by `--full`.", indent=2)


def _print_outcome(page: ConsolePage, matrix: Matrix, result: Outcome) -> None:
    """Print the counts and, where the eye rests, the verdict."""
    for sentence in result.details:
        page.line(sentence)
    if unchecked := unchecked_sentence(matrix.ruleset):
        page.line(unchecked)
    page.line(_REST, "dim")
    page.line(result.heading, {0: "bold", 1: "bold red"}.get(result.status, "bold cyan"))
