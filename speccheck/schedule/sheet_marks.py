"""What a sheet of a workbook says beside its values: formulas, errors, formats, struck text, hidden rows and columns.

The library that reads the values leaves a formula without a result, and an error, blank. Both have to be seen.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from html import unescape
from itertools import chain, pairwise
from typing import NamedTuple

from speccheck.schedule.codes import ERROR_VALUE, FORMULA
from speccheck.schedule.grid import Cell, column_number
from speccheck.schedule.lettering import Lettered, lettered
from speccheck.schedule.number_formats import NumberFormat, attribute

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
_NO_SIZE = re.compile(r"0+(?:\.0*)?")


class WorkbookStyles(NamedTuple):
    """What a workbook says for all its sheets: formats and struck fonts by style, texts in several letterings."""

    formats: Mapping[int, NumberFormat]
    struck: frozenset[int] = frozenset()
    unseen: frozenset[int] = frozenset()
    texts: Mapping[int, Lettered] = {}


@dataclass(frozen=True)
class SheetMarks:
    """What a sheet says of its cells, by place; hidden rows and columns (all from 0); how far the sheet reaches.

    `struck` are the cells that are struck through as a whole, `unseen` those in white on white, `lettered` those of
    which a part is struck or raised.
    """

    trouble: Mapping[tuple[int, int], Cell] = field(default_factory=dict)
    formats: Mapping[tuple[int, int], NumberFormat] = field(default_factory=dict)
    struck: frozenset[tuple[int, int]] = frozenset()
    unseen: frozenset[tuple[int, int]] = frozenset()
    lettered: Mapping[tuple[int, int], Lettered] = field(default_factory=dict)
    hidden_rows: tuple[int, ...] = ()
    hidden_columns: tuple[tuple[int, int], ...] = ()
    rows: int = 0
    columns: int = 0


def sheet_marks(xml: str, styles: WorkbookStyles) -> SheetMarks:
    """Return the marks of a sheet from the text of its XML part; `styles` are those of the workbook."""
    trouble: dict[tuple[int, int], Cell] = {}
    shown: dict[tuple[int, int], NumberFormat] = {}
    texts: dict[tuple[int, int], Lettered] = {}
    struck, unseen = set(), set()
    rows = columns = 0
    for attributes, content in _cells(xml):
        place = _place(attribute(attributes, "r"))
        if place is None:
            continue
        rows, columns = max(rows, place[0] + 1), max(columns, place[1] + 1)
        text = _lettered(attributes, content, styles)
        if text is not None:
            texts[place] = text
        if not (_INTERESTING.search(attributes) or "<f" in content or ":f" in content):
            continue
        problem = _trouble(attributes, content)
        if problem is not None:
            trouble[place] = problem
        style = attribute(attributes, "s")
        if style.isdecimal() and int(style) in styles.formats:
            shown[place] = styles.formats[int(style)]
        if style.isdecimal() and int(style) in styles.struck and content:
            struck.add(place)
        if style.isdecimal() and int(style) in styles.unseen and content:
            unseen.add(place)
    hidden = _hidden_rows(xml), _hidden_columns(xml)
    return SheetMarks(trouble, shown, frozenset(struck), frozenset(unseen), texts, *hidden, rows, columns)


def _lettered(attributes: str, content: str, styles: WorkbookStyles) -> Lettered | None:
    """Return the text of a cell of which a part is struck or raised, be it shared or in the cell itself."""
    if "strike" in content or "superscript" in content:
        return lettered(content)
    if not styles.texts or attribute(attributes, "t") != "s":
        return None
    value = _VALUE.search(content)
    return styles.texts.get(int(value[1])) if value is not None and value[1].strip().isdecimal() else None


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
    """Return the rows that are hidden, by a filter or by hand, or that have no height."""
    found = (row[1] for row in _ROW.finditer(xml) if "hidden" in row[1] or "ht" in row[1])
    return tuple(int(attribute(row, "r")) - 1 for row in found if _hides(row, "ht") and attribute(row, "r").isdecimal())


def _hides(attributes: str, size: str) -> bool:
    """Whether a row or a column is hidden, or has a height or a width of nothing."""
    return attribute(attributes, "hidden") in _TRUE or _NO_SIZE.fullmatch(attribute(attributes, size)) is not None


def _hidden_columns(xml: str) -> tuple[tuple[int, int], ...]:
    """Return the first and last column of each run of columns that are hidden or have no width."""
    found = (column[1] for column in _COLUMN.finditer(xml) if _hides(column[1], "width"))
    runs = ((attribute(column, "min"), attribute(column, "max")) for column in found)
    return tuple((int(first) - 1, int(last) - 1) for first, last in runs if first.isdecimal() and last.isdecimal())
