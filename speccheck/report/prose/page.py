"""A ruleset as a specification section in HTML: one page that needs nothing else, made for paper."""

from __future__ import annotations

from speccheck.language.core import Ruleset
from speccheck.report.html.small_page import render_small_page
from speccheck.report.prose.section import section_of

# What stands before every section that is written from rules.
WRITTEN_FROM_RULES = (
    "This text was written from rules that a program checks. Read it against the specification that it stands for: the "
    "contract documents govern.",
    "Hot surfaces, fire ratings, adhesives and their fumes, and work at height can hurt people. Follow the adopted "
    "code, the manufacturer's instructions and licensed practice.",
)


def render_prose_page(ruleset: Ruleset, *, own_only: bool = False) -> str:
    """Return the page; the same ruleset gives the same text. `own_only` leaves out what the ruleset builds on."""
    section = section_of(ruleset, own_only=own_only)
    styles = ("page.css", "prose.css")
    return render_small_page("prose.html.j2", styles=styles, section=section, cautions=WRITTEN_FROM_RULES)
