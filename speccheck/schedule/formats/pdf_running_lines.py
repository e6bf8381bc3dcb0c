"""Lines that run from page to page of a PDF, at their heads and feet: titles, headers of tables, numbers of pages.

No row of a table may be lost as one: rows on two pages are often alike but for their marks and sizes, and stand at one
height. So a line counts only where nothing stands between it and the edge but such lines, its words are the same but
for the number of the page, and it has no other numbers or stands apart from the rows.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from speccheck.schedule.formats.pdf_columns import chunks_of
from speccheck.schedule.formats.pdf_doubtful_rows import FAR_APART
from speccheck.schedule.formats.pdf_words import PrintedLine

_MARGIN = 0.12
"""The part of a page at its head and foot in which texts may repeat from page to page."""
_GAP = 0.6
_SAME_PLACE = 0.1
"""Sizes of letters from which words are of two columns, and within which they begin under each other."""


@dataclass(frozen=True)
class PageLines:
    """A page: its number, its height in points, and its lines from above."""

    number: int
    height: float
    lines: Sequence[PrintedLine]


def repeated_lines(pages: Sequence[PageLines]) -> dict[int, list[PrintedLine]]:
    """Return the lines of each page, by its number, that stand at the head or foot of other pages as well."""
    found = Counter(key for page in pages for key in {_key(line, page) for line in page.lines})
    return {page.number: list(_from_edges(page, found)) for page in pages}


def _key(line: PrintedLine, page: PageLines) -> str:
    """Return what makes lines of pages the same: their words, whatever number the page has, and their height."""
    words = " ".join(word.text for word in line.words)
    return re.sub(rf"\b{page.number}\b", "#", words) + f" {round(line.top)}"


def _from_edges(page: PageLines, found: Counter[str]) -> Iterator[PrintedLine]:
    """Yield the lines of a page that are repeated, from its head and from its foot, up to the first that is not."""
    for lines in (list(page.lines), list(reversed(page.lines))):
        for line, inner in zip(lines, [*lines[1:], None], strict=False):
            at_the_edge = line.bottom < _MARGIN * page.height or line.top > (1 - _MARGIN) * page.height
            if not at_the_edge or found[_key(line, page)] < 2 or not _is_no_row(line, inner, page):
                break
            yield line


def _is_no_row(line: PrintedLine, inner: PrintedLine | None, page: PageLines) -> bool:
    """Whether a repeated line has the number of the page or none, or is not in line with the next one inwards."""
    numbers = set(re.findall(r"\d+", " ".join(word.text for word in line.words)))
    if not numbers or str(page.number) in numbers or inner is None:
        return True
    first, last = sorted((line, inner), key=lambda one: one.top)
    lefts = [chunk.left for chunk in chunks_of(inner, _GAP)]
    chunks = chunks_of(line, _GAP)
    under = sum(any(abs(chunk.left - left) < _SAME_PLACE * line.size for left in lefts) for chunk in chunks)
    return last.top - first.last_top > FAR_APART * line.size and 2 * under < len(chunks) + 1
