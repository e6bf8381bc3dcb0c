"""A ruleset as a specification section in three parts: General, Products, Execution.

In: a `Ruleset`. Out: a `Section`, which the page and the word-processor document lay out. Parts have articles (1.1,
1.2), articles have paragraphs (A, B), paragraphs have subparagraphs (1, 2): the levels that specifications of the
building trades commonly have (common practice, no source).

A clause goes to the part that its number begins with, where it is numbered as a section is (2.1.A); otherwise to the
part of the heading under which the vocabulary has what it asks for (`prose_parts.csv`), Products where none is listed.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field
from functools import cache
from itertools import groupby
from pathlib import Path

from speccheck.language.core import Assumption, Clause, Ruleset, Source, Table
from speccheck.language.walking import conditions_of, tables_of, terms_of
from speccheck.language.wording import value_text
from speccheck.report.prose_words import clause_sentences, definition_sentence, sentence
from speccheck.report.wording import ruleset_heading

PARTS_FILE = Path(__file__).with_name("prose_parts.csv")
TITLES = {1: "General", 2: "Products", 3: "Execution"}
_NUMBERED = re.compile(r"([123])\.\d+\.[A-Z]")


@dataclass(frozen=True, slots=True)
class Paragraph:
    """One paragraph: its text, the title and the label of its clause where it is one, and its subparagraphs."""

    text: str
    title: str = ""
    label: str = ""
    inner: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ProseTable:
    """A table: its name and unit, the headings of its columns, its rows with their headings, what is noted under it."""

    title: str
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    remarks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Article:
    """An article: its number ("2.1"), its title, its paragraphs, and the tables that they look up."""

    number: str
    title: str
    paragraphs: tuple[Paragraph, ...]
    tables: tuple[ProseTable, ...] = ()


@dataclass(frozen=True, slots=True)
class SectionPart:
    """One of the three parts, with its articles."""

    number: int
    title: str
    articles: tuple[Article, ...]


@dataclass(frozen=True, slots=True)
class Section:
    """A whole section: its title and its parts."""

    title: str
    parts: tuple[SectionPart, ...]


@dataclass
class _Draft:
    """An article before it has a number."""

    title: str
    paragraphs: list[Paragraph] = field(default_factory=list)
    tables: list[Table] = field(default_factory=list)


def section_of(ruleset: Ruleset) -> Section:
    """Return the section that a ruleset comes to, the clauses of rulesets that it builds on included."""
    drafts: dict[int, list[_Draft]] = {1: list(_general(ruleset)), 2: [], 3: []}
    for part in TITLES:
        clauses = [clause for clause in ruleset.clauses if _part_of(clause) == part]
        drafts[part] += _articles(clauses, ruleset)
    shown: set[str] = set()
    parts = (
        SectionPart(number, title, tuple(_numbered(number, drafts[number], ruleset, shown)))
        for number, title in TITLES.items()
    )
    return Section(ruleset_heading(ruleset), tuple(parts))


def _numbered(part: int, drafts: Iterable[_Draft], ruleset: Ruleset, shown: set[str]) -> Iterator[Article]:
    """Yield articles with their numbers; each table stands where it is first looked up."""
    for number, draft in enumerate(drafts, start=1):
        new = [table for table in dict.fromkeys(draft.tables) if table.name not in shown]
        shown.update(table.name for table in new)
        tables = tuple(_table(table, ruleset.units) for table in new)
        yield Article(f"{part}.{number}", draft.title, tuple(draft.paragraphs), tables)


# ---- part 1 ------------------------------------------------------------------------------------------------------


def _general(ruleset: Ruleset) -> Iterator[_Draft]:
    """Yield the articles on what the section is about, before any clause."""
    summary = [sentence(f"this section covers {ruleset.covers}")] if ruleset.covers else []
    summary += [sentence(f"it does not cover {ruleset.leaves_out}")] if ruleset.leaves_out else []
    summary += [sentence(f"the requirements of {name} apply too") for name in ruleset.builds_on]
    yield from _article("Summary", summary)
    yield from _article("Cautions", ruleset.cautions)
    yield from _article("References", sorted({str(source) for source in _sources(ruleset)}))
    defined = (definition_sentence(name, meaning, ruleset.units) for name, meaning in ruleset.definitions.items())
    yield from _article("Definitions", defined)
    yield from _article("Design conditions", (_assumed(one, ruleset.units) for one in ruleset.assumptions))
    yield from _article("Notes", ruleset.notes)


def _article(title: str, texts: Iterable[str]) -> Iterator[_Draft]:
    paragraphs = [Paragraph(text) for text in texts]
    if paragraphs:
        yield _Draft(title, paragraphs)


def _sources(ruleset: Ruleset) -> Iterator[Source]:
    for clause in ruleset.clauses:
        yield from clause.sources
        for table in tables_of(conditions_of(clause)):
            yield from table.sources


def _assumed(assumption: Assumption, system: str) -> str:
    return sentence(f"where nothing else is stated, {assumption.term.name} is {value_text(assumption.value, system)}")


# ---- clauses -----------------------------------------------------------------------------------------------------


@cache
def _parts_of_headings() -> dict[str, int]:
    with PARTS_FILE.open(encoding="utf-8", newline="") as file:
        return {row["heading"]: int(row["part"]) for row in csv.DictReader(file)}


def _part_of(clause: Clause) -> int:
    numbered = _NUMBERED.match(clause.name)
    return int(numbered[1]) if numbered else _parts_of_headings().get(_heading(clause), 2)


def _heading(clause: Clause) -> str:
    """Return the heading under which the vocabulary has what a clause asks for: that of its subject comes first."""
    asked = terms_of(clause.shall or clause.should)
    named = [term.heading for term in asked if term.name == clause.subject]
    known = [term.heading for term in asked if term.heading in _parts_of_headings()]
    return next(iter([*named, *known, *(term.heading for term in asked)]), "")


def _articles(clauses: Iterable[Clause], ruleset: Ruleset) -> Iterator[_Draft]:
    """Yield articles of neighbouring clauses on one thing."""
    for title, group in groupby(clauses, key=lambda clause: _heading(clause) or "Requirements"):
        draft = _Draft(title)
        for clause in group:
            draft.paragraphs.append(_paragraph(clause, ruleset.units))
            draft.tables += tables_of(conditions_of(clause))
        yield draft


def _paragraph(clause: Clause, system: str) -> Paragraph:
    inner = [*clause_sentences(clause, system)]
    inner += [f"Caution: {text}" for text in clause.cautions]
    inner += [f"Reason: {clause.reason}"] if clause.reason else []
    inner += [f"Note: {text}" for text in clause.notes]
    inner += [f"Source: {source}." for source in clause.sources]
    return Paragraph(clause.wording, clause.title, clause.label, tuple(inner))


def _table(table: Table, system: str) -> ProseTable:
    unit = table.unit or (table.of.name if table.of else "")
    rows, *columns = table.axes
    head = (rows.term.name, *(band.text for band in columns[0].bands)) if columns else (rows.term.name, unit or "value")
    title = f"{table.name}, in {table.unit}" if table.unit else table.name
    cells = (
        (band.text, *("–" if cell is None else value_text(cell.value, system) for cell in row))
        for band, row in zip(rows.bands, table.cells, strict=True)
    )
    remarks = (*(f"Columns: {axis.term.name}." for axis in columns), *table.cautions, *table.notes)
    return ProseTable(title, head, tuple(cells), (*remarks, *(f"Source: {source}." for source in table.sources)))
