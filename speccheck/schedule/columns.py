"""Columns: what each column of a table was read as, and what was not understood."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from speccheck.english import agree, count, meant, nearest
from speccheck.language.diagnostics import Diagnostic, Severity
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.language.vocabulary.values import NO_UNITS, BareUnits, Value
from speccheck.schedule.columns_by_cells import BY_ITS_CELLS
from speccheck.schedule.cross_tables import CrossColumn
from speccheck.schedule.grid import Grid, column_letters
from speccheck.schedule.header import Header
from speccheck.schedule.header_words import MARK_TERMS, HeaderReader, Match, condition_of
from speccheck.schedule.lines import Column
from speccheck.schedule.mapping import ScheduleMapping
from speccheck.schedule.messages.cells import COLUMN_STRUCK, STRUCK, UNSURE_CELL
from speccheck.schedule.messages.tables import (
    COLUMN_HIDDEN,
    COLUMN_OF_NO_TERM,
    COLUMN_WITHOUT_HEADER,
    COLUMNS_OF_ONE_TERM,
    HEADER_WORDS_NOT_USED,
    OTHER_UNIT_IN_HEADER,
    TEXTS_PUT_TOGETHER,
    UNIT_IN_HEADER,
)

SHORTEST_LIKENESS = 5  # among shorter words everything is like something


@dataclass(frozen=True)
class ColumnUse:
    """One column of a table: where it is (from 0), what it became, and how its bare numbers are read.

    `term` is None for a column that is not read; `names_lines` marks the one that names the lines; `left` says why a
    column is left out whatever its header says; `across` is what a column of a cross table stands for;
    `two_units` are the units of its bare numbers where its header names two; `condition` is the value of another term
    at which its values are stated;
    `sentences` that its cells propose systems in words; `end` which end of a range they are ("" for whole values).
    """

    index: int
    column: Column
    term: Term | None = None
    bare: BareUnits = NO_UNITS
    names_lines: bool = False
    ignored: bool = False
    left: str = ""
    match: Match | None = None
    across: CrossColumn | None = None
    condition: tuple[Term, Value, str] | None = None
    two_units: tuple[str, str] | None = None
    sentences: bool = False
    end: str = ""

    @property
    def is_read(self) -> bool:
        """Whether anything of this column goes into the lines."""
        return self.term is not None or self.names_lines or self.sentences


def understand_columns(
    grid: Grid, header: Header, filled: frozenset[int], reader: HeaderReader, mapping: ScheduleMapping, units: str
) -> list[ColumnUse]:
    """Return the use of each column that has a header or, being among `filled`, anything under it.

    `units` is the system of bare numbers for which neither the header nor the mapping states a unit.
    """
    uses = []
    for index in sorted(set(header.titles) | filled):
        spread = index in header.places and header.places[index][1] != index
        spread = spread and not any((row, index) in grid.cells for row in range(header.first, header.last + 1))
        if spread and index not in filled:
            continue
        uses.append(_use(grid, header, index, reader, mapping, units))
    return uses


def _use(
    grid: Grid, header: Header, index: int, reader: HeaderReader, mapping: ScheduleMapping, units: str
) -> ColumnUse:
    """Return the use of one column."""
    title = header.titles.get(index, "")
    row, column = header.places.get(index, (header.last, index))
    place = grid.place(row, column if column == index else index)
    key = mapping.key_of(title, index)
    if key is not None and key in mapping.ignore:
        return ColumnUse(index, Column(place, title, note="left out by the mapping file"), ignored=True)
    if index in grid.hidden_columns and not mapping.read_hidden and key is None:
        return ColumnUse(index, Column(place, title, note="hidden"), left="hidden")
    if key is None and (cell := grid.cells.get((row, column))) is not None and cell.trouble == STRUCK.code:
        return ColumnUse(index, Column(place, title, note="struck through"), left="struck through")
    if key is None and _is_unsure(grid, header, index):
        return ColumnUse(index, Column(place, title, note="not understood: it is not certain where the header ends"))
    match = header.matches.get(index)
    if match is None:
        return ColumnUse(index, Column(place, title, note="not understood" if title else "no header"))
    if match.term is None:
        return ColumnUse(index, Column(place, title, note="names the lines"), names_lines=True, match=match)
    if key is None and _size_or_value_in(match.rest, match.term) and index not in header.across:
        return ColumnUse(index, Column(place, title, note="not understood: a size or a value stands in the header"))
    note = "by the mapping file" if key is not None else _how(title, match.term, match)
    across = header.across.get(index)
    if across is not None:
        note = f"`{match.term.name}` for `{across.axis.name}` {across.text}"
    names_lines = match.term.name in MARK_TERMS
    bare, two_units = units_of(match, mapping.units or units)
    column_found = Column(place, title, match.term.name, match.unit, note)
    return ColumnUse(
        index,
        column_found,
        match.term,
        bare,
        names_lines,
        match=match,
        across=across,
        two_units=two_units,
        condition=condition_of(match, reader.vocabulary),
    )


def units_of(match: Match, system: str) -> tuple[BareUnits, tuple[str, str] | None]:
    """Return how the bare numbers under a header are read: in its unit, or in none where it names the two returned."""
    if match.other_unit:
        return NO_UNITS, (match.unit, match.other_unit)
    return BareUnits(match.unit, system), None


def _is_unsure(grid: Grid, header: Header, index: int) -> bool:
    """Whether a cell of the header of a column may go on elsewhere: what it names is not certain."""
    cells = (grid.cells.get((row, index)) for row in range(header.first, header.last + 1))
    return any(cell is not None and cell.trouble == UNSURE_CELL.code for cell in cells)


def _size_or_value_in(rest: str, term: Term) -> bool:
    """Whether words behind the name of what is measured may be a size or a value: the 2 of `Thickness 2"`."""
    measured = term.proposed and term.kind.form is Form.QUANTITY
    return measured and any(map(str.isdigit, rest)) and not rest.startswith("@")


def _how(title: str, term: Term, match: Match) -> str:
    """Say how a header came to name its term."""
    if match.by_cells:
        return BY_ITS_CELLS
    return "its name" if title.strip().casefold().startswith(term.name) else "a synonym"


def column_diagnostics(uses: Sequence[ColumnUse], vocabulary: Vocabulary, filled: Counter[int]) -> Iterator[Diagnostic]:
    """Yield what was not understood of the columns; `filled` counts the cells of each on the lines of the table."""
    for use in uses:
        if use.left:
            yield from _left_out(use, filled[use.index])
        elif not use.is_read and not use.ignored:
            yield _unknown(use, vocabulary, filled[use.index])
        if use.match is not None:
            yield from _leftovers(use, use.match)
    yield from _same_terms(uses)


def _left_out(use: ColumnUse, filled: int) -> Iterator[Diagnostic]:
    """Yield a warning where a column that is hidden, or whose header is struck through, says anything on the lines."""
    if filled:
        named = f", `{use.column.header}`," if use.column.header else ""
        cells = f"{count(filled, 'filled cell')} {agree(filled, 'was', 'were')}"
        facts = {"column": f"{column_letters(use.index)}{named}", "cells": cells}
        if use.left == "hidden":
            yield COLUMN_HIDDEN.at(use.column.place, near=None, **facts)
        else:
            yield COLUMN_STRUCK.at(use.column.place, near=None, how=use.left, **facts)


def _unknown(use: ColumnUse, vocabulary: Vocabulary, filled: int) -> Diagnostic:
    """Say that a column was not understood."""
    cells = f"{count(filled, 'filled cell')} under it {agree(filled, 'was', 'were')}"
    header = use.column.header
    weight = Severity.WARNING if filled else Severity.NOTE
    if not header:
        return COLUMN_WITHOUT_HEADER.weighing(weight).at(
            use.column.place, column=column_letters(use.index), cells=cells
        )
    spellings = (spelling for term in vocabulary.terms.values() for spelling in (term.name, *term.also))
    near = meant(nearest(header, spellings), "") if len(header) >= SHORTEST_LIKENESS else ""
    question = f"{near} " if near else ""
    return COLUMN_OF_NO_TERM.weighing(weight).at(use.column.place, header=header, cells=cells, question=question)


def _leftovers(use: ColumnUse, match: Match) -> Iterator[Diagnostic]:
    """Yield what a header says beside the name of its term that could not be used."""
    if match.misfit and match.term is not None:
        facts = {"unit": match.misfit, "header": use.column.header, "term": match.name}
        usual = " or ".join(dict.fromkeys(filter(None, (match.term.inch_pound, match.term.metric))))
        if usual:
            yield OTHER_UNIT_IN_HEADER.at(use.column.place, near=None, usual=usual, **facts)
        else:
            yield UNIT_IN_HEADER.at(use.column.place, near=None, **facts)
    if match.rest and use.condition is None:
        yield HEADER_WORDS_NOT_USED.at(use.column.place, words=match.rest, header=use.column.header)


def _same_terms(uses: Sequence[ColumnUse]) -> Iterator[Diagnostic]:
    """Yield a note for each term that several columns state."""
    first: dict[str, ColumnUse] = {}
    for use in uses:
        if use.term is None or use.across is not None or use.end:
            continue
        other = first.setdefault(use.term.name, use)
        if other is not use:
            said = TEXTS_PUT_TOGETHER if use.term.kind.form is Form.TEXT else COLUMNS_OF_ONE_TERM
            first_column, second_column = column_letters(other.index), column_letters(use.index)
            yield said.at(use.column.place, first=first_column, second=second_column, term=use.term.name)
