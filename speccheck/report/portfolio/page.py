"""A portfolio as a small HTML page: totals, clauses, the schedules with most findings, what was skipped."""

from __future__ import annotations

from collections.abc import Mapping

from speccheck.report.html.small_page import render_small_page
from speccheck.report.portfolio import wording as words
from speccheck.report.wording import cautions, ruleset_heading
from speccheck.review.portfolio.store import FINDINGS
from speccheck.review.portfolio.tallies import VERDICTS, Totals


def render_portfolio(totals: Totals, left: Mapping[str, int]) -> str:
    """Return the page. It loads nothing from anywhere, and everything that schedules say is escaped."""
    return render_small_page(
        "portfolio.html.j2",
        ruleset=ruleset_heading(totals.ruleset),
        heading=words.heading(totals),
        status=totals.status,
        sentences=[*words.sentences(totals), *filter(None, [words.left_sentence(left)])],
        verdicts=list(zip(VERDICTS, words.OUTCOMES_HEADINGS, strict=True)),
        findings=FINDINGS,
        clauses=words.most_found_first(totals.clauses),
        clause_name=words.clause_name,
        worst=totals.worst,
        not_read=totals.not_read,
        cautions=cautions(totals.ruleset),
    )
