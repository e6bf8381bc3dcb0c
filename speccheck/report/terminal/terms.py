"""The terms of a vocabulary in a terminal, and two editions of a ruleset compared."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from speccheck.english import count
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary, fold
from speccheck.report.terminal.diagnostics import ConsolePage
from speccheck.review.editions import ClauseChange, ClauseFate

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


def kind_words(term: Term, system: str = "") -> str:
    """Return the kind of a term with its usual units, or with that of one system."""
    words = str(term.kind)
    if term.kind.form is Form.QUANTITY:
        both = {"inch-pound": (term.inch_pound,), "metric": (term.metric,)}.get(system, (term.inch_pound, term.metric))
        words += f" in {' or '.join(dict.fromkeys(both))}"
    return f"{words}, computed" if term.computed else words


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
