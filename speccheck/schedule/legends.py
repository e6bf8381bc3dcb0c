"""Legends: "Type P-1: fiberglass, ASJ" beside a table says what P-1 means in the cells of its lines."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Term, Vocabulary, fold
from speccheck.language.vocabulary.values import BareUnits, write_value
from speccheck.phrases import read_cell
from speccheck.schedule.columns import ColumnUse
from speccheck.schedule.grid import Grid
from speccheck.schedule.mapping import Meanings, ScheduleMapping

_ENTRY = re.compile(
    r"(?P<type>(?:insulation\s+)?(?:type|system)\s+)?(?P<mark>[A-Z]{1,3}-?\d{1,2}[A-Z]?|(?<=\s)[A-Z]|(?<=\s)\d{1,2})"
    r"\s*(?:[:=]|\s[-–—])\s*(?P<meaning>\S.*)",
    re.IGNORECASE,
)
INSULATION = "insulation"


def with_legends(mapping: ScheduleMapping, grids: Sequence[Grid], vocabulary: Vocabulary) -> ScheduleMapping:
    """Return a mapping with what the legends of the sheets say; what the mapping file says itself comes first.

    Only an entry of which every word is understood counts, where a cell names it and no other entry says another thing.
    """
    found: dict[str, tuple[Meanings, Place, str]] = {}
    unsure: set[str] = set()
    for names, meanings, place, text in _entries(grids, vocabulary, mapping.units):
        for name in names:
            if name in found and found[name][0] != meanings:
                unsure.add(name)
            found.setdefault(name, (meanings, place, text))
    named = {fold(cell.text) for grid in grids if not grid.hidden for cell in grid.cells.values()}
    sure = {name: entry for name, entry in found.items() if name not in unsure and fold(name) in named}
    if not sure:
        return mapping
    return replace(
        mapping,
        legend={**{name: meanings for name, (meanings, _, _) in sure.items()}, **mapping.legend},
        legend_places={name: place.cell for name, (_, place, _) in sure.items() if name not in mapping.legend},
        seen=(*mapping.seen, *(text for _, _, text in sure.values())),
    )


def _entries(
    grids: Sequence[Grid], vocabulary: Vocabulary, system: str
) -> Iterator[tuple[Sequence[str], Meanings, Place, str]]:
    """Yield the entries of legends: the names that a cell may have for it, what it means, its place, its text."""
    for grid in (grid for grid in grids if not grid.hidden):
        for row, columns in grid.columns_by_row.items():
            if row in grid.hidden_rows or grid.cells[row, columns[0]].trouble:
                continue
            text = " ".join(grid.text(row, columns[0]).split())
            entry = _ENTRY.fullmatch(text) if len(columns) == 1 else None
            meanings = _meanings(entry["meaning"], vocabulary, system) if entry is not None else None
            if entry is not None and meanings:
                yield tuple(_names(entry)), meanings, grid.place(row, columns[0]), text


def _names(entry: re.Match[str]) -> Iterator[str]:
    """Yield how a cell may name an entry: by its mark where that has letters and figures, and behind "type"."""
    mark = entry["mark"]
    if any(map(str.isdigit, mark)) and any(map(str.isalpha, mark)):
        yield mark
    yield f"type {mark}"
    if entry["type"]:
        yield f"{entry['type']}{mark}"


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
    if term is None or not mapping.legend or any(use.term is term for use in uses):
        return list(uses)
    return [
        replace(use, term=term, column=replace(use.column, term=term.name, note="by the legend"))
        if not use.is_read and not use.ignored and not use.left and _holds_marks(grid, rows, use, term, mapping)
        else use
        for use in uses
    ]


def _holds_marks(grid: Grid, rows: Sequence[int], use: ColumnUse, term: Term, mapping: ScheduleMapping) -> bool:
    texts = {text for row in rows if (text := grid.text(row, use.index).strip())}
    return bool(texts) and all(mapping.replaced(text, term) is not None for text in texts)
