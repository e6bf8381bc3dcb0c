"""Workbooks in the format .xlsb, which no library writes, record by record.

The records are those of [MS-XLSB], Microsoft's open specification, their numbers from memory; LibreOffice reads them.
"""

from __future__ import annotations

import struct
import zipfile
from collections.abc import Collection, Sequence
from pathlib import Path

from tests.schedule.formats.producers import Sheet, is_plain_number

Struck = tuple[int, int] | tuple[int, int, str]


def write_xlsb(
    path: Path,
    sheets: Sequence[Sheet],
    hidden_rows: Collection[int] = (),
    hidden_columns: Collection[int] = (),
    struck: Collection[Struck] = (),
) -> None:
    """Write an .xlsb workbook, its records after [MS-XLSB], Microsoft's open specification (numbers from memory).

    No library writes this format; texts stand in their cells, plain numbers are numbers, merged ranges are kept.
    On all sheets these rows and columns are hidden, and these cells struck through; the second half of those alone
    that say "in part", or "in part, shared" where the text stands in the list of the first sheet.
    """
    looks = hidden_rows, hidden_columns, struck
    relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
    package = "http://schemas.openxmlformats.org/package/2006"
    parts = {f"xl/worksheets/sheet{n}.bin": _binary_sheet(one, *looks) for n, one in enumerate(sheets, start=1)}
    shown = b"".join(
        _record(156, struct.pack("<II", 0, n) + _wide(f"rId{n}") + _wide(one.name[:31]))
        for n, one in enumerate(sheets, start=1)
    )
    book = _record(131) + _record(143) + shown + _record(144) + _record(132)
    links = "".join(
        f'<Relationship Id="rId{n}" Type="{relations}/worksheet" Target="worksheets/sheet{n}.bin"/>'
        for n in range(1, len(sheets) + 1)
    )
    shared = _shared(sheets[0], struck)
    items = b"".join(_record(19, _half_struck(text)) for text in shared)
    parts["xl/styles.bin"] = _binary_styles()
    parts["xl/sharedStrings.bin"] = _record(159, struct.pack("<II", len(shared), len(shared))) + items + _record(160)
    for n, part in enumerate(("styles", "sharedStrings"), start=len(sheets) + 1):
        links += f'<Relationship Id="rId{n}" Type="{relations}/{part}" Target="{part}.bin"/>'
    kinds = {"workbook": ["workbook.bin"], "worksheet": [n[3:] for n in list(parts)[:-2]]}
    kinds |= {"styles": ["styles.bin"], "sharedStrings": ["sharedStrings.bin"]}
    overrides = "".join(
        f'<Override PartName="/xl/{part}" ContentType="application/vnd.ms-excel.'
        f'{"sheet.binary.macroEnabled.main" if one == "workbook" else one}"/>'
        for one, named in kinds.items()
        for part in named
    )
    rels = '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    with zipfile.ZipFile(path, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("[Content_Types].xml", f'<Types xmlns="{package}/content-types">{rels}{overrides}</Types>')
        top = f'<Relationship Id="rId1" Type="{relations}/officeDocument" Target="xl/workbook.bin"/>'
        archive.writestr("_rels/.rels", f'<Relationships xmlns="{package}/relationships">{top}</Relationships>')
        archive.writestr("xl/workbook.bin", book)
        archive.writestr(
            "xl/_rels/workbook.bin.rels", f'<Relationships xmlns="{package}/relationships">{links}</Relationships>'
        )
        for name, part in parts.items():
            archive.writestr(name, part)


def _binary_sheet(
    sheet: Sheet,
    hidden_rows: Collection[int],
    hidden_columns: Collection[int],
    struck: Collection[Struck],
) -> bytes:
    """Return the records of a sheet: its extent, hidden columns, its rows with their cells, and its merged ranges."""
    extent = struct.pack("<IIII", 0, len(sheet.rows) - 1, 0, len(sheet.rows[0]) - 1)
    hidden = b"".join(_record(60, struct.pack("<IIIIH", one, one, 2048, 0, 1)) for one in hidden_columns)
    columns = _record(390) + hidden + _record(391) if hidden else b""
    shared, cells = _shared(sheet, struck), b""
    for number, row in enumerate(sheet.rows):
        flags = 0x10 if number in hidden_rows else 0
        spans = struct.pack("<III", 1, 0, len(row) - 1)
        cells += _record(0, struct.pack("<IIHBBB", number, 0, 300, 0, flags, 0) + spans)
        for column, text in enumerate(row):
            place = struct.pack("<II", column, int((number, column) in struck))
            if is_plain_number(text):
                cells += _record(5, place + struct.pack("<d", float(text)))
            elif (number, column, "in part") in struck:
                cells += _record(62, place + _half_struck(text))
            elif (number, column, "in part, shared") in struck:
                cells += _record(7, place + struct.pack("<I", shared.index(text)))
            elif text:
                cells += _record(6, place + _wide(text))
    merged = [struct.pack("<IIII", one.top, one.bottom, one.left, one.right) for one in sheet.blocks]
    blocks = [_record(177, struct.pack("<I", len(merged))), *(_record(176, one) for one in merged), _record(178)]
    body = _record(148, extent) + columns + _record(145) + cells + _record(146) + b"".join(blocks if merged else [])
    return _record(129) + body + _record(130)


def _shared(sheet: Sheet, struck: Collection[Struck]) -> list[str]:
    """Return the texts of a sheet that stand in the list of the workbook."""
    return [sheet.rows[place[0]][place[1]] for place in struck if place[2:] == ("in part, shared",)]


def _half_struck(text: str) -> bytes:
    """Return a text of which the second half has the second font, which is struck through."""
    return b"\1" + _wide(text) + struct.pack("<IHH", 1, len(text) // 2, 1)


def _binary_styles() -> bytes:
    """Return the records of two cell formats, of which the second has a font that is struck through."""
    fonts = b""
    for flags in (0, 0x08):
        colour = struct.pack("<BBhBBBB", 0x02, 64, 0, 0, 0, 0, 255)
        fonts += _record(
            43, struct.pack("<HHHHBBBB", 220, flags, 400, 0, 0, 2, 0, 0) + colour + b"\0" + _wide("Calibri")
        )
    formats = b"".join(_record(47, struct.pack("<HHHHHBBHBB", 0, 0, font, 0, 0, 0, 0, 0, 2, 0)) for font in (0, 1))
    listed = _record(611, struct.pack("<I", 2)) + fonts + _record(612)
    return _record(278) + listed + _record(617, struct.pack("<I", 2)) + formats + _record(618) + _record(279)


def _record(number: int, content: bytes = b"") -> bytes:
    """Return a record: its number in one or two bytes of seven bits, its size in up to four, and its content."""
    head = bytes([number]) if number < 128 else bytes([number & 0x7F | 0x80, number >> 7])
    size, written = len(content), b""
    while size > 127:
        written, size = written + bytes([size & 0x7F | 0x80]), size >> 7
    return head + written + bytes([size]) + content


def _wide(text: str) -> bytes:
    """Return a text as records hold it: how many units of UTF-16 it has, and these."""
    units = text.encode("utf-16-le")
    return struct.pack("<I", len(units) // 2) + units
