"""Tables: bands on one or two axes, and the cells that they lead to."""

from __future__ import annotations

from dataclasses import dataclass, field

from speccheck.language.core.amounts import Literal
from speccheck.language.core.sources import Source
from speccheck.language.diagnostics import Place
from speccheck.language.vocabulary.terms import Kind, Term
from speccheck.quantities import Interval, NominalSize, Quantity


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
