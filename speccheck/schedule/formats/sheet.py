"""One sheet of a workbook: its cells as they are shown, what is hidden, and which cells are merged.

Values and marks (struck, white on white, formulas without a result) are heard in one pass, so that they cannot part
ways. Rows and cells need not say where they are: the standard lets the reference be left out, and then each follows
the one before (ISO/IEC 29500-1, sections 18.3.1.73 and 18.3.1.4, from memory).
"""

from __future__ import annotations

import datetime
import math
import re
from collections.abc import Mapping, Sequence, Set
from typing import NamedTuple

from speccheck.language.diagnostic_rules import Wording
from speccheck.language.diagnostics import Place
from speccheck.schedule.formats.package_parts import Events
from speccheck.schedule.formats.page_titles import OF_A_SHEET, titles_of_sheet
from speccheck.schedule.formats.rich_text import FALSE, RichText, TextReader, unescaped
from speccheck.schedule.formats.safety import MOST_CELLS, MOST_FILLED_CELLS, MOST_FILLED_ROWS, Refused
from speccheck.schedule.formats.styles import Style
from speccheck.schedule.grid import Grid, GridCell, MergedRange, column_letters, column_number, number_text
from speccheck.schedule.messages.cells import DATE_IN_CELL, ERROR_VALUE, FORMULA, NOT_SHOWN, ROUNDED, STRUCK
from speccheck.schedule.messages.files import (
    CELL_BEYOND_SHEET,
    REACHES_TOO_FAR,
    ROW_BEYOND_SHEET,
    SHARED_TEXT_MISSING,
    TOO_MANY_FILLED_CELLS,
    TOO_MANY_FILLED_ROWS,
    TWO_CELLS_AT_ONE_PLACE,
)

MOST_ROWS_OF_A_SHEET = 1_048_576
MOST_COLUMNS_OF_A_SHEET = 16_384
_REFERENCE = re.compile(r"\$?([A-Za-z]{1,3})\$?([0-9]{1,7})")
_EPOCH = datetime.datetime(1899, 12, 30)
_EPOCH_1904 = datetime.datetime(1904, 1, 1)
_FAR = 0.02  # where what is shown differs by more from what is held, nobody can say which is proposed


class Workbook(NamedTuple):
    """What the sheets of a workbook share: its file, the texts, the styles by number, and how it counts days.

    `striking` are the numbers of the looks that strike cells through where a condition holds.
    """

    file: str
    texts: Sequence[RichText]
    styles: Sequence[Style]
    from_1904: bool = False
    striking: Set[str] = frozenset()


class Rounded(NamedTuple):
    """A cell that shows a little less or more than it holds."""

    place: tuple[int, int]
    shown: str
    held: str


