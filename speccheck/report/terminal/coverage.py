"""The coverage of a section in a terminal: what is open first, the counts last."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from speccheck.report.escaping import plain
from speccheck.specification.coverage import Coverage, CoverageReport, Covered

if TYPE_CHECKING:
    from rich.console import Console

LONGEST_SHOWN = 58
OPEN = (Covered.NOTHING, Covered.DRAFT)


def print_coverage(report: CoverageReport, console: Console, *, full: bool = False) -> None:
    """Print what becomes of the paragraphs of a section."""
    for line in _lines(report, full):
        console.print(line, markup=False, highlight=False, soft_wrap=False)


def _lines(report: CoverageReport, full: bool) -> Iterator[str]:
    sorts = OPEN if not full else (*OPEN, Covered.NOT_CHECKED, Covered.CHECKED)
    for covered in sorts:
        found = [one for one in report.paragraphs if one.covered is covered]
        if found:
            yield f"{covered.value[0].upper()}{covered.value[1:]}"
            yield from (f"  {_shown(one)}" for one in found)
            yield ""
    differing = [one for one in report.paragraphs if one.differs]
    if differing:
        yield "Wording that is not that of the section"
        yield from (f"  clause {', '.join(one.differs)}: {_shown(one)}" for one in differing)
        yield ""
    if report.strangers:
        yield "Clauses whose paragraph the section does not have"
        yield f"  {', '.join(report.strangers)}"
        yield ""
    yield ", ".join(f"{report.count(covered)} {covered.value}" for covered in Covered if covered is not Covered.HEADING)


def _shown(one: Coverage) -> str:
    text = plain(one.paragraph.text)
    text = text if len(text) <= LONGEST_SHOWN else text[: LONGEST_SHOWN - 3] + "..."
    because = f" ({one.because})" if one.because else ""
    return f"{one.paragraph.number or one.paragraph.place}  {text}{because}"
