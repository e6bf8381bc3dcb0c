"""Rows: which rows under a header are lines, and which are headings, notes, totals, struck through or hidden.

A heading holds until something else begins: each row that is no line ends it, unless it is a heading inside of it.
What cannot be determined for certain is never a line's own heading: a line that nothing names a service for has none.
"""

from __future__ import annotations

import re
from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from speccheck.language.vocabulary.terms import Form, fold
from speccheck.language.vocabulary.values import NotGiven, read_value
from speccheck.quantities import Misread
from speccheck.schedule.columns import ColumnUse
from speccheck.schedule.columns_by_cells import is_value
from speccheck.schedule.grid import Grid
from speccheck.schedule.header_words import HeaderReader
from speccheck.schedule.mapping import ScheduleMapping
from speccheck.schedule.messages.cells import STRUCK
from speccheck.schedule.phrases_of_cells import says_of_others_alone


class RowKind(StrEnum):
    """What a row under a header is."""

    LINE = "line"
    SECTION = "section heading"
    NOTE = "note"
    MAPPED_NOTE = "note by the mapping file"
    TOTAL = "total"
    STRUCK = "row struck through"
    HIDDEN = "hidden row"
    WORDS = "words alone"
    FURNITURE = "page number or signature"
    OTHER_HEADER = "header that was not understood"
    BEYOND = "row under a header that was not understood"


@dataclass(frozen=True, slots=True)
class Row:
    """A row that is not blank: its number from 0, what it is, and its run: lines of one run stand right together.

    `sections` are the rows of the headings over it, the outermost first. `after_gap` says that a hidden or struck row
    stands between it and the line above, so that "the line above" is one thing to the file and another to its reader.
    """

    number: int
    kind: RowKind
    run: int = 0
    sections: tuple[int, ...] = ()
    after_gap: bool = False


NOTE_START = re.compile(r"(?:general )?notes?\b|\*|†|‡|legend\b|abbreviations\b|key\b|remarks?\b", re.IGNORECASE)
FURNITURE = re.compile(
    r"(?:prepared|submitted|checked|reviewed|approved|drawn|signed|issued) by\b"
    r"|(?:page|sheet)\s*\d+(?:\s*(?:of|/)\s*\d+)?$|end of (?:schedule|table)$",
    re.IGNORECASE,
)
_TOTAL = re.compile(r"(?:grand |sub ?)?totals?\b", re.IGNORECASE)
_MARK_LIKE = re.compile(r"(?=.*\d)\S{1,12}")
_WORD = re.compile(r"[^\W\d_]{3}")
_DIGIT = re.compile(r"\d")
_LINES_SHOWN_OR_NOT = frozenset({RowKind.LINE, RowKind.HIDDEN, RowKind.STRUCK})
FEWEST_CELLS_OF_A_LINE = 3
FEWEST_WORDS_OF_A_HEADER = 3


def classify_rows(
    grid: Grid,
    first: int,
    last: int,
    uses: Sequence[ColumnUse],
    mapping: ScheduleMapping,
    reader: HeaderReader,
    hidden: Container[int] = (),
) -> list[Row]:
    """Return the filled rows from `first` to `last` with what each of them is; those in `hidden` are no lines.

    A row that gives no value of what is proposed, and begins with words that are no value, is a heading where lines
    follow it, and a note where none do. After a row that begins the notes, rows are notes until one fills enough
    columns of the table to be a line again, or names what its lines are. Words alone under a table, in every column,
    are the header of another table: what follows is not read by this one.
    """
    look = _Look(grid, {use.index: use for use in uses if use.is_read}, uses, mapping, reader)
    kinds: list[tuple[int, RowKind]] = []
    in_notes = beyond = False
    for row in (row for row in grid.columns_by_row if first <= row <= last):
        beyond = beyond or look.is_other_header(row, after_gap=row - 1 not in grid.columns_by_row)
        if beyond:
            known = any(kind is RowKind.OTHER_HEADER for _, kind in kinds)
            kinds.append((row, RowKind.BEYOND if known else RowKind.OTHER_HEADER))
            continue
        kind = RowKind.HIDDEN if row in hidden else look.kind(row, in_notes)
        in_notes = kind is RowKind.NOTE or (in_notes and kind not in (RowKind.LINE, RowKind.SECTION))
        kinds.append((row, kind))
    return _in_runs(_trailing_headings_as_notes(kinds), look)


