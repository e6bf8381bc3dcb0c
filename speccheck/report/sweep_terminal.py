"""A sweep in a terminal: the combinations by verdict, by clause and by value."""

from __future__ import annotations

from typing import TYPE_CHECKING

from speccheck.engine.judgement import Verdict
from speccheck.report.console_page import ConsolePage
from speccheck.report.portfolio_rows import WIDTH, print_row
from speccheck.report.wording import STANDING_CAUTIONS, clause_label, count, listed, ruleset_heading
from speccheck.review.sweep.running import VERDICTS, Sweep

if TYPE_CHECKING:
    from rich.console import Console

_HEADINGS = ("fails", "ask", "ok", "–")
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
        advice = "" if one.clause.shall else " (advice)"
        name = f"{clause_label(one.clause)} {one.clause.title}{advice}"
        print_row(page, [f"{one.counts[verdict]:,}" for verdict in VERDICTS], name)
        if one.first_fail:
            page.line(f"first: {', '.join(one.first_fail)}", "dim", indent=WIDTH * len(_HEADINGS) + 2)
    if idle:
        page.line(f"{count(idle, 'clause')} {'applies' if idle == 1 else 'apply'} to none of them.", indent=2)
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
        Verdict.CANNOT_TELL: "cannot be told",
        Verdict.COMPLIES: "comply",
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
    shown = [*names[:_MOST_NAMES], *([f"{len(names) - _MOST_NAMES} more"] if len(names) > _MOST_NAMES else [])]
    return f"Clauses that cannot be told also ask for {listed(shown)}; state them to settle more."


def _print_values(page: ConsolePage, found: Sweep) -> None:
    """Print the combinations by value of each term that takes several, unless they are very many."""
    for swept, table in zip(found.terms, found.by_value, strict=True):
        if not 1 < len(swept.texts) <= _MOST_VALUES:
            continue
        page.line()
        print_row(page, _HEADINGS, swept.term.name, "dim")
        for text, row in zip(swept.texts, table, strict=True):
            print_row(page, [f"{number:,}" for number in row], text)
