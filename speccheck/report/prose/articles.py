"""The articles of a section that clauses make up, and the paragraphs in them, before and after they have numbers.

A clause goes to the part that its number begins with, where it is numbered as a section is (2.1.A, 2.1.A-2), and keeps
its number there; otherwise to the part of the heading under which the vocabulary has what it asks for
(`parts.csv`), Products where none is listed. The ruleset's own clauses come before those that it builds on.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from pathlib import Path

from speccheck.english import capitalized, listed
from speccheck.language.core import Clause, Ruleset, Table
from speccheck.language.core.walking import conditions_of, tables_of, terms_of
from speccheck.report.prose.words import clause_sentences, sentence
from speccheck.specification.word_numbers import letters


@dataclass(frozen=True, slots=True)
class ProseParagraph:
    """One paragraph: its text, the title and the label of its clause where it is one, its subparagraphs.

    A clause stands once: in the sentences of its rule, or in the words of the section that it came from. `remarks` are
    reasons, notes and sources, which ask for nothing. `letter` is "" until it has one; `number` is that letter as a
    number, from 1.
    """

    text: str
    title: str = ""
    label: str = ""
    inner: tuple[str, ...] = ()
    remarks: tuple[str, ...] = ()
    letter: str = ""
    number: int = 0


@dataclass(frozen=True, slots=True)
class Telling:
    """How a ruleset is told: in the words of the section where clauses have them, and with sources and reasons."""

    as_worded: bool = False
    sources: bool = False


PLAINLY = Telling()


@dataclass
class Draft:
    """An article before it has a number; `number` is the one that its writer gave it, 0 for none."""

    title: str
    paragraphs: list[ProseParagraph] = field(default_factory=list)
    tables: list[Table] = field(default_factory=list)
    number: int = 0


def lettered(number: int) -> str:
    """Return the letters of a paragraph by its number from 0, as Word counts: A to Z, then AA, BB, and so on."""
    return letters(number + 1)


PARTS_FILE = Path(__file__).with_name("parts.csv")
_NUMBERED = re.compile(r"([123])\.(\d+)\.([A-Z]|([A-Z])\4)(?:[.-].+)?$")
# How many terms the title of an article names; with more, it has the heading that the vocabulary has them under.
MOST_NAMED = 3


@cache
def _parts_of_headings() -> dict[str, int]:
    with PARTS_FILE.open(encoding="utf-8", newline="") as file:
        return {row["heading"]: int(row["part"]) for row in csv.DictReader(file)}


def part_of(clause: Clause) -> int:
    """Return the part that a clause belongs to: 1, 2 or 3."""
    numbered = _NUMBERED.match(clause.name)
    return int(numbered[1]) if numbered else _parts_of_headings().get(_heading(clause), 2)


def articles_of(clauses: Iterable[Clause], ruleset: Ruleset, part: int, telling: Telling = PLAINLY) -> Iterator[Draft]:
    """Yield the articles of the clauses of one part: of the writer's numbers first, then by ruleset and heading."""
    groups: dict[tuple[int, str, str], list[Clause]] = {}
    for clause in sorted(clauses, key=lambda one: (one.ruleset != ruleset.name, _own_number(one, ruleset) or 999)):
        number = _own_number(clause, ruleset)
        groups.setdefault((number, "", "") if number else (0, clause.ruleset, _heading(clause)), []).append(clause)
    for (number, _, _), group in groups.items():
        paragraphs = _together([_paragraph(clause, ruleset, telling) for clause in group])
        tables = [table.whole for clause in group for table in tables_of(conditions_of(clause))]
        yield Draft(_title(group, ruleset, named=bool(number)), paragraphs, tables, number)


def _own_number(clause: Clause, ruleset: Ruleset) -> int:
    """Return the number of the article in which a writer put a clause, 0 for none."""
    numbered = _NUMBERED.match(clause.name) if clause.ruleset == ruleset.name else None
    return int(numbered[2]) if numbered else 0


def _together(paragraphs: Sequence[ProseParagraph]) -> list[ProseParagraph]:
    """Return paragraphs with those of the same letter put under the first of them: 2.1.A.1 and 2.1.A-2 under 2.1.A."""
    found: list[ProseParagraph] = []
    for one in sorted(paragraphs, key=lambda each: (len(each.letter), each.letter)):
        if one.letter and found and found[-1].letter == one.letter:
            above = found[-1]
            told = f"{one.title} (clause {one.label}): {one.text}"
            inner, remarks = (*above.inner, told, *one.inner), (*above.remarks, *one.remarks)
            found[-1] = replace(above, inner=inner, remarks=remarks)
        else:
            found.append(one)
    return found


def _title(clauses: Sequence[Clause], ruleset: Ruleset, *, named: bool) -> str:
    """Return the title of an article: what its clauses ask for, where that is little, else the heading of that."""
    asked = {terms[0].name: terms[0] for one in clauses if (terms := terms_of(one.shall or one.should))}
    title = _heading(clauses[0]) or "Requirements"
    if len(asked) <= MOST_NAMED and (named or all(term.computed for term in asked.values())):
        title = listed(asked)
    origin = clauses[0].ruleset
    title = capitalized(title)
    return title if origin == ruleset.name else f"{title}, after {origin}"


def _heading(clause: Clause) -> str:
    """Return the heading under which the vocabulary has what a clause asks for: that of its subject comes first."""
    asked = terms_of(clause.shall or clause.should)
    named = [term.heading for term in asked if term.name == clause.subject]
    known = [term.heading for term in asked if term.heading in _parts_of_headings()]
    return next(iter([*named, *known, *(term.heading for term in asked)]), "")


def _paragraph(clause: Clause, ruleset: Ruleset, telling: Telling) -> ProseParagraph:
    numbered = _NUMBERED.match(clause.name) if _own_number(clause, ruleset) else None
    letter = numbered[3] if numbered else ""
    rule = " ".join(clause_sentences(clause, ruleset.units))
    inner = tuple(f"Caution: {sentence(text)}" for text in clause.cautions)
    text = clause.wording if telling.as_worded and clause.wording else rule
    remarks = _remarks(clause) if telling.sources else ()
    return ProseParagraph(text, clause.title, clause.label, inner, remarks, letter)


def _remarks(clause: Clause) -> tuple[str, ...]:
    """Return the reason, the notes and the sources of a clause, which ask for nothing."""
    remarks = [f"Reason: {sentence(clause.reason)}"] if clause.reason else []
    remarks += [f"Note: {sentence(text)}" for text in clause.notes]
    if clause.sources:
        remarks.append(f"Source: {listed(str(source) for source in clause.sources)}.")
    return tuple(remarks)
