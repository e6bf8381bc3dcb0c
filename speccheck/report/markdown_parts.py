"""Lists and tables of Markdown (CommonMark with tables); what is put into them is escaped here."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from speccheck.report.escaping import markdown_safe


def bullets(texts: Iterable[str]) -> tuple[str, ...]:
    """Return one list, or nothing if there are no texts."""
    items = [f"- {markdown_safe(text)}" for text in texts]
    return ("\n".join(items),) if items else ()


def table(headings: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    """Return a table; its headings come escaped."""
    lines = [headings, ["---"] * len(headings), *([markdown_safe(text) for text in row] for row in rows)]
    return "\n".join(f"| {' | '.join(line)} |" for line in lines)
