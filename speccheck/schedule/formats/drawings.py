"""What a sheet carries beside its cells: comments, pictures, charts, text boxes, embedded documents.

None of it can be read as data. It may bear on what is proposed (a table pasted as a picture, "hold" in a comment), so
a person has to see it before the schedule can be told to comply.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import NamedTuple

from speccheck.english import agree, noun
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.schedule.formats.package_parts import Events, OpenPackage, PartRelation
from speccheck.schedule.grid import column_letters
from speccheck.schedule.lines import Unread, UnreadKind
from speccheck.schedule.messages.tables import (
    COMMENTS_NOT_READ,
    EMBEDDED_NOT_READ,
    NO_SHEET_OF_CELLS,
    PICTURES_NOT_READ,
    STRUCK_ON_CONDITION,
    TEXT_BOX_NOT_READ,
)

_LONGEST_SHOWN = 60
_MOST_NAMED = 10
_EMBEDDED = ("oleObject", "package", "control")


class Beside(NamedTuple):
    """One thing that stands beside the cells: as something to be read by a person, and as a diagnostic."""

    unread: Unread
    diagnostic: Diagnostic


class _Comments(Events):
    """Hears which cells have comments."""

    def __init__(self) -> None:
        self.cells: set[str] = set()

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        if tag in ("comment", "threadedComment"):
            self.cells.add(attributes.get("ref", "").upper())


class _Drawing(Events):
    """Hears a drawing: the cells at which pictures and charts begin, and the words in shapes."""

    def __init__(self) -> None:
        self.pictures: list[str] = []
        self.texts: list[tuple[str, str]] = []
        self._within: list[str] = []
        self._corner = {"row": "0", "col": "0"}
        self._words: list[str] = []

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        self._within.append(tag)
        if tag in ("twoCellAnchor", "oneCellAnchor", "absoluteAnchor"):
            self._corner, self._words = {"row": "0", "col": "0"}, []
        elif tag in ("pic", "graphicFrame"):
            self.pictures.append(self._cell)

    def characters(self, text: str) -> None:
        if self._within[-1:] == ["t"]:
            self._words.append(text)
        elif self._within[-2:-1] == ["from"] and self._within[-1] in self._corner:
            self._corner[self._within[-1]] = text.strip()

    def end(self, tag: str) -> None:
        self._within.pop()
        if tag == "p":
            self._words.append(" ")
        elif tag in ("twoCellAnchor", "oneCellAnchor", "absoluteAnchor"):
            words = " ".join("".join(self._words).split())
            if words:
                self.texts.append((self._cell, words))

    @property
    def _cell(self) -> str:
        row, column = self._corner["row"], self._corner["col"]
        if not (row.isdecimal() and column.isdecimal() and int(column) < 16_384):
            return "A1"
        return f"{column_letters(int(column))}{int(row) + 1}"


def beside_the_cells(package: OpenPackage, sheet: PartRelation, place: Place) -> list[Beside]:
    """Return what a sheet carries beside its cells, comments first, then by the cells at which it stands."""
    comments, drawing = _Comments(), _Drawing()
    embedded = 0
    for relation in package.relations(sheet.target):
        if relation.kind in ("comments", "threadedComment", "threadedComments") and package.has(relation.target):
            package.parse(relation.target, comments)
        elif relation.kind == "drawing" and package.has(relation.target):
            package.parse(relation.target, drawing)
        embedded += relation.kind in _EMBEDDED
    return [
        *_comments(comments.cells, place),
        *_pictures(drawing.pictures, place),
        *_texts(drawing.texts, place),
        *_others(sheet, embedded, place),
    ]


def _comments(cells: set[str], place: Place) -> Iterator[Beside]:
    """Yield the comments of a sheet, as one."""
    if cells:
        listed = sorted(cells, key=lambda cell: (len(cell), cell))
        number = len(listed)
        said = COMMENTS_NOT_READ.at(
            replace(place, cell=listed[0]),
            comments=noun(number, "comment"),
            cells=_named(listed),
            were=agree(number, "was", "were"),
        )
        yield _beside(UnreadKind.OTHER, said)


def _pictures(cells: list[str], place: Place) -> Iterator[Beside]:
    """Yield the pictures and charts of a sheet, as one."""
    if cells:
        number = len(cells)
        said = PICTURES_NOT_READ.at(
            replace(place, cell=cells[0]),
            pictures=noun(number, "picture"),
            cells=_named(cells),
            were=agree(number, "was", "were"),
        )
        yield _beside(UnreadKind.PICTURE, said)


def _named(cells: list[str]) -> str:
    """Return the names of the first of some cells, and whether there are more."""
    return ", ".join(cells[:_MOST_NAMED]) + (" and more" if len(cells) > _MOST_NAMED else "")


def _texts(texts: list[tuple[str, str]], place: Place) -> Iterator[Beside]:
    """Yield each text box of a sheet."""
    for cell, words in texts:
        shown = words if len(words) <= _LONGEST_SHOWN else f"{words[:_LONGEST_SHOWN]}..."
        yield _beside(UnreadKind.OTHER, TEXT_BOX_NOT_READ.at(replace(place, cell=cell), text=shown))


def _others(sheet: PartRelation, embedded: int, place: Place) -> Iterator[Beside]:
    """Yield what else a sheet carries, or is."""
    if embedded:
        yield _beside(UnreadKind.OTHER, EMBEDDED_NOT_READ.at(place))
    if sheet.kind != "worksheet":
        yield _beside(UnreadKind.OTHER, NO_SHEET_OF_CELLS.at(place, sheet=place.sheet))


def struck_on_condition(ranges: Iterable[str], place: Place) -> Iterator[Beside]:
    """Yield that a sheet strikes cells through where a condition holds, as one."""
    cells = ", ".join(dict.fromkeys(" ".join(ranges).split()))
    if cells:
        at = replace(place, cell=cells.partition(":")[0].partition(",")[0])
        yield _beside(UnreadKind.OTHER, STRUCK_ON_CONDITION.at(at, cells=cells))


def _beside(kind: UnreadKind, said: Diagnostic) -> Beside:
    """Return something that was not read, and the warning that says so."""
    return Beside(Unread(kind, said.message, said.place), said)
