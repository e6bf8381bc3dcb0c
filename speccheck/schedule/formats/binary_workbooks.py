"""What an .xlsb workbook says of its cells beside their values: merged, hidden and struck ones.

python-calamine reads the values alone. The records are those of [MS-XLSB], Microsoft's open specification of the
format, their numbers from memory and tried on workbooks that LibreOffice reads: each is a number of one or two bytes,
a size of one to four, and as many bytes.
"""

from __future__ import annotations

import struct
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from speccheck.schedule.formats.package_parts import OpenPackage
from speccheck.schedule.formats.safety import MOST_FILLED_CELLS
from speccheck.schedule.formats.sheet_looks import SheetLooks
from speccheck.schedule.grid import MergedRange
from speccheck.schedule.messages.files import RECORD_BROKEN_OFF

_ROW, _COLUMNS, _MERGED, _SHEET, _FONT, _FORMAT, _SHARED = 0, 60, 176, 156, 43, 47, 19
_CELLS = (*range(1, 12), 62)
_SHARED_TEXT, _FORMATTED_TEXT = 7, 62
_CELL_FORMATS = 617
_NO_CELL_FORMATS = 618
_STRUCK, _HIDDEN_ROW, _HIDDEN_COLUMN = 0x08, 0x10, 0x01


@dataclass(frozen=True)
class _Struck:
    """What is struck through in a workbook, by places in lists: formats of cells, fonts, and texts that are shared."""

    formats: frozenset[int]
    fonts: frozenset[int]
    texts: frozenset[int]

    def holds(self, number: int, cell: bytes) -> bool:
        """Whether the record of a cell is of one that is struck through, as a whole or in part."""
        if struct.unpack_from("<I", cell, 4)[0] & 0xFFFFFF in self.formats:
            return True
        if number == _FORMATTED_TEXT:
            return _partly_struck(cell, 8, self.fonts)
        return number == _SHARED_TEXT and struct.unpack_from("<I", cell, 8)[0] in self.texts


def looks_of_binary(path: Path) -> Mapping[str, SheetLooks]:
    """Return how the cells of each sheet of an .xlsb workbook look. Raises `Refused` where the file is damaged."""
    with OpenPackage(path) as package:
        main = package.main_part() or "xl/workbook.bin"
        parts = {one.id: one.target for one in package.relations(main)}
        beside = {one.kind: one.target for one in package.relations(main)}
        try:
            formats, fonts = _struck_formats(package, beside.get("styles", ""))
            struck = _Struck(formats, fonts, _struck_texts(package, beside.get("sharedStrings", ""), fonts))
            return {
                name: _looks(package.bytes_of(parts[identity]), struck)
                for identity, name in _sheets(package.bytes_of(main))
                if identity in parts and package.has(parts[identity])
            }
        except (struct.error, IndexError, UnicodeError) as error:
            raise package.damaged(RECORD_BROKEN_OFF) from error


def _sheets(book: bytes) -> Iterator[tuple[str, str]]:
    """Yield the identity of the relation and the name of each sheet."""
    for number, record in _records(book):
        if number == _SHEET:
            identity, end = _text(record, 8)
            yield identity, _text(record, end)[0]


def _struck_formats(package: OpenPackage, part: str) -> tuple[frozenset[int], frozenset[int]]:
    """Return the cell formats, by their place in the list, and the fonts that are struck through."""
    fonts, formats, within = [], [], False
    for number, record in _records(package.bytes_of(part)) if package.has(part) else ():
        if number in (_CELL_FORMATS, _NO_CELL_FORMATS):
            within = number == _CELL_FORMATS
        elif number == _FONT:
            fonts.append(bool(record[2] & _STRUCK))
        elif number == _FORMAT and within:
            formats.append(struct.unpack_from("<H", record, 4)[0])
    struck = frozenset(index for index, is_struck in enumerate(fonts) if is_struck)
    return frozenset(index for index, font in enumerate(formats) if font in struck), struck


def _struck_texts(package: OpenPackage, part: str, fonts: frozenset[int]) -> frozenset[int]:
    """Return the texts of the list that all sheets share of which a part is struck through."""
    items = [record for number, record in _records(package.bytes_of(part)) if number == _SHARED] if part else []
    return frozenset(index for index, record in enumerate(items) if _partly_struck(record, 0, fonts))


def _partly_struck(record: bytes, start: int, fonts: frozenset[int]) -> bool:
    """Whether a text with formats of its parts, at a place in a record, is struck through in part."""
    if not record[start] & 1:
        return False
    _, end = _text(record, start + 1)
    (count,) = struct.unpack_from("<I", record, end)
    return any(struct.unpack_from("<H", record, end + 6 + 4 * run)[0] in fonts for run in range(min(count, 32_767)))


def _looks(sheet: bytes, struck: _Struck) -> SheetLooks:
    """Return how the cells of a sheet look."""
    looks, row = SheetLooks(), 0
    for number, record in _records(sheet):
        if number == _ROW:
            (row,) = struct.unpack_from("<I", record)
            if record[11] & _HIDDEN_ROW:
                looks.hidden_rows.append((row, row))
        elif number == _COLUMNS:
            first, last = struct.unpack_from("<II", record)
            if record[16] & _HIDDEN_COLUMN:
                looks.hidden_columns.append((first, last))
        elif number == _MERGED and len(looks.blocks) < MOST_FILLED_CELLS:
            top, bottom, left, right = struct.unpack_from("<IIII", record)
            looks.blocks.append(MergedRange(top, left, bottom, right))
        elif number in _CELLS:
            (column,) = struct.unpack_from("<I", record)
            if struck.holds(number, record):
                looks.struck.append((row, column, column))
            if number == _FORMATTED_TEXT and len(looks.texts) < MOST_FILLED_CELLS:
                looks.texts[row, column] = _text(record, 9)[0]
    return looks


def _records(part: bytes) -> Iterator[tuple[int, bytes]]:
    """Yield the records of a part: the number of each, and its content."""
    at = 0
    while at < len(part):
        number = part[at]
        at += 1
        if number & 0x80:
            number = (number & 0x7F) | (part[at] & 0x7F) << 7
            at += 1
        size = shift = 0
        while True:
            size |= (part[at] & 0x7F) << shift
            at, shift, more = at + 1, shift + 7, part[at] & 0x80
            if not more or shift > 21:
                break
        yield number, part[at : at + size]
        at += size


def _text(record: bytes, at: int) -> tuple[str, int]:
    """Return a text at a place in a record, and where it ends."""
    (units,) = struct.unpack_from("<I", record, at)
    end = at + 4 + 2 * units
    return record[at + 4 : end].decode("utf-16-le"), end
