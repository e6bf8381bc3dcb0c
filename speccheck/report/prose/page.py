"""A ruleset as a specification section in HTML: one page that needs nothing else, made for paper."""

from __future__ import annotations

from speccheck.language.core import Ruleset
from speccheck.report.html.small_page import render_small_page
from speccheck.report.prose.articles import PLAINLY, Telling
from speccheck.report.prose.section import section_of
from speccheck.specification.house import WRITTEN_FROM_RULES

# What stands before every section that is written from rules.
CAUTIONS = (
    WRITTEN_FROM_RULES,
    "Hot surfaces, fire ratings, adhesives and their fumes, and work at height can hurt people. Follow the adopted "
    "code, the manufacturer's instructions and licensed practice.",
)


def render_prose_page(ruleset: Ruleset, *, own_only: bool = False, telling: Telling = PLAINLY) -> str:
    """Return the page; the same ruleset gives the same text. `own_only` leaves out what the ruleset builds on."""
    section = section_of(ruleset, own_only=own_only, telling=telling)
    styles = ("page.css", "prose.css")
    return render_small_page("prose.html.j2", styles=styles, section=section, cautions=CAUTIONS)
