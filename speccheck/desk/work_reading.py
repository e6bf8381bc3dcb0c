"""What a schedule was read as, for the screen Reading: the paper as it came, each cell with what became of it.

What a person has to settle comes first, the question whose answer settles most lines before the others. Values that
were inferred are told apart, by how.
"""

from __future__ import annotations

import base64
from collections.abc import Sequence
from dataclasses import asdict
from io import BytesIO
from pathlib import Path
from typing import Any

from speccheck.desk.papers import Progress, ruleset_of, submittal_of, told
from speccheck.desk.projects import files_of
from speccheck.inputs import UnusableInput
from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.report.inferred import inferred_values
from speccheck.report.line_words import place_words, understood
from speccheck.schedule.grid import Grid, column_letters
from speccheck.schedule.lines import Line, Schedule
from speccheck.schedule.messages.settled import FILE_READ_AS
from speccheck.schedule.questions import Question, QuestionKind, questions_of, together
from speccheck.schedule.starter import where
from speccheck.schedule.what_was_read import WhatWasRead

MOST_ROWS, MOST_COLUMNS = 400, 60
LONGEST_SIDE = 1600
"""How many dots the longer side of a picture of a page has at most."""

Where = tuple[str, str, str]


def read(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return what the schedule was read as, and what is open; what cannot be judged can still be looked at."""
    papers = asked["papers"]
    ruleset = ruleset_of(papers["against"])
    found = submittal_of(papers, ruleset, progress)
    schedule = found.schedule
    files = files_of(Path(papers["schedule"]))
    return reading(found.readings, ruleset.vocabulary, papers.get("units") or ruleset.units) | {
        "problems": [] if schedule.lines else [told(one) for one in schedule.diagnostics],
        "files": [one.message for one in schedule.diagnostics if one.code == FILE_READ_AS.code],
        "pages": [
            {"file": number, "page": page, "name": path.name if len(files) > 1 else ""}
            for number, path in enumerate(files)
            for page in range(1, _pages(path) + 1)
        ],
    }


def picture_of_page(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return one page of a PDF as a picture, in base 64."""
    files = files_of(Path(asked["papers"]["schedule"]))
    made = page_picture(files[asked["file"]], asked["page"]) if asked["file"] < len(files) else None
    if made is None:
        raise UnusableInput("there is no such page")
    return {"content": base64.b64encode(made).decode("ascii")}


def reading(readings: Sequence[WhatWasRead], vocabulary: Vocabulary, units: str) -> dict[str, Any]:
    """Return the questions, the sheets, and what was inferred, as plain values."""
    questions = questions_on(readings)
    asked = {where_of(place) for one in questions for place in one.places if place.cell}
    schedules = [one.schedule for one in readings]
    inferred = [one for schedule in schedules for one in inferred_values(schedule, vocabulary, units)]
    columns = [one for schedule in schedules for one in schedule.columns]
    cells: dict[Where, list[str]] = {}
    for schedule in schedules:
        cells |= _read_cells(schedule, vocabulary, units)
    headers = {where_of(one.place): one for one in columns}
    grids = [grid for one in readings for grid in one.grids if grid.cells]
    names = _sheet_names(grids)
    return {
        "questions": [_question(one, vocabulary) for one in questions],
        "inferred": [asdict(one) for one in inferred],
        "columns": [
            {
                "place": place_words(one.place), "header": one.header, "term": one.term, "unit": one.unit,
                "note": one.note,
            }
            for one in columns
        ],
        "rows": _rows([line for one in schedules for line in one.lines], grids),
        "sheets": [_sheet(grid, name, cells, headers, asked) for grid, name in zip(grids, names, strict=True)],
        "terms": [term.name for term in vocabulary.terms.values() if not term.computed],
    }  # fmt: skip


def questions_on(readings: Sequence[WhatWasRead]) -> tuple[Question, ...]:
    """Return what is open in the schedules of a submittal; of several files, each question once."""
    if len(readings) == 1:
        return questions_of(readings[0])
    return together([one for read in readings if read.schedule.lines for one in questions_of(read)])


def where_of(place: Place) -> Where:
    """Return what tells a cell from those of all other sheets and files."""
    return place.file, place.sheet, place.cell


def _sheet_names(grids: Sequence[Grid]) -> list[str]:
    """Return what the sheets are called, with their files where there are several."""
    several = len({grid.file for grid in grids}) > 1
    return [
        (f"{grid.file}, {grid.sheet}" if grid.sheet else grid.file) if several else grid.sheet or grid.file
        for grid in grids
    ]


def _question(one: Question, vocabulary: Vocabulary) -> dict[str, Any]:
    """Return a question with what may answer it: the likely answers, then all that there are."""
    told = asdict(one) | {"kind": str(one.kind), "where": where(one), "places": []}
    term = vocabulary.terms.get(one.term)
    choices = [choice.name for choice in term.choices] if term is not None and one.kind is QuestionKind.WORDS else []
    return told | {"choices": list(dict.fromkeys([*one.likely, *choices])) if choices else []}


def _read_cells(schedule: Schedule, vocabulary: Vocabulary, units: str) -> dict[Where, list[str]]:
    """Return for each cell what it was read as."""
    found: dict[Where, list[str]] = {}
    for line in schedule.lines:
        for name, datum in line.data.items():
            words = understood(datum, vocabulary.terms.get(name), units) or "not given"
            told = found.setdefault(where_of(datum.place), [])
            if (said := f"{name}: {words}") not in told:
                told.append(said)
    return found


def _rows(lines: Sequence[Line], grids: Sequence[Grid]) -> list[dict[str, str]]:
    """Return the lines by the text with which their row begins: one may be a note, and no line."""
    begins: dict[Where, str] = {}
    for grid in grids:
        for row, columns in grid.columns_by_row.items():
            place = grid.place(row, columns[0])
            begins[place.file, place.sheet, _row(place.cell)] = grid.text(row, columns[0])
    found: dict[str, str] = {}
    for line in lines:
        text = begins.get((line.place.file, line.place.sheet, _row(line.place.cell)), "")
        if text:
            found.setdefault(text, f"{line.name} ({place_words(line.place)})")
    return [{"text": text, "name": name} for text, name in found.items()]


def _row(cell: str) -> str:
    return cell.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")


def _sheet(
    grid: Grid, name: str, read: dict[Where, list[str]], headers: dict[Where, Any], asked: set[Where]
) -> dict[str, Any]:
    """Return a sheet as rows of cells: its text, what it was read as, and what sort of cell it is."""
    rows = sorted(grid.columns_by_row)
    last = min(max(column for _, column in grid.cells) + 1, MOST_COLUMNS)
    shown_rows, open_cells = [], 0
    for row in rows[:MOST_ROWS]:
        cells = []
        for column in range(last):
            place = grid.place(row, column)
            at = where_of(place)
            text = grid.text(row, column)
            header = headers.get(at)
            words = [header.term or "no term"] if header is not None else read.get(at, [])
            sort = "open" if at in asked else "header" if header is not None else "read" if words else "left"
            open_cells += sort == "open" and bool(text)
            cells.append({"text": text, "read": "; ".join(words), "sort": sort if text else "blank", "at": place.cell})
        shown_rows.append({"number": row + 1, "cells": cells})
    return {
        "name": name, "letters": [column_letters(column) for column in range(last)],
        "rows": shown_rows, "more": max(0, len(rows) - MOST_ROWS),
        "open": open_cells,
    }  # fmt: skip


def _pages(path: Path) -> int:
    """Return how many pages a PDF has, 0 for a file of another kind."""
    import pypdfium2

    if path.suffix.lower() != ".pdf":
        return 0
    with pypdfium2.PdfDocument(path) as document:
        return len(document)


def page_picture(path: Path, number: int) -> bytes | None:
    """Return a page of a PDF as a picture (PNG), None where there is no such page; pages count from 1."""
    import pypdfium2

    if not 1 <= number <= _pages(path):
        return None
    with pypdfium2.PdfDocument(path) as document:
        page = document[number - 1]
        written = BytesIO()
        page.render(scale=min(2.0, LONGEST_SIDE / max(page.get_size()))).to_pil().save(written, "PNG")
        return written.getvalue()


READING_WORK = {"read": read, "picture of page": picture_of_page}