@dataclass(frozen=True)
class _Look:
    """What is needed to look at one row: the sheet, the columns that are read, and what words mean."""

    grid: Grid
    read: Mapping[int, ColumnUse]
    uses: Sequence[ColumnUse]
    mapping: ScheduleMapping
    reader: HeaderReader

    def kind(self, row: int, in_notes: bool) -> RowKind:
        """Return what one row is, going by its own cells and by whether notes have begun above it."""
        columns = self.grid.columns_by_row[row]
        text = self.grid.text(row, columns[0]).strip()
        cells_read = [column for column in columns if column in self.read]
        if all(self.grid.cells[row, column].trouble == STRUCK.code for column in cells_read or columns):
            return RowKind.STRUCK
        few = len(cells_read) < FEWEST_CELLS_OF_A_LINE
        if FURNITURE.match(text):
            return RowKind.FURNITURE
        if self.mapping.is_note(text) or (self.grid.sheet, row) in self.mapping.legend_rows:
            return RowKind.MAPPED_NOTE
        if _TOTAL.match(fold(text)) and few:
            return RowKind.TOTAL
        if few and (in_notes or NOTE_START.match(text)):
            return RowKind.SECTION if self._names_lines_below(row) else RowKind.NOTE
        if not cells_read:
            return RowKind.SECTION if len(columns) == 1 or self.reader.headings.names(text) else RowKind.NOTE
        if len(columns) == 1:
            kind = self._kind_of_single(row, columns[0], text)
            if kind is not RowKind.LINE:
                return kind
        elif self._is_heading(row, columns):
            return RowKind.SECTION
        return RowKind.WORDS if self._holds_words_alone(row) else RowKind.LINE

    def goes_on(self, row: int) -> bool:
        """Whether a line leaves the heading above it in force: it gives a value, and does not begin with words that
        may be another heading."""
        columns = self.grid.columns_by_row[row]
        if self._below_merged(row):
            return True
        text = self.grid.text(row, columns[0]).strip()
        if self.reads(row, columns[0]) is False and _WORD.search(text) and not self._says_of_others(text, columns[0]):
            return False
        return any(self.reads(row, column) for column in columns)

    def _says_of_others(self, text: str, column: int) -> bool:
        """Whether a cell only says something of other terms than its column's, as "Supply" does of a service."""
        use = self.read[column]
        return use.term is not None and says_of_others_alone(text, use.term, self.reader.vocabulary, use.bare)

    def facts(self, row: int) -> frozenset[str]:
        """Return the names of the terms that the first words of a row give a value of."""
        return self.reader.headings.names(self.grid.text(row, self.grid.columns_by_row[row][0]).strip(" *†‡\n"))

    def _names_lines_below(self, row: int) -> bool:
        """Whether a row among notes is a heading all the same: its words are the value of a term, and stand alone."""
        return len(self.grid.columns_by_row[row]) == 1 and bool(self.facts(row))

    def reads(self, row: int, column: int) -> bool | None:
        """Whether a cell is a value of its column's term; None where it stands for none, or no term is asked."""
        use = self.read.get(column)
        cell = self.grid.cells.get((row, column))
        if use is None or use.term is None or cell is None or use.term.kind.form is Form.TEXT:
            return None
        if cell.trouble or self.mapping.replaced(cell.text.strip(), use.term) is not None:
            return True
        value = read_value(cell.text.strip(), use.term, use.bare)
        if isinstance(value, Misread):
            return is_value(cell.text.strip(), use.term, self.reader.vocabulary, use.bare)
        return not isinstance(value, NotGiven) or None

    def _is_heading(self, row: int, columns: Sequence[int]) -> bool:
        """Whether a row of several cells is a heading: it gives nothing that is proposed, and begins with words."""
        if self._below_merged(row) or len(columns) * 2 > len(self.uses):
            return False
        readable = [column for column in columns if self.reads(row, column)]
        if any((term := self.read[column].term) is not None and term.proposed for column in readable):
            return False
        first, text = columns[0], self.grid.text(row, columns[0]).strip()
        use = self.read.get(first)
        if readable == [first]:
            if use is None or use.term is None or not use.term.of_choices:
                return False
            others = [self.read.get(column) for column in columns[1:]]
            return all(one is None or one.term is None or one.term.kind.form is Form.TEXT for one in others)
        names = use is not None and (use.names_lines or (use.term is not None and use.term.kind.form is Form.TEXT))
        if not _WORD.search(text) and not self.facts(row):
            return False
        if use is not None and not names and self._says_of_others(text, first):
            return False
        words = not _MARK_LIKE.fullmatch(text) or bool(self.facts(row)) if names else self.reads(row, first) is False
        return words and len(readable) <= 1 and (use is not None or bool(self.facts(row)))

    def _kind_of_single(self, row: int, column: int, text: str) -> RowKind:
        """Return what a row with one filled cell is.

        The mark of a line makes a line, be it empty. Any other text is a heading where it stands at the left end of
        the table, or stretches over several columns; further right it is a datum of a line.
        """
        block = self.grid.block_at(row, column)
        stretched = block is not None and block.right > block.left
        use = next(use for use in self.uses if use.index == column)
        if self._below_merged(row):
            return RowKind.LINE
        if use.names_lines and not stretched and _MARK_LIKE.fullmatch(text) and not self.facts(row):
            return RowKind.LINE
        terms = [other.index for other in self.uses if other.term is not None and not other.names_lines]
        at_left = use.names_lines or not terms or column <= terms[0]
        if at_left or stretched:
            return RowKind.SECTION
        return RowKind.LINE if self.reads(row, column) else RowKind.WORDS

    def _below_merged(self, row: int) -> bool:
        """Whether a merged cell of a line above reaches down to a row."""
        blocks = (self.grid.block_at(row, column) for column in self.read)
        return any(block is not None and block.top < row for block in blocks)

    def _holds_words_alone(self, row: int) -> bool:
        """Whether a row fills only columns of texts, as where a remark goes on below its line."""
        if self._below_merged(row):
            return False
        filled = [use for index, use in self.read.items() if (row, index) in self.grid.cells]
        return all(use.term is not None and use.term.kind.form is Form.TEXT and not use.names_lines for use in filled)

    def is_other_header(self, row: int, after_gap: bool) -> bool:
        """Whether a row is the header of another table: it begins with the name of a term and gives no value, or has
        words in every cell, of which none is a value here."""
        columns = self.grid.columns_by_row[row]
        texts = [self.grid.text(row, column) for column in columns]
        other_words = not (NOTE_START.match(texts[0]) or _TOTAL.match(fold(texts[0])))
        first = self.reads(row, columns[0])
        gives_nothing = first is False or not any(self.reads(row, column) for column in columns)
        if len(columns) > 1 and other_words and gives_nothing and self.reader.names_term(texts[0]):
            return True
        if any(_DIGIT.search(text) or NOTE_START.match(text) or FURNITURE.match(text) for text in texts):
            return False
        unread = sum(self.reads(row, column) is False for column in columns)
        fewest = FEWEST_WORDS_OF_A_HEADER - 1 if after_gap else FEWEST_WORDS_OF_A_HEADER
        others = [column for column in columns if self.reads(row, column) is not False]
        return unread >= fewest and all(column not in self.read for column in others) and not self.facts(row)


