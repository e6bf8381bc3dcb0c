"""The disk cache: what is kept between runs in the user's cache folder, so that no run works it out again.

Only the program itself reads and writes there. Nothing is read that another user could have written, and reading a file
runs no code of its own: it may name values and plain dataclasses of this package alone. A cache that cannot be read or
written is not an error: what it would have held is then worked out afresh.
"""

from __future__ import annotations

import contextlib
import io
import os
import pickle
import stat
from collections.abc import Callable, Iterator
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any

MOST_KEPT = 60
"""How many files of each kind are kept; the ones that were used longest ago are forgotten."""

WRITTEN, MOST_WRITTEN = "written.txt", 2_000
"""The file that has the fingerprints of the last reports, and of how many."""


@cache
def cache_folder() -> Path | None:
    """Return the folder for what is kept, made if need be, or None where it cannot be used.

    It is a folder of this user alone, inside the one that the environment variable SPECCHECK_CACHE names; set to
    nothing, the variable turns keeping off.
    """
    named = os.environ.get("SPECCHECK_CACHE")
    if named == "":
        return None
    try:
        if named is None:
            import platformdirs

            named = platformdirs.user_cache_dir("speccheck")
        folder = Path(named) / f"of-user-{os.getuid() if hasattr(os, 'getuid') else 0}"
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
        safe = _is_of_this_user_alone(folder.lstat())
    except (OSError, RuntimeError, KeyError):  # no home, no entry for the user, no right to write
        return None
    return folder if safe and os.access(folder, os.W_OK) else None


def _is_of_this_user_alone(found: os.stat_result) -> bool:
    """Say whether a file or folder, no link, belongs to this user and nobody else may write there."""
    if not hasattr(os, "getuid"):  # Windows, where the folder lies in the user's own profile
        return True
    writable = found.st_mode & (stat.S_IWGRP | stat.S_IWOTH)
    return found.st_uid == os.getuid() and not writable and not stat.S_ISLNK(found.st_mode)


@cache
def program_fingerprint() -> str:
    """Return a text that changes with every file of the package, so that no program reads what an older one kept."""
    states = sorted(_states(os.path.dirname(__file__)))
    return sha256(repr(states).encode(errors="surrogatepass")).hexdigest()


def _states(folder: str) -> Iterator[tuple[str, int, int]]:
    """Yield the path, the time of the last change and the size of each module in a folder and in those within it."""
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.is_dir():
                yield from _states(entry.path)
            elif entry.name.endswith(".py"):
                state = entry.stat()
                yield entry.path, state.st_mtime_ns, state.st_size


_PLAIN = {
    ("builtins", "frozenset"),
    ("builtins", "set"),
    ("datetime", "date"),
    ("decimal", "Decimal"),
    ("fractions", "Fraction"),
}
"""The classes of other packages that stand in kept files: all of them are values, and making one runs nothing."""


class _Values(pickle.Unpickler):
    """Reads back plain values and the dataclasses and enumerations of this package, and nothing that could run code."""

    def find_class(self, module: str, name: str) -> Any:
        """Return a class that may stand in a kept file; any other name makes the file as good as not there."""
        from dataclasses import is_dataclass
        from enum import EnumType

        if (module, name) in _PLAIN:
            return super().find_class(module, name)
        if module.partition(".")[0] == "speccheck" and "." not in name:
            found = super().find_class(module, name)
            if isinstance(found, EnumType) or (isinstance(found, type) and is_dataclass(found)):
                return found
        raise pickle.UnpicklingError(f"{module}.{name} is no value")


def recall(name: str) -> Any:
    """Return what was kept under `name`, or None where there is nothing that can be read."""
    folder = cache_folder()
    if folder is None:
        return None
    try:
        path = folder / name
        if not _is_of_this_user_alone(path.lstat()):
            return None
        found = values_in(path)
        os.utime(path)  # used now
        return found
    except OSError:
        return None


def values_in(path: Path) -> Any:
    """Return the values that a file holds, or None where there is nothing that can be read."""
    try:
        return _Values(io.BytesIO(path.read_bytes())).load()
    except Exception:  # a damaged file can raise anything; it is then as good as not there
        return None


def keep(name: str, thing: object) -> None:
    """Keep a thing under `name`; the file is written whole, beside its place, and then moved there."""
    _write(name, content_of(thing))


def content_of(thing: object) -> bytes:
    """Return the bytes of a file that holds a thing made of values."""
    content = io.BytesIO()
    _Writer(content, protocol=5).dump(thing)
    return content.getvalue()


class _Writer(pickle.Pickler):
    """Writes a dataclass with slots as its class and what its fields hold: it is made anew in half the time."""

    def reducer_override(self, thing: Any) -> Any:
        """Return how a thing is made anew, or that it is written as usual."""
        held = _fields_of(type(thing))  # type: ignore[arg-type]  # classes are hashable
        return (type(thing), held(thing)) if held is not None else NotImplemented


@cache
def _fields_of(kind: type) -> Callable[[Any], tuple[object, ...]] | None:
    """Return what reads the fields of a dataclass with slots in the order in which it is made of them."""
    from dataclasses import fields, is_dataclass
    from operator import attrgetter

    found = fields(kind) if is_dataclass(kind) and "__slots__" in vars(kind) else ()
    if not found or not all(field.init and not field.kw_only for field in found):
        return None
    names = [field.name for field in found]
    return attrgetter(*names) if len(names) > 1 else lambda thing: (getattr(thing, names[0]),)


def _write(name: str, content: bytes) -> None:
    folder = cache_folder()
    if folder is None:
        return
    unfinished = folder / f"{name}.{os.getpid()}"
    with contextlib.suppress(OSError):
        file = os.open(unfinished, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
        with os.fdopen(file, "wb") as whole:
            whole.write(content)
        unfinished.replace(folder / name)
        _forget(folder)


def _forget(folder: Path) -> None:
    """Take away the files of each kind that were used longest ago, so that the folder does not grow for ever."""
    files: dict[str, list[tuple[float, Path]]] = {}
    for path in folder.iterdir():
        if path.is_file() and path.name != WRITTEN:
            files.setdefault(path.name.partition("-")[0], []).append((path.stat().st_mtime, path))
    for alike in files.values():
        for _, path in sorted(alike, reverse=True)[MOST_KEPT:]:
            path.unlink(missing_ok=True)


def remember_written(content: bytes) -> None:
    """Remember that the program wrote a file of this content."""
    fresh = sha256(content).hexdigest()
    known = [one for one in _written() if one != fresh]
    _write(WRITTEN, "\n".join([*known[-MOST_WRITTEN:], fresh]).encode())


def was_written(content: bytes) -> bool:
    """Say whether the program itself wrote a file of this very content, as far as it remembers."""
    return sha256(content).hexdigest() in _written()


def _written() -> list[str]:
    """Return the fingerprints of the last reports, the oldest first."""
    folder = cache_folder()
    try:
        return [] if folder is None else (folder / WRITTEN).read_text(encoding="ascii").split()
    except (OSError, UnicodeDecodeError):
        return []
