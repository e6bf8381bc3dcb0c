"""The table that a page embeds for its script: every cell with its reason and working, equal parts stored once.

Of 140,000 cells most repeat the same few hundred texts; so texts, steps, data and cells are numbered, what is named
most often first, and the grid holds numbers only. The same matrix gives the same table.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Hashable, Iterable
from dataclasses import replace
from functools import cache
from typing import Any, Generic, TypeVar

from speccheck.judge.cell import Cell, Step
from speccheck.judge.judgement import Verdict
from speccheck.language.diagnostics import Place
from speccheck.report.html.grouping import groups, part
from speccheck.report.line_words import brief, place_words, shown, understood
from speccheck.report.paper_places import column_in_row_of
from speccheck.report.wording import clause_label, mark
from speccheck.review.matrix import Matrix
from speccheck.schedule.lines import Line

DIGITS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_"
ONE = 48
BETWEEN = "; "
VERDICTS = tuple(Verdict)
_RANK = {verdict: number for number, verdict in enumerate(VERDICTS)}
_Thing = TypeVar("_Thing", bound=Hashable)
_Kind = tuple[int, int, int, int]
_Datum = tuple[int, int, int]


class _Numbered(Generic[_Thing]):
    """Things numbered by how often they are named, the most frequent first, then in the order in which they appear."""

    def __init__(self, named: Iterable[_Thing]) -> None:
        counts = Counter(named)
        self.things = sorted(counts, key=counts.__getitem__, reverse=True)
        self.numbers = {thing: number for number, thing in enumerate(self.things)}


class _Texts:
    """Texts numbered in the order in which they first appear; a text of several sentences is kept as their numbers."""

    def __init__(self) -> None:
        self.numbers: dict[str, int] = {}
        self.kept: list[str | list[int]] = []

    def __call__(self, text: str) -> int:
        """Return the number of a text."""
        number = self.numbers.get(text)
        if number is None:
            parts = text.split(BETWEEN)
            kept = text if len(parts) == 1 else [self(part) for part in parts]
            number = self.numbers[text] = len(self.kept)
            self.kept.append(kept)
        return number


def details_table(matrix: Matrix) -> str:
    """Return the table as JSON that is safe inside a script element: it holds no `<`, `>` or `&`.

    `texts` are strings, or the numbers of those that "; " joins; texts elsewhere are numbers of them, and verdicts are
    numbers of `verdicts`. A row of `grid` has for each clause the number of a cell, written as `packed` says. `cells`
    are [kind, reason, steps, missing, at, notes, advice, advice reason], cut short after the last that says anything;
    `kinds` are [verdict, mandatory, basis, mark]; `steps` are [part, depth, truth, text, detail]. `clauses` are
    [label, title, part], `lines` are [name, brief, section, service, discipline, sheet, cell, layout, data]: a layout
    is [term, column, term, column ...], and `data`, one number for each term of it, are numbers of [as written, read
    as, note]. A column that is letters alone stands in the row of the line.
    """
    text = _Texts()
    rows = _alike(matrix.told)
    cells = _Numbered(cell for row in rows for cell in row)
    steps = _Numbered(step for cell in cells.things for step in cell.steps)
    kinds: dict[_Kind, int] = {}
    table = {
        "verdicts": [str(verdict) for verdict in VERDICTS],
        "grid": [packed(cells.numbers[cell] for cell in row) for row in rows],
        "cells": [_cell(cell, kinds, steps.numbers, text) for cell in cells.things],
        "kinds": list(kinds),
        "steps": [_step(step, text) for step in steps.things],
        "clauses": [[clause_label(one), one.title, text(part(one))] for one in matrix.ruleset.clauses],
        **_lines(matrix, text),
        "texts": text.kept,
    }
    written = json.dumps(table, ensure_ascii=False, separators=(",", ":"))
    return written.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e")


def _alike(rows: Iterable[Iterable[Cell]]) -> list[list[Cell]]:
    """Return rows of cells in which all that say the same are one cell; each cell is asked for its words once."""
    kept: dict[Hashable, Cell] = {}
    seen: dict[int, Cell] = {}

    def one(cell: Cell) -> Cell:
        if id(cell) not in seen:
            seen[id(cell)] = kept.setdefault(cell.said, cell)
        return seen[id(cell)]

    return [[one(cell) for cell in row] for row in rows]


def packed(numbers: Iterable[int]) -> str:
    """Return numbers from 0 to 262,143 as text without separators: most of them, being small, as one character.

    A number below 48 is one digit of `DIGITS`, below 1,008 one of the 15 next digits and one more, any other
    the last digit and three more. Half a megabyte is saved so on 2,000 lines by 70 clauses.
    """
    return "".join(map(_packed, numbers))


@cache
def _packed(number: int) -> str:
    if number < ONE:
        return DIGITS[number]
    if number < ONE + 15 * 64:
        first, second = divmod(number - ONE, 64)
        return DIGITS[ONE + first] + DIGITS[second]
    return DIGITS[63] + DIGITS[number >> 12] + DIGITS[number >> 6 & 63] + DIGITS[number & 63]


def _cell(cell: Cell, kinds: dict[_Kind, int], steps: dict[Step, int], text: _Texts) -> list[Any]:
    """Return a cell as numbers, without what is empty at its end."""
    kind = (_RANK[cell.verdict], 1 if cell.mandatory else 0, text(str(cell.basis)), text(mark(cell)))
    made: list[Any] = [
        kinds.setdefault(kind, len(kinds)),
        text(cell.reason),
        [steps[step] for step in cell.steps],
        [text(term) for term in cell.missing],
        [text(at) for at in cell.at],
        [text(note) for note in cell.notes],
    ]
    if cell.advice is not None:
        return [*made, _RANK[cell.advice], text(cell.advice_reason)]
    while not made[-1] and len(made) > 2:
        made.pop()
    return made


def _step(step: Step, text: _Texts) -> list[int]:
    """Return a step as numbers; the truth is 1, 0 or -1 for not known."""
    truth = -1 if step.truth is None else int(step.truth)
    return [text(step.part), step.depth, truth, text(step.text), text(step.detail)]


def _lines(matrix: Matrix, text: _Texts) -> dict[str, Any]:
    """Return the lines, and the layouts and data that they share."""
    layouts: dict[tuple[int | str, ...], int] = {}
    data: dict[_Datum, int] = {}
    lines = []
    for line, named in zip(matrix.schedule.lines, groups(matrix), strict=True):
        layout, stated = _data(line, matrix, text)
        lines.append(
            [
                *(line.name, text(brief(line)), *(text(group) for group in named), *_place(line.place, text)),
                layouts.setdefault(layout, len(layouts)),
                [data.setdefault(one, len(data)) for one in stated],
            ]
        )
    return {"lines": lines, "layouts": list(layouts), "data": list(data)}


def _data(line: Line, matrix: Matrix, text: _Texts) -> tuple[tuple[int | str, ...], list[_Datum]]:
    """Return which term stands in which column, and for each of them [as written, read as, note]."""
    terms, system = matrix.ruleset.vocabulary.terms, matrix.ruleset.units
    layout: list[int | str] = []
    stated: list[_Datum] = []
    for name, datum in line.data.items():
        written, read_as = shown(datum), understood(datum, terms.get(name), system)
        stated.append((text(written), text("" if read_as == written else read_as), text(datum.note)))
        layout += [text(name), _column(datum.place, line.place)]
    return tuple(layout), stated


def _column(place: Place, line: Place) -> str:
    """Return the letters of a cell in the row of its line, else the whole place in words."""
    return column_in_row_of(place, line) or place_words(place)


def _place(place: Place, text: _Texts) -> tuple[int, str]:
    """Return a place as the number of its sheet in words, or of its line in words, and its cell."""
    return text(place_words(replace(place, cell=""))), place.cell
