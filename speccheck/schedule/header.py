"""Where the header of a schedule is: the row, or the rows that belong together, in which most cells name terms."""

from __future__ import annotations

import math
import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, field
from itertools import takewhile

from speccheck.language.vocabulary.terms import Form, Term
from speccheck.language.vocabulary.values import BareUnits, NotGiven, read_value
from speccheck.phrases import read_size_band
from speccheck.quantities import Interval, Misread
from speccheck.schedule.columns_by_cells import LISTED, first_columns, is_corner
from speccheck.schedule.cross_tables import (
    CrossColumn,
    Parts,
    find_cross_columns,
    is_answer,
    names_what_is_tabulated,
)
from speccheck.schedule.grid import Grid, column_number
from speccheck.schedule.header_words import HeaderReader, Match, folded, looks_like_unit
from speccheck.schedule.labelled import is_title_block
from speccheck.schedule.mapping import ScheduleMapping
from speccheck.schedule.paired_columns import find_paired_columns

_FIGURE = re.compile(r"\d")
_LETTERS = re.compile(r"[A-Z]{1,3}")
_END = re.compile(r"from|to|thru|through|min(?:imum|\.)?|max(?:imum|\.)?", re.IGNORECASE)
_TITLE_WITHIN = 6
FIRST_HEADER_WITHIN = 60
FEWEST_TERMS = 2
FEWEST_TERMS_LATER = 3


@dataclass(frozen=True)
class Header:
    """The header of one table: its first and last row, and by column the words and what they name.

    `places` is the cell, by column, that holds the lowest words of the header; `across` are the columns that stand for
    one size, service or place each.
    """

    first: int
    last: int
    titles: Mapping[int, str]
    matches: Mapping[int, Match]
    places: Mapping[int, tuple[int, int]]
    across: Mapping[int, CrossColumn] = field(default_factory=dict)

    @property
    def terms(self) -> int:
        """How many different terms the header names."""
        return len({match.name for match in self.matches.values()})

    def repeats(self, other: Header) -> bool:
        """Whether this is another header over again, as at the top of a second page."""
        return {folded(title) for title in self.titles.values()} == {folded(title) for title in other.titles.values()}


def find_headers(grid: Grid, reader: HeaderReader, mapping: ScheduleMapping) -> list[Header]:
    """Return the headers of a sheet from the top down; none where no row reads as one.

    The surest is the best among the first filled rows; any other, above or below, needs more names than that, or has to
    repeat it.
    """
    if mapping.header_rows:
        rows = tuple(range(min(mapping.header_rows) - 1, max(mapping.header_rows)))
        stated = header_of(grid, rows, reader, mapping, letters=True)
        return [stated] if stated.matches else []
    first = _first_header(grid, reader, mapping)
    if first is None:
        return []
    found = _others(grid, first, reader, mapping)
    ends = [_last_row(grid, each) for each in found]
    return [
        header_of(grid, tuple(range(each.first, end + 1)), reader, mapping, letters=True)
        for each, end in zip(found, ends, strict=True)
    ]


def _last_row(grid: Grid, header: Header) -> int:
    """Return the last row of a header: one more where that stands only under headings merged over several columns, or
    holds nothing but the ends of ranges, or units.

    "Thickness" over "Indoor" and "Outdoor" is one header, although neither of these words is a term. "From" and "To"
    are ends, merged or not.
    """
    last = header.last
    below = grid.columns_by_row.get(last + 1, ())
    blocks = [grid.block_at(last, column) for column in below]
    merged = all(block is not None and block.right > block.left for block in blocks)
    if len(below) > 1 and (merged or all(_END.fullmatch(grid.text(last + 1, column).strip()) for column in below)):
        last += 1
    units = grid.columns_by_row.get(last + 1, ())
    return last + 1 if units and all(looks_like_unit(_bare(grid.text(last + 1, column))) for column in units) else last


def _bare(text: str) -> str:
    """Return a text without the brackets around it."""
    return text.strip().strip("()[]{}").strip()


def _first_header(grid: Grid, reader: HeaderReader, mapping: ScheduleMapping) -> Header | None:
    """Return the header that names most terms; of such that of a cross table, with most units, of fewest rows."""
    best: tuple[tuple[int, bool, int, int], Header] | None = None
    looked_at: set[int] = set()
    for row in list(grid.columns_by_row)[:FIRST_HEADER_WITHIN]:
        fewest = best[1].terms if best is not None else FEWEST_TERMS
        candidates = _candidates(grid, row, mapping, known=frozenset(looked_at))
        likely = [rows for rows in candidates if _most_terms(grid, rows, reader, mapping) >= fewest]
        if not likely or not _may_be_header(grid, row, reader, mapping):
            continue
        for header in (header_of(grid, rows, reader, mapping) for rows in likely):
            score = _score(header)
            if header.terms >= FEWEST_TERMS and (best is None or score > best[0]):
                best = score, header
        looked_at = {row}
    return best[1] if best is not None else None


