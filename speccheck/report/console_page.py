"""Lines of text on a console: wrapped between words, never wider than asked for, no control codes of others."""

from __future__ import annotations

from typing import TYPE_CHECKING

from speccheck.report.escaping import plain

if TYPE_CHECKING:
    from rich.console import Console
    from rich.text import Text

WIDTH = 80
LEAST_WIDTH = 30
STRONG = "bold"


class ConsolePage:
    """A console and the width to fill: as many columns as the terminal has, 80 where there is none."""

    def __init__(self, console: Console | None = None, width: int | None = None) -> None:
        from rich.console import Console

        self.console = console or Console()
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
