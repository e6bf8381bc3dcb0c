"""The copy that goes back: the contractor's own file with the comments in it; the file itself is only read."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from xml.parsers.expat import ExpatError

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.report.markup.marks import Comments
from speccheck.report.paper_places import room_beside, spot_of
from speccheck.schedule.formats.safety import Refused
from speccheck.schedule.lines import Schedule


@dataclass(frozen=True)
class Marked:
    """A marked copy, None where there can be none, and what could not be put into it."""

    content: bytes | None
    diagnostics: tuple[Diagnostic, ...] = ()


def marked_copy(path: Path, schedule: Schedule, comments: Comments) -> Marked:
    """Return a copy of the file `path`, from which `schedule` was read, with the comments at their cells."""
    try:
        writer = _writer(path)
        if writer is not None:
            return writer(path, schedule, comments)
    except Refused as refused:
        return Marked(None, (refused.diagnostic,))
    except ExpatError:
        message, help = f"a part of `{path.name}` is not XML", "save it again with the program that wrote it"
        return Marked(None, (_error("R110", message, path, help),))
    message = f"`{path.name}` is of a kind that cannot carry marks"
    return Marked(None, (_error("R109", message, path, "save it as .pdf, .docx or .xlsx, and mark that"),))


def _writer(path: Path) -> Callable[[Path, Schedule, Comments], Marked] | None:
    """Return what writes marks into a kind of file, by its first bytes before its ending; None where nothing does."""
    with path.open("rb") as file:
        start = file.read(1024)
    if b"%PDF-" in start:
        return _marked_pdf
    if not start.startswith(b"PK") or not _is_package(path):
        return None
    return {".docx": _marked_word, ".xlsx": _marked_workbook, ".xlsm": _marked_workbook}.get(path.suffix.lower())


def _is_package(path: Path) -> bool:
    """Whether a zipped file is a package of XML parts, and no OpenDocument or binary workbook under another name."""
    from speccheck.schedule.formats.package_parts import Package

    with Package(path) as package:
        return package.main_part().endswith(".xml")


def _marked_pdf(path: Path, schedule: Schedule, comments: Comments) -> Marked:
    """Return a marked PDF; a child process writes it, for the library that does so reads the whole of the file."""
    from speccheck.report.markup.pdf import told
    from speccheck.schedule.formats.child import run_in_child_or_none

    spots = [spot_of(schedule, mark.place) for mark in comments.marks]
    rooms = [0.0 if spot is None else room_beside(schedule, spot) for spot in spots]
    data = json.dumps(told(comments, zip(spots, rooms, strict=True))).encode()
    content = run_in_child_or_none("speccheck.report.markup.pdf", str(path.absolute()), data=data)
    if not content:
        message = f"`{path.name}` could be read, and no marks could be written into it"
        return Marked(None, (_error("R110", message, path, "print it to a new PDF, and mark that"),))
    return Marked(content)


def _marked_word(path: Path, schedule: Schedule, comments: Comments) -> Marked:
    from speccheck.report.markup.word import mark_word

    return Marked(mark_word(path, comments))


def _marked_workbook(path: Path, schedule: Schedule, comments: Comments) -> Marked:
    from speccheck.report.markup.workbook import mark_workbook

    return Marked(*mark_workbook(path, comments))


def _error(code: str, message: str, path: Path, help: str) -> Diagnostic:
    return Diagnostic(code, Severity.ERROR, message, Place(path.name), help)