def _most_terms(grid: Grid, rows: tuple[int, ...], reader: HeaderReader, mapping: ScheduleMapping) -> float:
    """Return how many terms a header of some rows names at the most, as an index of names tells.

    A column names a term in its own words or by a mapping file; besides, there is what a cross table is of, and what
    its lines are listed by. What a caption says may stand over any column.
    """
    if captions_of(grid, rows, reader):
        return math.inf
    texts = (dict.fromkeys(grid.text(*grid.origin(row, column)) for row in rows) for column in _columns(grid, rows))
    named = sum(reader.may_name(*column) for column in texts)
    return named + len(mapping.columns) + len(reader.vocabulary.tabulated) + len(LISTED)


def _may_be_header(grid: Grid, row: int, reader: HeaderReader, mapping: ScheduleMapping) -> bool:
    """Whether a row could be part of a header: a cell names a term, or two are sizes or values of one term."""
    if is_title_block(grid, row):
        return False
    texts = [grid.text(row, column) for column in grid.columns_by_row[row]]
    if any(reader.match(text) is not None or mapping.key_of(text, None) is not None for text in texts):
        return True
    if sum(_FIGURE.search(text) is not None and _is_band(text) for text in texts) >= FEWEST_TERMS:
        return True
    said = Counter(name for text in texts for name in reader.headings.facts(text))
    return any(times >= FEWEST_TERMS for times in said.values())


def _is_band(text: str) -> bool:
    """Whether a text is a range of nominal sizes."""
    band = read_size_band(text, "inch-pound")
    return not isinstance(band, Misread) and isinstance(band.value, Interval)


def _others(grid: Grid, surest: Header, reader: HeaderReader, mapping: ScheduleMapping) -> list[Header]:
    """Return the surest header with those above and below it, each with as many rows as reads best."""
    titles = {
        folded(grid.text(row, column)) for row in range(surest.first, surest.last + 1) for column in surest.titles
    }
    known = (titles | set(reader.vocabulary.spellings)) - {""}
    found: list[Header] = []
    last = -1
    for row, columns in grid.columns_by_row.items():
        if row == surest.first:
            found, last = [one for one in found if one.last < surest.first] + [surest], surest.last
        if row <= last or len(columns) < FEWEST_TERMS:
            continue
        if not _familiar(grid, row, columns, known, reader) and reader.match(grid.text(row, columns[0])) is None:
            continue
        candidates = _candidates(grid, row, mapping, after=last)
        header = max((header_of(grid, rows, reader, mapping) for rows in candidates), key=_score)
        named = header.terms >= FEWEST_TERMS_LATER and header.terms * 2 > len(header.titles)
        crossed = bool(header.across) and header.terms >= FEWEST_TERMS
        if header.repeats(surest) or named or crossed:
            last = header.last
            found.append(header)
    return found


def _familiar(grid: Grid, row: int, columns: Sequence[int], known: Set[str], reader: HeaderReader) -> bool:
    """Whether half of the cells of a row, and two at least, are names of terms or words of the surest header.

    Cells with figures are spared the whole reading: names hardly have any, and the data of a schedule mostly do.
    """
    familiar = 0
    for column in columns:
        text = grid.text(row, column)
        if folded(text) in known or (not _FIGURE.search(text) and reader.match(text) is not None):
            familiar += 1
    return familiar >= FEWEST_TERMS and familiar * 2 >= len(columns)


def _score(header: Header) -> tuple[int, bool, int, int]:
    """Return what makes one reading of a header better than another."""
    units = sum(bool(match.unit) for match in header.matches.values())
    return header.terms, bool(header.across), units, header.first - header.last


def _candidates(
    grid: Grid, row: int, mapping: ScheduleMapping, after: int = -1, known: frozenset[int] = frozenset()
) -> Iterator[tuple[int, ...]]:
    """Yield the rows of headers that have `row` in them: alone, with the row above, the one or two below, or both.

    What the headers of rows that are `known` already are, with the row below them, is not read once more.
    """
    hidden = frozenset() if mapping.read_hidden else grid.hidden_rows
    filled = {near for near in range(row - 1, row + 3) if near in grid.columns_by_row and near not in hidden}
    filled -= {other for other in (row - 1, row + 1) if is_title_block(grid, other)}
    yield (row,)
    if row - 1 in filled and row - 1 > after and row - 1 not in known:
        yield (row - 1, row)
    if row + 1 in filled:
        yield (row, row + 1)
        if row + 2 in filled and _is_merged(grid, row):
            yield (row, row + 1, row + 2)
        if row - 1 in filled and row - 1 > after:
            yield (row - 1, row, row + 1)


