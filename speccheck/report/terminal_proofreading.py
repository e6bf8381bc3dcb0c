"""Proofreading in a terminal: what was found, with the lines that show it; the code compared; the revision compared."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import TYPE_CHECKING

from speccheck.language.core import Assignment, Ruleset
from speccheck.proofread.findings import Finding, Proofreading, Undecided
from speccheck.proofread.revisions import Revised
from speccheck.proofread.stringency import ClauseStringency, Stringency
from speccheck.proofread.turned_verdicts import TurnedVerdict
from speccheck.report.console_page import ConsolePage
from speccheck.report.wording import count, listed

if TYPE_CHECKING:
    from rich.console import Console

_FOUND, _OPEN, _QUIET, _STRONG = "bold yellow", "bold cyan", "dim", "bold"


def print_proofreading(
    ruleset: Ruleset, proofreading: Proofreading, console: Console | None = None, *, width: int | None = None
) -> None:
    """Print the findings of a ruleset in the order of their places, the open questions, and how many there are.

    `console` and `width` are as in `print_matrix`.
    """
    page = ConsolePage(console, width)
    page.line(f"{ruleset.name}: {count(len(ruleset.clauses), 'clause')} proofread", _STRONG)
    page.line()
    for finding in proofreading.findings:
        _print_finding(page, finding)
    _print_undecided(page, proofreading.undecided)
    page.line(_summary(proofreading))


def _print_finding(page: ConsolePage, finding: Finding) -> None:
    page.line(finding.message, lead=f"{finding.code}:", lead_style=_FOUND)
    if str(finding.place):
        page.line(f"at {finding.place}", _QUIET, indent=2)
    if finding.clauses:
        page.line(listed(finding.clauses), lead="clause" if len(finding.clauses) == 1 else "clauses", indent=2)
    if finding.systems and finding.systems not in finding.message:
        page.line(finding.systems, lead="among others:", indent=2)
    if finding.example:
        page.line(finding.example_text, lead="example:", indent=2)
    if finding.help:
        page.line(finding.help, lead="help:", indent=2)
    page.line()


def _print_undecided(page: ConsolePage, undecided: Sequence[Undecided]) -> None:
    if not undecided:
        return
    page.line("Not decided", _OPEN)
    for question in undecided:
        page.line(f"{question.question}: {question.why}", lead=f"{question.code}:", indent=2)
    page.line()


def _summary(proofreading: Proofreading) -> str:
    kinds = [(kind, len(list(group))) for kind, group in groupby(sorted(f.kind for f in proofreading.findings))]
    if not kinds:
        return "Nothing was found." if not proofreading.undecided else "Nothing was found; some questions stay open."
    told = listed(kind if number == 1 else f"{kind} ({number})" for kind, number in kinds)
    return f"{count(sum(number for _, number in kinds), 'finding')}: {told}."


def print_stringency(
    specification: Ruleset,
    code: Ruleset,
    clauses: Sequence[ClauseStringency],
    console: Console | None = None,
    *,
    width: int | None = None,
) -> None:
    """Print how a specification stands to each clause of a code, with the lines that show it."""
    page = ConsolePage(console, width)
    page.line(f"{specification.name}, held against {code.name}", _STRONG)
    for clause in clauses:
        page.line()
        style = {Stringency.LOOSER: _FOUND, Stringency.NOT_COMPARABLE: _FOUND}.get(clause.stringency, _QUIET)
        page.line(clause.title, lead=clause.label)
        page.line(str(clause.stringency) if clause.matched else f"{clause.stringency}: not asked for", style, indent=2)
        if clause.looser:
            page.line(_words(clause.looser), lead="accepted by the specification, not by the code:", indent=2)
        if clause.stricter:
            page.line(_words(clause.stricter), lead=f"fails clause {clause.stricter_by} only:", indent=2)
    page.line()
    counted = [(kind, sum(clause.stringency is kind for clause in clauses)) for kind in Stringency]
    page.line(f"{listed([f'{number} {kind}' for kind, number in counted if number]) or 'no mandatory clause'}.")


def print_revisions(
    base: Ruleset,
    revised: Ruleset,
    changes: Sequence[Revised | Undecided],
    turned: Sequence[TurnedVerdict] | None = None,
    console: Console | None = None,
    *,
    width: int | None = None,
) -> None:
    """Print which systems a revision treats differently, and which verdicts on a schedule turn, if one was given."""
    page = ConsolePage(console, width)
    page.line(f"{revised.name}, {revised.edition or 'revised'}, by meaning since {base.edition or base.name}", _STRONG)
    page.line()
    for change in changes:
        if isinstance(change, Revised):
            _print_finding(page, change.finding)
    _print_undecided(page, [change for change in changes if isinstance(change, Undecided)])
    for verdict in turned or ():
        before, after = (str(one) if one else "no clause" for one in (verdict.before, verdict.after))
        page.line(f"{before} before, {after} now: {verdict.reason}", lead=f"{verdict.line}, clause {verdict.label}:")
    if not changes:
        page.line("Every clause means what it meant before.")
    if turned is not None:
        page.line(f"{count(len(turned), 'verdict')} on the schedule turned." if turned else "No verdict turned.")


def _words(example: Sequence[Assignment]) -> str:
    return ", ".join(f"{stated.term.name} {stated.text}" for stated in example)
