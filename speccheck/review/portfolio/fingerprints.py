"""Fingerprints: of the content of files, of what a ruleset means, of the program that judges.

All are SHA-256 (FIPS 180-4), in hexadecimal, and the same on every machine: neither paths nor times go into them.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any

from speccheck.shipped import shipped_folder

_CHUNK = 1 << 20
_FLOORS = ("quantities", "physics", "language", "schedule", "judge", "review/portfolio")
_SUFFIXES = (".py", ".csv", ".json", ".lark")


def content_fingerprint(path: Path) -> str:
    """Return the fingerprint of the bytes of a file, read as a stream; "" where it cannot be read."""
    digest = sha256()
    try:
        if not path.is_file():
            return ""
        with path.open("rb") as file:
            while chunk := file.read(_CHUNK):
                digest.update(chunk)
    except OSError:
        return ""
    return digest.hexdigest()


def combined(*parts: str) -> str:
    """Return the fingerprint of several texts in their order."""
    return sha256(b"".join(sha256(part.encode("utf-8", "surrogateescape")).digest() for part in parts)).hexdigest()


@cache
def program_fingerprint() -> str:
    """Return a fingerprint of every file that a verdict may depend on: another program may judge otherwise."""
    package, grammar = Path(__file__).parents[2], shipped_folder("grammar")
    folders = [package / floor for floor in _FLOORS]
    found = [(path.relative_to(package).as_posix(), path) for folder in folders for path in folder.rglob("*")]
    found += [(f"grammar/{path.name}", path) for path in grammar.glob("*.lark")]
    kept = [(name, path) for name, path in sorted(found) if path.suffix in _SUFFIXES]
    return combined(*(part for name, path in kept for part in (name, content_fingerprint(path))))


def meaning_fingerprint(*things: Any) -> str:
    """Return the fingerprint of plain values and of dataclasses made of them; where a thing was written is left out."""
    return _Meaning().of(things)


class _Meaning:
    """Fingerprints of nested values, each object's once."""

    def __init__(self) -> None:
        self._known: dict[int, tuple[Any, str]] = {}

    def of(self, thing: Any) -> str:
        """Return the fingerprint of one value."""
        if thing is None or isinstance(thing, str | int | float):
            return combined(type(thing).__name__, str(thing) if isinstance(thing, str) else repr(thing))
        if id(thing) not in self._known:
            self._known[id(thing)] = thing, combined(type(thing).__name__, *self._parts(thing))
        return self._known[id(thing)][1]

    def _parts(self, thing: Any) -> list[str]:
        if is_dataclass(thing):
            named = [field.name for field in fields(thing) if field.compare]
            return [part for name in named for part in (name, self.of(getattr(thing, name)))]
        if isinstance(thing, Mapping):
            return [part for key, value in thing.items() for part in (self.of(key), self.of(value))]
        if isinstance(thing, frozenset):
            return sorted(map(self.of, thing))
        if isinstance(thing, tuple | list):
            return list(map(self.of, thing))
        return [repr(thing)]
