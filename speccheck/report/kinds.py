"""The kinds of report, each with what renders it, imported only when it is asked for."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from speccheck.review.matrix import Matrix


def renderer(name: str) -> Callable[[Matrix], str | bytes]:
    """Return what renders one kind: "page", "workbook", "json", "markdown" or "findings"."""
    if name == "page":
        from speccheck.report.html.page import render_page

        return render_page
    if name == "workbook":
        from speccheck.report.workbook.report import render_workbook

        return render_workbook
    if name == "json":
        from speccheck.report.json.report import render_json

        return render_json
    if name == "markdown":
        from speccheck.report.markdown.report import render_markdown

        return render_markdown
    from speccheck.report.comma_separated import render_comma_separated

    return render_comma_separated
