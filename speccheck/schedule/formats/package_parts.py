"""Zipped packages of XML parts, as .xlsx and .docx files are: which parts there are, and which lead to which.

Parts are found through their relationships (ISO/IEC 29500-2, from memory), never by a fixed name: the standard lets
a part be called anything. Each is parsed by expat, which refuses what is not XML, and no part may declare a document
type, because entities can be made to grow without end.
"""

from __future__ import annotations

import posixpath
import zipfile
import zlib
from collections.abc import Mapping
from pathlib import Path
from types import TracebackType
from typing import NamedTuple, Self
from urllib.parse import unquote

from speccheck.language.diagnostic_rules import Wording
from speccheck.language.diagnostics import Place
from speccheck.schedule.formats.safety import Refused, again
from speccheck.schedule.messages.files import (
    CANNOT_BE_UNPACKED,
    DECLARES_ENTITIES,
    NESTS_TOO_DEEP,
    PART_MISSING,
    PART_NOT_XML,
)

_BROKEN = (zipfile.BadZipFile, zlib.error, OSError, ValueError, NotImplementedError, EOFError, RuntimeError)
MOST_DEPTH = 250


class PartRelation(NamedTuple):
    """What a part leads to: the identity of the relation, its kind ("worksheet"), and the part ("" if outside)."""

    id: str
    kind: str
    target: str


class Events:
    """What a reader of a part wants to hear: elements by their names without prefix, and texts."""

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        """Hear that an element opens; the names of its attributes have no prefix either."""

    def end(self, tag: str) -> None:
        """Hear that an element closes."""

    def characters(self, text: str) -> None:
        """Hear a text; a long one may come in pieces."""


class OpenPackage:
    """A package that is open for reading. Every method raises `Refused` where the file is not what it says."""

    def __init__(self, path: Path) -> None:
        self.name = path.name
        try:
            self._archive = zipfile.ZipFile(path)
        except _BROKEN as error:
            raise self.damaged(CANNOT_BE_UNPACKED) from error
        self._names = {name.lower().lstrip("/").replace("\\", "/"): name for name in self._archive.namelist()}

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self._archive.close()

    def damaged(self, said: Wording, **facts: object) -> Refused:
        """Return the refusal of a damaged file."""
        return Refused(said.at(Place(self.name), near=None, file=self.name, advice=again(self.name), **facts))

    def has(self, part: str) -> bool:
        """Whether there is a part of this name."""
        return part.lower() in self._names

    def bytes_of(self, part: str) -> bytes:
        """Return a part, unpacked to the length that the table of contents states and no further."""
        try:
            return self._archive.read(self._names[part.lower()])
        except KeyError as error:
            raise self.damaged(PART_MISSING) from error
        except _BROKEN as error:
            raise self.damaged(CANNOT_BE_UNPACKED) from error

    def parse(self, part: str, events: Events) -> None:
        """Let a reader hear a part."""
        parse_xml(self.bytes_of(part), events, self)

    def relations(self, part: str) -> tuple[PartRelation, ...]:
        """Return what a part leads to, in its own order; the package itself is the part ""."""
        folder, name = posixpath.split(part)
        part_of_relations = posixpath.join(folder, "_rels", f"{name}.rels")
        if not self.has(part_of_relations):
            return ()
        found = _Relations(folder)
        self.parse(part_of_relations, found)
        return tuple(found.relations)

    def main_part(self) -> str:
        """Return the part that holds the document itself, "" where none is named."""
        found = (relation.target for relation in self.relations("") if relation.kind == "officeDocument")
        return next(found, "")


class _Relations(Events):
    def __init__(self, folder: str) -> None:
        self._folder = folder
        self.relations: list[PartRelation] = []

    def start(self, tag: str, attributes: Mapping[str, str]) -> None:
        if tag == "Relationship":
            outside = attributes.get("TargetMode", "") == "External"
            target = unquote(attributes.get("Target", "").replace("\\", "/"))
            whole = posixpath.normpath(posixpath.join("/" + self._folder, target)).lstrip("/")
            kind = attributes.get("Type", "").rstrip("/").rpartition("/")[2]
            self.relations.append(PartRelation(attributes.get("Id", ""), kind, "" if outside else whole))


def parse_xml(data: bytes, events: Events, package: OpenPackage) -> None:
    """Let a reader hear an XML text. Raises `Refused` where it is not XML, nests too deep or declares entities."""
    from xml.parsers import expat

    parser = expat.ParserCreate()
    parser.buffer_text = True
    parser.buffer_size = 1 << 16
    locals_ = _LocalNames()
    depth = 0

    def start(name: str, attributes: dict[str, str]) -> None:
        nonlocal depth
        depth += 1
        if depth > MOST_DEPTH:
            raise package.damaged(NESTS_TOO_DEEP, most=MOST_DEPTH)
        for key in attributes:
            if ":" in key:
                attributes = {locals_[key]: value for key, value in reversed(attributes.items())}
                break
        events.start(locals_[name], attributes)

    def end(name: str) -> None:
        nonlocal depth
        depth -= 1
        events.end(locals_[name])

    def refuse(*_: object) -> None:
        raise package.damaged(DECLARES_ENTITIES)

    parser.StartElementHandler = start
    parser.EndElementHandler = end
    parser.CharacterDataHandler = events.characters
    parser.StartDoctypeDeclHandler = refuse
    try:
        parser.Parse(data, True)
    except (expat.ExpatError, UnicodeError, LookupError, ValueError) as error:
        raise package.damaged(PART_NOT_XML) from error


class _LocalNames(dict[str, str]):
    """The names without their prefixes."""

    def __missing__(self, name: str) -> str:
        local = self[name] = name.rpartition(":")[2]
        return local
