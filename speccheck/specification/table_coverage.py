"""Tables of a section held against those of a ruleset: which stands for which, and the cells that differ."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from speccheck.language.core import Band, CellWord, Literal, Ruleset, Table
from speccheck.language.core.wording import value_text
from speccheck.specification.blocks import SectionTable
from speccheck.specification.differing import Difference, Differs
from speccheck.specification.tables import tables_in

# How much of the bands of a table has to be that of the other, so that the one is held to stand for the other.
ALIKE = 0.5

_Cell = Literal | CellWord | None


@dataclass(frozen=True, slots=True)
class TableCoverage:
    """A table of a section, the table of the ruleset that stands for it ("" for none), and what differs.

    `unread` says why the table of the section could not be read, "" where it was.
    """

    table: SectionTable
    name: str = ""
    differs: tuple[Differs, ...] = ()
    unread: str = ""


def table_coverage(tables: Iterable[SectionTable], ruleset: Ruleset) -> Iterator[TableCoverage]:
    """Yield what becomes of each table of a section under a ruleset."""
    left = [one for one in ruleset.tables.values() if one.ruleset in ("", ruleset.name)]
    for table in tables:
        read, doubts = tables_in(table, ruleset.vocabulary)
        if not read:
            yield TableCoverage(table, unread="; ".join(doubts))
        for one in read:
            found = max(left, key=lambda other: _likeness(one, other), default=None)
            if found is None or _likeness(one, found) < ALIKE:
                yield TableCoverage(table)
                continue
            left.remove(found)
            yield TableCoverage(table, found.name, tuple(_cells(one, found)))


def _cells(section: Table, ruleset: Table) -> Iterator[Differs]:
    """Yield the cells of a table of the section that the ruleset has otherwise, or not at all, and the reverse."""
    then, now = dict(_by_bands(section)), dict(_by_bands(ruleset))
    for bands, (place, cell) in then.items():
        other = now.get(bands)
        if other is None:
            yield Differs(
                ruleset.name, Difference.CELL, f"the section has {_told(cell)} at {place}, the table no such cell"
            )
        elif _value(cell) != _value(other[1]):
            words = f"at {place} the section has {_told(cell)}, the table {_told(other[1])}"
            yield Differs(ruleset.name, Difference.CELL, words)
    for bands, (place, cell) in now.items():
        if bands not in then:
            yield Differs(ruleset.name, Difference.CELL, f"the section has no cell at {place}, the table {_told(cell)}")


def _by_bands(table: Table) -> Iterator[tuple[frozenset[object], tuple[str, _Cell]]]:
    """Yield each cell with its place in words, by the meaning of its bands whichever way round the table is."""
    for row, cells in enumerate(table.cells):
        for column, cell in enumerate(cells):
            found = table.bands_at(row, column)
            bands = [(axis.term.name, band) for axis, band in zip(table.axes, found, strict=True)]
            place = ", ".join(band.text for _, band in bands)
            told = cell or table.word(row, column)
            yield frozenset((term, _meaning(band)) for term, band in bands), (place, told)


def _meaning(band: Band) -> object:
    return band.interval or frozenset(band.choices)


def _likeness(one: Table, other: Table) -> float:
    """Return the share of the bands of two tables that both have, 0 where they are read by other terms."""
    if {axis.term.name for axis in one.axes} != {axis.term.name for axis in other.axes}:
        return 0.0
    here, there = _bands(one), _bands(other)
    return len(here & there) / max(len(here | there), 1)


def _bands(table: Table) -> set[tuple[str, object]]:
    return {(axis.term.name, _meaning(band)) for axis in table.axes for band in axis.bands}


def _value(cell: _Cell) -> object:
    return cell.value if isinstance(cell, Literal) else cell


def _told(cell: _Cell) -> str:
    return value_text(cell.value) if isinstance(cell, Literal) else f"`{cell}`" if cell else "no value"
