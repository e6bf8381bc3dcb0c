"""The terms of a vocabulary in a terminal, under their headings."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from speccheck.language.kinds import Form
from speccheck.language.vocabulary import Term, Vocabulary, fold
from speccheck.report.console_page import ConsolePage

if TYPE_CHECKING:
    from collections.abc import Sequence

    from rich.console import Console


def terms_about(vocabulary: Vocabulary, words: str) -> tuple[Term, ...]:
    """Return the terms whose name, meaning, synonyms or values hold `words`; all of them for no words."""
    wanted = fold(words)
    return tuple(term for term in vocabulary.terms.values() if wanted in fold(_everything(term)))


def _everything(term: Term) -> str:
    choices = (word for choice in term.choices for word in (choice.name, *choice.also))
    return " \n ".join((term.name, term.meaning, *term.also, *choices))


def print_terms(
    vocabulary: Vocabulary, terms: Sequence[Term], console: Console | None = None, *, width: int | None = None
) -> None:
    """Print each term with its kind, its meaning, its values and what schedules call it."""
    page = ConsolePage(console, width)
    page.line(f"{len(terms)} of {len(vocabulary.terms)} terms", lead=f"{vocabulary.name}:")
    for heading, group in groupby(terms, key=lambda term: term.heading):
        page.line()
        page.line(heading, "bold")
        for term in group:
            _print_term(page, term)


def _print_term(page: ConsolePage, term: Term) -> None:
    page.line(kind_words(term), lead=term.name, indent=2)
    if term.meaning:
        page.line(term.meaning, indent=4)
    if term.choices:
        page.line(", ".join(choice.name for choice in term.choices), lead="values:", lead_style="dim", indent=4)
    if term.also:
        page.line(", ".join(term.also), "dim", lead="also written:", lead_style="dim", indent=4)


def kind_words(term: Term) -> str:
    """Return the kind of a term with its usual units."""
    words = str(term.kind)
    if term.kind.form is Form.QUANTITY:
        words += f" in {term.inch_pound}" + (f" or {term.metric}" if term.metric != term.inch_pound else "")
    return f"{words}, computed" if term.computed else words
