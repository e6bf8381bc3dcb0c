"""A draft side by side: the words of a section and what came from them, as an HTML page that needs nothing else."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

from speccheck.english import count
from speccheck.report.html.small_page import render_small_page
from speccheck.specification.blocks import Paragraph
from speccheck.specification.drafting import Drafted

SORTS = {
    "clause": "drafted clause, to be confirmed",
    "table": "drafted table, to be confirmed",
    "document": "drafted document, to be confirmed",
    "relation": "drafted relation between lines, to be confirmed",
    "not checked": "not checked",
    "todo": "left to do",
    "definition": "definition, to be confirmed",
    "heading": "heading",
}
COUNTED = {
    "clause": ("clause to confirm", "clauses to confirm"),
    "table": ("table to confirm", "tables to confirm"),
    "document": ("document to confirm", "documents to confirm"),
    "relation": ("relation to confirm", "relations to confirm"),
    "definition": ("definition to confirm", "definitions to confirm"),
    "todo": ("left to do", "left to do"),
    "not checked": ("paragraph not checked", "paragraphs not checked"),
    "heading": ("heading", "headings"),
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
            "text": _without_wording(one.text),
            "doubts": one.doubts,
        }
        for one in drafted
    ]
    found = Counter(one.sort for one in drafted)
    counts = [
        count(found[sort], *words) if words[0] != "left to do" else f"{found[sort]} left to do"
        for sort, words in COUNTED.items()
        if found[sort]
    ]
    return render_small_page(
        "draft.html.j2", styles=("page.css", "draft.css"), section=section, rows=rows, counts=counts
    )


def _without_wording(text: str) -> str:
    """Return drafted text without the words of the section, which stand beside it."""
    return re.sub(r'\n  (?:draft|wording "[^"]*"|todo "[^"]*")(?=\n|$)', "", text)
