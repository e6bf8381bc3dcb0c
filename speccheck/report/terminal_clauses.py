"""Two editions of a ruleset compared, in a terminal."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from speccheck.report.console_page import ConsolePage
from speccheck.report.wording import count
from speccheck.review.clause_changes import ClauseChange, ClauseFate

if TYPE_CHECKING:
    from rich.console import Console


def print_clause_changes(
    changes: Sequence[ClauseChange], console: Console | None = None, *, width: int | None = None
) -> None:
    """Print what became of each clause, by what became of it; `console` and `width` are as in `print_matrix`."""
    page = ConsolePage(console, width)
    meaning = sum(change.changes_meaning for change in changes)
    if not changes:
        page.line("The two editions are the same, clause by clause.", "bold")
    else:
        page.line(f"{count(meaning, 'change')} of meaning, {len(changes) - meaning} of words or numbers.", "bold")
    for fate in ClauseFate:
        alike = [change for change in changes if change.fate is fate]
        if not alike:
            continue
        page.line()
        page.line(str(fate).capitalize(), "bold")
        for change in alike:
            names = " to ".join(dict.fromkeys(name for name in (change.old, change.new) if name))
            page.line(change.title, lead=names, indent=2)
            for detail in change.details:
                page.line(detail, indent=4)
