"""What would comply, in a terminal: line by line the cheapest changes and their alternatives."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from speccheck.english import count
from speccheck.report import wording
from speccheck.report.cautions import STANDING_CAUTIONS
from speccheck.report.line_words import brief
from speccheck.report.mending_words import BROKEN_OFF, none_text, proposal_texts
from speccheck.report.terminal.diagnostics import ConsolePage
from speccheck.review.corrections import Mending
from speccheck.review.matrix import Matrix
from speccheck.review.yearly import MEASURES, YearlyMeasure, is_asked, yearly_sum

if TYPE_CHECKING:
    from rich.console import Console

_QUIET, _STRONG = "dim", "bold"

CAUTION = (
    "A proposal is what the clauses would accept, found by trying values, and no design. Who proposes it has to hold "
    "it against the product data, the structure, the space and the code; the contractor chooses, and the engineer "
    "decides."
)


def print_mendings(
    matrix: Matrix, mendings: Sequence[Mending], console: Console | None = None, *, width: int | None = None
) -> None:
    """Print what would make lines comply; `console` is a rich console, by default one on standard output."""
    page = ConsolePage(console, width)
    page.line(wording.ruleset_heading(matrix.ruleset), _STRONG)
    page.line(f"{matrix.schedule.name}: {wording.extent(matrix)}")
    page.line()
    page.line(summary(mendings), _STRONG)
    for words in yearly_words(matrix, mendings):
        page.line(words)
    for mending in mendings:
        page.line()
        _print_mending(page, mending, matrix.ruleset.units)
    page.line()
    for caution in (CAUTION, *STANDING_CAUTIONS):
        page.line(caution, _QUIET)


def summary(mendings: Sequence[Mending]) -> str:
    """Return in a sentence how many lines there is a proposal for."""
    if not mendings:
        return "No line fails, and none lacks data that its contractor has to give."
    able = sum(bool(mending.proposals) for mending in mendings)
    lines = count(len(mendings), "line fails or lacks data", "lines fail or lack data")
    return f"{lines}; for {able} of them there are changes that would comply."


def yearly_words(matrix: Matrix, mendings: Sequence[Mending]) -> tuple[str, ...]:
    """Return what the lines with a proposal cost and emit a year, as proposed and as corrected, where that is asked."""
    able = [mending for mending in mendings if mending.proposals]
    asked = [measure for measure in MEASURES if able and is_asked(measure, matrix.schedule.lines, matrix.ruleset)]
    return tuple(_yearly(measure, able, matrix) for measure in asked)


def _yearly(measure: YearlyMeasure, able: Sequence[Mending], matrix: Matrix) -> str:
    before, after = [one.line for one in able], [one.proposals[0].line for one in able]
    found, unit = yearly_sum(before, after, matrix.ruleset, measure.value), measure.unit
    if not found.lines:
        return f"What they {measure.would} a year cannot be determined."
    lines = count(found.lines, f"line {measure.costs[0]}", f"lines {measure.costs[1]}")
    words = (
        f"As proposed {lines} {found.proposed:,.0f}{unit} a year, with the first changes {found.otherwise:,.0f}{unit}."
    )
    more = f" Of {count(found.unknown, 'more line', 'more lines')} it cannot be determined." if found.unknown else ""
    return words + more


def _print_mending(page: ConsolePage, mending: Mending, system: str) -> None:
    """Print one line: what it breaks and lacks, and the proposals."""
    page.line(brief(mending.line), lead=mending.line.name)
    for words, clauses in (("does not comply with", mending.fails), ("lacks data for", mending.lacks)):
        if clauses:
            page.line(f"{words} {', '.join(wording.clause_label(clause) for clause in clauses)}", _QUIET, indent=2)
    for number, proposal in enumerate(mending.proposals):
        first, *rest = proposal_texts(proposal, system)
        page.line(first, lead="or" if number else "", indent=2)
        for text in rest:
            page.line(f"and {text}", indent=4)
    if not mending.proposals:
        page.line(none_text(mending), indent=2)
    elif not mending.whole:
        page.line(BROKEN_OFF, _QUIET, indent=2)