def _trailing_headings_as_notes(kinds: list[tuple[int, RowKind]]) -> list[tuple[int, RowKind]]:
    """Make notes of headings that no line follows."""
    result = []
    line_follows = False
    for row, kind in reversed(kinds):
        line_follows = line_follows or kind is RowKind.LINE
        result.append((row, RowKind.NOTE if kind is RowKind.SECTION and not line_follows else kind))
    return result[::-1]


def _in_runs(kinds: Sequence[tuple[int, RowKind]], look: _Look) -> list[Row]:
    """Number the runs of lines, which end at blank rows and at rows that are no lines, and give them their headings."""
    rows: list[Row] = []
    headings: list[tuple[int, frozenset[str]]] = []
    run, previous, gap = 0, -2, False
    last = RowKind.NOTE
    for number, kind in kinds:
        if kind is RowKind.SECTION:
            headings = _under(headings, (number, look.facts(number)), right_below=last is RowKind.SECTION)
        elif kind is not RowKind.MAPPED_NOTE and (kind not in _LINES_SHOWN_OR_NOT or not look.goes_on(number)):
            headings = []
        if number != previous + 1 or kind is not RowKind.LINE:
            run += 1
        over = tuple(row for row, _ in headings)
        rows.append(Row(number, kind, run, over, gap and kind is RowKind.LINE))
        gap = kind in (RowKind.HIDDEN, RowKind.STRUCK) or (gap and kind is not RowKind.LINE)
        previous = number if kind is RowKind.LINE else -2
        last = kind
    return rows


def _under(
    headings: Sequence[tuple[int, frozenset[str]]], new: tuple[int, frozenset[str]], right_below: bool
) -> list[tuple[int, frozenset[str]]]:
    """Return the headings that hold once a new one has come.

    It takes the place of the one that speaks of the same term, with all inside of that. Right below another heading it
    stands inside of it; below lines, one that speaks of something new begins afresh, for nothing says how far it goes.
    """
    for position, (_, terms) in enumerate(headings):
        if terms & new[1]:
            return [*headings[:position], new]
    return [*headings, new] if right_below else [new]
