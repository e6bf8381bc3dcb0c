"""The reply in HTML: one page that needs nothing else, made for paper."""

from __future__ import annotations

from speccheck.report.portfolio_page import render_small_page
from speccheck.report.reply import Reply
from speccheck.report.wording import clause_label, count


def render_reply_page(reply: Reply) -> str:
    """Return the page; the same reply gives the same text."""
    return render_small_page(
        "reply.html.j2", styles=("page.css", "reply.css"), reply=reply, label=clause_label, count=count
    )
