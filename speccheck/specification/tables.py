"""Tables of a section as tables of the language, and the clauses that look them up.

A table of three terms and more that has a cell for each combination of them stays one. Where bands differ from row to
row (the temperatures of each service), a section's table is parted into several by one or two terms, each looked up by
a clause for just those lines.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import product
from math import prod

from speccheck.language import parse_ruleset
from speccheck.language.core import Table
from speccheck.language.core.tables import MOST_AXES
from speccheck.language.vocabulary.terms import Form, Vocabulary
from speccheck.specification.blocks import SectionTable
from speccheck.specification.table_labels import condition_of
from speccheck.specification.table_reading import Record, Shape, groups, read_table

_CLAUSE = '\nclause 0 "stands in for the rest of the ruleset"\n  draft\n  shall concealed\n'
Where = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class DraftedTable:
    """A table in the language, the conditions under which it is looked up, and what its cells are amounts of."""

    name: str
    text: str
    where: tuple[str, ...]
    term: str

    @property
    def ask(self) -> str:
        """What a clause asks that looks it up."""
        return f'{self.term} be at least "{self.name}"'


@dataclass(frozen=True, slots=True)
class DraftedTables:
    """What a section's table became: tables, and what its columns of materials ask, each with its conditions."""

    tables: tuple[DraftedTable, ...] = ()
    chosen: tuple[tuple[tuple[str, ...], str], ...] = ()
    doubts: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


def drafted_tables(table: SectionTable, vocabulary: Vocabulary, name: str, *, metric: bool = False) -> DraftedTables:
    """Return a section's table in the language, or why it could not be read: all of its cells are kept, or none.

    `metric` says that the section has metric units; `notes` are the cells that are marked for a note.
    """
    shape = read_table(table, vocabulary, metric=metric)
    notes = tuple(dict.fromkeys(shape.notes))
    if shape.doubts:
        return DraftedTables(doubts=tuple(dict.fromkeys(shape.doubts)))
    whole = _whole(shape, vocabulary, name)
    if whole is not None:
        return DraftedTables((whole,), tuple(_chosen(shape)), notes=notes)
    found: list[DraftedTable] = []
    for outer, records in groups(shape):
        written = _written(shape, outer, records, vocabulary, name)
        if isinstance(written, str):
            return DraftedTables(doubts=(written,))
        found += written
    return DraftedTables(tuple(found), tuple(_chosen(shape)), notes=notes)


def tables_in(table: SectionTable, vocabulary: Vocabulary) -> tuple[tuple[Table, ...], tuple[str, ...]]:
    """Return a section's table as tables of the core, and why there are none."""
    drafted = drafted_tables(table, vocabulary, "section")
    text = "\n\n".join(one.text for one in drafted.tables)
    loaded = parse_ruleset(_ruleset(text, vocabulary), drafts=True, vocabulary=vocabulary)
    tables = tuple(loaded.ruleset.tables.values()) if loaded.usable and loaded.ruleset is not None else ()
    return tables, drafted.doubts


def _ruleset(text: str, vocabulary: Vocabulary) -> str:
    return f'ruleset "draft"\n  speaks {vocabulary.name}\n\n{text}\n{_CLAUSE}'


def _whole(shape: Shape, vocabulary: Vocabulary, name: str) -> DraftedTable | None:
    """Return a table by three terms and more that has a cell for each of their combinations, None for any other."""
    order = [term for term, _ in shape.records[0].where] if shape.records else []
    if not MOST_AXES >= len(order) > 2 or any({term for term, _ in one.where} != {*order} for one in shape.records):
        return None
    bands = [list(dict.fromkeys(dict(one.where)[term] for one in shape.records)) for term in order]
    cells = {tuple(dict(one.where)[term] for term in order): one.cell for one in shape.records}
    if len(cells) != len(shape.records) or len(cells) != prod(map(len, bands)):
        return None
    lines = ["  " + "| " * len(bands[:-1]) + " | ".join(bands[-1])]
    for row in product(*bands[:-1]):
        lines.append(f"  {' | '.join(row)} | {' | '.join(cells[*row, band] for band in bands[-1])}")
    text = "\n".join([f'table "{name}" in {shape.unit}', f"  by {', '.join(order)}", *lines])
    if not parse_ruleset(_ruleset(text, vocabulary), drafts=True, vocabulary=vocabulary).usable:
        return None
    return DraftedTable(name, text, tuple(_choices_of(order, bands, vocabulary)), shape.term)


