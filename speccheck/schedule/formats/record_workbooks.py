"""What an .xls workbook says of its cells beside their values: merged, hidden and struck ones.

python-calamine reads the values alone. The records are those of [MS-XLS], Microsoft's open specification of the
format, their numbers from memory and tried on workbooks that LibreOffice writes: each is a number and a size of two
bytes, and as many bytes. Older workbooks than those of 1997, and texts of which a part is struck through, are not seen.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from speccheck.schedule.formats.safety import MOST_FILLED_CELLS
from speccheck.schedule.formats.sheet_looks import SheetLooks
from speccheck.schedule.grid import MergedRange

_STREAM = "Workbook"
_MOST_BYTES = 100_000_000
_BEGIN, _END, _SHEET, _FONT, _FORMAT = 0x0809, 0x000A, 0x0085, 0x0031, 0x00E0
_ROW, _COLUMNS, _MERGED, _SEVERAL = 0x0208, 0x007D, 0x00E5, (0x00BD, 0x00BE)
_CELLS = (0x0006, 0x00FD, 0x0201, 0x0203, 0x0204, 0x0205, 0x027E, 0x00D6)
_VERSION = 0x0600
_HIDDEN_ROW, _HIDDEN_COLUMN, _STRUCK = 0x20, 0x01, 0x08
_NO_FONT = 4
"""The place in the list of fonts that is left out when they are counted."""


@dataclass
class _Book:
    """What stands before the sheets: where each begins by its name, which fonts are struck, and fonts by format."""

    sheets: dict[str, int] = field(default_factory=dict)
    fonts: list[bool] = field(default_factory=list)
    formats: list[int] = field(default_factory=list)

    @property
    def struck(self) -> frozenset[int]:
        """The formats of cells that are struck through."""
        fonts = [font - (font > _NO_FONT) for font in self.formats]
        return frozenset(number for number, font in enumerate(fonts) if font < len(self.fonts) and self.fonts[font])


def looks_of_records(path: Path) -> Mapping[str, SheetLooks] | None:
    """Return how the cells of each sheet of an .xls workbook look; None where it is older, or broken off."""
    import olefile

    try:
        with olefile.OleFileIO(str(path)) as container:
            if not container.exists(_STREAM) or container.get_size(_STREAM) > _MOST_BYTES:
                return None
            stream = container.openstream(_STREAM).read()
        begin, _, version = struct.unpack_from("<HHH", stream)
        if (begin, version) != (_BEGIN, _VERSION):
            return None
        book = _book(stream)
        struck = book.struck
        return {name: _looks(stream, at, struck) for name, at in book.sheets.items()}
    except (OSError, struct.error, LookupError, ArithmeticError, TypeError, ValueError):
        return None  # whatever the library stumbles over: the reader of the values says that the file is damaged


def _book(stream: bytes) -> _Book:
    """Return what the first records say."""
    book = _Book()
    for number, record in _records(stream, 0):
        if number == _SHEET:
            (at,), units, is_wide = struct.unpack_from("<I", record), record[6], record[7] & 1
            text = record[8 : 8 + (2 * units if is_wide else units)]
            book.sheets[text.decode("utf-16-le" if is_wide else "latin-1")] = at
        elif number == _FONT:
            book.fonts.append(bool(record[2] & _STRUCK))
        elif number == _FORMAT:
            book.formats.append(struct.unpack_from("<H", record)[0])
    return book


def _looks(stream: bytes, at: int, struck: frozenset[int]) -> SheetLooks:
    """Return how the cells of the sheet look that begins at a place."""
    looks = SheetLooks()
    for number, record in _records(stream, at):
        if number == _ROW:
            (row,) = struct.unpack_from("<H", record)
            if record[12] & _HIDDEN_ROW:
                looks.hidden_rows.append((row, row))
        elif number == _COLUMNS:
            first, last = struct.unpack_from("<HH", record)
            if record[8] & _HIDDEN_COLUMN:
                looks.hidden_columns.append((first, last))
        elif number == _MERGED and len(looks.blocks) < MOST_FILLED_CELLS:
            for top, bottom, left, right in struct.iter_unpack(
                "<HHHH", record[2 : len(record) - (len(record) - 2) % 8]
            ):
                looks.blocks.append(MergedRange(top, left, bottom, right))
        elif len(looks.struck) < MOST_FILLED_CELLS:
            looks.struck += [(row, column, column) for row, column, own in _cells(number, record) if own in struck]
    return looks


def _cells(number: int, record: bytes) -> Iterator[tuple[int, int, int]]:
    """Yield the row, the column and the format of each cell of a record."""
    if number in _CELLS:
        yield struct.unpack_from("<HHH", record)
    elif number in _SEVERAL:
        row, first = struct.unpack_from("<HH", record)
        size = 6 if number == _SEVERAL[0] else 2
        for index in range((len(record) - 6) // size):
            yield row, first + index, struct.unpack_from("<H", record, 4 + size * index)[0]


def _records(stream: bytes, at: int) -> Iterator[tuple[int, bytes]]:
    """Yield the records from a place to the end of their part; parts within others, as of charts, are passed over."""
    depth = 0
    while at + 4 <= len(stream):
        number, size = struct.unpack_from("<HH", stream, at)
        depth += (number == _BEGIN) - (number == _END)
        if not depth:
            return
        if depth == 1:
            yield number, stream[at + 4 : at + 4 + size]
        at += 4 + size
