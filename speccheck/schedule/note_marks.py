"""Marks of notes: an asterisk behind the name of a line or in a header, and the note below that begins with it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.schedule import codes
from speccheck.schedule.lines import Column, Line, Remark

_MARK = re.compile(r"(\*+|[†‡§]|[¹²³⁴⁵⁶⁷⁸⁹])\W*$")
_BEGINNING = re.compile(r"\(?(\*+|[†‡§]|[¹²³⁴⁵⁶⁷⁸⁹]|\d(?=[.):\s]))")
_RAISED = str.maketrans("123456789", "¹²³⁴⁵⁶⁷⁸⁹")
_LONGEST_SHOWN = 60


def marked_by_notes(
    lines: Sequence[Line], columns: Sequence[Column], remarks: Sequence[Remark]
) -> Iterator[Diagnostic]:
    """Yield a warning for each line and each column that carries the mark with which a note on its sheet begins."""
    notes: dict[tuple[str, str], Remark] = {}
    for remark in remarks:
        found = _BEGINNING.match(remark.text)
        if found is not None:
            notes.setdefault((remark.place.sheet, found[1].translate(_RAISED)), remark)
    if not notes:
        return
    carriers: list[tuple[str, str, Place]] = [("line", line.name, line.place) for line in lines]
    carriers += [("column", column.header, column.place) for column in columns]
    words = ((line, datum) for line in lines for datum in line.data.values() if isinstance(datum.value, str))
    carriers += [("text", datum.text, datum.place) for line, datum in words if datum.text != line.name]
    for what, text, place in dict.fromkeys(carriers):
        mark = _MARK.search(text)
        note = notes.get((place.sheet, mark[1])) if mark is not None else None
        if note is not None:
            yield _warning(what, text, place, note)


def _warning(what: str, text: str, place: Place, note: Remark) -> Diagnostic:
    """Return the warning that a note, which nobody read, may change what is marked with it."""
    shown = " ".join(note.text.split())
    shown = shown if len(shown) <= _LONGEST_SHOWN else f"{shown[:_LONGEST_SHOWN]}..."
    message = f"the {what} `{' '.join(text.split())}` carries the mark of the note `{shown}`, which was not read"
    help = "check whether the note changes what is stated, and state that in a column"
    return Diagnostic(codes.NOTE_MARK, Severity.WARNING, message, place, help)
