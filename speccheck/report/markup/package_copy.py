"""A copy of a zipped package of XML parts in which texts are inserted, and everything else stays byte for byte.

Parts are not parsed and written anew: places in them are found by expat, and what is added is put in at those bytes.
The rules of packages are those of ISO/IEC 29500-2, from memory.
"""

from __future__ import annotations

import io
import posixpath
import re
import zipfile
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from xml.parsers import expat
from xml.sax.saxutils import quoteattr

from speccheck.schedule.formats.package_parts import MOST_DEPTH, OpenPackage, PartRelation

_RELATIONS = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_STRICT = "http://purl.oclc.org/ooxml/officeDocument/relationships"
_TYPES = "[Content_Types].xml"
_DECLARED = re.compile(rb"^\s*<\?xml[^>]*encoding=[\"']([A-Za-z0-9_.-]+)[\"'][^>]*\?>")
_TAG = re.compile(rb"(?:[^>\"']++|\"[^\"]*\"|'[^']*')*+>")
_ALWAYS = (1980, 1, 1, 0, 0, 0)  # the first day that a zip archive can state; no clock goes into a copy


@dataclass
class PackageCopy:
    """A package that is being copied: the parts that were added or changed so far, by name."""

    path: Path
    package: OpenPackage
    changed: dict[str, bytes] = field(default_factory=dict)

    @property
    def base(self) -> str:
        """The namespace of relations, which the strict form of the standard calls otherwise."""
        return _STRICT if _STRICT.encode() in self.part("_rels/.rels") else _RELATIONS

    def part(self, name: str) -> bytes:
        """Return a part as it is so far, in UTF-8. Raises `Refused` where there is none."""
        if name in self.changed:
            return self.changed[name]
        return _in_utf8(self.package.bytes_of(name))

    def has(self, name: str) -> bool:
        """Whether there is a part of this name by now."""
        return name in self.changed or self.package.has(name)

    def insert(self, name: str, insertions: Iterable[tuple[int, bytes]]) -> None:
        """Insert texts into a part, each at its place in it as it is so far; several at one place stay in order."""
        self.edit(name, ((at, at, text) for at, text in insertions))

    def edit(self, name: str, edits: Iterable[tuple[int, int, bytes]]) -> None:
        """Put texts in the place of bytes of a part, each from a first byte up to another one."""
        found = self.part(name)
        pieces, last = [], 0
        for start, stop, text in sorted(edits, key=lambda one: one[0]):
            pieces += [found[last:start], text]
            last = stop
        self.changed[name] = b"".join((*pieces, found[last:]))

    def add(self, name: str, content: bytes, kind: str) -> None:
        """Add a part and say of what kind it is."""
        self.changed[name] = content
        self.declare(f"<Override PartName={quoteattr('/' + name)} ContentType={quoteattr(kind)}/>")

    def declare(self, element: str) -> None:
        """Enter an element into the list of the kinds of parts, unless it is there."""
        if element.encode() not in self.part(_TYPES):
            self.insert(_TYPES, [(end_of_root(self.part(_TYPES)), self._prefixed(_TYPES, element))])

    def declare_ending(self, ending: str, kind: str) -> None:
        """Say of what kind parts are whose names have an ending, unless that is said already."""
        if not re.search(rb"Extension=[\"']%s[\"']" % ending.encode(), self.part(_TYPES), re.IGNORECASE):
            self.declare(f"<Default Extension={quoteattr(ending)} ContentType={quoteattr(kind)}/>")

    def relate(self, source: str, kind: str, target: str) -> str:
        """Let a part lead to another; return the identity of the relation."""
        folder, name = posixpath.split(source)
        relations = posixpath.join(folder, "_rels", f"{name}.rels")
        if not self.has(relations):
            space = "http://schemas.openxmlformats.org/package/2006/relationships"
            self.changed[relations] = (
                f'<?xml version="1.0" encoding="UTF-8"?>\n<Relationships xmlns="{space}"/>'.encode()
            )
        text = self.part(relations)
        taken = set(re.findall(rb"Id=[\"']([^\"']+)", text))
        number = next(n for n in range(1, len(taken) + 2) if f"rIdMark{n}".encode() not in taken)
        way = posixpath.relpath(f"/{target}", f"/{folder}")
        element = f'<Relationship Id="rIdMark{number}" Type="{self.base}/{kind}" Target={quoteattr(way)}/>'
        self.append(relations, self._prefixed(relations, element))
        return f"rIdMark{number}"

    def relations(self, source: str) -> tuple[PartRelation, ...]:
        """Return what a part of the original leads to."""
        return self.package.relations(source)

    def append(self, name: str, text: bytes) -> None:
        """Append a text to the content of the outermost element of a part, which may be empty."""
        found = self.part(name)
        at = end_of_root(found)
        if found[at : at + 2] == b"</":
            self.insert(name, [(at, text)])
            return
        tag = re.match(rb"<([^\s/>]+)", found[root_of(found) :])
        assert tag is not None, name
        close = found.rindex(b"/>", 0, len(found))
        self.changed[name] = found[:close] + b">" + text + b"</" + tag[1] + b">" + found[close + 2 :]

    def free_name(self, pattern: str) -> str:
        """Return the first of the names that `pattern` with a number gives that no part has."""
        return next(name for n in range(1, 10_000) if not self.has(name := pattern.format(n)))

    def _prefixed(self, name: str, element: str) -> bytes:
        """Return an element with the prefix that the outermost element of a part has, where it has one."""
        text = self.part(name)
        found = re.match(rb"<([A-Za-z_][\w.-]*:)", text[root_of(text) :])
        return element.encode() if found is None else b"<" + found[1] + element.encode()[1:]

    def written(self) -> bytes:
        """Return the copy as a zipped package: the parts in their old order, then those that were added."""
        stream = io.BytesIO()
        with zipfile.ZipFile(self.path) as old, zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as new:
            left = dict(self.changed)
            for entry in old.infolist():
                content = left.pop(entry.filename, None)
                copied = zipfile.ZipInfo(entry.filename, entry.date_time)
                copied.compress_type, copied.external_attr = zipfile.ZIP_DEFLATED, entry.external_attr
                new.writestr(copied, old.read(entry) if content is None else content)
            for name, content in left.items():
                added = zipfile.ZipInfo(name, _ALWAYS)
                added.compress_type = zipfile.ZIP_DEFLATED
                new.writestr(added, content)
        return stream.getvalue()


