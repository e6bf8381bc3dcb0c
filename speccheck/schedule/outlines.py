"""Outlines and lists without a table: rows of one text each, headings of several ranks over systems in words.

    A. Chilled water piping                      120 | LF | 2" CHWS - 1" fiberglass w/ ASJ
       1. Fiberglass with ASJ                      8 | EA | 2" valves, CHW, 1" elastomeric
          a. 1" thick up to 1-1/4"
          b. 1-1/2" thick above

What a heading says belongs to all below it until one of its rank or a higher one comes; an inner heading adds to an
outer one. Ranks are told by the columns in which texts begin and by how they are numbered. Counts and their units
beside a text say nothing of a system. A text that is not understood as a whole is for a person to read, and ends the
headings of its rank.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.language.vocabulary.values import BareUnits, Value
from speccheck.phrases import Proposed, read_cell, read_description, read_systems, shared_values, values_of
from speccheck.schedule.context import of_sheet
from speccheck.schedule.grid import Grid
from speccheck.schedule.header_words import HeaderReader
from speccheck.schedule.labelled import labelled_values
from speccheck.schedule.lines import Datum, Line
from speccheck.schedule.mapping import ScheduleMapping
from speccheck.schedule.sentences import lines_of_sentence

SERVICE, SIZE, INSULATION = "service", "pipe size", "insulation"
_WIDEST_INDENT = 100
_NUMBER = re.compile(
    r"(?:[(\[]?(?P<roman>[ivx]{2,4}|[IVX]{2,4})[.)\]]|[(\[]?(?P<capital>[A-Z])[.)\]]|[(\[]?(?P<small>[a-z])[.)\]]"
    r"|(?P<parts>\d{1,2}(?:\.\d{1,2})+\.?)|[(\[]?(?P<figure>\d{1,2})[.)\]]|(?P<dot>[-–—•*·o]))(?:\s+|$)"
)
_UNITS = r"l\.?f\.?|lin\.?\s*ft\.?|s\.?f\.?|sq\.?\s*ft\.?|ft\.?|feet|m2?|ea\.?|each|pcs?\.?|pieces?|rolls?|lots?|sets?"
_UNIT = re.compile(_UNITS, re.IGNORECASE)
_COUNTS = re.compile(rf"[\d,]+(?:\.\d+)?\s*(?:{_UNITS})?|{_UNITS}", re.IGNORECASE)
_COUNTED = r"items?|items?\s+no\.?|no\.?|#|line|qty\.?|quantity|count|lf|ea|length|total|units?|u\.?o\.?m\.?|u/m"
_COUNT_HEADER = re.compile(_COUNTED, re.IGNORECASE)
_LIST_HEADER = re.compile(rf"{_COUNTED}|description|scope|work|system\s+description", re.IGNORECASE)
_SYSTEM_AND_PROPOSAL = 2
Rank = tuple[int, str]


@dataclass
class _Heading:
    """An open heading: its rank, what it says, and the upper end of the sizes said last under it."""

    rank: Rank
    data: Mapping[str, Datum]
    sizes: Value | None = None


@dataclass
class Outline:
    """What the rows of an outline became: lines by row, and the rows that are headings or head the list."""

    lines: dict[int, list[Line]] = field(default_factory=dict)
    settled: set[int] = field(default_factory=set)


def outline_of(grid: Grid, reader: HeaderReader, mapping: ScheduleMapping) -> Outline:
    """Return the lines that the rows of a sheet without a table propose; each has a service, and a thickness."""
    found, open_ = Outline(), [_Heading((-1, ""), of_sheet(grid, reader.headings))]
    bare, counted = BareUnits(system=mapping.units), frozenset[int]()
    for row, columns in grid.columns_by_row.items():
        if len(columns) > 1 and all(_LIST_HEADER.fullmatch(grid.text(row, column).strip()) for column in columns):
            counted = frozenset(column for column in columns if _COUNT_HEADER.fullmatch(grid.text(row, column).strip()))
            found.settled.add(row)
            continue
        at = _text_of(grid, row, counted)
        if at is None:
            lines = _of_two_cells(grid, row, open_, reader.vocabulary, bare)
            found.lines |= {row: lines} if lines else {}
            continue
        rank, text = _rank(grid, row, at)
        _close(open_, rank, of_system=True)
        systems = _systems(text, open_, reader.vocabulary, bare)
        if systems:
            said = _said(open_, systems)
            found.lines[row] = list(lines_of_sentence(Line("", said, grid.place(*at)), systems, grid, at))
            open_[-1].sizes = systems[-1].values.get(SIZE)
            continue
        facts = labelled_values(text, reader, bare) or {}
        found.settled |= {row} if facts else set()
        if facts and open_[-1].rank == rank:
            open_[-1] = replace(open_[-1], data={**open_[-1].data, **_data(facts, text, grid.place(*at))})
            continue
        _close(open_, rank, of_system=False)
        facts = facts or _heading(text, reader, bare)
        found.settled |= {row} if facts else set()
        open_.append(_Heading(rank, _data(facts, text, grid.place(*at))))
    return found if found.lines else Outline()


def _data(facts: Mapping[str, Value], text: str, place: Place) -> Mapping[str, Datum]:
    """Return the facts of a heading as data that say where they came from."""
    where = f"from the heading in {place.cell}"
    return {name: Datum(value, text, place, where, inferred=True) for name, value in facts.items()}


def _of_two_cells(
    grid: Grid, row: int, open_: Sequence[_Heading], vocabulary: Vocabulary, bare: BareUnits
) -> list[Line]:
    """Return the lines of a row with a system in one cell and what is proposed for it in the next; of others none."""
    columns = grid.columns_by_row[row]
    texts = [" ".join(grid.text(row, column).split()).strip(" :") for column in columns]
    systems = _systems(": ".join(texts), open_, vocabulary, bare) if len(texts) == _SYSTEM_AND_PROPOSAL else ()
    at = (row, columns[-1])
    line = Line("", _said(open_, systems), grid.place(row, columns[0]))
    return list(lines_of_sentence(line, systems, grid, at)) if systems else []


def _text_of(grid: Grid, row: int, counted: frozenset[int]) -> tuple[int, int] | None:
    """Return the one cell of a row with words in it, None where there are several.

    Numbers before it belong to it; counts are left out where they say what they count, be it in the head of the list.
    """
    columns = list(grid.columns_by_row[row])
    while len(columns) > 1 and _NUMBER.fullmatch(grid.text(row, columns[0]).strip()):
        columns.pop(0)
    texts = {column: grid.text(row, column).strip() for column in columns}
    measured = any(_UNIT.fullmatch(text) for text in texts.values())
    words = [
        column
        for column, text in texts.items()
        if not (column in counted or measured or _is_measured(text)) or not _COUNTS.fullmatch(text)
    ]
    return (row, words[0]) if len(words) == 1 else None


def _is_measured(text: str) -> bool:
    """Whether a count carries its unit."""
    return not text[-1:].isdecimal()


def _rank(grid: Grid, row: int, at: tuple[int, int]) -> tuple[Rank, str]:
    """Return the rank of a row, by where it begins and how it is numbered, and its text without the number."""
    first = grid.columns_by_row[row][0]
    text = grid.text(*at)
    numbered = _NUMBER.fullmatch(grid.text(row, first).strip()) if first != at[1] else None
    indent = len(text) - len(text.lstrip()) if first == at[1] else 0
    text = " ".join(text.split())
    if numbered is None and (numbered := _NUMBER.match(text)) is not None:
        text = text[numbered.end() :]
    return ((first if numbered else at[1]) * _WIDEST_INDENT + indent, _style(numbered)), text


def _style(numbered: re.Match[str] | None) -> str:
    """Return how a row is numbered: by capitals, by figures in how many parts, by dots."""
    if numbered is None or numbered.lastgroup is None:
        return ""
    parts = numbered[0].strip(" .").count(".") if numbered.lastgroup == "parts" else 0
    return f"{numbered.lastgroup}{parts or ''}"


def _close(open_: list[_Heading], rank: Rank, *, of_system: bool) -> None:
    """Close the headings that do not reach a row: those that begin further in, and of its own rank all that follow.

    A system without a number stands under the last heading of its rank; another heading of that rank takes its place.
    """
    while open_[-1].rank[0] > rank[0]:
        open_.pop()
    if of_system and not rank[1]:
        return
    ranks = [heading.rank for heading in open_]
    if rank in ranks:
        del open_[ranks.index(rank) :]


def _said(open_: Sequence[_Heading], systems: Sequence[Proposed]) -> dict[str, Datum]:
    """Return what the open headings say that the systems do not state themselves, the innermost first."""
    stated = {name for system in systems for name in system.values}
    said = {name: datum for heading in open_ for name, datum in heading.data.items()}
    return {name: datum for name, datum in said.items() if name not in stated}


def _systems(text: str, open_: Sequence[_Heading], vocabulary: Vocabulary, bare: BareUnits) -> tuple[Proposed, ...]:
    """Return the systems of a row that, with what its headings say, have a service and an insulation."""
    described = read_description(text, vocabulary, bare)
    systems = (described,) if described is not None else read_systems(text, vocabulary, bare, open_[-1].sizes)
    known = {name for heading in open_ for name in heading.data}
    return systems if all({SERVICE, INSULATION} <= known | set(system.values) for system in systems) else ()


def _heading(text: str, reader: HeaderReader, bare: BareUnits) -> Mapping[str, Value]:
    """Return what a heading says: a service, an insulation, or any other value."""
    text = text.strip(" :")
    said = shared_values(text, reader.vocabulary, bare) or reader.headings.said(text)
    if not said and INSULATION in reader.vocabulary.terms:
        said = values_of(read_cell(text, reader.vocabulary.terms[INSULATION], reader.vocabulary, bare)) or {}
    return {name: value for name, value in said.items() if name != SIZE}
