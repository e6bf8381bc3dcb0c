"""Accounting: what became of every filled cell of a schedule, and what a person still has to read.

A cell is settled where it was read, where a person said in a mapping file that it does not matter, or where a stated
rule says that it belongs to no line: titles above a table, totals, page numbers and signatures, the header of a column
that is empty, a sheet that was not asked for, the guide and the lists of a blank schedule.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.vocabulary.choices import DASH, NOT_APPLICABLE, NOT_KNOWN, NOT_SAID, OPEN, OTHERS
from speccheck.language.vocabulary.terms import Form, Term, Vocabulary
from speccheck.language.vocabulary.values import NotGiven
from speccheck.schedule.columns import ColumnUse
from speccheck.schedule.fill_down import is_ditto
from speccheck.schedule.grid import Grid
from speccheck.schedule.header import Header
from speccheck.schedule.lines import CellCount, Line, Unread, UnreadKind
from speccheck.schedule.mapping import ScheduleMapping
from speccheck.schedule.messages.cells import PARTLY_READ

UNDERSTOOD = frozenset({"blank", DASH, NOT_APPLICABLE, NOT_KNOWN, NOT_SAID, OPEN, OTHERS, "refers to another document"})

GUIDE_SENTENCES = {
    system: f"One line for each system. Sizes and temperatures may be ranges, such as {sizes}. Write TBD for "
    "what is not settled and none for what there is not; an empty cell means that nothing is stated."
    for system, sizes in (("inch-pound", "2-1/2 in through 6 in"), ("metric", "DN 65 to DN 150"))
}
"""What the guide of our own blank schedules says, by which such a sheet is known to be no part of a schedule."""

LIST_HEADING = "values of "
"""How each list of our own blank schedules begins; behind it stands the name of a term."""


@dataclass
class Account:
    """The cells that are settled, by sheet and name, and what a person has to read."""

    settled: set[tuple[str, str]] = field(default_factory=set)
    unread: list[Unread] = field(default_factory=list)

    def __iadd__(self, other: Account) -> Account:
        self.settled |= other.settled
        self.unread += other.unread
        return self

    def settle(self, grid: Grid, row: int, column: int) -> None:
        """Settle one cell."""
        self.settled.add((grid.sheet, grid.place(row, column).cell))

    def settle_row(self, grid: Grid, row: int) -> None:
        """Settle all cells of a row."""
        for column in grid.columns_by_row.get(row, ()):
            self.settle(grid, row, column)

    def settle_sheet(self, grid: Grid) -> None:
        """Settle all cells of a sheet."""
        for row in grid.columns_by_row:
            self.settle_row(grid, row)

    def remark(
        self,
        grid: Grid,
        row: int,
        column: int,
        mapping: ScheduleMapping,
        lines: tuple[str, ...] = (),
        kind: UnreadKind = UnreadKind.REMARK,
    ) -> None:
        """Enter a text that a person has to read; one that the mapping file says was seen is settled."""
        text = " ".join(grid.text(row, column).split())
        if mapping.has_seen(text):
            self.settle(grid, row, column)
        else:
            self.unread.append(Unread(kind, text, grid.place(row, column), lines))

    def remark_row(self, grid: Grid, row: int, mapping: ScheduleMapping, lines: tuple[str, ...] = ()) -> None:
        """Enter each text of a row as a remark."""
        for column in grid.columns_by_row.get(row, ()):
            self.remark(grid, row, column, mapping, lines)

    def other_row(self, grid: Grid, row: int, mapping: ScheduleMapping) -> None:
        """Settle the cells of a row outside the tables that the mapping file says were seen."""
        for column in grid.columns_by_row.get(row, ()):
            if mapping.has_seen(grid.text(row, column)):
                self.settle(grid, row, column)

    def heading(self, grid: Grid, row: int, column: int) -> None:
        """Enter a cell of a heading that was not understood; it is not settled."""
        text = " ".join(grid.text(row, column).split())
        self.unread.append(Unread(UnreadKind.CELL, text, grid.place(row, column)))

    def partly_read(self, lines: Iterable[Line], diagnostics: Iterable[Diagnostic]) -> None:
        """Enter each cell of which some words were not read: a person has to see what they change."""
        places = {found.place for found in diagnostics if found.code == PARTLY_READ.code}
        cells: dict[Place, tuple[str, list[str]]] = {}
        for line in lines if places else ():
            for datum in line.data.values():
                if datum.place in places:
                    cells.setdefault(datum.place, (datum.text, []))[1].append(line.name)
        for place, (text, names) in cells.items():
            self.unread.append(Unread(UnreadKind.CELL, text, place, tuple(dict.fromkeys(names))))

    def leave_out_seen(self, mapping: ScheduleMapping) -> None:
        """Settle what the mapping file says was seen, wherever it was entered."""
        seen = [one for one in self.unread if mapping.has_seen(one.text)]
        self.settled |= {(one.place.sheet, one.place.cell) for one in seen}
        self.unread = [one for one in self.unread if one not in seen]

    def header(
        self, grid: Grid, header: Header, first: int, uses: Sequence[ColumnUse], filled: Mapping[int, int]
    ) -> None:
        """Settle the cells of a header: all but those of columns that were not read and hold anything."""
        open_columns = {use.index for use in uses if not (use.is_read or use.ignored) and filled.get(use.index)}
        for row in range(header.first, first):
            for column in grid.columns_by_row.get(row, ()):
                if column not in open_columns:
                    self.settle(grid, row, column)

    def line(
        self, grid: Grid, row: int, uses: Sequence[ColumnUse], lines: Sequence[Line], mapping: ScheduleMapping
    ) -> None:
        """Settle the cells of a row of which lines were made: those that were read, and those of columns left out."""
        names = tuple(line.name or grid.place(row, 0).cell for line in lines)
        read = {datum.place.cell for line in lines for datum in line.data.values() if _is_understood(datum.value)}
        read |= {part for line in lines for datum in line.data.values() if (part := _also(datum.note))}
        for use in uses:
            if (row, use.index) not in grid.cells:
                continue
            text = grid.text(row, use.index).strip()
            is_text = use.term is not None and use.term.kind.form is Form.TEXT
            if use.term is not None and is_text and use.term.never_compared and not use.names_lines:
                if not _says_nothing(text) and mapping.meanings(text, use.term) is None:
                    self.remark(grid, row, use.index, mapping, names)
                    continue
                self.settle(grid, row, use.index)
            elif (
                use.names_lines
                or use.ignored
                or is_text
                or is_ditto(text, use.term)
                or grid.place(row, use.index).cell in read
            ):
                self.settle(grid, row, use.index)

    def is_guide(self, grid: Grid) -> bool:
        """Whether a sheet is the guide that our blank schedules carry: one column, and its standing sentence."""
        texts = [cell.text for _, cell in sorted(grid.cells.items())]
        return not set(GUIDE_SENTENCES.values()).isdisjoint(texts[:2]) and {column for _, column in grid.cells} == {0}

    def is_lists(self, grid: Grid, vocabulary: Vocabulary) -> bool:
        """Whether a hidden sheet has the lists that our blank schedules offer, and nothing else.

        Each column is headed by a term and holds values of that term as the vocabulary has them: what anybody has
        written there beside them makes it a sheet like any other.
        """
        heads = {column: cell.text for (row, column), cell in grid.cells.items() if row == 0}
        if not grid.hidden or not heads:
            return False
        return all(
            (row == 0 and cell.text.startswith(LIST_HEADING))
            or cell.text in _listed(heads.get(column, "").removeprefix(LIST_HEADING), vocabulary)
            for (row, column), cell in grid.cells.items()
        )

    def count(self, grids: Iterable[Grid]) -> CellCount:
        """Return how many cells are filled, and how many of them are settled."""
        cells = {(grid.sheet, grid.place(*at).cell) for grid in grids for at in grid.cells}
        return CellCount(len(cells), len(cells & self.settled))


def _listed(name: str, vocabulary: Vocabulary) -> tuple[str, ...]:
    """Return the values that a blank schedule lists for a term."""
    term = vocabulary.terms.get(name)
    return listed_values(term) if term is not None else ()


def listed_values(term: Term) -> tuple[str, ...]:
    """Return the values of a term that a blank schedule offers to choose from, none where it has no closed list."""
    yes_no = ("yes", "no") if term.kind.form is Form.YES_NO else ()
    return tuple(choice.name for choice in term.choices) or yes_no


def _is_understood(value: object) -> bool:
    """Whether the words of a datum were understood, be it as saying nothing."""
    return not isinstance(value, NotGiven) or value.why in UNDERSTOOD


def _says_nothing(text: str) -> bool:
    """Whether a remark is a dash or the like."""
    return not any(map(str.isalnum, text))


def _also(note: str) -> str:
    """Return the cell of a second column that says the same, "" where there is none."""
    return note.rsplit(" in ", 1)[-1].split(" ")[0].rstrip(")") if "also `" in note else ""
