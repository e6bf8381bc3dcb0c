"""The table that a page embeds for its script: every cell with its reason and working, equal parts stored once.

Of 8,000 cells most repeat the same few hundred texts; so texts, steps and cells are numbered as they first appear, and
the grid holds numbers only. The same matrix gives the same table.
"""

from __future__ import annotations

import json
from typing import Any

from speccheck.judge.judgement import Cell, Step, Verdict
from speccheck.language.diagnostics import Place
from speccheck.report.line_words import place_words, shown, understood
from speccheck.report.wording import clause_label
from speccheck.review.matrix import Matrix
from speccheck.schedule.lines import Line

VERDICTS = tuple(Verdict)
_RANK = {verdict: number for number, verdict in enumerate(VERDICTS)}


class _Numbering:
    """Numbers for things in the order in which they first appear."""

    def __init__(self) -> None:
        self.numbers: dict[Any, int] = {}

    def of(self, thing: Any) -> int:
        """Return the number of `thing`, a new one if it has none."""
        return self.numbers.setdefault(thing, len(self.numbers))


def details_table(matrix: Matrix) -> str:
    """Return the table as JSON that is safe inside a script element: it holds no `<`, `>` or `&`.

    `texts` are strings; texts elsewhere are numbers of them, and verdicts are numbers of `verdicts`.
    `grid[line][clause]` is the number of a cell. `cells` are [verdict, mandatory, basis, reason, steps, missing, at,
    notes, advice or -1, advice reason]; `steps` are [part, depth, truth, text, detail]; `lines` are [name, sheet, cell,
    data] and each datum [term, as written, read as, sheet, cell, note].
    """
    texts, steps, cells = _Numbering(), _Numbering(), _Numbering()
    grid = [[cells.of(_cell(cell, texts, steps)) for cell in row] for row in matrix.cells]
    lines = [_line(line, matrix, texts) for line in matrix.schedule.lines]
    table = {
        "verdicts": [str(verdict) for verdict in VERDICTS],
        "grid": grid,
        "cells": list(cells.numbers),
        "steps": list(steps.numbers),
        "texts": list(texts.numbers),
        "clauses": [[clause_label(clause), clause.title] for clause in matrix.ruleset.clauses],
        "lines": lines,
    }
    written = json.dumps(table, ensure_ascii=False, separators=(",", ":"))
    return written.replace("&", "\\u0026").replace("<", "\\u003c").replace(">", "\\u003e")


def _cell(cell: Cell, texts: _Numbering, steps: _Numbering) -> tuple[Any, ...]:
    """Return a cell as numbers."""
    text = texts.of
    return (
        _RANK[cell.verdict],
        1 if cell.mandatory else 0,
        text(str(cell.basis)),
        text(cell.reason),
        tuple([steps.of(_step(step, texts)) for step in cell.steps]),
        tuple([text(term) for term in cell.missing]),
        tuple([text(at) for at in cell.at]),
        tuple([text(note) for note in cell.notes]),
        -1 if cell.advice is None else _RANK[cell.advice],
        text(cell.advice_reason),
    )


def _step(step: Step, texts: _Numbering) -> tuple[Any, ...]:
    """Return a step as numbers; the truth is 1, 0 or -1 for not known."""
    truth = -1 if step.truth is None else int(step.truth)
    return (texts.of(step.part), step.depth, truth, texts.of(step.text), texts.of(step.detail))


def _line(line: Line, matrix: Matrix, texts: _Numbering) -> list[Any]:
    """Return a line as [name, sheet, cell, data], each datum as [term, as written, read as, sheet, cell, note]."""
    terms, system = matrix.ruleset.vocabulary.terms, matrix.ruleset.units
    data = []
    for name, datum in line.data.items():
        written, read_as = shown(datum), understood(datum, terms.get(name), system)
        words = [texts.of(name), texts.of(written), texts.of("" if read_as == written else read_as)]
        data.append([*words, *_place(datum.place, texts), texts.of(datum.note)])
    return [line.name, *_place(line.place, texts), data]


def _place(place: Place, texts: _Numbering) -> tuple[int, str]:
    """Return a place as the number of its sheet in words, or of its line in words, and its cell."""
    return texts.of(place_words(Place(line=place.line, sheet=place.sheet))), place.cell
