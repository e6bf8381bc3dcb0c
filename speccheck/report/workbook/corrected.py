"""The corrected schedule: the contractor's own workbook with the cheapest changes in it, each changed cell marked.

What the schedule does not state is not filled in: its cell only gets a comment that says what would comply. What it
states of a thing that is replaced, such as the conductivity of the old insulation, is to be determined again. What was
measured on a product stays as it is: no other number makes it another product, and the comment says which one to look
for.
"""

from __future__ import annotations

import io
import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from speccheck.english import listed
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.language.vocabulary.values import BareUnits, NotGiven, read_value, write_value
from speccheck.report.cautions import STANDING_CAUTIONS
from speccheck.report.escaping import plain
from speccheck.report.mending_words import change_text
from speccheck.report.messages import NO_COLUMN_TO_CORRECT, NO_WORKBOOK, WORKBOOK_NOT_WRITABLE
from speccheck.report.terminal.corrections import CAUTION
from speccheck.report.wording import clause_label
from speccheck.review.corrections import Mending, ProposedChange
from speccheck.review.matrix import Matrix
from speccheck.schedule.formats.endings import CORRECTED
from speccheck.schedule.grid import number_text
from speccheck.schedule.lines import Datum, Line

if TYPE_CHECKING:
    from openpyxl import Workbook
    from openpyxl.worksheet.worksheet import Worksheet

CHANGED, ASKED = "FFFFE08A", "FFCFE3F7"
AUTHOR = "speccheck"
NOT_SHOWN = "TBD"
NOTES_SHEET = "Changes"
_CELL = re.compile(r"([A-Z]+)([0-9]+)")


@dataclass(frozen=True)
class Corrected:
    """A corrected workbook, None where there can be none, and what could not be put into it."""

    content: bytes | None
    diagnostics: tuple[Diagnostic, ...] = ()


def correct_workbook(path: Path, matrix: Matrix, mendings: Sequence[Mending]) -> Corrected:
    """Return the workbook of `path` with the cheapest proposal of each line in it; the file itself is only read.

    Of a submittal of several files, only the lines are corrected that stand in this one.
    """
    if path.suffix.lower() not in CORRECTED:
        return Corrected(None, (NO_WORKBOOK.at(Place(path.name), file=path.name),))
    from openpyxl import load_workbook

    from speccheck.report.workbook.report import without_clock

    try:
        workbook = load_workbook(path, keep_vba=path.suffix.lower() == ".xlsm")
    except Exception as problem:  # of the many ways in which the library refuses what others have written, none is ours
        return Corrected(None, (_not_opened(path, problem),))
    correction = _Correction(workbook, matrix)
    for mending in mendings:
        if mending.proposals and mending.line.place.file == path.name:
            correction.apply(mending)
    correction.write_notes()
    written = io.BytesIO()
    workbook.save(written)
    return Corrected(without_clock(written.getvalue()), tuple(correction.diagnostics))


def _not_opened(path: Path, problem: Exception) -> Diagnostic:
    return WORKBOOK_NOT_WRITABLE.at(Place(path.name), file=path.name, problem=type(problem).__name__)


