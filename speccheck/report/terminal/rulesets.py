"""The shipped rulesets in a terminal: document, edition, place and how sure they are; and what is not there."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from speccheck.english import capitalized, count
from speccheck.report.terminal.diagnostics import ConsolePage
from speccheck.review.catalogue import NotShipped, ShippedRuleset

if TYPE_CHECKING:
    from rich.console import Console


MOST_PLACES = 4
"""So many tables and sections of a document are named; `speccheck explain` and the file itself name all."""


def print_rulesets(
    found: Sequence[ShippedRuleset],
    missing: Sequence[NotShipped],
    console: Console | None = None,
    *,
    brief: bool = False,
    width: int | None = None,
) -> None:
    """Print each ruleset with what it was taken from, then what one might look for and is not there.

    With `brief` only the document and its place are told of each.
    """
    page = ConsolePage(console, width)
    for subject, group in groupby(found, key=lambda one: one.subject):
        page.line(capitalized(subject), "bold")
        for one in group:
            if brief:
                page.line(f"{one.ruleset.document}; {one.ruleset.jurisdiction}", lead=one.name, indent=2)
            else:
                _print_ruleset(page, one)
        page.line()
    if missing:
        page.line("Not here", "bold")
        for absent in missing:
            page.line(f"{absent.place}; {absent.why}", lead=f"{absent.document}:", indent=2)
        page.line()
    page.line(f"{count(len(found), 'ruleset')}. None is the document that it is named after: check the adopted code.")
    if brief:
        page.line("Edition, sources and what they were checked against: `--about`, `--place` or `--mark`.", "dim")


def _print_ruleset(page: ConsolePage, one: ShippedRuleset) -> None:
    ruleset = one.ruleset
    page.line("", lead=one.name, indent=2)
    facts = (
        ("document:", ruleset.document),
        ("edition:", ruleset.edition),
        ("place:", ruleset.jurisdiction),
        ("tables and sections:", _some(one.places_in_documents)),
        ("checked against:", ruleset.verified),
        ("sources:", ", ".join(f"{number} {mark}" for mark, number in sorted(one.marks.items()))),
    )
    for lead, words in facts:
        if words:
            page.line(words, lead=lead, lead_style="dim", indent=4)


def _some(places: Sequence[str]) -> str:
    """Return the places in a document in one line: the first of them, and how many more there are."""
    more = [f"and {len(places) - MOST_PLACES} more"] if len(places) > MOST_PLACES else []
    return "; ".join([*places[:MOST_PLACES], *more])
