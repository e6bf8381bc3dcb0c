"""The coverage of a section in a terminal: what is open first, the counts last."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from speccheck.english import capitalized
from speccheck.report.escaping import plain
from speccheck.specification.coverage import Coverage, CoverageReport, Covered
from speccheck.specification.differing import Difference

if TYPE_CHECKING:
    from rich.console import Console

LONGEST_SHOWN = 58
LONGEST_DIFFERENCE = 160
TITLES: Mapping[Difference, str] = {
    Difference.NUMBER: "Paragraphs with another number in the section",
    Difference.WORDING: "Wording that is not that of the section",
    Difference.DIRECTION: "Requirements that point the other way",
    Difference.AMOUNT: "Amounts that are not those of the section",
    Difference.CELL: "Cells that are not those of the section",
}
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
            yield capitalized(covered.value)
            yield from (f"  {_shown(one)}" for one in found)
            yield ""
    for sort in Difference:
        differing = [one for one in report.differs if one.sort is sort]
        if differing:
            yield TITLES[sort]
            yield from (f"  {one.name}: {_short(one.words)}" for one in differing)
            yield ""
    yield from _tables(report)
    if report.strangers:
        yield "Clauses whose paragraph the section does not have"
        yield f"  {', '.join(report.strangers)}"
        yield ""
    if report.to_look_at:
        yield f"Look at: {', '.join(report.to_look_at)}"
    yield ", ".join(f"{report.count(covered)} {covered.value}" for covered in Covered if covered is not Covered.HEADING)


def _tables(report: CoverageReport) -> Iterator[str]:
    """Yield the tables of the section that no table of the ruleset stands for, or that could not be read."""
    open_ones = [one for one in report.tables if not one.name]
    if open_ones:
        yield "Tables that no table of the ruleset stands for"
        for one in open_ones:
            unread = f" (it was not read: {one.unread})" if one.unread else ""
            yield f"  below {one.table.below or one.table.place}  {_short(plain(one.table.title))}{unread}"
        yield ""


def _short(text: str) -> str:
    """Return words as far as a line has room for them."""
    shown = plain(text)
    return shown if len(shown) <= LONGEST_DIFFERENCE else shown[: LONGEST_DIFFERENCE - 3] + "..."


def _shown(one: Coverage) -> str:
    text = plain(one.paragraph.text)
    text = text if len(text) <= LONGEST_SHOWN else text[: LONGEST_SHOWN - 3] + "..."
    because = f" ({one.because})" if one.because else ""
    return f"{one.paragraph.number or one.paragraph.place}  {text}{because}"
