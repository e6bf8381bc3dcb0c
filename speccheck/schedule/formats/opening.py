"""Which reader reads a file: by what is in it where that is plain, else by its ending."""

from __future__ import annotations

import re
import zipfile
from pathlib import Path

from speccheck.english import listed
from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.schedule import codes
from speccheck.schedule.formats import endings
from speccheck.schedule.formats.safety import check_compound_file, check_file, check_parts, refusal
from speccheck.schedule.grid import Grid

KINDS = f"schedules are read from {listed(endings.READ)} files"
_COMPOUND_FILE = bytes.fromhex("D0CF11E0A1B11AE1")
_PAGE = re.compile(rb"\s*(?:<!--.*?-->\s*)*<(?:!doctype\s+html|html|table|head|body|meta|style|div)\b", re.IGNORECASE)

Reading = tuple[list[Grid], list[Diagnostic]]


def open_schedule(path: Path) -> Reading:
    """Return the sheets or tables of a file, and what is wrong with it. An unusable file gives none and one error."""
    refused = check_file(path)
    if refused is not None:
        return [], [refused]
    with path.open("rb") as file:
        start = file.read(2048)
    ending = path.suffix.lower()
    if ending in endings.PDF or start.startswith(b"%PDF-"):
        from speccheck.schedule.formats.child import read_in_child

        return read_in_child("pdf", path)
    if ending in (*endings.WORKBOOKS, *endings.DOCUMENTS):
        return _open_document(path, start, ending)
    if ending in endings.PAGES:
        from speccheck.schedule.formats.html_tables import read_html

        return read_html(path)
    return _open_text(path, ending)


def _open_text(path: Path, ending: str) -> Reading:
    """Open a text file by its ending."""
    if ending in endings.SEPARATED:
        from speccheck.schedule.formats.comma_separated import read_comma_separated

        return read_comma_separated(path)
    if ending in endings.JSON:
        from speccheck.schedule.formats.json_lines import read_json

        return read_json(path)
    if ending in endings.TOML:
        from speccheck.schedule.formats.toml_lines import read_toml

        return read_toml(path)
    message = f"`{path.name}` is not a kind of file that schedules are read from"
    return [], [refusal(codes.WRONG_KIND, path.name, message, KINDS)]


def _open_document(path: Path, start: bytes, ending: str) -> Reading:
    """Open a workbook or a document: by what its first bytes and its parts say that it is."""
    if start.startswith(_COMPOUND_FILE):
        refused = check_compound_file(path)
        return _old(path) if refused is None else ([], [refused])
    if ending == ".xls" and not start.startswith(b"PK"):
        return _named_xls(path, start)
    refused = check_parts(path)
    if refused is not None:
        return [], [refused]
    with zipfile.ZipFile(path) as archive:
        parts = {name.lower() for name in archive.namelist()}
    if "xl/workbook.bin" in parts or "content.xml" in parts:
        return _old(path)
    if ending in endings.DOCUMENTS:
        from speccheck.schedule.formats.word_tables import read_word

        return read_word(path)
    from speccheck.schedule.formats.workbook import read_workbook

    return read_workbook(path)


def _old(path: Path) -> Reading:
    """Open a workbook of another format in a child process."""
    from speccheck.schedule.formats.child import read_in_child

    return read_in_child("old workbook", path)


def _named_xls(path: Path, start: bytes) -> Reading:
    """Open a text that is called .xls: a page of HTML, or separated fields."""
    if start[:2] in (b"\xff\xfe", b"\xfe\xff"):
        start = start.decode("utf-16", errors="replace").encode()
    if _PAGE.match(start.removeprefix(b"\xef\xbb\xbf")):
        from speccheck.schedule.formats.html_tables import read_html

        return read_html(path)
    from speccheck.schedule.formats.comma_separated import read_comma_separated

    if b"\0" in start or (start[:1] == b"\x09" and start[1:2] < b"\x09"):
        return _old(path)
    grids, problems = read_comma_separated(path)
    message = "the file is separated text and was read as such"
    return grids, [*problems, Diagnostic(codes.ANOTHER_KIND, Severity.NOTE, message, Place(path.name))]