def _is_merged(grid: Grid, row: int) -> bool:
    """Whether a heading of a row is merged over columns or rows, so that there is more of the header below it."""
    return any(grid.block_at(row, column) is not None for column in grid.columns_by_row[row])


def header_of(
    grid: Grid, rows: tuple[int, ...], reader: HeaderReader, mapping: ScheduleMapping, letters: bool = False
) -> Header:
    """Return how `rows` read as one header.

    Columns that the mapping file names by letter count only with `letters`: they say nothing about where a header is.
    """
    titles: dict[int, str] = {}
    matches: dict[int, Match] = {}
    places: dict[int, tuple[int, int]] = {}
    mapped: dict[int, Match] = {}
    parts_of: dict[int, dict[tuple[int, int], str]] = {}
    captions = captions_of(grid, rows, reader) or _title_above(grid, rows[0], reader)
    for column in _columns(grid, rows):
        origins = dict.fromkeys(grid.origin(row, column) for row in rows)
        parts = {origin: " ".join(grid.text(*origin).split()) for origin in origins if grid.text(*origin)}
        own = {origin: text for origin, text in parts.items() if origin not in captions}
        if not own:
            continue
        parts_of[column] = {**captions, **own}
        titles[column] = " / ".join(parts.values())
        places[column] = list(own)[-1]
        found = _mapped(titles[column], column if letters else None, reader, mapping)
        if found is not None:
            mapped[column] = found
            del parts_of[column]
            if found.term is not None and found.term.tabulated:  # it may stand for a size all the same
                parts_of[column] = {(-1, column): f"{found.name} ({found.unit})" if found.unit else found.name, **own}
            continue
        found = reader.match_parts(tuple(own.values())) or reader.match_parts(tuple(parts.values()))
        if found is not None:
            matches[column] = found
    if _holds_data(grid, rows, reader):
        return Header(rows[0], rows[-1], titles, {}, places)
    matches |= {column: match for column, match in mapped.items() if column not in parts_of}
    corners = _corners(grid, rows[-1], matches, parts_of, reader, mapping)
    across = _across(grid, rows[-1], parts_of, matches, reader, mapping.units, frozenset(corners))
    matches |= {column: match for column, match in mapped.items() if column not in across}
    if across and all(matches[column].term is each.axis for column in corners for each in across.values()):
        matches = {column: match for column, match in matches.items() if column not in corners}
        known = {column: match.name for column, match in matches.items()} | dict.fromkeys(across, "")
        sure = bool(corners) or any(
            isinstance(each.value, Interval) or each.axis.of_choices for each in across.values()
        )
        over = {column: " ".join(parts.values()) for column, parts in parts_of.items()}
        listed = first_columns(grid, rows[-1], across, known, over, reader.vocabulary, mapping.units) if sure else ()
        matches |= {column: Match(term, by_cells=True) for column, term in listed}
    matches |= {column: Match(each.measured, each.unit) for column, each in across.items()}
    if letters:
        matches |= {column: Match(term, unit) for column, term, unit in _without_title(titles, reader, mapping)}
        across |= dict(_mapped_columns(grid, titles, matches, places, reader, mapping))
    return Header(rows[0], rows[-1], titles, matches, places, across)


def _holds_data(grid: Grid, rows: Sequence[int], reader: HeaderReader) -> bool:
    """Whether the last of some rows gives a value of what a cell right above it names: "Chilled water" below "Service".

    A heading that is merged over several columns may well stand over values of its term.
    """
    *above, last = rows
    for column in grid.columns_by_row.get(last, ()) if above else ():
        row = next((row for row in reversed(above) if (row, column) in grid.cells), None)
        block = grid.block_at(row, column) if row is not None else None
        match = reader.match(grid.text(row, column)) if row is not None and block is None else None
        if match is not None and match.term is not None and match.term.of_choices:
            value = read_value(grid.text(last, column).strip(), match.term)
            if not isinstance(value, Misread | NotGiven):
                return True
    return False


def _corners(
    grid: Grid,
    last: int,
    matches: Mapping[int, Match],
    parts_of: Mapping[int, Parts],
    reader: HeaderReader,
    mapping: ScheduleMapping,
) -> set[int]:
    """Return the first column where its title names a term of which no cell below it is a value: "Pipe size" over
    services, where sizes stand across."""
    first = min(matches, default=-1)
    term = matches[first].term if first >= 0 and first == min(parts_of, default=-2) else None
    if term is None or not term.tells_apart or term.kind.form is Form.TEXT or len(parts_of) <= FEWEST_TERMS:
        return set()
    return {first} if is_corner(grid, last, first, term, reader.vocabulary, mapping.units) else set()


