"""Tables resolved: headings and cells read as values, and checked so that no value falls into two bands."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations
from math import prod
from typing import Any

from speccheck.english import count
from speccheck.language.core import Axis, Band, CellWord, Literal, Table
from speccheck.language.core.tables import MOST_AXES
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.messages.meaning import EMPTY_BAND, NO_UNIT
from speccheck.language.messages.tables import (
    BANDS_SHARE_ENDS,
    CELLS_OF_NO_VALUE,
    COLUMNS_NOT_NAMED,
    COLUMNS_WITHOUT_TERM,
    NO_ROW,
    NOT_A_BAND,
    NOT_A_CELL,
    NOT_AN_ANSWER_BAND,
    ROW_LENGTH,
    ROW_TWICE,
    TABLE_CANNOT_BE_READ_BY,
    TOO_MANY_AXES,
    VALUE_IN_TWO_BANDS,
)
from speccheck.language.resolve.amounts import resolve_choice, resolve_choices
from speccheck.language.resolve.clauses import sources_of, texts_of
from speccheck.language.resolve.literals import amount_of, resolve_literal
from speccheck.language.resolve.names import Names
from speccheck.language.syntax.tree import BandSyntax, CellWords, Measure, TableRow, TableSyntax, Words
from speccheck.language.vocabulary.terms import CHOICE, NUMBER, Form, Kind, Term, quantity_kind
from speccheck.quantities import Interval, canonical_unit, unit_dimensions

# For each form of band: whether its values are the low end, the high end or both, and which ends belong to it.
BAND_ENDS = {
    "under": ("high", True, False),
    "up to": ("high", True, True),
    "only": ("same", True, True),
    "to": ("both", True, True),
    "to under": ("both", True, False),
    "over to": ("both", False, True),
    "over to under": ("both", False, False),
    "and over": ("low", True, True),
    "over": ("low", False, True),
}


def resolve_axes(names: Names, syntax: TableSyntax, terms: list[Term]) -> tuple[Axis, ...] | None:
    """Return the axes of a table, one for each of `terms`, or None after errors of their bands were reported.

    Where several go down, a heading can stand in several rows, in the same words each time.
    """
    down = max(1, len(terms) - 1)
    headings = [*([row.bands[at] for row in syntax.rows] for at in range(down)), list(syntax.columns)]
    axes = []
    for at, (term, bands) in enumerate(zip(terms, headings, strict=False)):
        written = [*{band.text: band for band in bands}.values()] if at < down and down > 1 else bands
        resolved = [_band(names, band, term) for band in written]
        whole = tuple(band for band in resolved if band is not None)
        if len(whole) < len(written) or not _apart(names, whole):
            return None
        axes.append(Axis(term, whole))
    return tuple(axes)


def _band(names: Names, syntax: BandSyntax, term: Term) -> Band | None:
    if term.kind.form is Form.YES_NO:
        return _answer_band(names, syntax, term)
    if term.kind.form is Form.CHOICE:
        found = [
            resolve_choices(names, value if isinstance(value, Words) else Words(value.text, value.place), term)
            for value in syntax.values
        ]
        choices = tuple(choice for several in found for choice in several)
        return Band(syntax.text, choices=choices, place=syntax.place) if all(found) else None
    if syntax.form == "choices":
        names.tell(NOT_A_BAND, syntax.place, heading=syntax.text, term=term.name, kind=term.kind.described)
        return None
    values: list[Any] = []
    for value in syntax.values:
        assert isinstance(value, Measure), value
        literal = resolve_literal(value, term.kind, names.source)
        if isinstance(literal, Diagnostic):
            names.report(literal)
            return None
        values.append(literal.value)
    interval = _interval(syntax.form, values)
    if _is_empty(interval):
        names.tell(EMPTY_BAND, syntax.place, heading=syntax.text)
        return None
    return Band(syntax.text, interval, place=syntax.place)


def _answer_band(names: Names, syntax: BandSyntax, term: Term) -> Band | None:
    """Return the band of an answer to a yes-or-no term, which is yes or no."""
    if syntax.text not in ("yes", "no"):
        names.tell(NOT_AN_ANSWER_BAND, syntax.place, heading=syntax.text, term=term.name, kind=term.kind.described)
        return None
    return Band(syntax.text, choices=(syntax.text,), place=syntax.place)


def _interval(form: str, values: list[Any]) -> Interval[Any]:
    ends, low_closed, high_closed = BAND_ENDS[form]
    low = None if ends == "high" else values[0]
    high = None if ends == "low" else values[-1]
    return Interval(low, high, low_closed, high_closed)


def _is_empty(interval: Interval[Any]) -> bool:
    """Say whether no value lies between the two ends."""
    if interval.low is None or interval.high is None:
        return False
    low, high = amount_of(interval.low), amount_of(interval.high)
    return low > high or (low == high and not (interval.low_closed and interval.high_closed))


def _apart(names: Names, bands: tuple[Band, ...]) -> bool:
    """Check that no value lies in two of the bands."""
    clear = True
    for first, second in combinations(bands, 2):
        shared = set(first.choices) & set(second.choices)
        if shared or (first.interval and second.interval and _overlap(first.interval, second.interval)):
            said = VALUE_IN_TWO_BANDS if shared else BANDS_SHARE_ENDS
            names.tell(said, second.place, first=first.text, second=second.text)
            clear = False
    return clear


def _overlap(first: Interval[Any], second: Interval[Any]) -> bool:
    """Say whether two intervals share a value."""
    return _reaches(first, second) and _reaches(second, first)


def _reaches(lower: Interval[Any], upper: Interval[Any]) -> bool:
    """Say whether the high end of `lower` lies at or above the low end of `upper`, so that they could meet."""
    if lower.high is None or upper.low is None:
        return True
    high, low = amount_of(lower.high), amount_of(upper.low)
    return high > low or (high == low and lower.high_closed and upper.low_closed)


_Row = tuple[tuple[Literal | None, CellWord | None], ...]
UNREADABLE = (Form.SET, Form.TEXT)
NO_CELLS = (*UNREADABLE, Form.YES_NO)


def resolve_table(names: Names, syntax: TableSyntax, ruleset: str) -> Table | None:
    """Return the table that `syntax` means, or None after its errors were reported."""
    terms = _terms(names, syntax)
    if terms is None or not _shape_fits(names, syntax):
        return None
    kind, of = _kind_of_cells(names, syntax)
    axes = resolve_axes(names, syntax, terms)
    if kind is None:
        return None
    unit = canonical_unit(syntax.unit.text) or "" if syntax.unit else ""
    written = [tuple((_cell(names, one, kind, of, unit), _word(one)) for one in row.cells) for row in syntax.rows]
    places = None if axes is None or not syntax.whole else _row_places(names, syntax, axes)
    if axes is None or places is None:
        return None
    rows = _in_place(written, places, axes)
    words = tuple(tuple(word for _, word in row) for row in rows)
    return Table(
        syntax.name.text,
        kind,
        axes,
        tuple(tuple(cell for cell, _ in row) for row in rows),
        words if any(any(row) for row in words) else (),
        unit,
        of,
        sources_of(syntax.parts),
        texts_of(syntax.parts, "caution"),
        texts_of(syntax.parts, "note"),
        ruleset,
        syntax.place,
    )


def _row_places(names: Names, syntax: TableSyntax, axes: tuple[Axis, ...]) -> list[int] | None:
    """Return which row of the table each written row is, or None after rows that stand twice were reported."""
    found: dict[int, TableRow] = {}
    for row in syntax.rows:
        place = 0
        for axis, band in zip(axes, row.bands, strict=False):
            place = place * len(axis.bands) + [one.text for one in axis.bands].index(band.text)
        if place in found:
            names.tell(ROW_TWICE, row.place, headings=" | ".join(band.text for band in row.bands))
            return None
        found[place] = row
    return list(found)


def _in_place(rows: Sequence[_Row], places: Sequence[int], axes: Sequence[Axis]) -> tuple[_Row, ...]:
    """Return the written rows where they belong, with empty ones for the combinations that are not written."""
    count = prod(len(axis.bands) for axis in axes[: max(1, len(axes) - 1)])
    written = dict(zip(places, rows, strict=True))
    empty = ((None, None),) * (len(axes[-1].bands) if len(axes) > 1 else 1)
    return tuple(written.get(at, empty) for at in range(count))


def _terms(names: Names, syntax: TableSyntax) -> list[Term] | None:
    """Return the terms that the table is read by, or None after reporting what none can be read by."""
    terms = []
    for axis in syntax.axes:
        term = names.term(axis.text)
        if term is None:
            names.unknown(axis)
        elif term.kind.form in UNREADABLE:
            names.tell(TABLE_CANNOT_BE_READ_BY, axis.place, term=term.name, kind=term.kind.described)
        else:
            terms.append(term)
    return terms if len(terms) == len(syntax.axes) else None


def _shape_fits(names: Names, syntax: TableSyntax) -> bool:
    """Check the number of axes, and the length of the rows where all headings could be read."""
    if len(syntax.axes) > MOST_AXES:
        names.tell(TOO_MANY_AXES, syntax.axes[MOST_AXES].place, most=MOST_AXES)
        return False
    if not syntax.whole:
        return bool(syntax.rows)
    if len(syntax.axes) > 1 and not syntax.columns:
        blanks = "`|`" if len(syntax.axes) == 2 else f"{len(syntax.axes) - 1} empty headings, each with a `|` behind it"
        names.tell(COLUMNS_NOT_NAMED, syntax.axes[1].place, blanks=blanks)
        return False
    if len(syntax.axes) == 1 and syntax.columns:
        names.tell(COLUMNS_WITHOUT_TERM, syntax.axes[0].place)
        return False
    if not syntax.rows:
        names.tell(NO_ROW, syntax.name.place)
    return bool(syntax.rows) and _rows_fit(names, syntax)


def _rows_fit(names: Names, syntax: TableSyntax) -> bool:
    width = len(syntax.columns) or 1
    wrong = [row for row in syntax.rows if len(row.cells) != width]
    for row in wrong:
        names.tell(ROW_LENGTH, row.place, cells=count(len(row.cells), "cell"), columns=count(width, "column"))
    return not wrong


def _kind_of_cells(names: Names, syntax: TableSyntax) -> tuple[Kind | None, Term | None]:
    if syntax.of is not None:
        term = names.term(syntax.of.text)
        if term is None:
            names.unknown(syntax.of)
        elif term.kind.form in NO_CELLS:
            names.tell(CELLS_OF_NO_VALUE, syntax.of.place, term=term.name, kind=term.kind.described)
        return (term.kind if term and term.kind.form not in NO_CELLS else None), term
    if syntax.unit is not None:
        dimensions = unit_dimensions(syntax.unit.text)
        if not dimensions:
            names.tell(NO_UNIT, syntax.unit.place, unit=syntax.unit.text)
            return None, None
        return quantity_kind(dimensions[0]), None
    first = next((cell for row in syntax.rows for cell in row.cells if isinstance(cell, Measure)), None)
    literal = resolve_literal(first, None, names.source) if first is not None else None
    return (literal.kind if isinstance(literal, Literal) else NUMBER), None


def _word(cell: Words | Measure | CellWords | None) -> CellWord | None:
    return CellWord(cell.text) if isinstance(cell, CellWords) else None


def _cell(
    names: Names, cell: Words | Measure | CellWords | None, kind: Kind, of: Term | None, unit: str
) -> Literal | None:
    if cell is None or isinstance(cell, CellWords):
        return None
    if kind.form is Form.CHOICE and of is not None:
        words = cell if isinstance(cell, Words) else Words(cell.text, cell.place)
        choice = resolve_choice(names, words, of)
        return Literal(choice, CHOICE, cell.place) if choice is not None else None
    if isinstance(cell, Words):
        names.tell(NOT_A_CELL, cell.place, cell=cell.text, kind=kind.described)
        return None
    literal = resolve_literal(cell, kind, names.source, bare_unit=unit)
    if isinstance(literal, Diagnostic):
        names.report(literal)
        return None
    return literal
