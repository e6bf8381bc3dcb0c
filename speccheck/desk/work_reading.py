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

from speccheck.desk.papers import Progress, reading_of, ruleset_of, told
from speccheck.inputs import UnusableInput
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.report.inferred import inferred_values
from speccheck.report.line_words import place_words, understood
from speccheck.schedule.grid import Grid, column_letters
from speccheck.schedule.lines import Line, Schedule
from speccheck.schedule.questions import Question, QuestionKind, questions_of
from speccheck.schedule.starter import where
from speccheck.schedule.what_was_read import WhatWasRead

MOST_ROWS, MOST_COLUMNS = 400, 60
LONGEST_SIDE = 1600
"""How many dots the longer side of a picture of a page has at most."""

Where = tuple[str, str]


def read(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return what the schedule was read as, and what is open; what cannot be judged can still be looked at."""
    papers = asked["papers"]
    ruleset = ruleset_of(papers["against"])
    found = reading_of(papers, ruleset, progress)
    schedule = found.schedule
    told_of = reading(found, papers.get("units") or ruleset.units, Path(papers["schedule"]))
    return told_of | {"problems": [] if schedule.lines else [told(one) for one in schedule.diagnostics]}


def picture_of_page(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return one page of a PDF as a picture, in base 64."""
    made = page_picture(Path(asked["papers"]["schedule"]), asked["page"])
    if made is None:
        raise UnusableInput("there is no such page")
    return {"content": base64.b64encode(made).decode("ascii")}


def reading(read: WhatWasRead, units: str, path: Path) -> dict[str, Any]:
    """Return the questions, the sheets, and what was inferred, as plain values."""
    schedule, vocabulary = read.schedule, read.vocabulary
    questions = questions_of(read)
    asked = {(place.sheet, place.cell) for one in questions for place in one.places if place.cell}
    cells = _read_cells(schedule, vocabulary, units)
    headers = {(one.place.sheet, one.place.cell): one for one in schedule.columns}
    return {
        "questions": [_question(one, vocabulary) for one in questions],
        "inferred": [asdict(one) for one in inferred_values(schedule, vocabulary, units)],
        "columns": [
            {
                "place": place_words(one.place), "header": one.header, "term": one.term, "unit": one.unit,
                "note": one.note,
            }
            for one in schedule.columns
        ],
        "rows": _rows(schedule.lines, read.grids),
        "sheets": [_sheet(grid, cells, headers, asked) for grid in read.grids if grid.cells],
        "pages": _pages(path),
        "terms": [term.name for term in vocabulary.terms.values() if not term.computed],
    }  # fmt: skip


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
            told = found.setdefault((datum.place.sheet, datum.place.cell), [])
            if (said := f"{name}: {words}") not in told:
                told.append(said)
    return found


def _rows(lines: Sequence[Line], grids: Sequence[Grid]) -> list[dict[str, str]]:
    """Return the lines by the text with which their row begins: one may be a note, and no line."""
    begins: dict[Where, str] = {}
    for grid in grids:
        for row, columns in grid.columns_by_row.items():
            place = grid.place(row, columns[0])
            begins[place.sheet, _row(place.cell)] = grid.text(row, columns[0])
    found: dict[str, str] = {}
    for line in lines:
        text = begins.get((line.place.sheet, _row(line.place.cell)), "")
        if text:
            found.setdefault(text, f"{line.name} ({place_words(line.place)})")
    return [{"text": text, "name": name} for text, name in found.items()]


def _row(cell: str) -> str:
    return cell.lstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")


def _sheet(grid: Grid, read: dict[Where, list[str]], headers: dict[Where, Any], asked: set[Where]) -> dict[str, Any]:
    """Return a sheet as rows of cells: its text, what it was read as, and what sort of cell it is."""
    rows = sorted(grid.columns_by_row)
    last = min(max(column for _, column in grid.cells) + 1, MOST_COLUMNS)
    shown_rows, open_cells = [], 0
    for row in rows[:MOST_ROWS]:
        cells = []
        for column in range(last):
            place = grid.place(row, column)
            at = (place.sheet, place.cell)
            text = grid.text(row, column)
            header = headers.get(at)
            words = [header.term or "no term"] if header is not None else read.get(at, [])
            sort = "open" if at in asked else "header" if header is not None else "read" if words else "left"
            open_cells += sort == "open" and bool(text)
            cells.append({"text": text, "read": "; ".join(words), "sort": sort if text else "blank", "at": at[1]})
        shown_rows.append({"number": row + 1, "cells": cells})
    return {
        "name": grid.sheet or grid.file, "letters": [column_letters(column) for column in range(last)],
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