def captions_of(grid: Grid, rows: Sequence[int], reader: HeaderReader) -> Parts:
    """Return the texts that stand alone in a row above the others and say what a cross table is of, by their cells."""
    alone = (row for row in rows[:-1] if len(grid.columns_by_row.get(row, ())) == 1)
    return {origin: text for row in alone for origin, text in _caption_in(grid, row, reader).items()}


def _title_above(grid: Grid, first: int, reader: HeaderReader) -> Parts:
    """Return the nearest text alone in its row above a header, over nothing but such texts, that says what a cross
    table is of: "PIPE INSULATION THICKNESS (INCHES)"."""
    above = list(takewhile(lambda row: row < first, grid.columns_by_row))[-_TITLE_WITHIN:]
    alone = takewhile(lambda row: len(grid.columns_by_row[row]) == 1, reversed(above))
    return next((caption for row in alone if (caption := _caption_in(grid, row, reader))), {})


def _caption_in(grid: Grid, row: int, reader: HeaderReader) -> Parts:
    """Return the first text of a row by its cell, if it says what a cross table is of."""
    origin = (row, grid.columns_by_row[row][0])
    text = " ".join(grid.text(*origin).split())
    return {origin: text} if names_what_is_tabulated(text, reader) else {}


def _across(
    grid: Grid,
    last: int,
    parts_of: Mapping[int, Parts],
    matches: Mapping[int, Match],
    reader: HeaderReader,
    system: str,
    corners: frozenset[int],
) -> dict[int, CrossColumn]:
    """Return the columns that stand for a size, a service, a place or a material each; what the `corners` name may
    be what stands across."""
    plain = {column for column, match in matches.items() if not match.rest and column not in corners}
    plain -= {
        column for column in plain & parts_of.keys() if is_answer(list(parts_of[column].values())[-1], matches[column])
    }
    parts_of = {column: parts for column, parts in parts_of.items() if column not in corners}
    tabulated = {column for column in plain if (term := matches[column].term) is not None and term.tabulated}
    times = Counter(matches[column].name for column in tabulated)
    taken = frozenset(matches[column].name for column in plain - tabulated)
    open_ = {column: parts for column, parts in parts_of.items() if column not in plain}
    across = {}
    if len(open_) > 1:
        across = find_cross_columns(grid, last, open_, reader, taken | times.keys(), system)
    perhaps = {column: parts for column, parts in parts_of.items() if column in open_ or column in tabulated}
    return across | (find_paired_columns(perhaps, reader, taken, across, times) if perhaps else {})


def _columns(grid: Grid, rows: tuple[int, ...]) -> list[int]:
    """Return the columns over which anything stands in `rows`, merged ranges in their full width."""
    columns: set[int] = set()
    for row in rows:
        for column in grid.columns_by_row.get(row, ()):
            block = grid.block_at(row, column)
            columns.update(range(column, min(block.right, column + 500) + 1) if block is not None else (column,))
    return sorted(columns)


def _mapped(title: str, column: int | None, reader: HeaderReader, mapping: ScheduleMapping) -> Match | None:
    """Return what the mapping file says of a column."""
    key = mapping.key_of(title, column)
    if key is None or key not in mapping.columns:
        return None
    entry = mapping.columns[key]
    term = reader.vocabulary.terms[entry.term]
    by_itself = reader.match(title)
    unit = entry.unit or (by_itself.unit if by_itself is not None and by_itself.term is term else "")
    return Match(term, unit)


def _without_title(
    titles: Mapping[int, str], reader: HeaderReader, mapping: ScheduleMapping
) -> Iterator[tuple[int, Term, str]]:
    """Yield the columns without a header that the mapping file names by their letters."""
    for key, entry in mapping.columns.items():
        column = column_number(key) if _LETTERS.fullmatch(key) else -1
        if column >= 0 and column not in titles:
            yield column, reader.vocabulary.terms[entry.term], entry.unit


def _mapped_columns(
    grid: Grid,
    titles: Mapping[int, str],
    matches: Mapping[int, Match],
    places: Mapping[int, tuple[int, int]],
    reader: HeaderReader,
    mapping: ScheduleMapping,
) -> Iterator[tuple[int, CrossColumn]]:
    """Yield the columns of which the mapping file says what they stand for, as for a size."""
    for column, match in matches.items():
        key = mapping.key_of(titles.get(column, ""), column)
        entry = mapping.columns.get(key) if key is not None else None
        if entry is None or entry.stands_for is None or match.term is None:
            continue
        name, text = entry.stands_for
        axis = reader.vocabulary.terms[name]
        value = read_value(text, axis, BareUnits(system=mapping.units))
        if not isinstance(value, Misread | NotGiven):
            origin = places.get(column, (0, column))
            yield column, CrossColumn(match.term, match.unit, axis, value, titles.get(column, "") or text, origin)
