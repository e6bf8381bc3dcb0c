"""Entries that a model refuses, in words of our own: an unknown key, a key that is missing, a value of another kind.

What to write instead comes from the `description` of the model's field, which completes "write ...".
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from pydantic import BaseModel, ValidationError

from speccheck.english import listed, nearest
from speccheck.language.diagnostics import Diagnostic, in_order
from speccheck.toml_files.messages import KEY_MISSING, NO_SUCH_KEY, NO_SUCH_VALUE, NO_TABLE_HERE, TEXT_WITHOUT_MARKS
from speccheck.toml_files.places import Path
from speccheck.toml_files.reading import FileKind, TomlText

LONGEST_VALUE = 40
_NO_TEXT = "string_type"
Schema = Mapping[str, Any]


def errors_of(
    problem: ValidationError, shape: type[BaseModel], source: TomlText, kind: FileKind
) -> tuple[Diagnostic, ...]:
    """Return one error for each entry at fault, in the order of the file."""
    return in_order(_errors(problem, _Known(shape.model_json_schema()), source, kind))


def _errors(problem: ValidationError, known: _Known, source: TomlText, kind: FileKind) -> Iterator[Diagnostic]:
    faults = [(_path(source.content, fault["loc"]), fault["loc"], fault["type"]) for fault in problem.errors()]
    unknown = [path for path, _, type in faults if type == "extra_forbidden"]
    types: dict[Path, set[str]] = {}
    for path, _, type in faults:
        types.setdefault(path, set()).add(type)
    for path, location, type in faults:
        if type == "extra_forbidden":
            yield _unknown_key(path, known, source, kind)
        elif type == "missing":
            key = str(location[-1])
            if not any(nearest(str(other[-1]), [key]) for other in unknown if other[:-1] == path):
                yield _missing_key(path, key, known, source, kind)
        elif not any(other != path and other[: len(path)] == path for other, _, _ in faults):
            yield _other_value(path, types[path] == {_NO_TEXT}, known, source, kind)


def _path(content: Mapping[str, Any], location: tuple[int | str, ...]) -> Path:
    """Return the part of a location that there is in the content: pydantic also names the choices it has tried."""
    found: list[str | int] = []
    here: Any = content
    for step in location:
        there_is = step in here if isinstance(here, dict) else isinstance(here, list) and step in range(len(here))
        if there_is:
            found.append(step)
            here = here[step]
    return tuple(found)


def _unknown_key(path: Path, known: _Known, source: TomlText, kind: FileKind) -> Diagnostic:
    keys = tuple(known.keys(path[:-1]))
    near = nearest(str(path[-1]), keys)
    said = kind.entry.says(*NO_SUCH_KEY)
    return said.at(source.place(*path), source, near=near, key=called(path), keys=listed(keys))


def _missing_key(path: Path, key: str, known: _Known, source: TomlText, kind: FileKind) -> Diagnostic:
    said, entry = kind.entry.says(*KEY_MISSING), (*path, key)
    return said.at(source.place(*path), source, key=called(entry), wanted=known.description(entry))


def _other_value(path: Path, text_wanted: bool, known: _Known, source: TomlText, kind: FileKind) -> Diagnostic:
    written = source.written(*path)
    short = " ".join(written.split())
    short = short if len(short) <= LONGEST_VALUE else f"{short[: LONGEST_VALUE - 3]}..."
    said = NO_SUCH_VALUE if short else NO_TABLE_HERE
    if text_wanted and written and short == written and not written.startswith(("[", "{")):
        said = TEXT_WITHOUT_MARKS
    place = source.place(*path, value=True)
    return kind.entry.says(*said).at(place, source, key=called(path), value=short, wanted=known.description(path))


def called(path: Path) -> str:
    """Return the name of an entry: its keys, without the numbers of arrays."""
    return ".".join(step for step in path if isinstance(step, str))


class _Known:
    """What a model knows of the keys and values of its files, by its JSON Schema."""

    def __init__(self, schema: Schema) -> None:
        self.schema = schema

    def keys(self, path: Path) -> Iterator[str]:
        """Yield the keys of the table at a path."""
        for schema in self._open(self._at(path)):
            yield from schema.get("properties", {})

    def description(self, path: Path) -> str:
        """Return what may stand at a path: the description of the nearest field around it that has one."""
        for count in range(len(path), 0, -1):
            for schema in self._at(path[:count]):
                if found := schema.get("description"):
                    return str(found)
        return "what the guide says of it"

    def _at(self, path: Path) -> list[Schema]:
        """Return the schemas that may stand at a path."""
        here = [self.schema]
        for step in path:
            here = [inner for schema in self._open(here) for inner in self._inside(schema, step)]
        return here

    def _open(self, schemas: list[Schema]) -> list[Schema]:
        """Return schemas with their references followed and their choices in place of them."""
        found: list[Schema] = []
        for schema in schemas:
            if "$ref" in schema:
                found += self._open([self.schema["$defs"][str(schema["$ref"]).rsplit("/", 1)[1]]])
            elif "anyOf" in schema:
                found += self._open(schema["anyOf"])
            else:
                found.append(schema)
        return found

    def _inside(self, schema: Schema, step: str | int) -> Iterator[Schema]:
        if isinstance(step, int):
            inner = schema.get("items")
        else:
            inner = schema.get("properties", {}).get(step, schema.get("additionalProperties"))
        if isinstance(inner, dict):
            yield inner
