"""Cross tables: columns of a thickness or an R-value that each stand for one size, service or place, as in a table
with sizes across. Each cell under such a column is a line of its own.

The header of the column is a value of the axis ("1-1/2 in to 3 in", "Chilled water"), be it alone, below words that say
what the cells are ("Thickness" merged over them), or behind them ("Thickness - up to 1-1/4 in"). What the cells may be
the vocabulary says: terms that are `stated in table`, the first where nothing says which of them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import islice

from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import BareUnits, NotGiven, Value, read_value
from speccheck.phrases import read_header, read_size_band
from speccheck.quantities import Interval, Misread
from speccheck.quantities.sizes import System
from speccheck.schedule.grid import Grid
from speccheck.schedule.header_words import (
    HeaderReader,
    Match,
    folded,
    header_unit,
    in_degrees,
    looks_like_unit,
    split_brackets,
)
from speccheck.schedule.phrases_of_cells import phrase_value

FEWEST = 2
FEWEST_UNNAMED = 3
_ROWS_LOOKED_AT = 12
_DN = re.compile(r"(?<![^\W_])DN(?![^\W_])")
_NPS = re.compile(r"(?<![^\W_])(?:NPS|IPS|in|inch|inches)(?![^\W_])|[\"″]", re.IGNORECASE)
_BETWEEN_NAMES = re.compile(r"[/,:()]")
_SPLIT = re.compile(r"\s*[,:;(–—]\s*|\s+-\s+|\s+(?=\W*\d|for\b|up\b|over\b|under\b|all\b)")


@dataclass(frozen=True, slots=True)
class CrossColumn:
    """What one column stands for: what its cells are, the unit of bare numbers, the axis and its value.

    `beside` are values of other terms that its header states too: the 40 F to 55 F of "Chilled water (40-55F)".
    """

    measured: Term
    unit: str
    axis: Term
    value: Value
    text: str
    origin: tuple[int, int]
    beside: tuple[tuple[str, Value], ...] = ()


@dataclass(frozen=True, slots=True)
class _Part:
    """The header of one column read by itself: the measured term where it is said, and the value of the axis."""

    measured: Term | None
    unit: str
    axis: Term
    value: Value
    beside: tuple[tuple[str, Value], ...]
    text: str


_AxisValue = tuple[Term, Value, tuple[tuple[str, Value], ...]]
Parts = Mapping[tuple[int, int], str]
"""The texts of the header of one column from the top row down, by the cell in which they stand."""


def find_cross_columns(
    grid: Grid,
    last: int,
    columns: Mapping[int, Parts],
    reader: HeaderReader,
    taken: frozenset[str],
    system: str = "",
) -> dict[int, CrossColumn]:
    """Return the cross columns among the `columns` of a header that ends in row `last`; none where not certain.

    All share one axis, which no other column states (those state the terms `taken`); no two stand for the same; and
    the cells under them are mostly what they should be. Bare sizes are in `system` unless a heading says otherwise.
    """
    found: dict[int, _Part] = {}
    for column, parts in columns.items():
        if parts:
            part = _part(tuple(parts.values()), reader, system)
            if part is not None:
                found[column] = part
    for axis in dict.fromkeys(part.axis.name for part in found.values()):
        bands = _in_one_row({column: part for column, part in found.items() if part.axis.name == axis}, columns)
        named = any(part.measured is not None for part in bands.values())
        certain = named or _open_ended(bands.values()) or reader.vocabulary.terms[axis].of_choices
        fewest = FEWEST if certain else FEWEST_UNNAMED
        if named and reader.vocabulary.terms[axis].of_choices and _stand_among_others(bands, columns):
            fewest = 1
        distinct = len({f"{part.value} {part.beside}" for part in bands.values()}) == len(bands)
        if axis in taken or len(bands) < fewest or not distinct or not _under_one_heading(bands, columns, reader):
            continue
        result = _with_measured(grid, last, bands, columns, reader)
        if result:
            return result | _of_terms_beside(grid, last, found, result, columns, reader, taken)
    return {}


def _of_terms_beside(
    grid: Grid,
    last: int,
    found: Mapping[int, _Part],
    across: Mapping[int, CrossColumn],
    columns: Mapping[int, Parts],
    reader: HeaderReader,
    taken: frozenset[str],
) -> dict[int, CrossColumn]:
    """Return the columns that stand for a value of a term beside the axis: "Concealed" among rooms and "Outdoors"."""
    axis = next(iter(across.values())).axis
    others = {
        column: part
        for column, part in found.items()
        if column not in across and part.axis.name not in taken and axis.name in part.axis.beside
    }
    return _with_measured(grid, last, others, columns, reader) if others else {}


def is_answer(text: str, match: Match) -> bool:
    """Whether a header is one of the two answers of a term by which systems are told apart: "Concealed"."""
    term = match.term
    answers = term is not None and term.kind.form is Form.YES_NO and term.tells_apart
    return term is not None and answers and folded(text) in term.answers


def _stand_among_others(bands: Mapping[int, _Part], columns: Mapping[int, Parts]) -> bool:
    """Whether each band shares its heading with another column: of "Outdoors" beside words that nobody knows, one."""
    return all(
        any(columns[column].keys() & parts.keys() for other, parts in columns.items() if other != column)
        for column in bands
    )


def _in_one_row(bands: Mapping[int, _Part], columns: Mapping[int, Parts]) -> dict[int, _Part]:
    """Return the bands whose values stand in one row, that of most of them: a figure elsewhere is no heading."""
    rows = {column: _row_of(part.text, columns[column]) for column, part in bands.items()}
    most = max(rows.values(), key=list(rows.values()).count)
    return {column: part for column, part in bands.items() if rows[column] == most}


def _row_of(text: str, parts: Parts) -> int:
    """Return the row in which the value of a band stands."""
    return max(row for (row, _), words in parts.items() if text in words)


def _under_one_heading(bands: Mapping[int, _Part], columns: Mapping[int, Parts], reader: HeaderReader) -> bool:
    """Whether no two bands stand under the names of different terms, as values in the first line of a list do."""
    named = set()
    for column, part in bands.items():
        above = (words for words in columns[column].values() if part.text not in words)
        terms = {match.name for words in above if (match := reader.match(words)) is not None}
        named |= {frozenset(terms)} if terms else set()
    return len(named) < 2


def _open_ended(parts: Iterable[_Part]) -> bool:
    """Whether some band is a range without an end, which no measured value is."""
    values = [part.value for part in parts]
    return any(isinstance(value, Interval) and (value.low is None or value.high is None) for value in values)


def _with_measured(
    grid: Grid, last: int, bands: Mapping[int, _Part], columns: Mapping[int, Parts], reader: HeaderReader
) -> dict[int, CrossColumn]:
    """Return the bands with what their cells are, or none where the cells are something else."""
    said = next(((part.measured, part.unit) for part in bands.values() if part.measured is not None), None)
    candidates = [said] if said else [(term, "") for term in reader.vocabulary.tabulated]
    for measured, unit in candidates:
        if measured is not None and _cells_are(grid, last, bands, measured, unit, reader, stated=said is not None):
            return {
                column: CrossColumn(
                    measured,
                    part.unit or unit,
                    part.axis,
                    part.value,
                    part.text,
                    list(columns[column])[-1],
                    part.beside,
                )
                for column, part in bands.items()
            }
    return {}


def _cells_are(
    grid: Grid,
    last: int,
    bands: Mapping[int, _Part],
    measured: Term,
    unit: str,
    reader: HeaderReader,
    *,
    stated: bool,
) -> bool:
    """Whether most cells under the bands are values of a term; bare numbers count where it is `stated`.

    A row that begins with the name of a term says something of the bands themselves, and does not count.
    """
    bare = BareUnits(unit, "inch-pound") if stated else BareUnits()
    rows = [row for row in _rows_below(grid, last) if not _names_a_term(grid, row, reader)]
    texts = [grid.text(row, column).strip() for row in rows for column in bands if (row, column) in grid.cells]
    values = [_value_among_words(text, measured, bare, reader) for text in texts]
    good = sum(not isinstance(value, Misread | NotGiven) for value in values)
    return bool(good) and good * 2 >= sum(not isinstance(value, NotGiven) for value in values)


def _value_among_words(text: str, measured: Term, bare: BareUnits, reader: HeaderReader) -> Value | NotGiven | Misread:
    """Return the value of a cell, alone or among words that are understood: `1" FG`."""
    value = read_value(text, measured, bare)
    said = phrase_value(text, measured, reader.vocabulary, bare) if isinstance(value, Misread) else None
    return value if said is None else said[0]


def _rows_below(grid: Grid, last: int) -> Iterator[int]:
    """Yield some rows below a header, up to the first blank one that is not right below it."""
    previous = -1
    for row in islice((row for row in grid.columns_by_row if row > last), _ROWS_LOOKED_AT):
        if previous >= 0 and row > previous + 1:
            return
        yield row
        previous = row


def _names_a_term(grid: Grid, row: int, reader: HeaderReader) -> bool:
    """Whether a row begins with the name of a term."""
    return reader.names_term(grid.text(row, grid.columns_by_row[row][0]))


@lru_cache(maxsize=8192)
def _part(texts: tuple[str, ...], reader: HeaderReader, system: str) -> _Part | None:
    """Return how one column reads as a band: one of its texts is a value, the others say of what and what is measured.

    The value mostly stands lowest, below the name of its term ("Pipe size" merged over sizes); the name of what the
    cells are may stand above it, below it or before it.
    """
    if len(texts) > 1 and looks_like_unit(texts[-1].strip(" ()[]{}")):
        texts = (texts[-1], *texts[:-1])  # a row of units below the sizes says what is measured
    for place in range(len(texts) - 1, -1, -1):
        text, others = texts[place], (*texts[:place], *texts[place + 1 :])
        measured, unit = _measured_of(others, reader)
        found = _value_of_named(text, others, reader, system)
        if found is None and place == len(texts) - 1:
            sizes_named = any(_named_inside(group, _size_term(reader)) for group in others)
            bare = _bare_sizes(others, system) if others and (measured is not None or sizes_named) else None
            found = _axis_value(text, reader, bare)
        if found is not None:
            axis, value, beside = found
            return _Part(measured, unit, axis, value, (*beside, *_said_above(others, axis, beside, reader)), text)
    lowest = texts[-1]
    for split in _SPLIT.finditer(lowest):
        name, rest = lowest[: split.start()], lowest[split.end() :].strip(" )")
        own, own_unit = _measured_of((name,), reader)
        found = _axis_value(rest, reader, _bare_sizes((name,), system)) if own is not None else None
        if found is not None:
            return _Part(own, own_unit, *found, rest)
    return None


def _said_above(
    groups: Sequence[str], axis: Term, beside: Sequence[tuple[str, Value]], reader: HeaderReader
) -> Iterator[tuple[str, Value]]:
    """Yield what group headings say of other terms that tell systems apart: "Chilled water" over "Indoor"."""
    stated = {axis.name, *(name for name, _ in beside)}
    for group in groups:
        for name, value in reader.headings.facts(group).items():
            term = reader.vocabulary.terms[name]
            if name not in stated and term.tells_apart and term.of_choices and not reader.names_term(group):
                stated.add(name)
                yield name, value


def _value_of_named(text: str, groups: Sequence[str], reader: HeaderReader, system: str) -> _AxisValue | None:
    """Return the value that a text is of the term that a group heading names exactly, "Pipe size (DN)" over "< 25"."""
    for group in groups:
        match = reader.match(group)
        if match is None or match.term is None or match.term.tabulated or match.rest or match.misfit:
            continue
        if match.term.kind.form is Form.SIZE:
            metric = match.unit in ("DN", "mm") or (not match.unit and system == "metric")
            band = read_size_band(text, "metric" if metric else "inch-pound")
            value: Value | NotGiven | Misread = band if isinstance(band, Misread) else band.value
        elif match.term.of_choices or match.term.kind.ordered:
            value = read_value(text, match.term, BareUnits(match.unit, system))
        else:
            continue
        if not isinstance(value, Misread | NotGiven):
            return match.term, value, ()
    return None


def _measured_of(groups: Sequence[str], reader: HeaderReader) -> tuple[Term | None, str]:
    """Return the term that group headings say the cells are, and its unit; None where they say none."""
    for term in reader.vocabulary.tabulated:
        for group in groups:
            unit = _unit_where_named(group, term.name, reader)
            unit = header_unit(group.strip(" ()[]{}"), term) or None if unit is None else unit
            if unit is not None:
                return term, unit
    return None, ""


@lru_cache(maxsize=8192)
def _unit_where_named(group: str, name: str, reader: HeaderReader) -> str | None:
    """Return the unit that a group heading states of a term, "" for none, None where it does not name the term."""
    term = reader.vocabulary.terms[name]
    match = reader.match(group)
    if match is not None and match.term is term:
        return match.unit
    words, brackets = split_brackets(group)
    if not _named_inside(words, term):
        return None
    return next(filter(None, (header_unit(bracket, term) for bracket in brackets)), "")


def _named_inside(group: str, term: Term | None) -> bool:
    """Whether the words of a group heading name a term among others: "Pipe Size / Thickness"."""
    if term is None:
        return False
    words = f" {folded(_BETWEEN_NAMES.sub(' ', group))} "
    return any(f" {name} " in words for name in term.folded_names if len(name) > 2)


def names_what_is_tabulated(text: str, reader: HeaderReader) -> bool:
    """Whether words name, among others, what the cells of a cross table are: "Insulation thickness by pipe size"."""
    return any(_named_inside(split_brackets(text)[0], term) for term in reader.vocabulary.tabulated)


def _size_term(reader: HeaderReader) -> Term | None:
    """Return the term of nominal sizes by which systems are told apart."""
    terms = reader.vocabulary.terms.values()
    return next((term for term in terms if term.kind.form is Form.SIZE and term.tells_apart), None)


def _bare_sizes(groups: Iterable[str], system: str) -> System:
    """Return what sizes without a unit are: DN where a heading says so, else inches unless the schedule is metric."""
    words = " ".join(groups)
    if _DN.search(words):
        return "metric"
    return "metric" if system == "metric" and not _NPS.search(words) else "inch-pound"


def _axis_value(text: str, reader: HeaderReader, bare: System | None) -> _AxisValue | None:
    """Return the term and the value that the header of a band stands for, and what it states beside it.

    Sizes without a unit are in `bare`. Of several values it stands for the one that is a choice, as a service is.
    """
    found = read_size_band(text, bare)
    if not isinstance(found, Misread) and found.term in reader.vocabulary.terms:
        return reader.vocabulary.terms[found.term], found.value, ()
    stated = read_header(in_degrees(text), reader.vocabulary).stated
    if len(stated) == 1 and stated[0].term.tells_apart:
        return stated[0].term, stated[0].value, ()
    facts = reader.headings.facts(text) or reader.headings.temperature(in_degrees(text))
    named = reader.match(text) if reader.vocabulary.find(text) is not None else None
    if not facts or (named is not None and not is_answer(text, named)):
        return None
    terms = [reader.vocabulary.terms[name] for name in facts]
    axes = [term for term in terms if term.of_choices] if len(terms) > 1 else terms
    if len(axes) != 1 or not all(term.tells_apart for term in terms):
        return None
    (axis,) = axes
    return axis, facts[axis.name], tuple((name, value) for name, value in facts.items() if name != axis.name)
