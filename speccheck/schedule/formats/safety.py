"""What is refused before it is opened: files of another kind, locked, damaged, or out to exhaust the machine."""

from __future__ import annotations

from pathlib import Path

from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.schedule.formats.endings import PACKAGES
from speccheck.schedule.messages.files import (
    FILE_NOT_OPENED,
    FILE_TOO_LARGE,
    NO_FILE_TO_OPEN,
    NOT_COMPLETE,
    TOO_MANY_PARTS,
    UNPACKS_TO_TOO_MUCH,
    UNPACKS_TOO_FAR,
    WORKBOOK_LOCKED,
)

MEGABYTE = 1024 * 1024
MOST_FILE_BYTES = 20 * MEGABYTE
MOST_UNPACKED_BYTES = 200 * MEGABYTE
MOST_PARTS = 2_000
MOST_RATIO = 250
RATIO_COUNTS_FROM = 10 * MEGABYTE
MOST_CELLS = 1_000_000
MOST_FILLED_CELLS = 200_000
MOST_FILLED_ROWS = 50_000
MOST_SHEETS = 250
MOST_TABLES = 1_000

_COMPOUND_FILE = bytes.fromhex("D0CF11E0A1B11AE1")
_ENCRYPTED = "EncryptedPackage".encode("utf-16-le")
AGAIN = "open the workbook in a spreadsheet program and save it again as .xlsx"
DOCUMENT_AGAIN = "open the document in a word processor and save it again as .docx"


class Refused(Exception):  # noqa: N818 - it is an answer, not a fault
    """Ends the reading of a file from within; the reader of the file turns it into its diagnostic."""

    def __init__(self, diagnostic: Diagnostic) -> None:
        super().__init__(diagnostic.message)
        self.diagnostic = diagnostic


def is_document(name: str) -> bool:
    """Whether a file is a Word document by its name, and no workbook."""
    return name.lower().endswith((".docx", ".docm"))


def again(name: str) -> str:
    """Return what to do with a damaged file that is a package of parts."""
    return DOCUMENT_AGAIN if is_document(name) else AGAIN


def check_file(path: Path) -> Diagnostic | None:
    """Return why a file of any kind cannot be opened, or None. Reads nothing but its length."""
    name = path.name
    try:
        if not path.is_file():
            return NO_FILE_TO_OPEN.at(Place(name), file=name)
        size = path.stat().st_size
        with path.open("rb"):
            pass
    except OSError as error:
        return FILE_NOT_OPENED.at(Place(name), file=name, why=(error.strerror or "no access").lower())
    if size > MOST_FILE_BYTES:
        return FILE_TOO_LARGE.at(Place(name), file=name, size=size // MEGABYTE, most=MOST_FILE_BYTES // MEGABYTE)
    return None


def check_compound_file(path: Path) -> Diagnostic | None:
    """Return why a file in the old compound format cannot be read, as where it is a locked .xlsx; else None."""
    data = path.read_bytes()
    if not data.startswith(_COMPOUND_FILE):
        return None
    if _ENCRYPTED in data or path.suffix.lower() in PACKAGES:
        return WORKBOOK_LOCKED.at(Place(path.name), file=path.name)
    return None


def check_parts(path: Path) -> Diagnostic | None:
    """Return why a zipped workbook cannot be read, going by its table of contents alone; None where it can."""
    import zipfile

    name = path.name
    what, less = (".docx document", "schedule") if is_document(name) else (".xlsx workbook", "sheets of the schedule")
    place = Place(name)
    try:
        with zipfile.ZipFile(path) as archive:
            parts = archive.infolist()
    except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError, UnicodeDecodeError):
        return NOT_COMPLETE.at(place, file=name, what=what, advice=again(name))
    if any(part.flag_bits & 1 for part in parts):
        return WORKBOOK_LOCKED.at(Place(name), file=name)
    unpacked = sum(part.file_size for part in parts)
    packed = max(sum(part.compress_size for part in parts), 1)
    if len(parts) > MOST_PARTS:
        return TOO_MANY_PARTS.at(place, file=name, number=len(parts), most=MOST_PARTS, less=less)
    if unpacked > MOST_UNPACKED_BYTES:
        size, most = unpacked // MEGABYTE, MOST_UNPACKED_BYTES // MEGABYTE
        return UNPACKS_TO_TOO_MUCH.at(place, file=name, size=size, most=most, less=less)
    if unpacked > RATIO_COUNTS_FROM and unpacked / packed > MOST_RATIO:
        return UNPACKS_TOO_FAR.at(place, file=name, times=round(unpacked / packed), most=MOST_RATIO, less=less)
    return None
