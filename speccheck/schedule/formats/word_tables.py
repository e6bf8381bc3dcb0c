"""Word documents (.docx) to one grid a table, with the headings above it.

Text that tracked changes delete is not taken; what they insert is, and is told. Struck and hidden text is not
proposed. The elements are those of ISO/IEC 29500-1, chapter 17, from memory.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from pathlib import Path

from speccheck.language.diagnostic_rules import Wording
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.schedule.formats.package_parts import Events, OpenPackage
from speccheck.schedule.formats.page_titles import titles_of_document
from speccheck.schedule.formats.safety import (
    MOST_FILLED_CELLS,
    MOST_TABLES,
    Refused,
    check_compound_file,
    check_parts,
)
from speccheck.schedule.grid import Grid, GridCell, MergedRange
from speccheck.schedule.lines import Unread, UnreadKind
from speccheck.schedule.messages.cells import INSERTED_READ_AS_PROPOSED, STRUCK
from speccheck.schedule.messages.files import MORE_THAN_LIMIT, PARTS_OF_NO_DOCUMENT
from speccheck.schedule.messages.tables import (
    COMMENTS_OF_DOCUMENT,
    PICTURE_NOT_READ,
    TABLE_WITHIN_CELL,
    TEXT_BOX_NOT_READ,
)

_OFF = ("0", "false", "off", "none")
_DELETED = ("del", "moveFrom")
_INSERTED = ("ins", "moveTo")
_RAISED_FIGURES = str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")


@dataclass
class _Words:
    """The words of a paragraph or a cell, and what befalls them."""

    pieces: list[str] = field(default_factory=list)
    struck: bool = False
    inserted: bool = False

    @property
    def text(self) -> str:
        lines = (" ".join(line.split()) for line in "".join(self.pieces).split("\n"))
        return "\n".join(line for line in lines if line)


@dataclass
class _Table:
    """A table while it is read, after the rows of the headings above it."""

    cells: dict[tuple[int, int], GridCell] = field(default_factory=dict)
    blocks: dict[tuple[int, int], MergedRange] = field(default_factory=dict)
    inserted: list[tuple[int, int]] = field(default_factory=list)
    unread: list[tuple[UnreadKind, Wording, str, tuple[int, int]]] = field(default_factory=list)
    growing: dict[int, MergedRange] = field(default_factory=dict)
    lines: set[int] = field(default_factory=set)
    row: int = -1
    column: int = 0

    def add_line(self, words: str) -> None:
        """Add a row that holds a paragraph."""
        self.row += 1
        self.cells[self.row, 0] = GridCell(words)
        self.lines.add(self.row)

    @property
    def table_rows(self) -> dict[int, int]:
        """The number, from 1, of each row that is no paragraph around the table."""
        last = max((row for row, _ in self.cells), default=-1)
        rows = (row for row in range(min(last, self.row) + 1) if row not in self.lines)
        return {row: number for number, row in enumerate(rows, start=1)}


class _Document(Events):
    """Hears the main part of a document."""

    def __init__(self) -> None:
        self.tables: list[_Table] = []
        self._waiting = _Table()
        self._table: _Table | None = None
        self._depth = 0
        self._words = _Words()
        self._skipped = 0
        self._drawn = 0
        self._drawn_words: list[str] = []
        self._changes: list[str] = []
        self._run: dict[str, bool] = {}
        self._listens = False
        self._cell: dict[str, str] = {}
        self._row_deleted = False
        self._in_row_properties = self._in_run_properties = False

    @property
    def _at(self) -> tuple[int, int]:
        table = self._table or self._waiting
        return max(table.row, 0), table.column if self._table is not None else 0

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        if tag == "Fallback" or self._skipped:
            self._skipped += 1
            return
        if tag == "txbxContent":
            self._drawn += 1
        elif tag in ("tbl", "tr", "tc"):
            self._open(tag)
        elif tag in ("pic", "imagedata", "chart", "OLEObject"):
            self._beside(UnreadKind.PICTURE, PICTURE_NOT_READ)
        else:
            self._start_properties(tag, attributes)
            self._start_words(tag, attributes)

    def _start_properties(self, tag: str, attributes: Mapping[str, str]) -> None:
        """Hear what befalls a cell or a row: merging and tracked changes."""
        if tag in ("trPr", "rPr", "pPr"):
            self._in_row_properties = tag == "trPr"
            self._in_run_properties = tag == "rPr"
        elif tag in ("gridSpan", "vMerge"):
            self._cell[tag] = attributes.get("val", "continue")
        elif tag in (*_DELETED, *_INSERTED):
            self._changes.append(tag)
            self._row_deleted = self._row_deleted or (tag == "del" and self._in_row_properties)

    def _start_words(self, tag: str, attributes: Mapping[str, str]) -> None:
        """Hear what befalls words: struck, hidden and raised ones, breaks between them."""
        if tag in ("strike", "dstrike", "vanish") and self._in_run_properties:
            self._run[tag] = attributes.get("val", "1") not in _OFF
        elif tag == "vertAlign":
            self._run["raised"] = attributes.get("val") == "superscript"
        elif tag == "r":
            self._run = {}
        elif tag == "t":
            self._listens = True
        elif tag in ("br", "cr", "tab", "noBreakHyphen"):
            self._hear({"tab": " ", "noBreakHyphen": "-"}.get(tag, "\n"))

    def characters(self, text: str) -> None:
        if self._listens:
            self._hear(text)

    def _hear(self, text: str) -> None:
        """Take words in, unless they are deleted or hidden."""
        if self._drawn:
            self._drawn_words.append(text)
            return
        if any(change in _DELETED for change in self._changes) or self._run.get("vanish"):
            return
        words = self._words
        if text.strip():
            words.struck = words.struck or self._run.get("strike", False) or self._run.get("dstrike", False)
            words.inserted = words.inserted or any(change in _INSERTED for change in self._changes)
        words.pieces.append(text.translate(_RAISED_FIGURES) if self._run.get("raised") else text)

    def end(self, tag: str) -> None:
        if self._skipped:
            self._skipped -= 1
        elif tag == "t":
            self._listens = False
        elif tag == "txbxContent":
            self._drawn -= 1
            words = " ".join("".join(self._drawn_words).split())
            self._drawn_words = []
            if words:
                self._beside(UnreadKind.OTHER, TEXT_BOX_NOT_READ, words[:60])
        elif self._changes and tag == self._changes[-1]:
            self._changes.pop()
        elif tag in ("rPr", "trPr"):
            self._in_run_properties = self._in_row_properties = False
        elif tag == "p":
            self._end_paragraph()
        elif tag in ("tbl", "tr", "tc"):
            self._close(tag)

    def _beside(self, kind: UnreadKind, said: Wording, text: str = "") -> None:
        (self._table or self._waiting).unread.append((kind, said, text, self._at))

    def _end_paragraph(self) -> None:
        """End a paragraph: a line of a cell, or a row of its own outside of tables."""
        if self._drawn:
            self._drawn_words.append(" ")
        elif self._table is not None:
            self._words.pieces.append("\n")
        else:
            if self._words.text and not self._words.struck:
                self._waiting.add_line(self._words.text)
            self._words = _Words()

    def _open(self, tag: str) -> None:
        """Open a table, a row or a cell; tables within cells are heard as words of the cell, and told."""
        if self._drawn:
            return
        if tag == "tbl":
            self._depth += 1
            if len(self.tables) >= MOST_TABLES:
                raise OverflowError(f"more than {MOST_TABLES:,} tables")
            if self._depth == 1:
                self._table, self._waiting = self._waiting, _Table()
            else:
                self._beside(UnreadKind.OTHER, TABLE_WITHIN_CELL)
        elif self._table is not None and self._depth == 1:
            if tag == "tr":
                self._table.row, self._table.column, self._row_deleted = self._table.row + 1, 0, False
                self._in_row_properties = False
            else:
                self._words, self._cell = _Words(), {}

    def _close(self, tag: str) -> None:
        """Close a table, a row or a cell."""
        if self._drawn or self._table is None:
            return
        if tag == "tbl":
            self._depth -= 1
            if not self._depth:
                self.tables.append(self._table)
                self._table = None
                self._words = _Words()
        elif self._depth == 1 and tag == "tc":
            self._keep(self._table)

    def _keep(self, table: _Table) -> None:
        """Keep a cell with the range over which it is merged."""
        span = self._cell.get("gridSpan", "1")
        columns = min(int(span), 200) if span.isdecimal() and len(span) < 6 else 1
        at = (table.row, table.column)
        upper = table.growing.get(table.column)
        if self._cell.get("vMerge") == "continue" and upper is not None and upper.bottom == table.row - 1:
            table.growing[table.column] = MergedRange(upper.top, upper.left, table.row, upper.right)
            table.blocks[upper.top, upper.left] = table.growing[table.column]
        else:
            block = MergedRange(*at, table.row, table.column + columns - 1)
            table.growing[table.column] = block
            if columns > 1:
                table.blocks[at] = block
            text = self._words.text
            if text and not self._row_deleted:
                table.cells[at] = GridCell(text, STRUCK.code if self._words.struck else "")
                if self._words.inserted:
                    table.inserted.append(at)
        table.column += columns
        if len(table.cells) > MOST_FILLED_CELLS:
            raise OverflowError(f"more than {MOST_FILLED_CELLS:,} filled cells")

    def finished(self) -> list[_Table]:
        """Return the tables; what stands below the last one is put under it."""
        if self.tables and self._waiting.cells:
            last, first = self.tables[-1], self.tables[-1].row + 2
            last.cells |= {(first + row, column): cell for (row, column), cell in self._waiting.cells.items()}
            last.lines |= {first + row for row in self._waiting.lines}
        if self.tables:
            self.tables[-1].unread += self._waiting.unread
        return self.tables or ([self._waiting] if self._waiting.cells else [])


def read_word(path: Path) -> tuple[list[Grid], list[Diagnostic]]:
    """Return a grid for each table of a document, and what is wrong with the file as a whole."""
    refused = check_compound_file(path) or check_parts(path)
    if refused is not None:
        return [], [refused]
    document = _Document()
    try:
        with OpenPackage(path) as package:
            main = package.main_part()
            if not main or not package.has(main):
                raise package.damaged(PARTS_OF_NO_DOCUMENT)
            package.parse(main, document)
            titles = titles_of_document(package, main)
            comments = any(one.kind == "comments" and package.has(one.target) for one in package.relations(main))
    except Refused as refused_within:
        return [], [refused_within.diagnostic]
    except OverflowError as limit:
        return [], [MORE_THAN_LIMIT.at(Place(path.name), file=path.name, limit=limit)]
    grids, notes = _grids(path.name, document.finished(), comments)
    return [replace(grid, page_titles=titles) for grid in grids], notes


def _grids(file: str, tables: list[_Table], comments: bool) -> tuple[list[Grid], list[Diagnostic]]:
    """Return the grids, each with what is not read of it, and the diagnostics that say so."""
    grids, notes = [], []
    for number, table in enumerate(tables, start=1):
        name = f"table {number}"
        grid = Grid(
            file, name, dict(sorted(table.cells.items())), tuple(table.blocks.values()), table_rows=table.table_rows
        )
        beside = [(kind, said.at(grid.place(*at), text=text)) for kind, said, text, at in table.unread]
        if comments and number == 1:
            beside.append((UnreadKind.OTHER, COMMENTS_OF_DOCUMENT.at(Place(file))))
        unread = [Unread(kind, told.message, told.place) for kind, told in beside]
        notes += [told for _, told in beside]
        if table.inserted:
            cells = ", ".join(grid.place(*at).cell for at in table.inserted[:10])
            place = grid.place(*table.inserted[0])
            notes.append(INSERTED_READ_AS_PROPOSED.at(place, cells=cells))
        grids.append(replace(grid, unread=tuple(unread)))
    return grids, notes
