"""Legends: "Type P-1: fiberglass, ASJ" beside a table, or "P-1" beside "Fiberglass, ASJ" in a small table of its own,
says what P-1 means in the cells of its lines.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Term, Vocabulary, fold
from speccheck.language.vocabulary.values import BareUnits, write_value
from speccheck.phrases import read_cell
from speccheck.schedule.columns import ColumnUse
from speccheck.schedule.grid import Grid
from speccheck.schedule.mapping import Meanings, ScheduleMapping

_ENTRY = re.compile(
    r"(?P<type>(?:insulation\s+)?(?:type|system)\s+)?(?P<mark>[A-Z]{1,3}-?\d{1,2}[A-Z]?|[A-Z]|\d{1,2})"
    r"\s*(?:[:=]|\s[-–—])\s*(?P<meaning>\S.*)",
    re.IGNORECASE,
)
# What heads a legend: "Insulation types", "Legend", "Type | Description".
_HEADS = re.compile(
    r"(?:insulation\s+)?(?:legend|key|types?|systems?|marks?|codes?|symbols?|abbreviations?|materials?)(?:\s+legend)?\s*:?",
    re.IGNORECASE,
)
INSULATION = "insulation"


class _Entry(NamedTuple):
    """An entry of a legend: the names that a cell may have for it, what it means, its place, and the texts that say so.

    `rows` are its row and those right above it that head the legend.
    """

    names: tuple[str, ...]
    meanings: Meanings
    place: Place
    texts: tuple[str, ...]
    rows: frozenset[tuple[str, int]]


def with_legends(mapping: ScheduleMapping, grids: Sequence[Grid], vocabulary: Vocabulary) -> ScheduleMapping:
    """Return a mapping with what the legends of the sheets say; what the mapping file says itself comes first.

    Only an entry of which every word is understood counts, where a cell names it and no other entry says another thing.
    """
    found: dict[str, _Entry] = {}
    unsure: set[str] = set()
    entries = [entry for grid in grids if not grid.hidden for entry in _entries(grid, vocabulary, mapping.units)]
    for entry in entries:
        for name in entry.names:
            if name in found and found[name].meanings != entry.meanings:
                unsure.add(name)
            found.setdefault(name, entry)
    named = _named_elsewhere(grids, frozenset(row for entry in entries for row in entry.rows))
    sure = {name: entry for name, entry in found.items() if name not in unsure and fold(name) in named}
    if not sure:
        return mapping
    marks = {name: entry.meanings for name, entry in sure.items() if not _is_bare(name)}
    return replace(
        mapping,
        legend={**marks, **mapping.legend},
        letters={name: entry.meanings for name, entry in sure.items() if _is_bare(name)},
        legend_places={name: entry.place.cell for name, entry in sure.items() if name not in mapping.legend},
        legend_rows=frozenset(row for entry in sure.values() for row in entry.rows),
        seen=(*mapping.seen, *dict.fromkeys(text for entry in sure.values() for text in entry.texts)),
    )


def _named_elsewhere(grids: Sequence[Grid], rows: frozenset[tuple[str, int]]) -> frozenset[str]:
    """Return what the cells outside the legends say."""
    return frozenset(
        fold(cell.text)
        for grid in grids
        if not grid.hidden
        for (row, _), cell in grid.cells.items()
        if (grid.sheet, row) not in rows
    )


def _entries(grid: Grid, vocabulary: Vocabulary, system: str) -> Iterator[_Entry]:
    """Yield the entries of the legends of a sheet: "P-1: fiberglass" in one cell, or mark and meaning in two."""
    above: dict[int, tuple[str, ...]] = {}
    for row, columns in grid.columns_by_row.items():
        if row in grid.hidden_rows or grid.cells[row, columns[0]].trouble or len(columns) > 2:
            above = {}
            continue
        texts = tuple(" ".join(grid.text(row, column).split()) for column in columns)
        entry = _ENTRY.fullmatch(texts[0] if len(texts) == 1 else f"{texts[0].strip(' :=')}: {texts[1]}")
        meanings = _meanings(entry["meaning"], vocabulary, system) if entry is not None else None
        if entry is not None and meanings:
            heads = dict(reversed(above.items())) if len(texts) == 2 else {}
            rows = frozenset((grid.sheet, one) for one in (*heads, row))
            said = (*(text for head in heads.values() for text in head), *texts)
            yield _Entry(tuple(_names(entry)), meanings, grid.place(row, columns[0]), said, rows)
            above = {}
        elif row - 1 in above and _HEADS.fullmatch(texts[0]):
            above[row] = texts
        else:
            above = {row: texts} if _HEADS.fullmatch(texts[0]) else {}


def _names(entry: re.Match[str]) -> Iterator[str]:
    """Yield how a cell may name an entry: by its mark, and behind "type".

    A mark of a letter or a figure alone counts in a column of insulations, or of types, and nowhere else.
    """
    mark = entry["mark"]
    yield mark
    yield f"type {mark}"
    if entry["type"]:
        yield f"{entry['type']}{mark}"


def _is_bare(name: str) -> bool:
    """Whether a mark is a letter or a figure alone."""
    return name.isdecimal() or len(name) == 1


def _meanings(text: str, vocabulary: Vocabulary, system: str) -> Mapping[str, str] | None:
    """Return the values that the words of an entry state, None where any of them is not understood."""
    term = vocabulary.terms.get(INSULATION)
    phrase = read_cell(text.strip(" ."), term, vocabulary, BareUnits(system=system)) if term is not None else None
    if phrase is None or phrase.left_over or phrase.questions or phrase.alternatives:
        return None
    values = {fact.term.name: phrase.values_of(fact.term.name) for fact in phrase.facts}
    if len(values.get(INSULATION, ())) != 1 or any(len(each) > 1 for each in values.values()):
        return None
    return {name: write_value(each[0], vocabulary.terms[name]) for name, each in values.items()}


def with_legend_columns(
    grid: Grid, rows: Sequence[int], uses: Sequence[ColumnUse], vocabulary: Vocabulary, mapping: ScheduleMapping
) -> list[ColumnUse]:
    """Return the columns, with those that name no term and hold nothing but marks of the legend read by it."""
    term = vocabulary.terms.get(INSULATION)
    if term is None or not (mapping.legend or mapping.letters) or any(use.term is term for use in uses):
        return list(uses)
    return [
        replace(use, term=term, column=replace(use.column, term=term.name, note="by the legend"))
        if not use.is_read and not use.ignored and not use.left and _holds_marks(grid, rows, use, term, mapping)
        else use
        for use in uses
    ]


def _holds_marks(grid: Grid, rows: Sequence[int], use: ColumnUse, term: Term, mapping: ScheduleMapping) -> bool:
    texts = {text for row in rows if (text := grid.text(row, use.index).strip())}
    if any(map(_is_bare, texts)) and not _HEADS.fullmatch(" ".join(use.column.header.split())):
        return False
    return bool(texts) and all(mapping.replaced(text, term) is not None for text in texts)
