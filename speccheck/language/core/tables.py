"""Tables: bands on one or two axes, and the cells that they lead to."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from speccheck.language.core.amounts import Literal
from speccheck.language.core.sources import Source
from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Kind, Term
from speccheck.quantities import Interval, NominalSize, Quantity

_PUBLISHED = re.compile(r".*?\b[Tt]able [A-Z]?\d[\w.-]*\w|.*?\b[Tt]able \d\b")


@dataclass(frozen=True, slots=True)
class Band:
    """One row or column heading of a table: an interval of amounts, or a list of choices, and its words."""

    text: str
    interval: Interval[Quantity] | Interval[NominalSize] | Interval[float] | None = None
    choices: tuple[str, ...] = ()
    place: Place = field(default=Place(), compare=False)


@dataclass(frozen=True, slots=True)
class Axis:
    """What a table is read by: a term and its bands in the order in which they are written."""

    term: Term
    bands: tuple[Band, ...]


@dataclass(frozen=True, slots=True)
class Table:
    """A table with one or two axes; `cells[row][column]` is None where the table has a dash (not covered).

    A table with one axis has one column. `of` is the term from whose list the cells are taken, where they are choices.
    """

    name: str
    kind: Kind
    axes: tuple[Axis, ...]
    cells: tuple[tuple[Literal | None, ...], ...]
    unit: str = ""
    of: Term | None = None
    sources: tuple[Source, ...] = ()
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    ruleset: str = ""
    place: Place = field(default=Place(), compare=False)

    @property
    def published_as(self) -> str:
        """The table as readers know it: "ASHRAE 90.1-2010, Table 6.8.3A", its own name where no source has a table.

        That is its first source up to the number of the table; what the source says behind it is told with the sources.
        """
        found = _PUBLISHED.match(self.sources[0].text) if self.sources else None
        return found[0] if found else self.name
