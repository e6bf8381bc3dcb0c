"""What a sheet of a workbook says beside its values: formulas, errors, number formats, hidden rows and columns.

The library that reads the values leaves a formula without a result, and an error, blank. Both have to be seen.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from html import unescape
from itertools import chain, pairwise

from speccheck.submittal.codes import ERROR_VALUE, FORMULA
from speccheck.submittal.grid import Cell, column_number
from speccheck.submittal.number_formats import NumberFormat, attribute

# Every pattern stops at the next "<", so that a file out to waste time cannot make one of them run through all of it.
_CELL = re.compile(r"<(?:\w+:)?c\b([^<>]*)>")
_CELL_END = re.compile(r"</(?:\w+:)?c>")
_LONGEST_CELL = 50_000  # a cell holds at most 32,767 characters of text and 8,192 of formula
_REFERENCE = re.compile(r"([A-Z]{1,3})(\d{1,7})$")
_FORMULA = re.compile(r"<(?:\w+:)?f\b[^<>]*>([^<]*)")
_VALUE = re.compile(r"<(?:\w+:)?v\b[^<>]*>([^<]*)")
_INTERESTING = re.compile(r'\bt\s*=\s*["\']e["\']|\bs\s*=')
_ROW = re.compile(r"<(?:\w+:)?row\b([^<>]*)>")
_COLUMN = re.compile(r"<(?:\w+:)?col\b([^<>]*)>")
_TRUE = ("1", "true")


@dataclass(frozen=True)
class SheetMarks:
    """Cells in trouble and number formats by place; hidden rows and columns (all from 0); how far the sheet reaches."""

    trouble: Mapping[tuple[int, int], Cell] = field(default_factory=dict)
    formats: Mapping[tuple[int, int], NumberFormat] = field(default_factory=dict)
    hidden_rows: tuple[int, ...] = ()
    hidden_columns: tuple[tuple[int, int], ...] = ()
    rows: int = 0
    columns: int = 0


def sheet_marks(xml: str, formats: Mapping[int, NumberFormat]) -> SheetMarks:
    """Return the marks of a sheet from the text of its XML part; `formats` are those of the workbook by style."""
    trouble: dict[tuple[int, int], Cell] = {}
    shown: dict[tuple[int, int], NumberFormat] = {}
    rows = columns = 0
    for attributes, content in _cells(xml):
        place = _place(attribute(attributes, "r"))
        if place is None:
            continue
        rows, columns = max(rows, place[0] + 1), max(columns, place[1] + 1)
        if not (_INTERESTING.search(attributes) or "<f" in content or ":f" in content):
            continue
        problem = _trouble(attributes, content)
        if problem is not None:
            trouble[place] = problem
        style = attribute(attributes, "s")
        if style.isdecimal() and int(style) in formats:
            shown[place] = formats[int(style)]
    return SheetMarks(trouble, shown, _hidden_rows(xml), _hidden_columns(xml), rows, columns)


def _cells(xml: str) -> Iterator[tuple[str, str]]:
    """Yield the attributes of each cell and the text between its tag and that of the next cell."""
    for found, following in pairwise(chain(_CELL.finditer(xml), (None,))):
        if found is not None:
            end = len(xml) if following is None else following.start()
            content = "" if found[1].endswith("/") else xml[found.end() : min(end, found.end() + _LONGEST_CELL)]
            yield found[1], _CELL_END.split(content, maxsplit=1)[0]


def _place(reference: str) -> tuple[int, int] | None:
    """Return the row and column of "B12"."""
    found = _REFERENCE.match(reference)
    return (int(found[2]) - 1, column_number(found[1])) if found else None


def _trouble(attributes: str, content: str) -> Cell | None:
    """Return a cell that shows an error or holds a formula without a result; None for any other."""
    value = _VALUE.search(content)
    text = unescape(value[1]).strip() if value else ""
    if attribute(attributes, "t") == "e":
        return Cell(text or "#VALUE!", ERROR_VALUE)
    formula = _FORMULA.search(content)
    if formula is not None and not text:
        if attribute(attributes, "t") == "str" and value is not None:
            return None  # worked out, and the result is an empty text
        return Cell("=" + " ".join(unescape(formula[1] or "").split()), FORMULA)
    return None


def _hidden_rows(xml: str) -> tuple[int, ...]:
    """Return the hidden rows."""
    found = (row[1] for row in _ROW.finditer(xml) if "hidden" in row[1])
    return tuple(
        int(attribute(row, "r")) - 1
        for row in found
        if attribute(row, "hidden") in _TRUE and attribute(row, "r").isdecimal()
    )


def _hidden_columns(xml: str) -> tuple[tuple[int, int], ...]:
    """Return the first and last column of each run of hidden columns."""
    found = (column[1] for column in _COLUMN.finditer(xml) if attribute(column[1], "hidden") in _TRUE)
    runs = ((attribute(column, "min"), attribute(column, "max")) for column in found)
    return tuple((int(first) - 1, int(last) - 1) for first, last in runs if first.isdecimal() and last.isdecimal())
