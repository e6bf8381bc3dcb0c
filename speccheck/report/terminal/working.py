"""The working of one line and one clause in a terminal: what was stated, each step, where it comes from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from speccheck.judge.cell import Cell, Step
from speccheck.language.core import Clause, Ruleset
from speccheck.language.core.walking import conditions_of, terms_of
from speccheck.report.line_words import place_words, shown, understood
from speccheck.report.terminal.diagnostics import ConsolePage
from speccheck.report.wording import clause_label, ruleset_heading
from speccheck.schedule.lines import Line

if TYPE_CHECKING:
    from rich.console import Console

TRUTHS = {True: "holds", False: "does not hold", None: "not known"}


def print_working(
    line: Line,
    clause: Clause,
    cell: Cell,
    ruleset: Ruleset,
    console: Console | None = None,
    *,
    width: int | None = None,
) -> None:
    """Print the verdict on one line by one clause, the data that went in, the steps, the wording and the sources."""
    page = ConsolePage(console, width)
    page.line(ruleset_heading(ruleset), "dim")
    page.line(clause.title, lead=f"Clause {clause_label(clause)}:")
    page.line(place_words(line.place), "dim", lead=f"Line {line.name}:")
    page.line()
    page.line(cell.reason, lead=f"{str(cell.verdict).capitalize()}:")
    page.line(str(cell.basis), indent=2)
    for at in cell.at:
        page.line(at, lead="at", indent=2)
    if cell.advice is not None and cell.mandatory:
        page.line(f"{cell.advice}: {cell.advice_reason}", lead="Recommendation:", indent=2)
    _print_data(page, line, clause, ruleset)
    _print_steps(page, cell.steps)
    _print_origin(page, clause, cell)


def _print_data(page: ConsolePage, line: Line, clause: Clause, ruleset: Ruleset) -> None:
    page.line()
    page.line("What the line states for this clause", "bold")
    for term in terms_of(conditions_of(clause)):
        datum = line.data.get(term.name)
        if datum is None:
            page.line("not stated", "dim", lead=f"{term.name}:", indent=2)
            continue
        words = understood(datum, term, ruleset.units) or "not given"
        notes = [
            f"written `{shown(datum)}`" if shown(datum) not in ("", words) else "",
            datum.note,
            place_words(datum.place),
        ]
        page.line(f"{words} ({', '.join(note for note in notes if note)})", lead=f"{term.name}:", indent=2)


def _print_steps(page: ConsolePage, steps: tuple[Step, ...]) -> None:
    page.line()
    page.line("Step by step", "bold")
    for step in steps:
        indent = 2 + 2 * step.depth
        page.line(f"{step.text}: {TRUTHS[step.truth]}", lead=step.part if step.depth == 0 else "", indent=indent)
        if step.detail:
            page.line(step.detail, "dim", indent=indent + 4)


def _print_origin(page: ConsolePage, clause: Clause, cell: Cell) -> None:
    page.line()
    for lead, texts in (
        ("Wording:", (clause.wording,)),
        ("Reason:", (clause.reason,)),
        ("Source:", tuple(str(source) for source in clause.sources)),
        ("Note:", (*clause.notes, *cell.notes)),
        ("Caution:", clause.cautions),
    ):
        for text in texts:
            if text:
                page.line(text, lead=lead)
