"""Tables: bands on one or more axes, and the cells that they lead to."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from enum import StrEnum

from speccheck.language.core.amounts import Literal
from speccheck.language.core.sources import Source
from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Form, Kind, Term
from speccheck.quantities import Interval, NominalSize, Quantity

MOST_AXES = 5
"""By how many terms a table is read at most."""
_PUBLISHED = re.compile(r".*?\b[Tt]able [A-Z]?\d[\w.-]*\w|.*?\b[Tt]able \d\b")


@dataclass(frozen=True, slots=True)
class Band:
    """One row or column heading of a table: an interval of amounts, or a list of choices, and its words.

    The choices of an axis by a yes-or-no term are "yes" and "no".
    """

    text: str
    interval: Interval[Quantity] | Interval[NominalSize] | Interval[float] | None = None
    choices: tuple[str, ...] = ()
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Axis:
    """What a table is read by: a term and its bands in the order in which they are written."""

    term: Term
    bands: tuple[Band, ...]


class CellWord(StrEnum):
    """What a cell can say instead of a value: that nothing meets it, or that nothing is asked."""

    NOT_PERMITTED = "not permitted"
    NOTHING_REQUIRED = "nothing required"


@dataclass(frozen=True, slots=True)
class Table:
    """A table with one or more axes; `cells[row][column]` is None where the table has a dash (not covered).

    The last of several axes goes across; of the others each combination of bands is a row, those of the last of them
    next to one another. A table with one axis has one column. `of` is the term from whose list the cells are taken,
    where they are choices. `words[row][column]` is what a cell says that has no value; it is empty where none does.
    `cut_from` is the table of which this one is a part, read as if some terms had other values than the line's.
    """

    name: str
    kind: Kind
    axes: tuple[Axis, ...]
    cells: tuple[tuple[Literal | None, ...], ...]
    words: tuple[tuple[CellWord | None, ...], ...] = ()
    unit: str = ""
    of: Term | None = None
    sources: tuple[Source, ...] = ()
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    ruleset: str = ""
    place: Place = field(default=Place(), compare=False)
    cut_from: Table | None = None

    @property
    def whole(self) -> Table:
        """The table as it is written."""
        return self.cut_from or self

    @property
    def down(self) -> tuple[Axis, ...]:
        """The axes whose bands name the rows."""
        return self.axes[:-1] if len(self.axes) > 1 else self.axes

    @property
    def across(self) -> Axis | None:
        """The axis whose bands name the columns; None where there is one column."""
        return self.axes[-1] if len(self.axes) > 1 else None

    def positions(self, row: int, column: int) -> tuple[int, ...]:
        """Return which band of each axis leads to a cell."""
        found = [] if self.across is None else [column]
        for axis in reversed(self.down):
            row, position = divmod(row, len(axis.bands))
            found.append(position)
        return tuple(reversed(found))

    def place_of(self, positions: Sequence[int]) -> tuple[int, int]:
        """Return the row and the column of the cell to which a band of each axis leads."""
        row = 0
        for axis, position in zip(self.down, positions, strict=False):
            row = row * len(axis.bands) + position
        return row, positions[-1] if self.across is not None else 0

    def bands_at(self, row: int, column: int) -> tuple[Band, ...]:
        """Return the bands that lead to a cell, one of each axis."""
        return tuple(axis.bands[at] for axis, at in zip(self.axes, self.positions(row, column), strict=True))

    def headings_at(self, row: int, column: int) -> tuple[str, ...]:
        """Return the headings that lead to a cell in words; an answer with the term that it answers."""
        bands = zip(self.axes, self.bands_at(row, column), strict=True)
        return tuple(
            f"{axis.term.name} {band.text}" if axis.term.kind.form is Form.YES_NO else band.text for axis, band in bands
        )

    def filled(self) -> Iterator[tuple[int, int, Literal]]:
        """Yield the cells that have a value, each with its row and its column."""
        for row, cells in enumerate(self.cells):
            yield from ((row, column, cell) for column, cell in enumerate(cells) if cell is not None)

    def word(self, row: int, column: int) -> CellWord | None:
        """Return what a cell says instead of a value, if anything."""
        return self.words[row][column] if self.words else None

    def saying(self, word: CellWord) -> Iterator[tuple[int, int]]:
        """Yield the rows and columns of the cells that say a word."""
        for row, words in enumerate(self.words):
            yield from ((row, column) for column, said in enumerate(words) if said is word)

    @property
    def published_as(self) -> str:
        """The table as readers know it: "ASHRAE 90.1-2010, Table 6.8.3A", its own name where no source has a table.

        That is its first source up to the number of the table; what the source says behind it is told with the sources.
        """
        found = _PUBLISHED.match(self.sources[0].text) if self.sources else None
        return found[0] if found else self.name
