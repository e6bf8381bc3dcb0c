"""Columns that are known by their cells: the first one of a cross table, whose corner is blank or names what stands
across, and one whose header, "Description", says nothing, over cells that are all values of one term.

What they were read as is said of each column, and each of their data carries that it was inferred from the cells.
"""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import islice
from typing import TYPE_CHECKING

from speccheck.language.vocabulary.terms import Term, Vocabulary, fold
from speccheck.language.vocabulary.values import BareUnits, read_value
from speccheck.phrases import read_cell, terms_in_parts
from speccheck.quantities import Misread
from speccheck.schedule.grid import Grid
from speccheck.schedule.header_words import Match
from speccheck.schedule.mapping import ScheduleMapping

if TYPE_CHECKING:
    from speccheck.schedule.columns import ColumnUse  # which draws on headers, and these on this module

BY_ITS_CELLS = "by its cells"
LISTED = ("service", "insulation", "location", "pipe size", "operating temperature")
"""What the lines of schedules are listed by, the likeliest first."""
_SAYS_NOTHING = frozenset(
    {"description", "descriptions", "item description", "system description", "line description", "designation"}
    | {"type", "name", "items", "insulated item", "items insulated", "line item", "piping", "pipe", "pipes"}
    | {"duct", "ducts", "ductwork", "duct type"}
)
_MOST_ROWS = 12


def first_columns(
    grid: Grid,
    last: int,
    across: Iterable[int],
    known: Mapping[int, str],
    titles: Mapping[int, str],
    vocabulary: Vocabulary,
    system: str,
) -> Iterator[tuple[int, Term]]:
    """Yield the columns left of those of a cross table whose cells are values of one term, each with that term.

    `last` is the last row of the header, `known` the terms of the columns that are known already, `titles` the words
    over the others. Where these are a value of the term too, the row is a line like those below it and no header.
    """
    across = sorted(across)
    rows = list(_rows_with(grid, last, across))
    taken = set(known.values())
    for column in sorted({column for row in rows for column in grid.columns_by_row[row] if column < across[0]}):
        if column in known:
            continue
        named = titles.get(column, "") and not says_nothing(titles[column])
        units = "" if named else system  # numbers alone under words that nobody knows may be anything
        term = term_of_cells((grid.text(row, column) for row in rows), vocabulary, units, taken)
        if term is not None and not is_value(titles.get(column, ""), term, vocabulary, BareUnits(system=system)):
            taken.add(term.name)
            yield column, term


def is_corner(grid: Grid, last: int, column: int, term: Term, vocabulary: Vocabulary, system: str) -> bool:
    """Whether a title that names a term stands in the corner of a cross table: no cell below it is a value of that."""
    texts = [text for row in _rows_with(grid, last, [column]) if (text := grid.text(row, column).strip())]
    bare = BareUnits(system=system or "inch-pound")
    values = (read_value(text, term, bare) for text in texts)
    return bool(texts) and all(isinstance(value, Misread) for value in values)


def _rows_with(grid: Grid, last: int, columns: Sequence[int]) -> Iterator[int]:
    """Yield some rows below a header that fill any of the columns: no headings."""
    wanted = set(columns)
    rows = (row for row, filled in grid.columns_by_row.items() if row > last and wanted & set(filled))
    return islice(rows, _MOST_ROWS)


def term_of_cells(
    texts: Iterable[str],
    vocabulary: Vocabulary,
    system: str,
    taken: Iterable[str] = (),
    listed: Sequence[str] = LISTED,
) -> Term | None:
    """Return the one of the `listed` terms, not `taken`, of which all texts are values; None for none, or several."""
    filled = list(dict.fromkeys(text.strip() for text in texts if text.strip()))
    found = [
        term
        for name in listed
        if name not in set(taken) and (term := vocabulary.terms.get(name)) is not None
        if filled and all(is_value(text, term, vocabulary, BareUnits(system=system)) for text in filled)
    ]
    return found[0] if len(found) == 1 else None


def is_value(text: str, term: Term, vocabulary: Vocabulary, bare: BareUnits) -> bool:
    """Whether a text, as a whole, states values of a term, or may state one of several."""
    phrase = read_cell(text, term, vocabulary, bare)
    asked = any(question.term is term for question in phrase.questions)
    return not phrase.left_over and (asked or bool(phrase.values_of(term.name)))


def says_nothing(header: str) -> bool:
    """Whether a header says no more than that the lines of a schedule are described below it."""
    return fold(header) in _SAYS_NOTHING


def with_columns_by_cells(
    grid: Grid,
    rows: Sequence[int],
    uses: Sequence[ColumnUse],
    vocabulary: Vocabulary,
    mapping: ScheduleMapping,
    told: Container[str] = (),
) -> list[ColumnUse]:
    """Return the columns, with those whose headers say nothing read as the term of which all their cells are values.

    What only names the lines, as "Item" does, may name the service of each: where nothing else says it, it does.
    Where a header names several terms that no cell states together, it is one of these: below "Service / Pipe size"
    the services may be headings.

    What a heading or the title says already (the terms `told`) is not taken from there: below "Chilled water piping" a
    description "Supply air" says what the pipes serve.
    """
    found = list(uses)
    for place, use in sorted(enumerate(uses), key=lambda each: each[1].names_lines):
        named = terms_in_parts(use.column.header, vocabulary)
        names_alone = use.names_lines and use.match is not None and mapping.key_of(use.column.header, use.index) is None
        open_ = names_alone or not (use.is_read or use.ignored or use.left)
        if not open_ or not (names_alone or named or says_nothing(use.column.header)):
            continue
        taken = {one.term.name for one in found if one.term is not None}
        listed = LISTED[:1] if names_alone else tuple(term.name for term in named) or LISTED
        units = mapping.units if named else ""  # the numbers of types ("Type 1, 2") are no temperatures
        term = term_of_cells((grid.text(row, use.index) for row in rows), vocabulary, units, taken, listed)
        if term is not None and term.name not in told:
            column = replace(use.column, term=term.name, note=BY_ITS_CELLS)
            bare = BareUnits(system=mapping.units)
            found[place] = replace(use, term=term, bare=bare, column=column, match=Match(term, by_cells=True))
    return found
