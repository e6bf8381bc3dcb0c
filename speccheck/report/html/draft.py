"""A draft side by side: the words of a section and what came from them, as an HTML page that needs nothing else."""

from __future__ import annotations

from collections.abc import Sequence

from speccheck.report.html.small_page import render_small_page
from speccheck.specification.blocks import Paragraph
from speccheck.specification.drafting import Drafted

SORTS = {
    "clause": "drafted clause, to be confirmed",
    "table": "drafted table, to be confirmed",
    "not checked": "not checked",
    "todo": "left to do",
    "heading": "heading",
}


def render_draft(section: str, drafted: Sequence[Drafted]) -> str:
    """Return the page of a draft."""
    rows = [
        {
            "number": one.block.number if isinstance(one.block, Paragraph) else "table",
            "words": one.block.text if isinstance(one.block, Paragraph) else "",
            "rows": () if isinstance(one.block, Paragraph) else one.block.rows,
            "sort": one.sort,
            "said": SORTS[one.sort],
            "text": one.text,
            "doubts": one.doubts,
        }
        for one in drafted
    ]
    counts = {said: sum(one.sort == sort for one in drafted) for sort, said in SORTS.items()}
    return render_small_page(
        "draft.html.j2", styles=("page.css", "draft.css"), section=section, rows=rows, counts=counts
    )
