"""Portfolios and sweeps in a terminal: how many comply, what fails most, what was skipped; names wrapped and never
cut.
"""

from __future__ import annotations

import textwrap
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from speccheck.english import agree, count, first_of
from speccheck.judge.judgement import Verdict
from speccheck.report.cautions import STANDING_CAUTIONS
from speccheck.report.portfolio import wording as words
from speccheck.report.terminal.diagnostics import ConsolePage
from speccheck.report.wording import clause_label, ruleset_heading
from speccheck.review.outcome import STATUS_MEANINGS
from speccheck.review.portfolio.tallies import Totals
from speccheck.review.sweep.running import VERDICTS, Sweep

if TYPE_CHECKING:
    from rich.console import Console


WIDTH = 9
_LEAST_ROOM = 16


def print_row(page: ConsolePage, counts: Sequence[str], name: str, style: str = "", indent: int = 0) -> None:
    """Print the counts, each in a column of its own, and the name beside them on as many lines as it needs."""
    before = " " * indent + "".join(count.rjust(max(WIDTH, len(count) + 1)) for count in counts) + "  "
    room = max(page.width - len(before), _LEAST_ROOM)
    for number, part in enumerate(textwrap.wrap(" ".join(name.split()), room) or [""]):
        page.verbatim((" " * len(before) if number else before) + part, style)


_SHOWN = 10
_COLUMNS = (("fails", Verdict.FAILS), ("info", Verdict.CANNOT_TELL), ("ok", Verdict.COMPLIES))


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
    page.line(f"{STATUS_MEANINGS[totals.status].capitalize()}.")


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
        page.line(f"{count(idle, 'clause')} {agree(idle, 'applies', 'apply')} to no line.", indent=2)


def _print_worst(page: ConsolePage, totals: Totals) -> None:
    """Print the schedules with most findings."""
    if not totals.worst:
        return
    page.line()
    page.line("Schedules with most findings", "bold")
    for tally in totals.worst[:_SHOWN]:
        found = tally.requirements
        numbers = f"{found[Verdict.FAILS]:,} fail, {found[Verdict.CANNOT_TELL]:,} cannot be determined"
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


_HEADINGS = ("fails", "info", "ok", "–")
_MOST_VALUES = 40
_MOST_NAMES = 12


def print_sweep(found: Sweep, console: Console | None = None, *, width: int | None = None) -> None:
    """Print the counts; `console` and `width` are as in `print_matrix`."""
    page = ConsolePage(console, width)
    page.line(ruleset_heading(found.ruleset), "bold")
    page.line(f"{count(found.count, 'combination')} of {extent(found)}.")
    page.line()
    for sentence in filter(None, (outcome_words(found), not_stated_words(found))):
        page.line(sentence)
    page.line()
    print_row(page, _HEADINGS, "clause", "dim")
    idle = 0
    for one in found.clauses:
        if one.counts[Verdict.NOT_APPLICABLE] == found.count:
            idle += 1
            continue
        advice = "" if one.clause.shall else " (recommendation)"
        name = f"{clause_label(one.clause)} {one.clause.title}{advice}"
        print_row(page, [f"{one.counts[verdict]:,}" for verdict in VERDICTS], name)
        if one.first_fail:
            page.line(f"first: {', '.join(one.first_fail)}", "dim", indent=WIDTH * len(_HEADINGS) + 2)
    if idle:
        page.line(f"{count(idle, 'clause')} {agree(idle, 'applies', 'apply')} to none of them.", indent=2)
    _print_values(page, found)
    page.line()
    for caution in STANDING_CAUTIONS:
        page.line(caution, "dim")


def extent(found: Sweep) -> str:
    """Return the terms that take several values, with their number."""
    several = [f"{swept.term.name} ({len(swept.texts):,})" for swept in found.terms if len(swept.texts) > 1]
    return ", ".join(several) or "one value each"


def outcome_words(found: Sweep) -> str:
    """Return in one sentence how many combinations have each verdict."""
    words = {
        Verdict.FAILS: "do not comply",
        Verdict.CANNOT_TELL: "cannot be determined",
        Verdict.COMPLIES: "comply",
        Verdict.NOT_CHECKED: "are not checked",
        Verdict.NOT_APPLICABLE: "are outside",
    }
    by = "all mandatory clauses together" if found.clause is None else f"clause {clause_label(found.clause)}"
    counted = ", ".join(
        f"{found.outcomes[verdict]:,} {words[verdict]}" for verdict in VERDICTS if found.outcomes[verdict]
    )
    return f"By {by}: {counted}."


def not_stated_words(found: Sweep) -> str:
    """Return which terms the clauses ask for and the sweep leaves out; "" for none."""
    names = found.not_stated
    if not names:
        return ""
    shown = first_of(names, _MOST_NAMES)
    return f"Clauses that cannot be determined also ask for {shown}; state them to settle more."


def _print_values(page: ConsolePage, found: Sweep) -> None:
    """Print the combinations by value of each term that takes several, unless they are very many."""
    for swept, table in zip(found.terms, found.by_value, strict=True):
        if not 1 < len(swept.texts) <= _MOST_VALUES:
            continue
        page.line()
        print_row(page, _HEADINGS, swept.term.name, "dim")
        for text, row in zip(swept.texts, table, strict=True):
            print_row(page, [f"{number:,}" for number in row], text)