class _Correction:
    """The work of correcting one workbook."""

    def __init__(self, workbook: Workbook, matrix: Matrix) -> None:
        self.workbook, self.schedule, self.system = workbook, matrix.schedule, matrix.ruleset.units
        self.terms = matrix.ruleset.vocabulary.terms
        self.notes: list[str] = []
        self.diagnostics: list[Diagnostic] = []

    def apply(self, mending: Mending) -> None:
        """Put the cheapest proposal of a line into its cells."""
        because = listed(clause_label(clause) for clause in (*mending.fails, *mending.lacks))
        for change in mending.proposals[0].changes:
            text = f"{change_text(change, self.system)} (clause {because})"
            self.notes.append(f"{mending.line.name}: {text}")
            place = self._place(mending.line, change.term.name)
            if place is None:
                if change.is_given and not change.is_of_another_product:
                    self._report(mending.line, change)
                continue
            self._mark(place, mending.line, change.term.name, text, self._words(change))
        self._withdraw(mending)

    def _words(self, change: ProposedChange) -> str | None:
        """Return what to write into the cell of a change, None for a property and for what was not stated."""
        if change.is_of_another_product:
            return None
        if change.is_given:
            return write_value(change.after, change.term, self.system)
        return NOT_SHOWN if change.lost_with_owner else None

    def _withdraw(self, mending: Mending) -> None:
        """Take back what the line states of a thing that is changed, unless the proposal says something of it."""
        names = {change.term.name: change.term for change in mending.proposals[0].changes}
        for name, term in self.terms.items():
            if term.of not in names or name in names or name not in mending.line.data:
                continue
            place = self._place(mending.line, name)
            if place is not None and not isinstance(mending.line.data[name].value, NotGiven):
                text = f"show {name} of the new {term.of}"
                self.notes.append(f"{mending.line.name}: {text}")
                self._mark(place, mending.line, name, text, NOT_SHOWN)

    def _report(self, line: Line, change: ProposedChange) -> None:
        self.diagnostics.append(NO_COLUMN_TO_CORRECT.at(line.place, term=change.term.name, line=line.name))

    def _place(self, line: Line, term: str) -> Place | None:
        """Return the cell in the row of a line and the column of a term, or the one that says the term and no more.

        None where there is neither, as of what a sentence or a heading says.
        """
        row = _CELL.fullmatch(line.place.cell)
        datum = line.data.get(term)
        columns = [
            _column(one.place)
            for one in self.schedule.columns
            if one.term == term and (one.place.file, one.place.sheet) == (line.place.file, line.place.sheet)
        ]
        columns = [column for column in columns if (line.place.sheet, column) in self._columns_of_data]
        if datum is not None and not isinstance(datum.value, NotGiven):
            columns = [column for column in columns if column == _column(datum.place)]
        elif datum is not None and _column(datum.place) in columns:
            columns = [_column(datum.place)]
        if row is not None and columns:
            return Place(line.place.file, sheet=line.place.sheet, cell=f"{columns[0]}{row[2]}")
        return datum.place if datum is not None and self._says_no_more(line, term, datum) else None

    @cached_property
    def _columns_of_data(self) -> frozenset[tuple[str, str]]:
        """The columns, by sheet, in which data stand: the labels of a form stand over none."""
        data = (datum for line in self.schedule.lines for datum in line.data.values())
        return frozenset((datum.place.sheet, _column(datum.place)) for datum in data)

    def _says_no_more(self, line: Line, term: str, datum: Datum) -> bool:
        """Whether the whole text of a cell is one datum of one line, as beside the label of a form."""
        sheet: Any = self.workbook[datum.place.sheet] if datum.place.sheet else self.workbook.worksheets[0]
        if datum.place.file != line.place.file or not _CELL.fullmatch(datum.place.cell):
            return False
        lines = [line for line in self.schedule.lines if any(one.place == datum.place for one in line.data.values())]
        value = sheet[datum.place.cell].value
        texts = {str(value).strip(), number_text(value) if isinstance(value, float) else ""}
        alone = read_value(datum.text, self.terms[term], BareUnits(system=self.system)) == datum.value
        return alone and datum.text in texts and lines == [line]

    def _mark(self, place: Place, line: Line, term: str, comment: str, words: str | None) -> None:
        """Write words into the cell of a line, or only say in a comment what would comply."""
        from openpyxl.comments import Comment
        from openpyxl.styles import PatternFill

        sheet: Any = self.workbook[place.sheet] if place.sheet else self.workbook.worksheets[0]
        self._set_apart(sheet, place)
        self._pin(sheet, place, line, term)
        cell = sheet[place.cell]
        if words is not None:
            cell.value = plain(words)
            cell.data_type, cell.number_format = "s", "@"
        cell.fill = PatternFill("solid", fgColor=ASKED if words in (None, NOT_SHOWN) else CHANGED)
        cell.comment = Comment(plain(comment), AUTHOR, width=320, height=120)

    def _set_apart(self, sheet: Worksheet, place: Place) -> None:
        """Take the merged range apart in which a cell lies, and write what it said into each of its rows."""
        merged = next((one for one in sheet.merged_cells.ranges if place.cell in one), None)
        if merged is None:
            return
        first: Any = sheet.cell(merged.min_row, merged.min_col)
        said = first.value
        sheet.unmerge_cells(merged.coord)
        for row in range(merged.min_row + 1, merged.max_row + 1):
            sheet.cell(row, merged.min_col, said)

    def _pin(self, sheet: Any, place: Place, line: Line, term: str) -> None:
        """Write out what other lines took from a cell that is going to change, by a ditto mark for example."""
        for other in self.schedule.lines:
            datum = other.data.get(term)
            if other is line or datum is None or datum.place != place:
                continue
            row = _CELL.fullmatch(other.place.cell)
            if row is not None:
                sheet[f"{_column(place)}{row[2]}"].value = sheet[place.cell].value

    def write_notes(self) -> None:
        """List all changes on a sheet of their own, in sentences that no reader takes for a schedule."""
        sheet: Any = self.workbook.create_sheet(self._free_name())
        sheet.column_dimensions["A"].width = 110
        introduction = (
            "Changed cells are yellow. Blue cells are as they were: what is not given is still to be stated, and what "
            "was measured on a product asks for another product. Comments say why.",
            CAUTION,
            *STANDING_CAUTIONS,
        )
        for row, text in enumerate((*introduction, *self.notes), 1):
            cell = sheet.cell(row, 1)
            cell.value = plain(text)
            cell.data_type = "s"

    def _free_name(self) -> str:
        names = set(self.workbook.sheetnames)
        number = 1
        while (name := NOTES_SHEET if number == 1 else f"{NOTES_SHEET} {number}") in names:
            number += 1
        return name


def _column(place: Place) -> str:
    """Return the letters of the column of a cell, "" for a place that is none."""
    found = _CELL.fullmatch(place.cell)
    return found[1] if found else ""
