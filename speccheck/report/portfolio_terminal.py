"""A portfolio in a terminal: how many schedules comply, which clauses fail most, what was skipped."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from speccheck.engine.judgement import Verdict
from speccheck.report import portfolio_wording as words
from speccheck.report.console_page import ConsolePage
from speccheck.report.portfolio_rows import print_row
from speccheck.report.wording import STANDING_CAUTIONS, count, ruleset_heading
from speccheck.review.outcome import STATUS_MEANINGS
from speccheck.review.portfolio.summing_up import Totals

if TYPE_CHECKING:
    from rich.console import Console

_SHOWN = 10
_COLUMNS = (("fails", Verdict.FAILS), ("ask", Verdict.CANNOT_TELL), ("ok", Verdict.COMPLIES))


def print_portfolio(
    totals: Totals, left: Mapping[str, int], console: Console | None = None, *, width: int | None = None
) -> None:
    """Print the totals; `left` counts the files that were no schedules; `console` and `width` as in `print_matrix`."""
    page = ConsolePage(console, width)
    page.line(ruleset_heading(totals.ruleset), "bold")
    page.line(words.heading(totals))
    page.line()
    for sentence in filter(None, (*words.sentences(totals), words.left_sentence(left))):
        page.line(sentence)
    _print_clauses(page, totals)
    _print_worst(page, totals)
    _print_not_read(page, totals)
    page.line()
    for caution in STANDING_CAUTIONS:
        page.line(caution, "dim")
    page.line()
    page.line(f"Exit status {totals.status}: {STATUS_MEANINGS[totals.status]}.")


def _print_clauses(page: ConsolePage, totals: Totals) -> None:
    """Print the lines by clause and verdict; clauses that apply to no line are only counted."""
    applying = [one for one in totals.clauses if any(one.counts[verdict] for _, verdict in _COLUMNS)]
    if not totals.clauses:
        return
    page.line()
    page.line("Lines by clause and verdict", "bold")
    print_row(page, [name for name, _ in _COLUMNS], "clause", "dim")
    for one in words.most_found_first(applying):
        print_row(page, [f"{one.counts[verdict]:,}" for _, verdict in _COLUMNS], words.clause_name(one))
    idle = len(totals.clauses) - len(applying)
    if idle:
        page.line(f"{count(idle, 'clause')} {'applies' if idle == 1 else 'apply'} to no line.", indent=2)


def _print_worst(page: ConsolePage, totals: Totals) -> None:
    """Print the schedules with most findings."""
    if not totals.worst:
        return
    page.line()
    page.line("Schedules with most findings", "bold")
    for tally in totals.worst[:_SHOWN]:
        found = tally.requirements
        numbers = f"{found[Verdict.FAILS]:,} fail, {found[Verdict.CANNOT_TELL]:,} cannot be told"
        page.line(f"{numbers}; {count(tally.line_count, 'line')}", lead=f"{tally.name}:", indent=2)


def _print_not_read(page: ConsolePage, totals: Totals) -> None:
    """Print the schedules that were skipped, and why."""
    if not totals.not_read:
        return
    page.line()
    page.line("Skipped", "bold red")
    for tally in totals.not_read[:_SHOWN]:
        page.line(tally.outcome.problem, lead=f"{tally.name}:", indent=2)
    if len(totals.not_read) > _SHOWN:
        page.line("more of them are named in summary.html and summary.json", "dim", indent=2)
