"""Context: what stands around a table and belongs to its lines: the heading above it, the title, the sheet's name.

What a line states itself always stands; what stands nearer to the table comes before what stands further away. Each
value says where it came from.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Form, Vocabulary
from speccheck.language.vocabulary.values import NotGiven, Value
from speccheck.schedule.grid import Grid
from speccheck.schedule.lines import Column, Datum
from speccheck.schedule.rows import FURNITURE, NOTE_START
from speccheck.schedule.sections import HeadingReader

Facts = dict[str, Datum]

# Words by which a text above a table changes what the table says; plain English, and no names of the trade.
_CHANGES = re.compile(
    r"\b(?:bare|uninsulated|omit\w*|delet\w*|void\w*|reduc\w*|increas\w*|except\w*|unless|instead|lieu|shall|will|not"
    r"|only|no(?!\.)|by others|substitut\w*|revis(?:e|ed) to|may be|left|but|where|all|rfi|addend\w*|n\.?i\.?c)\b",
    re.IGNORECASE,
)
MOST_CELLS_OF_A_TITLE = 2
_LABELLED = re.compile(r"[^:]{1,40}:\s*\S.{0,80}")


@dataclass(frozen=True, slots=True)
class Around:
    """What stands around a table: facts for its lines, the cells that are settled, and those for a person to read."""

    facts: Facts
    settled: tuple[tuple[int, int], ...]
    remarks: tuple[tuple[int, int], ...]


def around(
    grid: Grid, rows: Iterable[int], outer: Mapping[str, Datum], reader: HeadingReader, first_column: int = 0
) -> Around:
    """Return what the `rows` above a table say of its lines, on top of what stands further out.

    A text that gives a value of a term is a heading, in whose place the next one steps that gives a value of it. Any
    other is a title, which belongs to no line, unless it begins a note or its words may change what the table says. A
    row with more cells is neither: it is left open.
    """
    facts: Facts = {}
    settled: list[tuple[int, int]] = []
    remarks: list[tuple[int, int]] = []
    for row in rows:
        columns = grid.columns_by_row.get(row, ())
        if len(columns) > MOST_CELLS_OF_A_TITLE:
            continue
        said = {column: _facts_at(grid, row, column, reader) for column in columns}
        at_odds = _at_odds(said.values())
        for column, found in said.items():
            facts |= {} if at_odds else found
            told = not at_odds if found else not may_change(grid.text(row, column))
            (settled if told else remarks).append((row, column))
    replaced = {datum.place for name, datum in outer.items() if name in facts}
    outer = {name: datum for name, datum in outer.items() if datum.place not in replaced}
    return Around({**outer, **facts}, tuple(settled), tuple(remarks))


def _at_odds(said: Iterable[Facts]) -> bool:
    """Whether texts side by side give different values of a term, as the titles of two blocks do."""
    values: dict[str, Value | NotGiven] = {}
    return any(values.setdefault(name, datum.value) != datum.value for facts in said for name, datum in facts.items())


def of_sheet(grid: Grid, reader: HeadingReader) -> Facts:
    """Return what the name of a sheet says of all its lines."""
    where = f"from the name of the sheet `{grid.sheet}`"
    return _data(reader, grid.sheet, grid.sheet_place, where) if grid.sheet else {}


def of_captions(grid: Grid, captions: Iterable[tuple[int, int]], reader: HeadingReader) -> Facts:
    """Return what the captions of a cross table say of its lines: "Chilled water: thickness by pipe size"."""
    return {name: datum for at in captions for name, datum in _facts_at(grid, *at, reader).items()}


def of_headers(columns: Iterable[Column], reader: HeadingReader, vocabulary: Vocabulary) -> Facts:
    """Return what the words over the columns that tell systems apart say of all lines: "Duct System" names a component.

    What a contractor proposes is never taken from there.
    """
    found: Facts = {}
    for column in columns:
        said = reader.facts(column.header) if _tells_systems_apart(column, vocabulary) else {}
        for name, value in said.items():
            if name != column.term and not vocabulary.terms[name].proposed:
                where = f"from the header in {column.place.cell}"
                found[name] = Datum(value, column.header, column.place, where, inferred=True)
    return found


def _tells_systems_apart(column: Column, vocabulary: Vocabulary) -> bool:
    """Whether a column names systems: by a term that tells them apart, or in more words than one, not understood.

    One word, "Equipment" over the pumps that pipes lead to, says what its cells are, and nothing of the line.
    """
    term = vocabulary.terms.get(column.term)
    if term is None:
        return len(column.header.split()) > 1
    return term.tells_apart and term.kind.form is Form.CHOICE


def may_change(text: str) -> bool:
    """Whether a text beside a table is perhaps more than a title: it begins a note, or has words that change things."""
    text = " ".join(text.split())
    if FURNITURE.match(text):
        return False
    if _LABELLED.fullmatch(text) and not NOTE_START.match(text):
        return bool(_CHANGES.search(text.split(":", 1)[1]))
    return bool(NOTE_START.match(text) or _CHANGES.search(text))


def _facts_at(grid: Grid, row: int, column: int, reader: HeadingReader) -> Facts:
    """Return what one text above a table says, or what stands behind its label: "System: Chilled water"."""
    text = " ".join(grid.text(row, column).split())
    place = grid.place(row, column)
    where = f"from the heading in {place.cell}"
    found = _data(reader, text, place, where)
    if not found and ":" in text:
        found = _data(reader, text.split(":", 1)[1].strip(), place, where)
    return found


def _data(reader: HeadingReader, text: str, place: Place, where: str) -> Facts:
    """Return the facts of a text as data that say where they came from."""
    return {name: Datum(value, text, place, where, inferred=True) for name, value in reader.said(text).items()}


def with_facts(data: Mapping[str, Datum], facts: Mapping[str, Datum]) -> Iterator[tuple[str, Datum]]:
    """Yield the facts that a line, or what stands nearer to it, does not state itself.

    A text of which one value does not hold says nothing else either: under "Domestic cold water" the 42 F of "Chilled
    water, 42 F" above another table is no temperature.
    """
    given_up = {datum.place for name, datum in facts.items() if name in data and data[name].value != datum.value}
    for name, datum in facts.items():
        if name not in data and datum.place not in given_up:
            yield name, datum
