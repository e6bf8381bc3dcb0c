"""Sections in a terminal: what a review found beside the verdicts, a row after the other."""

from __future__ import annotations

from collections.abc import Iterable

from speccheck.report.console_page import ConsolePage
from speccheck.report.sections import Section
from speccheck.report.wording import count

_STRONG, _QUIET = "bold", "dim"
MOST_ROWS = 40
_SAID = ("Accepted as", "Then", "Now", "What to do", "Place")  # what does not speak for itself


def print_sections(page: ConsolePage, found: Iterable[Section]) -> None:
    """Print sections, of each as many rows as somebody would read; what is settled is counted and not told."""
    for section in found:
        page.line()
        page.line(section.title, _STRONG)
        page.line(section.sentence, _QUIET)
        if section.settled:
            page.line(f"{count(len(section.rows), 'row')}, told in the page and the workbook.", indent=2)
            continue
        for row in section.rows[:MOST_ROWS]:
            _print_row(page, section, row)
        left = len(section.rows) - MOST_ROWS
        if left > 0:
            page.line(f"{left} more, told in the page and the workbook.", _QUIET, indent=2)


def _print_row(page: ConsolePage, section: Section, row: tuple[str, ...]) -> None:
    """Print the first two texts of a row in front, the others below, with their headings where they need one."""
    first, second, *others = row
    page.line(second, lead=first, indent=2)
    for heading, text in zip(section.headings[2:], others, strict=True):
        if text:
            page.line(f"{heading.lower()}: {text}" if heading in _SAID else text, indent=4)
