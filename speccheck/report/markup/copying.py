"""The copy that goes back: the contractor's own file with the comments in it; the file itself is only read.

Run as a program, in a child process, it marks a large document or workbook: comments come in as JSON, the copy goes
out.
"""

from __future__ import annotations

import json
import sys
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any
from xml.parsers.expat import ExpatError

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.report.markup.marks import Comments, Mark, Weight
from speccheck.report.markup.package_copy import Unmarkable
from speccheck.report.messages import CANNOT_CARRY_MARKS, PART_NOT_MARKABLE, PDF_NOT_MARKABLE, TOO_LARGE_TO_MARK
from speccheck.report.paper_places import room_beside, spot_of
from speccheck.schedule.formats.child import limit_this_process, run_in_child_or_none
from speccheck.schedule.formats.endings import PACKAGES
from speccheck.schedule.formats.opening import is_large
from speccheck.schedule.formats.package_parts import OpenPackage
from speccheck.schedule.formats.safety import Refused
from speccheck.schedule.lines import Schedule


@dataclass(frozen=True)
class Marked:
    """A marked copy, None where there can be none, and what could not be put into it."""

    content: bytes | None
    diagnostics: tuple[Diagnostic, ...] = ()


def marked_copy(path: Path, schedule: Schedule, comments: Comments) -> Marked:
    """Return a copy of the file `path`, from which `schedule` was read, with the comments at their cells."""
    with path.open("rb") as file:
        start = file.read(1024)
    if b"%PDF-" in start:
        return _marked_pdf(path, schedule, comments)
    if start.startswith(b"PK") and path.suffix.lower() in PACKAGES:
        return _marked_within_limits(path, comments) if is_large(path) else _marked_package(path, comments)
    return _of_no_kind(path)


def _of_no_kind(path: Path) -> Marked:
    return Marked(None, (CANNOT_CARRY_MARKS.at(Place(path.name), file=path.name),))


def _marked_package(path: Path, comments: Comments) -> Marked:
    """Return a marked document or workbook."""
    from speccheck.report.markup.word import mark_word
    from speccheck.report.markup.workbook import mark_workbook

    try:
        if not _is_package(path):
            return _of_no_kind(path)
        if path.suffix.lower() == ".docx":
            return Marked(mark_word(path, comments))
        return Marked(*mark_workbook(path, comments))
    except Refused as refused:
        return Marked(None, (refused.diagnostic,))
    except (ExpatError, Unmarkable) as problem:
        why = str(problem) if isinstance(problem, Unmarkable) else "is not XML"
        return Marked(None, (PART_NOT_MARKABLE.at(Place(path.name), file=path.name, why=why),))


def _marked_within_limits(path: Path, comments: Comments) -> Marked:
    """Return a marked document or workbook that a child process writes, for it is large."""
    written = run_in_child_or_none(__name__, str(path.absolute()), data=json.dumps(asdict(comments)).encode())
    if not written:
        return Marked(None, (TOO_LARGE_TO_MARK.at(Place(path.name), file=path.name),))
    told, _, content = written.partition(b"\n")
    diagnostics = tuple(
        Diagnostic(**{**one, "severity": Severity(one["severity"]), "place": Place(**one["place"])})
        for one in json.loads(told)
    )
    return Marked(content or None, diagnostics)


def main(path: Path) -> None:
    """Mark a document or a workbook by the comments on standard input; write what is told of it, then the copy."""
    limit_this_process()
    marked = _marked_package(path, _comments(json.load(sys.stdin)))
    sys.stdout.buffer.write(json.dumps([asdict(one) for one in marked.diagnostics]).encode() + b"\n")
    sys.stdout.buffer.write(marked.content or b"")


def _comments(given: dict[str, Any]) -> Comments:
    """Return comments from the plain values that a parent process sent."""
    marks = (Mark(**{**one, "weight": Weight(one["weight"]), "place": Place(**one["place"])}) for one in given["marks"])
    heads = tuple((heading, text) for heading, text in given["heads"])
    tuples = (heads, tuple(given["summary"]), tuple(marks), tuple(given["cautions"]))
    return Comments(given["title"], *tuples, given["author"], given["date"])


def _is_package(path: Path) -> bool:
    """Whether a zipped file is a package of XML parts, and no OpenDocument or binary workbook under another name."""
    with OpenPackage(path) as package:
        return package.main_part().endswith(".xml")


def _marked_pdf(path: Path, schedule: Schedule, comments: Comments) -> Marked:
    """Return a marked PDF; a child process writes it, for the library that does so reads the whole of the file."""
    from speccheck.report.markup.pdf import told

    spots = [spot_of(schedule, mark.place) for mark in comments.marks]
    rooms = [0.0 if spot is None else room_beside(schedule, spot) for spot in spots]
    data = json.dumps(told(comments, zip(spots, rooms, strict=True))).encode()
    content = run_in_child_or_none("speccheck.report.markup.pdf", str(path.absolute()), data=data)
    if not content:
        return Marked(None, (PDF_NOT_MARKABLE.at(Place(path.name), file=path.name),))
    return Marked(content)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