def _in_utf8(data: bytes) -> bytes:
    """Return an XML text in UTF-8, whatever it is declared to be in."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return re.sub(r"encoding=[\"'][^\"']*[\"']", 'encoding="UTF-8"', data.decode("utf-16"), count=1).encode()
    declared = _DECLARED.match(data)
    if declared is None or declared[1].lower() in (b"utf-8", b"us-ascii"):
        return data
    return re.sub(
        r"encoding=[\"'][^\"']*[\"']", 'encoding="UTF-8"', data.decode(declared[1].decode()), count=1
    ).encode()


Hear = Callable[[str, str, Mapping[str, str], int, int], None]


class Unmarkable(ValueError):  # noqa: N818 - it is an answer, not a fault
    """Ends the marking of a package of which a part is not as any program writes it."""


def walk(data: bytes, hear: Hear) -> None:
    """Tell each element of an XML text that opens ("start") or closes ("end"): its name, its attributes without prefix.

    With them go the places of the first byte of its tag and of the first byte after it. The tag of an empty element
    (`<a/>`) opens, and closes at one place: the first byte after it. Raises `Unmarkable` where elements nest without
    end or entities are declared, as the reader of schedules refuses them.
    """
    parser = expat.ParserCreate()
    parser.buffer_text = True
    depth = 0

    def start(name: str, attributes: dict[str, str]) -> None:
        nonlocal depth
        depth += 1
        if depth > MOST_DEPTH:
            raise Unmarkable(f"nests more than {MOST_DEPTH} elements")
        at = parser.CurrentByteIndex
        local = {key.rpartition(":")[2]: value for key, value in attributes.items()}
        hear("start", name, local, at, _end_of_tag(data, at))

    def end(name: str) -> None:
        nonlocal depth
        depth -= 1
        at = parser.CurrentByteIndex
        closes = data[at : at + 2] == b"</"
        after = data.index(b">", at) + 1 if closes else _end_of_tag(data, at)
        hear("end", name, {}, at if closes else after, after)

    def refuse(*_: object) -> None:
        raise Unmarkable("declares XML entities, which no spreadsheet and no document does")

    parser.StartElementHandler, parser.EndElementHandler, parser.StartDoctypeDeclHandler = start, end, refuse
    parser.Parse(data, True)


def _end_of_tag(data: bytes, at: int) -> int:
    """Return the place after the tag that begins at `at`; a sign in quotes does not end it."""
    found = _TAG.match(data, at)
    return len(data) if found is None else found.end()


def root_of(data: bytes) -> int:
    """Return where the outermost element begins."""
    found: list[int] = []
    walk(data, lambda what, name, attributes, at, after: found.append(at))
    return found[0]


def end_of_root(data: bytes) -> int:
    """Return where the closing tag of the outermost element begins; for an empty one, where its tag ends."""
    found: list[int] = []
    walk(data, lambda what, name, attributes, at, after: found.append(at))
    return found[-1]