def _choices_of(terms: Sequence[str], bands: Sequence[Sequence[str]], vocabulary: Vocabulary) -> Iterable[str]:
    """Yield the conditions under which a table is looked up: one of the choices that its headings name.

    What insulation it does not name it is not known to allow: nothing is said of one there, and it is not left out.
    """
    for term, listed in zip(terms, bands, strict=True):
        if vocabulary.terms[term].kind.form is Form.CHOICE and term != "insulation":
            yield condition_of(term, ", ".join(listed))


def _written(
    shape: Shape, outer: Where, records: Sequence[Record], vocabulary: Vocabulary, name: str
) -> list[DraftedTable] | str:
    """Return the tables of records that agree in `outer`, or why there are none; bands that overlap part them again."""
    terms = [term for term, _ in records[0].where if term not in dict(outer)]
    whole = _table(shape, outer, terms, records, vocabulary, name)
    if isinstance(whole, DraftedTable):
        return [whole]
    if len(terms) < 2:
        return whole
    parting = next((term for term in terms if vocabulary.terms[term].kind.form is Form.CHOICE), terms[0])
    parts: dict[str, list[Record]] = {}
    for record in records:
        parts.setdefault(dict(record.where)[parting], []).append(record)
    found = []
    for band, part in parts.items():
        rest = [term for term in terms if term != parting]
        one = _table(shape, (*outer, (parting, band)), rest, part, vocabulary, name)
        if isinstance(one, str):
            return one
        found.append(one)
    return found


def _table(
    shape: Shape, outer: Where, terms: Sequence[str], records: Sequence[Record], vocabulary: Vocabulary, name: str
) -> DraftedTable | str:
    """Return one table, or why its records make none: two cells of one place, bands that overlap, gaps between."""
    cells = {tuple(dict(record.where)[term] for term in terms): record.cell for record in records}
    if len(cells) != len(records) or not terms:
        return f"the table has two cells for {_told(records[0].where)}"
    bands_of = [list(dict.fromkeys(key[at] for key in cells)) for at in range(len(terms))]
    rows, ordered, columns = bands_of[0], bands_of[-1], bands_of[1:]
    places = [[(row, column) for column in ordered] if columns else [(row,)] for row in rows]
    if any(place not in cells for line in places for place in line):
        return f"the table has no cell for every row and column at {_told(outer)}"
    title = ", ".join([name, *(band for _, band in outer)]).replace('"', "″")
    lines = ["  | " + " | ".join(ordered)] if columns else []
    lines += [f"  {row} | {' | '.join(cells[place] for place in line)}" for row, line in zip(rows, places, strict=True)]
    text = "\n".join([f'table "{title}" in {shape.unit}', f"  by {', '.join(terms)}", *lines])
    loaded = parse_ruleset(_ruleset(text, vocabulary), drafts=True, vocabulary=vocabulary)
    errors = [one.message for one in loaded.diagnostics if one.severity.value == "error"]
    if errors:
        return errors[0]
    where = (*(condition_of(term, band) for term, band in outer), *_choices_of(terms, bands_of, vocabulary))
    return DraftedTable(title, text, where, shape.term)


def _told(where: Iterable[tuple[str, str]]) -> str:
    return ", ".join(f"`{band}`" for _, band in where) or "one place"


def _chosen(shape: Shape) -> Iterable[tuple[tuple[str, ...], str]]:
    """Yield what the columns of materials ask, the choices of rows for the same lines together."""
    found: dict[tuple[Where, str], list[str]] = {}
    for where, term, values in shape.chosen:
        lines = tuple((name, band) for name, band in where if name != term)
        found.setdefault((lines, term), []).extend(values.split(", "))
    for (lines, term), choices in found.items():
        listed = ", ".join(dict.fromkeys(choices))
        conditions = tuple(condition_of(name, band) for name, band in lines)
        yield conditions, f"{term} be {'one of ' if ',' in listed else ''}{listed}"
