"""The requirements of a line in a terminal: what applies in short, or in full what may apply too, with all sources."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from typing import TYPE_CHECKING

from speccheck.english import agree, count, first_of, listed
from speccheck.report.cautions import STANDING_CAUTIONS
from speccheck.report.line_words import brief, understood
from speccheck.report.terminal.diagnostics import ConsolePage
from speccheck.report.wording import clause_label, ruleset_heading

if TYPE_CHECKING:
    from rich.console import Console

    from speccheck.review.requirements import AskedCondition, PublishedRequirement, RulesetRequirements
    from speccheck.schedule.lines import Line


MOST_CLAUSES, MOST_DATA = 2, 6
_REST = "`--full` prints every requirement with its sources, its notes and its cautions."


def print_short_requirements(
    line: Line, found: Sequence[RulesetRequirements], console: Console | None = None, *, width: int | None = None
) -> None:
    """Print what applies to a line, a few words for each clause, and what has to be known to tell of the others.

    `console` and `width` are as in `print_matrix`.
    """
    page = ConsolePage(console, width)
    page.line(brief(line), lead=f"{line.name}:")
    page.line()
    for one in found:
        if one.applying:
            _print_in_short(page, one)
    perhaps = [requirement for one in found for requirement in one.perhaps]
    if perhaps:
        page.line()
        page.line(f"{first_of(_open_data(perhaps), MOST_DATA)}.", lead="Information needed for the others:")
    page.line()
    for caution in STANDING_CAUTIONS:
        page.line(caution, "dim")
    page.line()
    page.line(_REST, "dim")
    page.line(_heading(found), "bold")


def _print_in_short(page: ConsolePage, found: RulesetRequirements) -> None:
    """Print the clauses of a ruleset that apply, a line for each, as many as are read at a glance."""
    shown, others = found.applying[:MOST_CLAUSES], found.applying[MOST_CLAUSES:]
    more = f"; also {listed(clause_label(one.clause) for one in others)}" if others else ""
    page.verbatim(_cut(f"{found.ruleset.name}{more}", page.width), "bold")
    column = max(len(clause_label(one.clause)) for one in shown)
    for one in shown:
        asked = "; ".join(dict.fromkeys(f"{each.part} {each.text}" for each in one.asked))
        page.verbatim(_cut(f"  {clause_label(one.clause):<{column}}  {asked or one.clause.title}", page.width))


def _cut(text: str, width: int) -> str:
    return text if len(text) <= width else f"{text[: width - 3].rstrip()}..."


def _open_data(perhaps: Sequence[PublishedRequirement]) -> list[str]:
    """Return what would tell whether clauses apply, what settles most of them first, with how many these are."""
    numbers = Counter(name for requirement in perhaps for name in requirement.depends_on)
    return [f"{name} ({count(number, 'clause')})" for name, number in numbers.most_common()]


def _heading(found: Sequence[RulesetRequirements]) -> str:
    applying, perhaps = sum(len(one.applying) for one in found), sum(len(one.perhaps) for one in found)
    verb = agree(applying, "applies", "apply")
    return f"{count(applying, 'clause')} {verb}, {perhaps} may, in {count(len(found), 'ruleset')}."


def print_requirements(
    line: Line, found: Sequence[RulesetRequirements], console: Console | None = None, *, width: int | None = None
) -> None:
    """Print all that rulesets ask of a line, what may apply too; `console` and `width` are as in `print_matrix`."""
    page = ConsolePage(console, width)
    page.line(", ".join(_stated(line, found)), lead=f"{line.name}:")
    page.line(_heading(found), "bold")
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


def _print_requirement(page: ConsolePage, requirement: PublishedRequirement) -> None:
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


def _words(asked: AskedCondition) -> str:
    return f"{asked.text} (at {'; '.join(asked.at)})" if asked.at else asked.text
