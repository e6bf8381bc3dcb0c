"""Marks of notes: an asterisk behind the name of a line or in a header, and the note below that begins with it."""

from __future__ import annotations

import re
from collections.abc import Container, Iterator, Sequence
from dataclasses import replace

from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.schedule.grid import Grid
from speccheck.schedule.lines import Column, Line, Remark, Unread
from speccheck.schedule.messages.cells import MARKED_BY_NOTE, PARTLY_READ

_MARK = re.compile(r"(\*+|[†‡§]|[¹²³⁴⁵⁶⁷⁸⁹])\W*$")
_BEGINNING = re.compile(r"\(?(\*+|[†‡§]|[¹²³⁴⁵⁶⁷⁸⁹]|\d{1,2}(?=[.):\s]))")
_IN_BRACKETS = re.compile(r"\((\d{1,2})\)\W*$")
_RAISED = str.maketrans("123456789", "¹²³⁴⁵⁶⁷⁸⁹")
_NO_FIGURES = ("*", "†", "‡", "§", *"¹²³⁴⁵⁶⁷⁸⁹")
_MOST_CELLS = 2
_LONGEST_SHOWN = 60


def marks_of_notes(grids: Sequence[Grid]) -> frozenset[tuple[str, str]]:
    """Return the marks with which notes begin, each with its sheet: "(1) Increase to 1 in ..." below a table.

    A figure with a full stop may as well number a heading, so that it counts only below the last row of the table.
    """
    found: set[tuple[str, str]] = set()
    for grid in grids:
        last = max((row for row, columns in grid.columns_by_row.items() if len(columns) > _MOST_CELLS), default=-1)
        for row, columns in grid.columns_by_row.items():
            begins = _BEGINNING.match(grid.text(row, columns[0]).strip()) if len(columns) <= _MOST_CELLS else None
            if begins is not None and (row > last or begins[0].startswith(("(", *_NO_FIGURES))):
                found.add((grid.sheet, begins[1].translate(_RAISED)))
    return frozenset(found)


def without_mark(text: str, sheet: str, marks: Container[tuple[str, str]]) -> tuple[str, str]:
    """Return a text without the mark of a note at its end, and that mark: `3/4" (1)` is 3/4", with the mark 1.

    "" where it has none, or where no note of its sheet begins with it.
    """
    found = _IN_BRACKETS.search(text) or _MARK.search(text)
    if found is None or not found.start() or (sheet, found[1].translate(_RAISED)) not in marks:
        return text, ""
    return text[: found.start()].rstrip(), found[0].strip()


def marked_by_notes(
    lines: Sequence[Line], columns: Sequence[Column], remarks: Sequence[Remark]
) -> Iterator[Diagnostic]:
    """Yield a warning for each line and each column that carries the mark with which a note on its sheet begins."""
    notes = _notes(remarks)
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


def attach_notes(
    lines: Sequence[Line], remarks: Sequence[Remark], diagnostics: Sequence[Diagnostic], unread: Sequence[Unread]
) -> tuple[list[Diagnostic], list[Unread]]:
    """Return diagnostics and what is to be read, where cells with the mark of a note have their note attached.

    `PVC (2)` was read but for its mark; where a note of the sheet begins with the mark, it is the note that a person
    has to read, for the lines of these cells.
    """
    notes = _notes(remarks)
    texts = {datum.place: datum.text for line in lines for datum in line.data.values() if datum.text}
    partly = [found.place for found in diagnostics if found.code == PARTLY_READ.code]
    attached = {place: note for place in partly if (note := _note_of(texts.get(place, ""), place, notes)) is not None}
    if not attached:
        return list(diagnostics), list(unread)
    told = [
        _warning("text", texts[found.place], found.place, attached[found.place])
        if found.code == PARTLY_READ.code and found.place in attached
        else found
        for found in diagnostics
    ]
    names: dict[Place, list[str]] = {}
    for line in lines:
        for datum in line.data.values():
            if datum.place in attached:
                names.setdefault(attached[datum.place].place, []).append(line.name)
    left = [one for one in unread if one.place not in attached]
    return told, [
        replace(one, lines=tuple(dict.fromkeys((*one.lines, *names[one.place])))) if one.place in names else one
        for one in left
    ]


def _notes(remarks: Sequence[Remark]) -> dict[tuple[str, str], Remark]:
    """Return the notes by their sheet and the mark with which they begin."""
    notes: dict[tuple[str, str], Remark] = {}
    for remark in remarks:
        found = _BEGINNING.match(remark.text)
        if found is not None:
            notes.setdefault((remark.place.sheet, found[1].translate(_RAISED)), remark)
    return notes


def _note_of(text: str, place: Place, notes: dict[tuple[str, str], Remark]) -> Remark | None:
    """Return the note of which a text carries the mark, where nothing else of it is in brackets."""
    mark = _IN_BRACKETS.search(text) or _MARK.search(text)
    if mark is None or text.count("(") > 1:
        return None
    return notes.get((place.sheet, mark[1].translate(_RAISED)))


def _warning(what: str, text: str, place: Place, note: Remark) -> Diagnostic:
    """Return the warning that a note, which nobody read, may change what is marked with it."""
    shown = " ".join(note.text.split())
    shown = shown if len(shown) <= _LONGEST_SHOWN else f"{shown[:_LONGEST_SHOWN]}..."
    return MARKED_BY_NOTE.at(place, what=what, text=" ".join(text.split()), note=shown)
