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
from speccheck.language.vocabulary.values import NO_UNITS, NotGiven, Value
from speccheck.schedule.grid import Grid
from speccheck.schedule.header_words import HeaderReader
from speccheck.schedule.labelled import Label, is_labelled, labelled_values, labels_of
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


@dataclass(frozen=True, slots=True)
class Around:
    """What stands around a table: facts for its lines, the cells that are settled, and those for a person to read."""

    facts: Facts
    settled: tuple[tuple[int, int], ...]
    remarks: tuple[tuple[int, int], ...]


def around(
    grid: Grid, rows: Iterable[int], outer: Mapping[str, Datum], reader: HeaderReader, *, names_systems: bool = False
) -> Around:
    """Return what the `rows` above a table say of its lines, on top of what stands further out.

    A text that gives a value of a term is a heading, in whose place the next one steps that gives a value of it. Any
    other is a title, which belongs to no line, unless it begins a note, its words may change what the table says, or it
    names a system over a table in which nothing else does (`names_systems`). A row with more cells is neither, unless
    each is a label with its value: it is left open.
    """
    facts: Facts = {}
    settled: list[tuple[int, int]] = []
    remarks: list[tuple[int, int]] = []
    for row in rows:
        labels = list(labels_of(grid, row))
        if len(labels) > MOST_CELLS_OF_A_TITLE and not all(is_labelled(label.text) for label in labels):
            continue
        said = {label: _facts_of(label, grid.place(row, label.columns[-1]), reader) for label in labels}
        at_odds = _at_odds(said.values())
        for label, found in said.items():
            facts |= {} if at_odds else found
            of_system = names_systems and reader.headings.speaks_of_a_system(label.text)
            told = not at_odds if found else not (may_change(label.text) or of_system)
            (settled if told else remarks).extend((row, column) for column in label.columns)
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


def of_captions(grid: Grid, captions: Iterable[tuple[int, int]], reader: HeaderReader) -> Facts:
    """Return what the captions of a cross table say of its lines: "Chilled water: thickness by pipe size"."""
    labels = ((Label((column,), " ".join(grid.text(row, column).split())), row) for row, column in captions)
    return {
        name: datum
        for label, row in labels
        for name, datum in _facts_of(label, grid.place(row, label.columns[0]), reader).items()
    }


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
    if is_labelled(text) and not NOTE_START.match(text):
        return bool(_CHANGES.search(text.split(":", 1)[1]))
    return bool(NOTE_START.match(text) or _CHANGES.search(text))


def _facts_of(label: Label, place: Place, reader: HeaderReader) -> Facts:
    """Return what one text above a table says, or what stands behind its label: "System: Chilled water"."""
    where = f"from the heading in {place.cell}"
    named = labelled_values(label.text, reader, NO_UNITS)
    if named is not None:
        return {name: Datum(value, label.text, place, where, inferred=True) for name, value in named.items()}
    found = _data(reader.headings, label.text, place, where)
    if not found and ":" in label.text:
        found = _data(reader.headings, label.text.split(":", 1)[1].strip(), place, where)
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
