"""Text files with separated fields (.csv) to a grid: the encoding and the separator are found out and said.

A text (.txt) that no separator parts goes to `plain_text`.
"""

from __future__ import annotations

import codecs
import csv
from collections import Counter
from collections.abc import Iterator
from contextlib import suppress
from itertools import islice
from pathlib import Path

from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.schedule.formats.plain_text import cells_of_text, is_ruler
from speccheck.schedule.formats.safety import MOST_FILLED_CELLS, MOST_FILLED_ROWS
from speccheck.schedule.grid import Grid, GridCell
from speccheck.schedule.messages.cells import FORMULA
from speccheck.schedule.messages.files import (
    FIELD_NOT_CLOSED,
    FIELD_TOO_LONG,
    IS_NO_TEXT,
    MORE_THAN_LIMIT_OF,
    READ_IN_WESTERN_PAGE,
)

_SEPARATORS = (",", ";", "\t", "|")
_IN_SENTENCES = ",;"
_CHUNK = 1 << 16
_SAMPLE_RECORDS = 60


def read_comma_separated(path: Path) -> tuple[list[Grid], list[Diagnostic]]:
    """Return the one grid of a text file, and what had to be assumed to read it.

    Separated text is read as a stream, other text as a whole. A text that is neither UTF-8 nor UTF-16 is read in code
    page 1252, with a note.
    """
    encoding = encoding_of(path)
    if encoding is None:
        return [], [IS_NO_TEXT.at(Place(path.name), file=path.name)]
    notes = []
    if encoding == "cp1252":
        notes.append(READ_IN_WESTERN_PAGE.at(Place(path.name)))
    try:
        separator = _separator(path, encoding)
        fields: dict[int, int] = {}
        cells = _cells(_records(path, encoding, separator), fields) if separator else _plain_cells(path, encoding)
    except csv.Error as error:
        return [], [_broken(path.name, str(error))]
    if isinstance(cells, str):
        return [], [MORE_THAN_LIMIT_OF.at(Place(path.name), file=path.name, most=cells)]
    return [Grid(path.name, "", cells, fields=fields)], notes


def _plain_cells(path: Path, encoding: str) -> dict[tuple[int, int], GridCell] | str:
    """Return the filled cells of a text that no separator parts, or of what there are too many, in words."""
    cells = cells_of_text(path.read_text(encoding=encoding, errors="replace"))
    if len({row for row, _ in cells}) > MOST_FILLED_ROWS:
        return f"{MOST_FILLED_ROWS:,} filled rows"
    return cells if len(cells) <= MOST_FILLED_CELLS else f"{MOST_FILLED_CELLS:,} filled cells"


def encoding_of(path: Path) -> str | None:
    """Return the encoding of a text file, or None where it is not text."""
    with path.open("rb") as file:
        start = file.read(4)
        if start.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
            return "utf-16"
        decoder = codecs.getincrementaldecoder("utf-8")()
        file.seek(0)
        is_utf8 = True
        while chunk := file.read(_CHUNK):
            if b"\0" in chunk:
                return None
            try:
                decoder.decode(chunk, final=False)
            except UnicodeDecodeError:
                is_utf8 = False
    return "utf-8-sig" if is_utf8 else "cp1252"


def _records(path: Path, encoding: str, separator: str) -> Iterator[list[str]]:
    """Yield the records of the file. Raises `csv.Error` where a quotation mark is out of place."""
    with path.open(encoding=encoding, errors="replace", newline="") as file:
        lines = iter(file)
        first = next(lines, "")
        if not first.lower().startswith("sep="):
            file.seek(0)
            lines = iter(file)
        for record in csv.reader(lines, delimiter=separator, strict=True):
            if any(_swallows(field, separator) for field in record):
                raise csv.Error("a quotation mark by itself opened a field")
            yield record


def _swallows(field: str, separator: str) -> bool:
    """Whether a field took in the end of a record, as between two ditto marks that were not written twice."""
    return "\n" in field and (field.startswith(separator) or field.endswith(separator))


def _separator(path: Path, encoding: str) -> str:
    """Return the separator that parts most records alike; of several, the one that makes most fields.

    One that only parts what stands in the cells ("valves; flanges; fittings") leaves the header in one piece. In
    plain text it is none ("") where a mark that sentences have parts no more than half of the lines alike.
    """
    with path.open(encoding=encoding, errors="replace", newline="") as file:
        first = file.readline()
        if first.lower().startswith("sep=") and first[4:5] in _SEPARATORS:
            return first[4]
    is_text = path.suffix.lower() == ".txt"
    best, separator = (0, 0), "" if is_text else _SEPARATORS[0]
    for candidate in _SEPARATORS:
        widths: Counter[int] = Counter()
        with suppress(csv.Error):  # the records before the fault still tell the separator
            records = islice(_records(path, encoding, candidate), _SAMPLE_RECORDS)
            widths.update(len(record) for record in records if any(map(str.strip, record)))
        score = max(((count, width) for width, count in widths.items() if width > 1), default=(0, 0))
        if score > best and not (is_text and candidate in _IN_SENTENCES and 2 * score[0] <= widths.total()):
            best, separator = score, candidate
    return separator


def _cells(records: Iterator[list[str]], fields: dict[int, int]) -> dict[tuple[int, int], GridCell] | str:
    """Return the filled cells, or of what there are too many, in words, and count the fields of each row."""
    cells: dict[tuple[int, int], GridCell] = {}
    filled = 0
    for row, record in enumerate(records):
        if all(is_ruler(text) for text in record if text.strip()):
            continue
        before = len(cells)
        fields[row] = len(record)
        for column, text in enumerate(record):
            if text.strip():
                is_formula = text.startswith("=") and len(text) > 1
                cells[row, column] = GridCell(text, FORMULA.code if is_formula else "")
        filled += len(cells) > before
        if len(cells) > MOST_FILLED_CELLS:
            return f"{MOST_FILLED_CELLS:,} filled cells"
        if filled > MOST_FILLED_ROWS:
            return f"{MOST_FILLED_ROWS:,} filled rows"
    return cells


def _broken(file: str, error: str) -> Diagnostic:
    """Say that the quotation marks of a file do not pair up."""
    return (FIELD_TOO_LONG if "field larger" in error else FIELD_NOT_CLOSED).at(Place(file))
