"""The requirements of a line in a terminal: what applies and what may, ruleset by ruleset, with sources."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from speccheck.english import agree, count
from speccheck.report.line_words import understood
from speccheck.report.terminal.diagnostics import ConsolePage
from speccheck.report.wording import STANDING_CAUTIONS, clause_label, ruleset_heading

if TYPE_CHECKING:
    from rich.console import Console

    from speccheck.review.requirements import Asked, Requirement, RulesetRequirements
    from speccheck.schedule.lines import Line


def print_requirements(
    line: Line, found: Sequence[RulesetRequirements], console: Console | None = None, *, width: int | None = None
) -> None:
    """Print what rulesets ask of a line; `console` and `width` are as in `print_matrix`."""
    page = ConsolePage(console, width)
    page.line(", ".join(_stated(line, found)), lead=f"{line.name}:")
    applying, perhaps = sum(len(one.applying) for one in found), sum(len(one.perhaps) for one in found)
    verb = agree(applying, "applies", "apply")
    page.line(f"{count(applying, 'clause')} {verb}, {perhaps} may, in {count(len(found), 'ruleset')}.", "bold")
    for one in found:
        if one.applying or one.perhaps:
            _print_ruleset(page, one)
    silent = [one.ruleset.name for one in found if not (one.applying or one.perhaps)]
    if silent:
        page.line()
        page.line("; ".join(silent), "dim", lead="Nothing for this line in:")
    page.line()
    for caution in STANDING_CAUTIONS:
        page.line(caution, "dim")


def _stated(line: Line, found: Sequence[RulesetRequirements]) -> list[str]:
    """Return what was understood of the line, term by term; data that are not given are left out."""
    if not found:
        return []
    ruleset = found[0].ruleset
    terms = ((name, ruleset.vocabulary.terms.get(name), datum) for name, datum in line.data.items())
    words = ((name, understood(datum, term, ruleset.units)) for name, term, datum in terms)
    return [f"{name} {value}" for name, value in words if value]


def _print_ruleset(page: ConsolePage, found: RulesetRequirements) -> None:
    page.line()
    page.line(ruleset_heading(found.ruleset), "bold")
    if found.ruleset.builds_on:
        page.line("; ".join(found.ruleset.builds_on), "dim", lead="builds on:", lead_style="dim", indent=2)
    for lead, requirements in (("Applies", found.applying), ("May apply", found.perhaps)):
        if requirements:
            page.line(lead, "underline", indent=2)
        for requirement in requirements:
            _print_requirement(page, requirement)
    for caution in found.ruleset.cautions:
        page.line(caution, "dim", lead="caution:", lead_style="dim", indent=2)


def _print_requirement(page: ConsolePage, requirement: Requirement) -> None:
    clause = requirement.clause
    page.line(clause.title, lead=clause_label(clause), indent=4)
    if requirement.depends_on:
        page.line(", ".join(requirement.depends_on), lead="depends on:", indent=6)
    if requirement.at:
        page.line("; ".join(requirement.at), lead="at:", indent=6)
    for asked in requirement.asked:
        page.line(_words(asked), lead=asked.part, indent=6)
    for lead, texts in (
        ("source:", requirement.sources),
        ("note:", requirement.notes),
        ("caution:", clause.cautions),
    ):
        for text in texts:
            page.line(str(text), "dim", lead=lead, lead_style="dim", indent=6)


def _words(asked: Asked) -> str:
    return f"{asked.text} (at {'; '.join(asked.at)})" if asked.at else asked.text
