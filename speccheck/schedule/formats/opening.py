"""Which reader reads a file, by what is in it where that is plain, else by its ending; and where it does so.

Small files of kinds that readers of our own hear once from front to back are read here. All others are read in a child
process, whose limits end whatever a file makes of its reader.
"""

from __future__ import annotations

import re
import zipfile
from collections.abc import Callable
from enum import StrEnum
from importlib import import_module
from pathlib import Path

from speccheck.english import listed
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.schedule.formats import endings
from speccheck.schedule.formats.safety import MEGABYTE, check_compound_file, check_file, check_parts
from speccheck.schedule.grid import Grid
from speccheck.schedule.messages.files import MERGED_OVER_EACH_OTHER, NO_KIND_OF_SCHEDULE, SEPARATED_TEXT

KINDS = f"schedules are read from {listed(endings.READ)} files"
MOST_BYTES_HERE = MEGABYTE
"""Bytes, unpacked, of the largest file that is read in this process."""
_PICTURES = (".png", ".jpg", ".jpeg", ".gif", ".emf", ".wmf", ".tif", ".tiff", ".bmp")
_COMPOUND_FILE = bytes.fromhex("D0CF11E0A1B11AE1")
_PAGE = re.compile(rb"\s*(?:<!--.*?-->\s*)*<(?:!doctype\s+html|html|table|head|body|meta|style|div)\b", re.IGNORECASE)

Reading = tuple[list[Grid], list[Diagnostic]]


class FormatKind(StrEnum):
    """Kinds of files, each with a reader of its own."""

    PDF = "pdf"
    PDF_TEXTS = "pdf texts"
    OLD_WORKBOOK = "old workbook"
    WORKBOOK = "workbook"
    WORD = "word"
    PAGE = "page"
    SEPARATED = "separated"
    JSON = "json"
    TOML = "toml"


_READERS = {
    FormatKind.PDF: ("pdf_tables", "read_pdf"),
    FormatKind.PDF_TEXTS: ("pdf_texts", "read_pdf_texts"),
    FormatKind.OLD_WORKBOOK: ("old_workbooks", "read_old_workbook"),
    FormatKind.WORKBOOK: ("workbook", "read_workbook"),
    FormatKind.WORD: ("word_tables", "read_word"),
    FormatKind.PAGE: ("html_tables", "read_html"),
    FormatKind.SEPARATED: ("comma_separated", "read_comma_separated"),
    FormatKind.JSON: ("json_lines", "read_json"),
    FormatKind.TOML: ("toml_lines", "read_toml"),
}
_BY_LIBRARIES = (FormatKind.PDF, FormatKind.PDF_TEXTS, FormatKind.OLD_WORKBOOK)
"""Kinds that libraries read which a file can make run away, however small it is."""


def open_schedule(path: Path) -> Reading:
    """Return the sheets or tables of a file, and what is wrong with it. An unusable file gives none and one error."""
    kind = check_file(path) or kind_of(path)
    if isinstance(kind, Diagnostic):
        return [], [kind]
    grids, problems = read_within_limits(kind, path)
    if kind is FormatKind.SEPARATED and path.suffix.lower() == ".xls":
        problems.append(SEPARATED_TEXT.at(Place(path.name)))
    return grids, problems


def read_within_limits(kind: FormatKind, path: Path) -> Reading:
    """Return what the reader of a kind of file makes of one, in a child process where that is not sure to end well."""
    if kind in _BY_LIBRARIES or is_large(path):
        from speccheck.schedule.formats.child import read_in_child

        grids, problems = read_in_child(kind, path)
    else:
        grids, problems = reader_of(kind)(path)
    for grid in grids:
        if grid.overlaps:
            return [], [MERGED_OVER_EACH_OTHER.at(Place(path.name), name=grid.sheet or path.name)]
    return grids, problems


def reader_of(kind: FormatKind) -> Callable[[Path], Reading]:
    """Return the reader of a kind of file."""
    module, function = _READERS[kind]
    reader: Callable[[Path], Reading] = getattr(import_module(f"speccheck.schedule.formats.{module}"), function)
    return reader


def is_large(path: Path) -> bool:
    """Whether a file, or of a package what is XML in it, is too large to be read in this process."""
    size = path.stat().st_size
    if zipfile.is_zipfile(path):
        try:
            with zipfile.ZipFile(path) as archive:
                parts = archive.infolist()
            size = sum(part.file_size for part in parts if not part.filename.lower().endswith(_PICTURES))
        except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError):
            return False  # its reader says that it is damaged
    return size > MOST_BYTES_HERE


def kind_of(path: Path) -> FormatKind | Diagnostic:
    """Return of what kind a file is, or why it is of none that is read."""
    with path.open("rb") as file:
        start = file.read(2048)
    ending = path.suffix.lower()
    if ending in endings.PDF or start.startswith(b"%PDF-"):
        return FormatKind.PDF
    if ending in (*endings.WORKBOOKS, *endings.DOCUMENTS):
        return _kind_of_document(path, start, ending)
    for kind, its_endings in (
        (FormatKind.PAGE, endings.PAGES),
        (FormatKind.SEPARATED, endings.SEPARATED),
        (FormatKind.JSON, endings.JSON),
        (FormatKind.TOML, endings.TOML),
    ):
        if ending in its_endings:
            return kind
    return NO_KIND_OF_SCHEDULE.at(Place(path.name), file=path.name, endings=listed(endings.READ))


def _kind_of_document(path: Path, start: bytes, ending: str) -> FormatKind | Diagnostic:
    """Return the kind of a workbook or a document: by what its first bytes and its parts say that it is."""
    if start.startswith(_COMPOUND_FILE):
        return check_compound_file(path) or FormatKind.OLD_WORKBOOK
    if ending == ".xls" and not start.startswith(b"PK"):
        return _kind_of_named_xls(start)
    refused = check_parts(path)
    if refused is not None:
        return refused
    with zipfile.ZipFile(path) as archive:
        parts = {name.lower() for name in archive.namelist()}
    if "xl/workbook.bin" in parts or "content.xml" in parts:
        return FormatKind.OLD_WORKBOOK
    return FormatKind.WORD if ending in endings.DOCUMENTS else FormatKind.WORKBOOK


def _kind_of_named_xls(start: bytes) -> FormatKind:
    """Return the kind of a file that is called .xls and is no workbook of its time: often a page of HTML, or text."""
    if start[:2] in (b"\xff\xfe", b"\xfe\xff"):
        start = start.decode("utf-16", errors="replace").encode()
    if _PAGE.match(start.removeprefix(b"\xef\xbb\xbf")):
        return FormatKind.PAGE
    is_binary = b"\0" in start or (start[:1] == b"\x09" and start[1:2] < b"\x09")
    return FormatKind.OLD_WORKBOOK if is_binary else FormatKind.SEPARATED