class Sheet(Events):
    """Hears the part of one sheet; `grid` is what it says."""

    def __init__(self, name: str, hidden: bool, workbook: Workbook) -> None:
        self._name, self._hidden, self._book = name, hidden, workbook
        self._cells: dict[tuple[int, int], GridCell] = {}
        self._blocks: list[MergedRange] = []
        self._hidden_rows: set[int] = set()
        self._hidden_columns: list[tuple[int, int]] = []
        self.rounded: list[Rounded] = []
        self._page_titles: list[str] = []
        self._conditional = ""
        self.perhaps_struck: list[str] = []
        self._row, self._column = -1, -1
        self._rows = self._columns = 0
        self._in_data = False
        self._texts = TextReader()
        self._heard: list[str] | None = None
        self._open: Mapping[str, str] | None = None
        self._value: str | None = None
        self._formula: str | None = None
        self._inline: RichText | None = None
        self._in_inline = False
        self.found_data = False

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        """Hear that an element opens."""
        if tag == "c" and self._in_data:
            self._open, self._value, self._formula, self._inline = attributes, None, None, None
            self._column = self._column_of(attributes)
        elif self._in_inline:
            self._texts.start(tag, attributes)
        elif tag in ("v", "f") and self._open is not None:
            self._heard = []
        elif tag == "is" and self._open is not None:
            self._in_inline = True
        elif tag == "row" and self._in_data:
            self._begin_row(attributes)
        elif tag == "sheetData":
            self._in_data = self.found_data = True
        elif tag == "col":
            self._column_width(attributes)
        elif tag == "mergeCell":
            self._merge(attributes)
        elif tag == "conditionalFormatting":
            self._conditional = attributes.get("sqref", "")
        elif tag == "cfRule" and attributes.get("dxfId", "") in self._book.striking:
            self.perhaps_struck.append(self._conditional)
        elif tag in OF_A_SHEET:
            self._heard = []

    def characters(self, text: str) -> None:
        """Hear the words of a value, a formula or an inline text."""
        if self._heard is not None:
            self._heard.append(text)
        elif self._in_inline:
            self._texts.characters(text)

    def end(self, tag: str) -> None:
        """Hear that an element closes."""
        if tag == "v" and self._heard is not None:
            self._value, self._heard = "".join(self._heard), None
        elif tag == "f" and self._heard is not None:
            self._formula, self._heard = "".join(self._heard), None
        elif tag in OF_A_SHEET and self._heard is not None:
            self._page_titles += titles_of_sheet("".join(self._heard))
            self._heard = None
        elif tag == "is":
            self._inline, self._in_inline = self._texts.take(), False
        elif self._in_inline:
            self._texts.end(tag)
        elif tag == "c" and self._open is not None:
            self._keep(self._open)
            self._open = None
        elif tag == "sheetData":
            self._in_data = False

    def _refused(self, said: Wording, **facts: object) -> Refused:
        return Refused(said.at(Place(self._book.file), near=None, sheet=self._name, **facts))

    def _begin_row(self, attributes: Mapping[str, str]) -> None:
        """Go to a row, and note whether it is hidden, by a filter or by hand, or has no height."""
        stated = attributes.get("r", "")
        row = int(stated) - 1 if stated.strip().isdecimal() else self._row + 1
        if not 0 <= row < MOST_ROWS_OF_A_SHEET:
            raise self._refused(ROW_BEYOND_SHEET, row=stated)
        self._row, self._column = row, -1
        if attributes.get("hidden", "0") not in FALSE or _is_nothing(attributes.get("ht", "")):
            self._hidden_rows.add(row)

    def _column_of(self, attributes: Mapping[str, str]) -> int:
        """Return the column of a cell; one that names another row moves there."""
        stated = attributes.get("r", "")
        if not stated:
            column = self._column + 1
        else:
            found = _REFERENCE.fullmatch(stated.strip())
            row, column = (int(found[2]) - 1, column_number(found[1])) if found else (-1, -1)
            if found is None or not 0 <= row < MOST_ROWS_OF_A_SHEET:
                column = MOST_COLUMNS_OF_A_SHEET
            self._row = row
        if column >= MOST_COLUMNS_OF_A_SHEET:
            raise self._refused(CELL_BEYOND_SHEET, cell=stated)
        return column

    def _column_width(self, attributes: Mapping[str, str]) -> None:
        """Note the columns that are hidden or have no width."""
        first, last = attributes.get("min", ""), attributes.get("max", "")
        hides = attributes.get("hidden", "0") not in FALSE or _is_nothing(attributes.get("width", ""))
        if hides and first.isdecimal() and last.isdecimal():
            self._hidden_columns.append((int(first) - 1, int(last) - 1))

    def _merge(self, attributes: Mapping[str, str]) -> None:
        """Note a merged range."""
        ends = [_REFERENCE.fullmatch(end) for end in attributes.get("ref", "").split(":")]
        if len(ends) == 2 and ends[0] is not None and ends[1] is not None:
            (top, left), (bottom, right) = ((int(end[2]) - 1, column_number(end[1])) for end in ends if end)
            self._blocks.append(MergedRange(min(top, bottom), min(left, right), max(top, bottom), max(left, right)))

    def _keep(self, attributes: Mapping[str, str]) -> None:
        """Keep a cell, unless it is blank."""
        place = (self._row, self._column)
        number = attributes.get("s", "0")
        styles = self._book.styles
        style = styles[int(number)] if number.isdecimal() and int(number) < len(styles) else Style()
        cell = self._cell(attributes.get("t", "n"), style, place)
        if cell is None or not cell.text.strip():
            return
        if place in self._cells:
            raise self._refused(TWO_CELLS_AT_ONE_PLACE, cell=f"{column_letters(place[1])}{place[0] + 1}")
        if style.struck:
            cell = GridCell(cell.text, STRUCK.code)
        elif style.unseen:
            cell = GridCell(cell.text, cell.trouble or NOT_SHOWN.code)
        self._cells[place] = cell
        self._rows, self._columns = max(self._rows, place[0] + 1), max(self._columns, place[1] + 1)
        if len(self._cells) > MOST_FILLED_CELLS:
            raise self._refused(TOO_MANY_FILLED_CELLS, most=MOST_FILLED_CELLS)

    def _cell(self, kind: str, style: Style, place: tuple[int, int]) -> GridCell | None:
        """Return what the cell that closes shows; None for a blank one."""
        value = self._value
        if kind == "e":
            return GridCell((value or "").strip() or "#VALUE!", ERROR_VALUE.code)
        if self._formula is not None and not (value or "").strip() and self._inline is None:
            if kind == "str" and value is not None:
                return None  # worked out, and the result is an empty text
            return GridCell("=" + " ".join(self._formula.split()), FORMULA.code)
        if kind == "inlineStr" or self._inline is not None:
            return _text_cell(self._inline or RichText(value or ""), style)
        if value is None or not value.strip():
            return None
        match kind:
            case "s":
                return _text_cell(self._shared(value), style)
            case "str":
                return _text_cell(RichText(unescaped(value)), style)
            case "b":
                return GridCell("TRUE" if value.strip() in ("1", "true") else "FALSE")
            case "d":
                return GridCell(value.strip(), DATE_IN_CELL.code)
        return self._number(value, style, place)

    def _shared(self, value: str) -> RichText:
        """Return a shared text by its number."""
        index = int(value) if value.strip().isdecimal() else len(self._book.texts)
        if index >= len(self._book.texts):
            raise self._refused(SHARED_TEXT_MISSING, number=value.strip())
        return self._book.texts[index]

    def _number(self, value: str, style: Style, place: tuple[int, int]) -> GridCell:
        """Return a number as its format shows it."""
        try:
            number = float(value)
        except ValueError:
            number = math.nan
        if not math.isfinite(number):
            return GridCell(value.strip(), ERROR_VALUE.code)
        if style.format.is_date:
            return GridCell(self._date(number), DATE_IN_CELL.code)
        shown = style.format.shown(number)
        if not shown:
            return GridCell(number_text(number), NOT_SHOWN.code)
        section = style.format.section_of(number)
        left, whole = float(section.rounded(number)), section.scaled(number)
        if section.digits and abs(left - whole) > _FAR * abs(whole):
            return GridCell(shown, ROUNDED.code)
        if section.digits and abs(left - whole) > 1e-9 * max(abs(left), abs(whole)):
            self.rounded.append(Rounded(place, shown, number_text(number)))
        return GridCell(shown)

    def _date(self, number: float) -> str:
        """Return the day or the time that a number stands for; a date without a time of day as "2026-01-02"."""
        epoch = _EPOCH_1904 if self._book.from_1904 else _EPOCH
        try:
            moment = epoch + datetime.timedelta(seconds=round(number * 86400))
        except OverflowError:
            return number_text(number)
        if 0 <= number < 1:
            return str(moment.time())
        return str(moment.date() if moment.time() == datetime.time() else moment)

    def grid(self) -> Grid:
        """Return the grid of the sheet. Raises `Refused` where it reaches too far to be a schedule."""
        if self._rows * self._columns > MOST_CELLS:
            reach = f"{column_letters(self._columns - 1)}{self._rows}"
            raise self._refused(REACHES_TOO_FAR, cell=reach, most=MOST_CELLS)
        if len({row for row, _ in self._cells}) > MOST_FILLED_ROWS:
            raise self._refused(TOO_MANY_FILLED_ROWS, most=MOST_FILLED_ROWS)
        columns: list[int] = []
        for first, last in sorted(self._hidden_columns):
            columns += range(max(first, columns[-1] + 1 if columns else 0), min(last, self._columns - 1) + 1)
        return Grid(
            self._book.file,
            self._name,
            dict(sorted(self._cells.items())),
            tuple(self._blocks),
            self._hidden,
            hidden_rows=frozenset(self._hidden_rows),
            hidden_columns=frozenset(columns),
            page_titles=tuple(dict.fromkeys(self._page_titles)),
        )


def _text_cell(text: RichText, style: Style) -> GridCell:
    """Return a cell with a text, which may be struck in part, or left out by the format."""
    if text.struck:
        return GridCell(text.text, STRUCK.code)
    return GridCell(text.text, "" if style.format.shows_texts else NOT_SHOWN.code)


def _is_nothing(size: str) -> bool:
    """Whether the height of a row or the width of a column is stated as nothing."""
    return re.fullmatch(r"\s*0+(?:\.0*)?\s*", size) is not None
