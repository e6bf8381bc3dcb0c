"""Sheets whose rows are written as text: a report of 2,000 lines has half a million cells, too many for an object each.

openpyxl makes the workbook, its styles, and of each sheet all but the rows. These are written here, as ECMA-376 part 1
(18.3.1.73, 18.3.1.4) has them, and take the place of the empty ones when the archive is written.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cache
from math import ceil
from typing import TYPE_CHECKING

from speccheck.report.escaping import starts_like_formula
from speccheck.report.workbook.cells import HEADER, LINE_HEIGHT, MOST_HEIGHT, TEXT, cell_text, finish, set_widths

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet


@dataclass
class StreamedWorkbook:
    """The numbers of the styles of a workbook, and what its cells say, each once."""

    sheet: Worksheet
    _styles: dict[tuple[str, bool], int] = field(default_factory=dict)
    _cells: dict[tuple[str, str], str] = field(default_factory=dict)

    def cell(self, text: str, style: str) -> str:
        """Return a cell as it is written, behind its reference: text that stays text, whatever it starts with."""
        found = self._cells.get((text, style))
        if found is None:
            shown = cell_text(text)
            number = self._style(style, starts_like_formula(shown))
            found = (
                f'" s="{number}" t="inlineStr"><is>{_escaped(shown)}</is></c>'
                if shown
                else f'" s="{number}" t="n"></c>'
            )
            self._cells[text, style] = found
        return found

    def _style(self, name: str, formula: bool) -> int:
        """Return the number of a named style; the one of what looks like a formula has the quote-prefix mark."""
        if (name, formula) not in self._styles:
            from openpyxl.cell import WriteOnlyCell

            sample = WriteOnlyCell(self.sheet)
            sample.style = name
            if formula:
                sample.quotePrefix = True
            self._styles[name, formula] = sample.style_id
        return self._styles[name, formula]


@dataclass
class StreamedSheet:
    """A sheet under construction: the sheet without its rows, and the rows, each as it is written."""

    frame: Worksheet
    workbook: StreamedWorkbook
    rows: list[str] = field(default_factory=list)
    width: int = 0

    def add(self, texts: Sequence[str], styles: Iterable[str], height: float | None = None) -> None:
        """Add a row of cells with their styles; `height` is in points, the usual one without it."""
        cell, number = self.workbook.cell, len(self.rows) + 1
        cells = "".join(
            [
                f'<c r="{letter}{number}{cell(text, style)}'
                for letter, text, style in zip(_letters(len(texts)), texts, styles, strict=False)
            ]
        )
        high = "" if height is None else f' ht="{height:.16g}" customHeight="1"'
        self.rows.append(f'<row r="{number}"{high}>{cells}</row>')
        self.width = max(self.width, len(texts))

    def add_table(self, headings: Sequence[tuple[str, float]], rows: Iterable[Sequence[str]]) -> None:
        """Fill the sheet with a table: headings and the width of their columns, frozen and with a filter; then rows."""
        names, widths = [heading for heading, _ in headings], [width for _, width in headings]
        set_widths(self.frame, widths)
        self.add(names, [HEADER] * len(names), needed_height(names, widths))
        styles = [TEXT] * len(names)
        for row in rows:
            self.add(row, styles, needed_height(row, widths))
        self.frame.freeze_panes = "B2"
        finish(self.frame, header_row=1, last_row=len(self.rows), last_column=len(headings))

    def measure(self) -> None:
        """Give the sheet its extent: its first and its last cell, whose place the rows take."""
        self.frame.cell(1, 1)
        self.frame.cell(len(self.rows), self.width)


def needed_height(texts: Sequence[str], widths: Sequence[float]) -> float:
    """Return how high, in points, a row has to be for its longest text, wrapped; not every program finds out itself."""
    lines = ceil(max((len(text) * 1.1 / width for text, width in zip(texts, widths, strict=True)), default=1))
    return min(LINE_HEIGHT * max(lines, 1) + 2, MOST_HEIGHT)


@cache
def _letters(count: int) -> tuple[str, ...]:
    """Return the letters of the first columns."""
    from openpyxl.utils import get_column_letter

    return tuple(get_column_letter(column) for column in range(1, count + 1))


def _escaped(text: str) -> str:
    """Return a text as an element; blanks at its ends are kept."""
    from xml.sax.saxutils import escape

    written = escape(text).encode("ascii", "xmlcharrefreplace").decode("ascii")
    return f"<t>{written}</t>" if text == text.strip() else f'<t xml:space="preserve">{written}</t>'
