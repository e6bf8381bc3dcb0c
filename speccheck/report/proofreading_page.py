"""A report of proofreading as an HTML page that needs nothing else, works without a script, and prints on portrait."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from speccheck.report.portfolio_page import render_small_page
from speccheck.report.proofreading import ProofreadingReport

if TYPE_CHECKING:
    from markupsafe import Markup

# The space between a number and a short unit, where a line had better not end.
_BEFORE_UNIT = re.compile(r"(?<=\d) (?=(?:F|C|in|ft|mm|m)\b)")
_STYLES = ("page.css", "proofreading.css")


def render_proofreading_page(report: ProofreadingReport) -> str:
    """Return the page; the same report gives the same text."""
    anchors = {named.label: named.anchor for named in report.clauses}
    return render_small_page("proofreading.html.j2", styles=_STYLES, report=report, anchors=anchors, quoted=_quoted)


def _quoted(text: str) -> Markup:
    """Return a sentence, escaped, with what stands between backticks set apart and numbers kept with their units."""
    from markupsafe import Markup, escape

    whole = _BEFORE_UNIT.sub("\u00a0", text)
    return Markup(re.sub(r"`([^`]+)`", r"<q>\1</q>", str(escape(whole))))
