"""Rows: which rows under a header are lines, and which are headings, notes, totals, struck through or hidden."""

from __future__ import annotations

import re
from collections.abc import Container, Sequence
from dataclasses import dataclass
from enum import StrEnum

from speccheck.language.vocabulary.terms import Form, fold
from speccheck.schedule.codes import STRUCK
from speccheck.schedule.columns import ColumnUse
from speccheck.schedule.grid import Grid


class RowKind(StrEnum):
    """What a row under a header is."""

    LINE = "line"
    SECTION = "section heading"
    NOTE = "note"
    TOTAL = "total"
    STRUCK = "row struck through"
    HIDDEN = "hidden row"
    WORDS = "words alone"


@dataclass(frozen=True, slots=True)
class Row:
    """A row that is not blank: its number from 0, what it is, and its run: lines of one run stand right together.

    `after_gap` says that a hidden or struck row stands between it and the line above, so that "the line above" is one
    thing to the file and another to its reader.
    """

    number: int
    kind: RowKind
    run: int = 0
    section: int = -1
    after_gap: bool = False


_NOTE_START = re.compile(r"(?:general )?notes?\b|\*|†|‡|legend\b|abbreviations\b|key\b|remarks?\b", re.IGNORECASE)
_SIGNED = re.compile(r"(?:prepared|submitted|checked|reviewed|approved|drawn|signed|issued) by\b", re.IGNORECASE)
_TOTAL = re.compile(r"(?:grand |sub ?)?totals?\b", re.IGNORECASE)
_MARK_LIKE = re.compile(r"(?=.*\d)\S{1,12}")
FEWEST_CELLS_OF_A_LINE = 3


def classify_rows(
    grid: Grid, first: int, last: int, uses: Sequence[ColumnUse], hidden: Container[int] = ()
) -> list[Row]:
    """Return the filled rows from `first` to `last` with what each of them is; those in `hidden` are no lines.

    A row with a single text is a section heading where lines follow it, and a note where none do. After a row that
    begins the notes, rows are notes until one fills enough columns of the table to be a line again. A row that fills
    that many is always a line, whatever it begins with, but for one that is signed ("Prepared by").
    """
    kinds: list[tuple[int, RowKind]] = []
    in_notes = False
    for row in (row for row in grid.columns_by_row if first <= row <= last):
        kind = RowKind.HIDDEN if row in hidden else _kind(grid, row, uses, in_notes)
        in_notes = kind is RowKind.NOTE or (in_notes and kind is not RowKind.LINE)
        kinds.append((row, kind))
    return _in_runs(_trailing_headings_as_notes(kinds))


def _kind(grid: Grid, row: int, uses: Sequence[ColumnUse], in_notes: bool) -> RowKind:
    """Return what one row is, going by its own cells and by whether notes have begun above it."""
    columns = grid.columns_by_row[row]
    read = {use.index for use in uses if use.is_read}
    first_text = grid.text(row, columns[0]).strip()
    cells_read = sum(column in read for column in columns)
    if all(grid.cells[row, column].trouble == STRUCK for column in columns if column in read or not cells_read):
        return RowKind.STRUCK
    if _TOTAL.match(fold(first_text)) and cells_read < FEWEST_CELLS_OF_A_LINE:
        return RowKind.TOTAL
    if _SIGNED.match(first_text) or (_NOTE_START.match(first_text) and cells_read < FEWEST_CELLS_OF_A_LINE):
        return RowKind.NOTE
    if in_notes and cells_read < FEWEST_CELLS_OF_A_LINE:
        return RowKind.NOTE
    if not cells_read:
        return RowKind.NOTE if len(columns) > 1 else RowKind.SECTION
    if len(columns) == 1 and (kind := _kind_of_single(grid, row, columns[0], uses, first_text)) is not RowKind.LINE:
        return kind
    return RowKind.WORDS if _holds_words_alone(grid, row, uses) else RowKind.LINE


def _holds_words_alone(grid: Grid, row: int, uses: Sequence[ColumnUse]) -> bool:
    """Whether a row fills only columns of texts, as where a remark goes on below its line, and no merged cell of a line
    above reaches down to it."""
    read = [use for use in uses if use.is_read]
    if any((block := grid.block_at(row, use.index)) is not None and block.top < row for use in read):
        return False
    filled = [use for use in read if (row, use.index) in grid.cells]
    return all(use.term is not None and use.term.kind.form is Form.TEXT and not use.names_lines for use in filled)


def _kind_of_single(grid: Grid, row: int, column: int, uses: Sequence[ColumnUse], text: str) -> RowKind:
    """Return what a row with one filled cell is.

    The mark of a line makes a line, be it empty. Any other text is a heading where it stands at the left end of the
    table, or stretches over several columns; further right it is a datum of a line.
    """
    block = grid.block_at(row, column)
    stretched = block is not None and block.right > block.left
    below_merged = any((b := grid.block_at(row, use.index)) is not None and b.top < row for use in uses if use.is_read)
    use = next(use for use in uses if use.index == column)
    if below_merged:
        return RowKind.LINE
    if use.names_lines and not stretched and _MARK_LIKE.fullmatch(text):
        return RowKind.LINE
    terms = [other.index for other in uses if other.term is not None and not other.names_lines]
    at_left = use.names_lines or not terms or column <= terms[0]
    return RowKind.SECTION if at_left or stretched else RowKind.LINE


def _trailing_headings_as_notes(kinds: list[tuple[int, RowKind]]) -> list[tuple[int, RowKind]]:
    """Make notes of headings that no line follows."""
    result = []
    line_follows = False
    for row, kind in reversed(kinds):
        line_follows = line_follows or kind is RowKind.LINE
        result.append((row, RowKind.NOTE if kind is RowKind.SECTION and not line_follows else kind))
    return result[::-1]


def _in_runs(kinds: Sequence[tuple[int, RowKind]]) -> list[Row]:
    """Number the runs of lines, which end at blank rows and at rows that are no lines, and their sections."""
    rows: list[Row] = []
    run, section, previous, gap = 0, -1, -2, False
    for number, kind in kinds:
        if kind is RowKind.WORDS:
            rows.append(Row(number, kind, run, section))
            previous = number if previous == number - 1 else previous
            continue
        if kind is RowKind.SECTION:
            section = number
        if number != previous + 1 or kind is not RowKind.LINE:
            run += 1
        rows.append(Row(number, kind, run, section, gap and kind is RowKind.LINE))
        gap = kind in (RowKind.HIDDEN, RowKind.STRUCK) or (gap and kind is not RowKind.LINE)
        previous = number if kind is RowKind.LINE else number - 1
        if kind is not RowKind.LINE:
            previous = -2
    return rows
