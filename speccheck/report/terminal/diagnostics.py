"""Diagnostics in a terminal, and the lines on a console that all terminal reports are made of: wrapped, free of
control codes.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from typing import TYPE_CHECKING

from speccheck.english import count, listed
from speccheck.language.diagnostics import Diagnostic, Place, Severity, in_order
from speccheck.report.escaping import plain

if TYPE_CHECKING:
    from rich.console import Console
    from rich.text import Text


WIDTH = 80
LEAST_WIDTH = 30
STRONG = "bold"


class ConsolePage:
    """A console and the width to fill: as many columns as the terminal has, 80 where there is none or none known."""

    def __init__(self, console: Console | None = None, width: int | None = None) -> None:
        from rich.console import Console

        self.console = console or Console()
        if not self.console.width:
            self.console.width = WIDTH  # a terminal that says it has no columns does not know: rich would print nothing
        columns = self.console.width if self.console.is_terminal else WIDTH
        self.width = max(width or columns, LEAST_WIDTH)

    def line(
        self, text: str = "", style: str = "", *, lead: str = "", lead_style: str = STRONG, indent: int = 0
    ) -> None:
        """Print `text` in `style` after `lead`, wrapped to the width; further lines are indented like the first."""
        from rich.text import Text

        between = " " if lead and text else ""
        written = Text.assemble((self._clean(lead), lead_style), between, (self._clean(text), style))
        for part in written.wrap(self.console, self.width - indent):
            part.rstrip()
            self._print(Text(" " * indent if part else "").append_text(part))

    def verbatim(self, text: str, style: str = "") -> None:
        """Print a line as it is, not wrapped; the caller sees to it that it fits."""
        from rich.text import Text

        self._print(Text(self._clean(text), style=style))

    def _print(self, line: Text) -> None:
        self.console.print(line, no_wrap=True, overflow="ignore", crop=False, highlight=False)

    def _clean(self, text: str) -> str:
        """Return `text` without control codes, with a question mark for what the console's encoding does not have."""
        encoding = self.console.encoding
        return plain(text).encode(encoding, errors="replace").decode(encoding)


_STYLES = {Severity.ERROR: "bold red", Severity.WARNING: "bold yellow", Severity.NOTE: "bold cyan"}


def print_diagnostics(
    diagnostics: Iterable[Diagnostic], console: Console | None = None, *, width: int | None = None
) -> None:
    """Print the diagnostics in the order of their places, and how many there are of each severity.

    Nothing is printed where there are none. `console` and `width` are as in `print_matrix`.
    """
    ordered = in_order(diagnostics)
    page = ConsolePage(console, width)
    for found in ordered:
        _print_one(page, found)
    numbers = Counter(found.severity for found in ordered)
    words = [count(numbers[severity], str(severity)) for severity in Severity if numbers[severity]]
    if words:
        page.line(f"{listed(words)}.")


def _print_one(page: ConsolePage, found: Diagnostic) -> None:
    page.line(found.message, lead=f"{found.severity}[{found.code}]:", lead_style=_STYLES[found.severity])
    if str(found.place):
        page.line(f"at {found.place}", "dim", indent=2)
    if found.excerpt:
        shown, carets = excerpt_and_carets(found.excerpt, found.place, page.width - 4)
        page.verbatim(f"  | {shown}")
        page.verbatim(f"  | {carets}", _STYLES[found.severity])
    if found.help:
        page.line(found.help, lead="help:", indent=2)
    page.line()


def excerpt_and_carets(excerpt: str, place: Place, width: int) -> tuple[str, str]:
    """Return the part of an excerpt, at most `width` columns wide, that holds the place, and the carets to go under it.

    Tabs and control codes count as one space; a character that fills two columns has two carets.
    """
    from rich.cells import cell_len

    text = plain(excerpt).rstrip()
    start = min(max(place.column - 1, 0), len(text))
    first = 0
    while cell_len(text[first : start + max(place.length, 1)]) > width - 8 and first < start:
        first += 1
    lead = "..." if first else ""
    shown = lead + text[first:]
    if cell_len(shown) > width:
        last = len(shown)
        while cell_len(shown[:last]) > width - 3:
            last -= 1
        shown = f"{shown[:last]}..."
    before = cell_len(lead + text[first:start])
    marked = cell_len(text[start : start + max(place.length, 1)])
    return shown, " " * before + "^" * max(1, min(marked, width - before))
