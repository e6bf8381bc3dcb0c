"""Locating: the file and the line in which a name is defined."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from speccheck.editor.naming import ChoiceOf, Definition, NameAt
from speccheck.language.diagnostics import Place
from speccheck.shipped import shipped_folder

_SHIPPED = "rulesets/"


@dataclass(frozen=True, slots=True)
class Location:
    """A place in a file of this machine: line, column and length as in `Place`."""

    path: Path
    place: Place


def locations(named: NameAt, path: Path) -> tuple[Location, ...]:
    """Return where the things are defined that a name in the file `path` can stand for, as far as it is known."""
    found = (Location(file, place) for place in _places(named) for file in _files(place.file, path) if place.line)
    return tuple(dict.fromkeys(found))


def _places(named: NameAt) -> Iterator[Place]:
    for meaning in named.meanings:
        match meaning:
            case ChoiceOf(_, term):
                yield term.place
            case Definition(_, inner):
                yield inner.place
            case _:
                yield meaning.place


def _files(name: str, path: Path) -> Iterator[Path]:
    """Yield the file that messages call by a name: the text itself, a file beside it, or a shipped one."""
    if name == path.name:
        yield path
    elif name.startswith(_SHIPPED):
        yield shipped_folder("rulesets") / name.removeprefix(_SHIPPED)
    elif (path.parent / name).is_file():
        yield path.parent / name
