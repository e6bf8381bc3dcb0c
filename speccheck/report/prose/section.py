"""A ruleset as a specification section in three parts: General, Products, Execution.

In: a `Ruleset`. Out: a `ProseSection`, which the page and the word-processor document lay out. Parts have articles
(1.1, 1.2), articles have paragraphs (A, B), paragraphs have subparagraphs (1, 2): the levels that specifications of the
building trades commonly have (common practice, no source). `prose_general` has the articles of the first part that
come before any clause, `prose_articles` those of clauses.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import count

from speccheck.english import capitalized, listed
from speccheck.language.core import Ruleset, Table
from speccheck.language.core.wording import value_text
from speccheck.report.html.small_page import render_small_page
from speccheck.report.prose.articles import PLAINLY, Draft, ProseParagraph, Telling, articles_of, lettered, part_of
from speccheck.report.prose.general import general_articles
from speccheck.report.wording import ruleset_heading
from speccheck.specification.house import WRITTEN_FROM_RULES

NO_CELL = "–"
TITLES = {1: "General", 2: "Products", 3: "Execution"}


@dataclass(frozen=True, slots=True)
class ProseTable:
    """A table: its name and unit, the headings of its columns, its rows with their headings, what is noted under it.

    `over` names what the columns stand for, "" where there is one column. The first `headings` texts of a row are its
    headings.
    """

    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    remarks: tuple[str, ...] = ()
    over: str = ""
    headings: int = 1


@dataclass(frozen=True, slots=True)
class Article:
    """An article: its number ("2.1"), its title, its paragraphs, and the tables that they look up."""

    number: str
    title: str
    paragraphs: tuple[ProseParagraph, ...]
    tables: tuple[ProseTable, ...] = ()


@dataclass(frozen=True, slots=True)
class SectionPart:
    """One of the three parts, with its articles."""

    number: int
    title: str
    articles: tuple[Article, ...]


@dataclass(frozen=True, slots=True)
class ProseSection:
    """A whole section: its title and its parts."""

    title: str
    parts: tuple[SectionPart, ...]


def section_of(ruleset: Ruleset, *, own_only: bool = False, telling: Telling = PLAINLY) -> ProseSection:
    """Return the section that a ruleset comes to.

    Each clause is told once, as `telling` says. The clauses of rulesets that it builds on are written out too, unless
    `own_only`: then they are named as references.
    """
    shown_of = _own(ruleset) if own_only else ruleset
    drafts = {1: list(general_articles(shown_of, own_only=own_only, sources=telling.sources)), 2: [], 3: []}
    for part in TITLES:
        of_part = [clause for clause in shown_of.clauses if part_of(clause) == part]
        drafts[part] += articles_of(of_part, ruleset, part, telling)
    shown: set[str] = set()
    parts = (
        SectionPart(number, title, tuple(_numbered(number, drafts[number], ruleset, shown, telling)))
        for number, title in TITLES.items()
    )
    return ProseSection(ruleset_heading(ruleset), tuple(parts))


def _own(ruleset: Ruleset) -> Ruleset:
    """Return a ruleset with the clauses and assumptions alone that it does not take over from others."""
    return replace(
        ruleset,
        clauses=tuple(clause for clause in ruleset.clauses if clause.ruleset == ruleset.name),
        assumptions=tuple(one for one in ruleset.assumptions if one.ruleset == ruleset.name),
    )


def _numbered(
    part: int, drafts: Sequence[Draft], ruleset: Ruleset, shown: set[str], telling: Telling
) -> Iterator[Article]:
    """Yield articles with their numbers and letters; each table stands where it is first looked up.

    A writer's own numbers stay; other articles take the first numbers that are free, those of clauses behind them.
    """
    taken = {draft.number for draft in drafts if draft.number}
    free = (number for number in count(1) if number not in taken)
    behind = (number for number in count(max(taken, default=0) + 1))
    for draft in drafts:
        draft.number = draft.number or next(behind if taken and part > 1 else free)
    for draft in sorted(drafts, key=lambda one: one.number):
        new = [table for table in dict.fromkeys(draft.tables) if table.name not in shown]
        shown.update(table.name for table in new)
        tables = tuple(_table(table, ruleset.units, telling) for table in new)
        yield Article(f"{part}.{draft.number}", draft.title, tuple(_lettered(draft.paragraphs)), tables)


def _lettered(paragraphs: Iterable[ProseParagraph]) -> Iterator[ProseParagraph]:
    """Yield paragraphs with the letters of the writer, or the letters that come next."""
    number = 0
    for paragraph in paragraphs:
        if paragraph.letter:
            number = _place(paragraph.letter)
        yield replace(paragraph, letter=lettered(number), number=number + 1)
        number += 1


def _place(letters: str) -> int:
    """Return the number from 0 of a paragraph by its letters, as Word counts them: A to Z, then AA, BB, and so on."""
    return 26 * (len(letters) - 1) + ord(letters[0]) - ord("A")


# ---- tables ------------------------------------------------------------------------------------------------------


def _table(table: Table, system: str, telling: Telling) -> ProseTable:
    names = tuple(axis.term.name for axis in table.down)
    head = (*names, *([table.name] if table.across is None else (band.text for band in table.across.bands)))
    rows = (_row(table, at, system) for at in range(len(table.cells)))
    over = "" if table.across is None else table.across.term.name
    sources = [f"Source: {listed(str(source) for source in table.sources)}."] if table.sources else []
    remarks = (*table.cautions, *(table.notes if telling.sources else ()), *(sources if telling.sources else ()))
    return ProseTable(_title(table), head, tuple(row for row in rows if row), remarks, over, len(names))


def _row(table: Table, row: int, system: str) -> tuple[str, ...]:
    """Return the headings and the cells of a row in words; none for a combination of which the table says nothing."""
    cells = [_cell(table, row, column, system) for column in range(len(table.cells[row]))]
    if len(table.down) > 1 and set(cells) == {NO_CELL}:
        return ()
    return (*(band.text for band in table.bands_at(row, 0)[: len(table.down)]), *cells)


def _title(table: Table) -> str:
    name = capitalized(table.name)
    told = table.unit or (table.of.name if table.of is not None else "")
    return f"{name} ({told})" if told else name


def _cell(table: Table, row: int, column: int, system: str) -> str:
    """Return the text of a cell, without the unit that stands in the title of its table."""
    cell = table.cells[row][column]
    if cell is None:
        return str(table.word(row, column) or NO_CELL)
    text = value_text(cell.value, system)
    return text.removesuffix(f" {table.unit}") if table.unit else text


# What stands before every section that is written from rules.
CAUTIONS = (
    WRITTEN_FROM_RULES,
    "Hot surfaces, fire ratings, adhesives and their fumes, and work at height can hurt people. Follow the adopted "
    "code, the manufacturer's instructions and licensed practice.",
)


def render_prose_page(ruleset: Ruleset, *, own_only: bool = False, telling: Telling = PLAINLY) -> str:
    """Return the page; the same ruleset gives the same text. `own_only` leaves out what the ruleset builds on."""
    section = section_of(ruleset, own_only=own_only, telling=telling)
    styles = ("page.css", "prose.css")
    return render_small_page("prose.html.j2", styles=styles, section=section, cautions=CAUTIONS)
