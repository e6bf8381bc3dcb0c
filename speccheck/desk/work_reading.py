"""What a schedule was read as, for the screen Reading: the grid as it came, each cell with what became of it.

What a person has to settle comes first: columns that became no term, cells that could not be read, text that belongs
to no line. Values that were inferred are told apart.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.report.line_words import place_words, shown, understood
from speccheck.schedule import Schedule
from speccheck.schedule.grid import Grid, column_letters

MOST_ROWS, MOST_COLUMNS = 400, 60
_CELL = re.compile(r"([A-Z]+)([0-9]+)")

Where = tuple[str, str]


def reading(schedule: Schedule, vocabulary: Vocabulary, units: str, path: Path) -> dict[str, Any]:
    """Return the sheets, the open questions and what was inferred, as plain values."""
    read = _read_cells(schedule, vocabulary, units)
    headers = {(one.place.sheet, one.place.cell): one for one in schedule.columns}
    grids = _grids(path)
    texts = {(g.sheet, g.place(*at).cell): cell.text for g in grids for at, cell in g.cells.items()}
    questions = list(_questions(schedule, texts))
    asked = {(one["sheet"], one["cell"]) for one in questions}
    return {
        "questions": questions,
        "inferred": list(_inferred(schedule, vocabulary, units)),
        "columns": [
            {
                "place": place_words(one.place), "header": one.header, "term": one.term, "unit": one.unit,
                "note": one.note,
            }
            for one in schedule.columns
        ],
        "remarks": [{"place": place_words(one.place), "text": one.text} for one in schedule.remarks],
        "sheets": [_sheet(grid, read, headers, asked) for grid in grids if grid.cells],
        "terms": [
            {"name": term.name, "choices": [choice.name for choice in term.choices]}
            for term in vocabulary.terms.values()
            if not term.computed
        ],
    }  # fmt: skip


def _grids(path: Path) -> list[Grid]:
    """Return the cells of the file as they came."""
    from speccheck.schedule.formats.opening import open_schedule

    grids, _ = open_schedule(path)
    return grids


def _read_cells(schedule: Schedule, vocabulary: Vocabulary, units: str) -> dict[Where, list[str]]:
    """Return for each cell what it was read as."""
    found: dict[Where, list[str]] = {}
    for line in schedule.lines:
        for name, datum in line.data.items():
            words = understood(datum, vocabulary.terms.get(name), units) or "not given"
            told = found.setdefault((datum.place.sheet, datum.place.cell), [])
            if (said := f"{name}: {words}") not in told:
                told.append(said)
    return found


def _questions(schedule: Schedule, texts: dict[Where, str]) -> Iterator[dict[str, Any]]:
    """Yield what a person has to settle, each place once."""
    told = set()
    by_letter = {(one.place.sheet, _letters(one.place.cell)): one for one in schedule.columns}
    warned = {(one.place.sheet, one.place.cell): one for one in schedule.diagnostics if one.severity != "note"}
    for column in schedule.columns:
        where = (column.place.sheet, column.place.cell)
        if not column.term and not column.note.startswith(("left out", "ignored")):
            told.add(where)
            found = warned.get(where)
            message = found.message if found else f"the column `{column.header}` became no term"
            key = column.header or _letters(column.place.cell)
            yield _question("column", where, place_words(column.place), key, message, found.help if found else "")
    for one in schedule.diagnostics:
        where = (one.place.sheet, one.place.cell)
        if one.severity == "note" or where in told:
            continue
        told.add(where)
        of = by_letter.get((where[0], _letters(where[1])))
        kind = "text" if of is not None and of.term and texts.get(where) else "other"
        question = _question(kind, where, place_words(one.place), texts.get(where, ""), one.message, one.help)
        yield question | {"term": of.term if of is not None else "", "code": one.code}
    for left in schedule.unread:
        where = (left.place.sheet, left.place.cell)
        if where not in told:
            told.add(where)
            yield _question("remark", where, place_words(left.place), left.text, f"this {left.kind} was not read", "")


def _question(kind: str, where: Where, place: str, text: str, message: str, help: str) -> dict[str, Any]:
    return {
        "kind": kind, "sheet": where[0], "cell": where[1], "place": place, "text": text, "message": message,
        "help": help, "term": "", "code": "",
    }  # fmt: skip


def _inferred(schedule: Schedule, vocabulary: Vocabulary, units: str) -> Iterator[dict[str, str]]:
    """Yield values that are not read as they stand, with what was done."""
    for line in schedule.lines:
        for name, datum in line.data.items():
            if datum.note:
                yield {
                    "name": line.name, "term": name, "written": shown(datum), "note": datum.note,
                    "read": understood(datum, vocabulary.terms.get(name), units), "place": place_words(datum.place),
                }  # fmt: skip


def _letters(cell: str) -> str:
    found = _CELL.fullmatch(cell)
    return found[1] if found else ""


def _sheet(grid: Grid, read: dict[Where, list[str]], headers: dict[Where, Any], asked: set[Where]) -> dict[str, Any]:
    """Return a sheet as rows of cells: its text, what it was read as, and what sort of cell it is."""
    rows = sorted(grid.columns_by_row)
    last = min(max(column for _, column in grid.cells) + 1, MOST_COLUMNS)
    shown_rows = []
    for row in rows[:MOST_ROWS]:
        cells = []
        for column in range(last):
            where = (grid.sheet, grid.place(row, column).cell)
            text = grid.text(row, column)
            header = headers.get(where)
            words = [header.term or "no term"] if header is not None else read.get(where, [])
            sort = "open" if where in asked else "header" if header is not None else "read" if words else "left"
            cells.append({"text": text, "read": "; ".join(words), "sort": sort if text else "blank", "at": where[1]})
        shown_rows.append({"number": row + 1, "cells": cells})
    return {
        "name": grid.sheet or grid.file, "letters": [column_letters(column) for column in range(last)],
        "rows": shown_rows, "more": max(0, len(rows) - MOST_ROWS),
    }  # fmt: skip
