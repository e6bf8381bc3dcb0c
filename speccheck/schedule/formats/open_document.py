"""What an OpenDocument spreadsheet (.ods) says of its cells beside their values: merged, hidden and struck ones.

python-calamine reads the values alone. The elements are those of ISO/IEC 26300-1, chapters 9 and 20, from memory.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from speccheck.schedule.formats.package_parts import Events, OpenPackage
from speccheck.schedule.formats.safety import MOST_FILLED_CELLS
from speccheck.schedule.formats.sheet_looks import SheetLooks
from speccheck.schedule.grid import MergedRange

CONTENT = "content.xml"
_MOST_REPEATED = 1_048_576


class _Content(Events):
    """Hears the content of a spreadsheet."""

    def __init__(self) -> None:
        self.sheets: dict[str, SheetLooks] = {}
        self._sheet = SheetLooks()
        self._struck_styles: set[str] = set()
        self._column_styles: list[tuple[int, int, str]] = []
        self._style = ""
        self._row = self._column = self._next_row = 0
        self._cell: tuple[int, int, int] | None = None

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        if tag == "style":
            self._style = attributes.get("name", "")
        elif tag == "text-properties":
            if attributes.get("text-line-through-style", "none") != "none":
                self._struck_styles.add(self._style)
        elif tag == "table":
            self._sheet = self.sheets.setdefault(attributes.get("name", ""), SheetLooks())
            self._row = self._column = self._next_row = 0
            self._column_styles = []
        elif tag == "table-column":
            self._start_column(attributes)
        elif tag == "table-row":
            self._start_row(attributes)
        elif tag in ("table-cell", "covered-table-cell"):
            self._start_cell(attributes)
        elif tag == "span" and self._cell is not None and attributes.get("style-name", "") in self._struck_styles:
            self._sheet.struck.append(self._cell)

    def _start_column(self, attributes: Mapping[str, str]) -> None:
        last = self._column + _count(attributes, "number-columns-repeated") - 1
        if attributes.get("visibility", "visible") != "visible":
            self._sheet.hidden_columns.append((self._column, last))
        self._column_styles.append((self._column, last, attributes.get("default-cell-style-name", "")))
        self._column = last + 1

    def _start_row(self, attributes: Mapping[str, str]) -> None:
        self._row, self._column = self._next_row, 0
        self._next_row = self._row + _count(attributes, "number-rows-repeated")
        if attributes.get("visibility", "visible") != "visible":
            self._sheet.hidden_rows.append((self._row, self._next_row - 1))

    def _start_cell(self, attributes: Mapping[str, str]) -> None:
        first, sheet = self._column, self._sheet
        self._column += _count(attributes, "number-columns-repeated")
        down, across = _count(attributes, "number-rows-spanned"), _count(attributes, "number-columns-spanned")
        if down * across > 1 and len(sheet.blocks) < MOST_FILLED_CELLS:
            sheet.blocks.append(MergedRange(self._row, first, self._row + down - 1, first + across - 1))
        self._cell = (self._row, first, self._column - 1)
        style = attributes.get("style-name") or self._style_of_column(first)
        if style in self._struck_styles and attributes.get("value-type"):
            sheet.struck.append(self._cell)

    def _style_of_column(self, column: int) -> str:
        return next((style for first, last, style in self._column_styles if first <= column <= last), "")

    def end(self, tag: str) -> None:
        if tag in ("table-cell", "covered-table-cell"):
            self._cell = None


def _count(attributes: Mapping[str, str], name: str) -> int:
    """Return how often something is repeated, or how far it reaches: 1 where it is not said."""
    text = attributes.get(name, "1")
    return min(max(int(text), 1), _MOST_REPEATED) if text.isdecimal() and len(text) < 9 else 1


def looks_of_open_document(path: Path) -> Mapping[str, SheetLooks]:
    """Return how the cells of each sheet of an OpenDocument spreadsheet look. Raises `Refused`."""
    content = _Content()
    with OpenPackage(path) as package:
        package.parse(CONTENT, content)
    return content.sheets
