"""A TOML file as a whole: read once, in one way, whatever it is for.

`load_toml` gives the entries as they are, `read_toml_file` holds them against a pydantic model first. Neither raises:
what cannot be used comes back as diagnostics, each at its line and column.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any, Generic, TypeVar

from speccheck.language.diagnostic_rules import Rule
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.toml_files.messages import NO_LARGER_THAN, NOT_OPENED, NOT_TOML, NOT_UTF_8, TOO_DEEP, TOO_MANY_DIGITS
from speccheck.toml_files.places import Spans, spans_of, too_deep

if TYPE_CHECKING:
    from pydantic import BaseModel

MOST_BYTES = 5_000_000
LONGEST_EXCERPT = 160
_WHERE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")

Shape = TypeVar("Shape", bound="BaseModel")


@dataclass(frozen=True, slots=True)
class FileKind:
    """What a file is for: the rules of a file that is not TOML and of an entry, and what to write in such a file."""

    unreadable: Rule
    entry: Rule
    help: str = ""


@dataclass(frozen=True)
class TomlText:
    """A file that is TOML: its name without folders, its text, and its entries."""

    name: str
    text: str
    content: Mapping[str, Any]

    @cached_property
    def _spans(self) -> Spans:
        return spans_of(self.text)

    def place(self, *path: str | int, value: bool = False) -> Place:
        """Return where an entry stands, or its value alone; where it has no words, what is around it."""
        spans = self._spans.values if value else self._spans.keys
        found = spans.get(path) or self._spans.values.get(path) or self._spans.keys.get(path)
        if found is not None:
            return self._place(*found)
        return self.place(*path[:-1], value=value) if path else Place(self.name)

    def place_within(self, *path: str | int) -> Place:
        """Return where the text of a value begins: behind its quotation marks."""
        start, end = self._spans.values.get(path, (0, 0))
        marks = re.match(r"\"\"\"\r?\n?|'''\r?\n?|[\"']?", self.text[start:end])
        return self._place(start + (marks.end() if marks else 0), end) if end else self.place(*path)

    def written(self, *path: str | int) -> str:
        """Return a value as it stands in the text, "" where it has no words."""
        start, end = self._spans.values.get(path, (0, 0))
        return self.text[start:end]

    def _place(self, start: int, end: int) -> Place:
        line = self.text.count("\n", 0, start) + 1
        begin = self.text.rfind("\n", 0, start) + 1
        stop = self.text.find("\n", start, end)
        return Place(self.name, line, start - begin + 1, (end if stop < 0 else stop) - start)

    def excerpt(self, place: Place) -> str:
        """Return the line of text on which a place lies, "" where it is too long to be shown."""
        rows = self.text.split("\n")
        row = rows[place.line - 1].rstrip("\r") if 0 < place.line <= len(rows) else ""
        return row if len(row) <= LONGEST_EXCERPT else ""


@dataclass(frozen=True)
class TomlFile(Generic[Shape]):
    """A file whose entries are what they have to be: the model that holds them, and the text for their places."""

    entries: Shape
    source: TomlText


def load_toml(path: Path, kind: FileKind) -> TomlText | Diagnostic:
    """Return a file that is TOML, or why it cannot be read. A byte-order mark at its beginning is no part of it."""
    name, place = path.name, Place(path.name)
    try:
        if path.stat().st_size > MOST_BYTES:
            return kind.unreadable.says(*NO_LARGER_THAN).at(
                place, file=name, most=MOST_BYTES // 1_000_000, advice=kind.help
            )
        text = path.read_bytes().decode("utf-8-sig")
    except OSError as problem:
        why = (problem.strerror or "no access").lower()
        return kind.unreadable.says(*NOT_OPENED).at(place, file=name, why=why, advice=kind.help)
    except UnicodeDecodeError:
        return kind.unreadable.says(*NOT_UTF_8).at(place, file=name)
    if deep := too_deep(text):
        return kind.unreadable.says(*TOO_DEEP).at(place, file=name, deep=deep, advice=kind.help)
    try:
        return TomlText(name, text, tomllib.loads(text))
    except tomllib.TOMLDecodeError as problem:
        return _not_toml(kind, TomlText(name, text, {}), str(problem))
    except ValueError:  # Python turns no text of thousands of digits into a number
        return kind.unreadable.says(*TOO_MANY_DIGITS).at(place, file=name, advice=kind.help)


def _not_toml(kind: FileKind, source: TomlText, problem: str) -> Diagnostic:
    """Return what `tomllib` found, at its place."""
    where = _WHERE.search(problem)
    why = _WHERE.sub("", problem)
    lines = source.text.split("\n")
    at_end = Place(source.name, len(lines), len(lines[-1]) + 1)
    place = Place(source.name, int(where[1]), int(where[2]), 1) if where and where[1] else at_end
    why = f"{why[:1].lower()}{why[1:]}"
    return kind.unreadable.says(*NOT_TOML).at(place, source, why=why, advice=kind.help)


def read_toml_file(
    path: Path, shape: type[Shape], kind: FileKind
) -> tuple[TomlFile[Shape] | None, tuple[Diagnostic, ...]]:
    """Return the entries of a file in the shape of a pydantic model; None and every error where they have another."""
    from pydantic import ValidationError

    from speccheck.toml_files.misshapen import errors_of

    source = load_toml(path, kind)
    if isinstance(source, Diagnostic):
        return None, (source,)
    try:
        return TomlFile(shape.model_validate(source.content), source), ()
    except ValidationError as problem:
        return None, errors_of(problem, shape, source, kind)
