"""A portfolio as a small HTML page: totals, clauses, the schedules with most findings, what was skipped."""

from __future__ import annotations

import base64
import hashlib
from collections.abc import Iterable, Mapping
from pathlib import Path

from speccheck.report.portfolio import wording as words
from speccheck.report.wording import cautions, ruleset_heading
from speccheck.review.portfolio.store import FINDINGS
from speccheck.review.portfolio.tallies import VERDICTS, Totals

_TEMPLATES = Path(__file__).parents[1] / "templates"


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


def render_small_page(template: str, *, styles: Iterable[str] = ("page.css", "counts.css"), **contents: object) -> str:
    """Return a page made from a template and styles; `contents` are what the template names."""
    from jinja2 import Environment, FileSystemLoader, StrictUndefined
    from markupsafe import Markup

    environment = Environment(
        loader=FileSystemLoader(_TEMPLATES),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
    )
    style = "\n".join((_TEMPLATES / name).read_text(encoding="utf-8") for name in styles)
    digest = base64.b64encode(hashlib.sha256(style.encode()).digest()).decode("ascii")
    policy = f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"
    return environment.get_template(template).render(style=Markup(style), policy=policy, **contents)
