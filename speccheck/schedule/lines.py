"""Lines: what a schedule says, one proposed system a line, each datum with the words that say it and their place."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import NamedTuple

from speccheck.language.diagnostics import NOWHERE, Diagnostic, Place
from speccheck.language.vocabulary.values import NotGiven, Value


class Spot(NamedTuple):
    """Where a cell stands on paper: the page, from 1, and a rectangle in points from the upper left corner."""

    page: int
    left: float
    top: float
    right: float
    bottom: float


@dataclass(frozen=True, slots=True)
class Datum:
    """One value of one line: what was understood, the words it was read from, where they stand.

    `note` says what was done to understand them ("repeated from the line above", "unit from the column header").
    `inferred` says that the words do not stand on the line itself: they come from what stands around it.
    `units_assumed` is the system of units in which a number was read for which nothing states a unit, otherwise "".
    `listed` are the values that its cell lists one by one: each is one of a line of its own.
    """

    value: Value | NotGiven
    text: str = ""
    place: Place = NOWHERE
    note: str = ""
    inferred: bool = False
    units_assumed: str = ""
    listed: tuple[Value, ...] = ()


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a schedule: its name in the schedule ("12", "CHW-3"), its place, and its data by term name.

    A term without an entry was not stated at all.
    """

    name: str
    data: Mapping[str, Datum]
    place: Place = NOWHERE


@dataclass(frozen=True, slots=True)
class Column:
    """How one column was understood: its place, its header as written, the term that it became ("" if none) and why.

    `unit` is the unit that the header or the mapping file states for bare numbers, canonical spelling, or "".
    """

    place: Place
    header: str
    term: str = ""
    unit: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class Remark:
    """Text of the file that belongs to no line (a title row, a note below the table), kept so that nothing is lost."""

    text: str
    place: Place


class UnreadKind(StrEnum):
    """What a file holds that may bear on its lines, and that was not read as data."""

    REMARK = "remark"
    CELL = "filled cell"
    PICTURE = "picture"
    HIDDEN_SHEET = "hidden sheet"
    HIDDEN_LINES = "hidden row or column"
    OTHER = "other content"


@dataclass(frozen=True, slots=True)
class Unread:
    """Something that a person has to read before the schedule can be told to comply.

    `lines` names the lines that it stands on or under; empty, it may bear on any of them.
    """

    kind: UnreadKind
    text: str
    place: Place
    lines: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CellCount:
    """How many filled cells a file has, and how many of them were read, or belong to no line by a stated rule."""

    filled: int
    accounted: int


@dataclass(frozen=True, slots=True, repr=False)
class Schedule:
    """What was understood of a schedule file, and what was not.

    `name` is the file's name without folders, so that reports carry no machine path. `unread` is what keeps the
    schedule from being told to comply until a person has seen it; `cells` is None where cells were not counted.
    `spots` has, for what was read from a PDF, where each cell stands on paper, blank cells between rules too.
    """

    name: str
    lines: tuple[Line, ...]
    columns: tuple[Column, ...] = ()
    remarks: tuple[Remark, ...] = ()
    diagnostics: tuple[Diagnostic, ...] = ()
    unread: tuple[Unread, ...] = ()
    cells: CellCount | None = None
    spots: Mapping[Place, Spot] = field(default_factory=dict)

    def __repr__(self) -> str:
        return f"<Schedule {self.name}: {len(self.lines)} lines, {len(self.diagnostics)} diagnostics>"
