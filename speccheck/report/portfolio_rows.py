"""Rows of a terminal that begin with counts and end with a name, which is wrapped where it is long and never cut."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from speccheck.report.console_page import ConsolePage

WIDTH = 9
_LEAST_ROOM = 16


def print_row(page: ConsolePage, counts: Sequence[str], name: str, style: str = "", indent: int = 0) -> None:
    """Print the counts, each in a column of its own, and the name beside them on as many lines as it needs."""
    before = " " * indent + "".join(count.rjust(max(WIDTH, len(count) + 1)) for count in counts) + "  "
    room = max(page.width - len(before), _LEAST_ROOM)
    for number, part in enumerate(textwrap.wrap(" ".join(name.split()), room) or [""]):
        page.verbatim((" " * len(before) if number else before) + part, style)
