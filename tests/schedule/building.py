"""Workbooks out of readable text, and schedules back to readable text, for the tests of this floor."""

from __future__ import annotations

import re
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from speccheck.language import load_vocabulary
from speccheck.language.diagnostics import has_errors
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.language.vocabulary.values import NotGiven, write_value
from speccheck.schedule import Line, Schedule

HERE = Path(__file__).parent
FILES = HERE / "files"
WORKBOOKS = HERE / "workbooks"


@cache
def small_vocabulary() -> Vocabulary:
    """Return the vocabulary of these tests: a few terms of each kind."""
    loaded = load_vocabulary(FILES / "small.clauses")
    assert not has_errors(loaded.diagnostics)
    assert loaded.vocabulary is not None
    return loaded.vocabulary


def case_of(path: Path) -> dict[str, Any]:
    """Return the content of a case: `shows`, one `sheet` table for each sheet, `expected`."""
    return tomllib.loads(path.read_text(encoding="utf-8"))


def write_workbook(path: Path, sheets: list[dict[str, Any]]) -> None:
    """Write a workbook.

    Each sheet has `rows` (a text, cells parted by `|`), and may have a `name`, `merged` ranges, `formats` by cell,
    `dates` by cell, `hidden`, `hidden_rows`, `hidden_columns`, `comments` by cell, `struck` cells, and texts by cell of
    which a part is struck (`struck_parts`: the struck part and the rest) or raised (`raised`: the rest and the raised
    part). A cell that looks like a plain number is written as a number, one that begins with "=" as a formula, one like
    "#REF!" as an error.
    """
    import openpyxl
    from openpyxl.comments import Comment

    book = openpyxl.Workbook()
    assert book.active is not None
    book.remove(book.active)
    for number, content in enumerate(sheets, start=1):
        sheet = book.create_sheet(content.get("name", f"Sheet{number}"))
        for row, text in enumerate(content["rows"].rstrip("\n").split("\n"), start=1):
            for column, cell in enumerate(text.split("|"), start=1):
                _write_cell(sheet.cell(row, column), cell.strip())
        for cell, date in content.get("dates", {}).items():
            sheet[cell] = date
        for cell, code in content.get("formats", {}).items():
            sheet[cell].number_format = code
        for cell, comment in content.get("comments", {}).items():
            sheet[cell].comment = Comment(comment, "a reviewer")
        _write_lettering(sheet, content)
        for merged in content.get("merged", ()):
            sheet.merge_cells(merged)
        for row in content.get("hidden_rows", ()):
            sheet.row_dimensions[row].hidden = True
        for letters in content.get("hidden_columns", ()):
            sheet.column_dimensions[letters].hidden = True
        sheet.sheet_state = "hidden" if content.get("hidden") else "visible"
    book.save(path)


def _write_lettering(sheet: Any, content: dict[str, Any]) -> None:
    """Strike cells and parts of cells through, and raise parts."""
    from openpyxl.cell.rich_text import CellRichText, TextBlock
    from openpyxl.cell.text import InlineFont
    from openpyxl.styles import Font

    for cell in content.get("struck", ()):
        sheet[cell].font = Font(strike=True)
    for cell, (struck, rest) in content.get("struck_parts", {}).items():
        sheet[cell].value = CellRichText(TextBlock(InlineFont(strike=True), struck), rest)
    for cell, (rest, raised) in content.get("raised", {}).items():
        sheet[cell].value = CellRichText(rest, TextBlock(InlineFont(vertAlign="superscript"), raised))


def _write_cell(cell: Any, text: str) -> None:
    if re.fullmatch(r"-?\d+(\.\d+)?", text):
        cell.value = float(text)
    elif text in ("TRUE", "FALSE"):
        cell.value = text == "TRUE"
    elif text:
        cell.value = text.replace("\\n", "\n")
        if text.startswith("#") and text.isupper():
            cell.data_type = "e"


def written_line(line: Line) -> str:
    """Write what a line states: "P-1: service chilled water; thickness not given (TBD)"; blank cells are left out."""
    vocabulary = small_vocabulary()
    parts = []
    for name, datum in line.data.items():
        if isinstance(datum.value, NotGiven):
            parts += [f"{name} not given ({datum.text})"] if datum.text else []
        elif name != "mark":
            parts.append(f"{name} {write_value(datum.value, vocabulary.terms[name])}")
    return f"{line.name}: {'; '.join(parts)}"


def written_columns(schedule: Schedule) -> list[str]:
    """Write what each column became: "D4 Thk (in) = thickness in in"."""
    return [
        f"{column.place.cell} {column.header} = {column.term or '?'}" + (f" in {column.unit}" if column.unit else "")
        for column in schedule.columns
    ]


def written_remarks(schedule: Schedule) -> list[str]:
    """Write the texts that belong to no line: "A1 SCHEDULE"."""
    return [f"{remark.place.cell} {remark.text}" for remark in schedule.remarks]


def written_diagnostics(schedule: Schedule) -> list[str]:
    """Write each diagnostic in full."""
    return [str(found) for found in schedule.diagnostics]


def written_lines(schedule: Schedule) -> list[str]:
    """Write every line."""
    return [written_line(line) for line in schedule.lines]
