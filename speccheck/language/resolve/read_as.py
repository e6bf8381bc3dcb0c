"""Tables read as if some terms had other values than the line's: the part of the table that is left, as a table."""

from __future__ import annotations

from dataclasses import replace
from itertools import product

from speccheck.english import nearest
from speccheck.language.core import Amount, Axis, Band, Literal, Lookup, Table
from speccheck.language.core.wording import value_text
from speccheck.language.diagnostics import Diagnostic
from speccheck.language.messages.meaning import NO_TABLE, TO_READ_AS_NO_VALUE
from speccheck.language.messages.tables import IN_NO_BAND, NO_CELL_TO_READ_AS, TABLE_NOT_READ_BY
from speccheck.language.resolve.literals import resolve_literal
from speccheck.language.resolve.names import Names
from speccheck.language.syntax.tree import Measure, ReadAsSyntax, Words
from speccheck.language.vocabulary.terms import Form, Term, fold
from speccheck.language.vocabulary.values import Single

_At = Single | Term
"""At what an axis is read: a value, or another term of the line."""


def resolve_read_as(names: Names, syntax: ReadAsSyntax) -> Amount | None:
    """Return what is left of a table, or the one cell that is, or None after errors were reported."""
    table = names.table(syntax.table.text)
    if table is None:
        if fold(syntax.table.text) not in names.broken:
            names.tell(
                NO_TABLE,
                syntax.table.place,
                near=nearest(syntax.table.text, [one.name for one in names.tables.values()]),
                table=syntax.table.text,
            )
        return None
    chosen: dict[int, _At] = {}
    for words, value in syntax.values:
        at = _axis_of(names, table, words)
        read_at = None if at is None else _read_at(names, table.axes[at], value)
        if at is None or read_at is None:
            return None
        chosen[at] = read_at
    told = " and ".join(f"as if {words.text} is {value.text}" for words, value in syntax.values)
    return _cut(names, syntax, table, chosen, f"{table.name} read {told}")


def _axis_of(names: Names, table: Table, words: Words) -> int | None:
    term = names.term(words.text)
    found = next((at for at, axis in enumerate(table.axes) if axis.term == term), None)
    if found is None:
        read_by = [axis.term.name for axis in table.axes]
        names.tell(
            TABLE_NOT_READ_BY,
            words.place,
            near=nearest(words.text, read_by),
            table=table.name,
            words=words.text,
            read_by=", ".join(read_by),
        )
    return found


def _read_at(names: Names, axis: Axis, value: Words | Measure) -> _At | None:
    """Return at what an axis is read instead: a value that lies in one of its bands, or another term of its kind."""
    if isinstance(value, Words):
        other = names.term(value.text)
        if other is not None and other.kind == axis.term.kind and not axis.term.of_choices:
            return other
    found = _value(names, axis.term, value)
    if found is not None and _band_of(found, axis) is None:
        bands = ", ".join(f"`{band.text}`" for band in axis.bands)
        names.tell(IN_NO_BAND, value.place, value=value.text, term=axis.term.name, bands=bands)
        return None
    return found


def _value(names: Names, term: Term, value: Words | Measure) -> Single | None:
    if term.kind.form is Form.YES_NO and value.text in ("yes", "no"):
        return value.text == "yes"
    if term.kind.form is Form.CHOICE and isinstance(value, Words) and fold(value.text) in term.choice_names:
        return term.choice_names[fold(value.text)]
    if isinstance(value, Measure):
        literal = resolve_literal(value, term.kind, names.source)
        if isinstance(literal, Diagnostic):
            names.report(literal)
            return None
        return literal.value
    names.tell(
        TO_READ_AS_NO_VALUE,
        value.place,
        near=nearest(value.text, [choice.name for choice in term.choices]),
        value=value.text,
        term=term.name,
    )
    return None


def _band_of(value: Single, axis: Axis) -> int | None:
    """Return the position of the band in which a value lies."""

    def holds(band: Band) -> bool:
        if band.interval is None:
            return (("yes" if value else "no") if isinstance(value, bool) else value) in band.choices
        return band.interval.contains(value)  # type: ignore[arg-type]

    return next((at for at, band in enumerate(axis.bands) if holds(band)), None)


def _cut(names: Names, syntax: ReadAsSyntax, table: Table, chosen: dict[int, _At], name: str) -> Amount | None:
    """Return the table without the axes that are read at a value, or its one cell."""
    fixed = {
        at: band
        for at, value in chosen.items()
        if not isinstance(value, Term) and (band := _band_of(value, table.axes[at])) is not None
    }
    axes = []
    for at, axis in enumerate(table.axes):
        other = chosen.get(at)
        if at not in fixed:
            axes.append(replace(axis, term=other) if isinstance(other, Term) else axis)
    places = _places(table, fixed)
    if not axes:
        row, column = places[0][0]
        cell = table.cells[row][column]
        if cell is None:
            told = table.word(row, column) or f"nothing at {value_text(name)}"
            names.tell(NO_CELL_TO_READ_AS, syntax.place, table=table.name, values=told)
            return None
        return Literal(cell.value, cell.kind, syntax.place)
    cells = tuple(tuple(table.cells[row][column] for row, column in places_of_row) for places_of_row in places)
    words = tuple(tuple(table.word(row, column) for row, column in places_of_row) for places_of_row in places)
    left = replace(table, name=name, axes=tuple(axes), cells=cells, words=words, cut_from=table.whole)
    return Lookup(left if any(map(any, words)) else replace(left, words=()), syntax.place)


def _places(table: Table, fixed: dict[int, int]) -> list[list[tuple[int, int]]]:
    """Return the rows and columns of the cells that are left, in rows as the table that is left has them."""
    ranges = [[fixed[at]] if at in fixed else range(len(axis.bands)) for at, axis in enumerate(table.axes)]
    free = [at for at in range(len(table.axes)) if at not in fixed]
    width = len(table.axes[free[-1]].bands) if len(free) > 1 else 1
    found = [table.place_of(positions) for positions in product(*ranges)]
    return [found[start : start + width] for start in range(0, len(found), width)]
