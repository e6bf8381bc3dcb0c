"""Writing a report whole or not at all, never over what it was made from, and over no other work untold."""

from __future__ import annotations

import contextlib
import os
import platform
import secrets
import zlib
from collections.abc import Iterable
from pathlib import Path

from speccheck.disk_cache import remember_written, was_written
from speccheck.language.diagnostics import Diagnostic, Place
from speccheck.report.messages import (
    CANNOT_BE_WRITTEN,
    FILE_OF_OTHERS,
    MADE_FROM_IT,
    NAME_OF_NO_FILE,
    NO_FOLDER_FOR_IT,
    REPORTS_OF_ONE_NAME,
)


class NotWritten(OSError):  # noqa: N818 - the name says what happened
    """A report that was not written; what was there before is unchanged. `diagnostic` says why."""

    def __init__(self, diagnostic: Diagnostic) -> None:
        super().__init__(diagnostic.message)
        self.diagnostic = diagnostic

    def __str__(self) -> str:
        return str(self.diagnostic)


def write_whole(
    path: str | os.PathLike[str],
    data: str | bytes,
    inputs: Iterable[str | os.PathLike[str]] = (),
    *,
    replace: bool = False,
    theirs: bool = False,
) -> Diagnostic | None:
    """Write `data` (text as UTF-8) to `path` and return None, or leave everything as it was and return why.

    The data go to a new file in the same folder, which then takes the place of the old one in one step. `inputs` are
    files that were read; the report is not written over any of them, whatever they are called here. A file that stands
    there already is replaced where the program itself wrote it and nobody has changed it since, or with `replace`. What
    is `theirs`, as a ruleset that was put in the house style, is written but never counts as the program's own.
    """
    content = data.encode("utf-8", errors="replace") if isinstance(data, str) else data
    try:
        refusal = refusal_of(path, inputs, content, replace=replace)
        if refusal is None and not _has(Path(path), content):
            _replace(Path(os.path.realpath(path)), content)
            if not theirs:
                remember_written(content)
    except (OSError, ValueError) as error:
        # ValueError: a name that no system takes, such as one with a null character in it.
        why = (getattr(error, "strerror", None) or str(error)).lower()
        return CANNOT_BE_WRITTEN.at(Place(file=str(path)), file=path, why=why)
    return refusal


def refusal_of(
    path: str | os.PathLike[str],
    inputs: Iterable[str | os.PathLike[str]] = (),
    content: bytes | None = None,
    *,
    replace: bool = False,
) -> Diagnostic | None:
    """Return why a file must not be written, or None; `content` is what it is to have, where that is known already.

    Raises `OSError` or `ValueError` where the system does not take the name.
    """
    target, name = Path(os.path.realpath(path)), str(path)
    place = Place(file=name)
    if any(_same_file(target, Path(one)) for one in inputs):
        return MADE_FROM_IT.at(place, file=name)
    if not target.parent.is_dir():
        return NO_FOLDER_FOR_IT.at(place, file=name)
    if target.exists() and not target.is_file():
        return NAME_OF_NO_FILE.at(place, file=name)
    if replace or not target.exists() or is_own(target, content):
        return None
    return FILE_OF_OTHERS.at(place, file=name)


def is_own(target: Path, content: bytes | None = None) -> bool:
    """Say whether a file is as the program itself last wrote it, or is to be written with what it has already."""
    there = target.read_bytes()
    return there == content or was_written(there)


def _has(path: Path, content: bytes) -> bool:
    """Say whether a file has this content already; it is then left as it is, and stays whose it was."""
    return path.is_file() and path.read_bytes() == content


def same_name(path: str | os.PathLike[str], others: Iterable[str | os.PathLike[str]]) -> Diagnostic | None:
    """Return why a report cannot have the name of another that is written in the same run, or None."""
    target = Path(os.path.realpath(path))
    if all(target != Path(os.path.realpath(other)) for other in others):
        return None
    return REPORTS_OF_ONE_NAME.at(Place(file=str(path)), file=path)


def _same_file(first: Path, second: Path) -> bool:
    """Tell whether two paths lead to one file, also over links."""
    try:
        return first.samefile(second)
    except OSError:
        return first == Path(os.path.realpath(second))


def _replace(target: Path, content: bytes) -> None:
    """Put `content` in the place of `target` in one step; on any failure take the new file away again."""
    fresh = target.with_name(f".speccheck-{_machine()}-{os.getpid()}-{secrets.token_hex(4)}")
    _clear_leftovers(target.parent)
    try:
        with fresh.open("xb") as file:
            file.write(content)
        if target.exists():
            fresh.chmod(target.stat().st_mode & 0o777)
        os.replace(fresh, target)
    except BaseException:
        with contextlib.suppress(OSError):
            fresh.unlink(missing_ok=True)
        raise


def _machine() -> str:
    """Return what tells this machine from others that write into the same folder."""
    return f"{zlib.crc32(platform.node().encode()):08x}"


def _clear_leftovers(folder: Path) -> None:
    """Take away what runs on this machine left that were killed while they wrote."""
    for path in folder.glob(f".speccheck-{_machine()}-*-*"):
        process = path.name.split("-")[2]
        if process.isdecimal() and int(process) != os.getpid() and not _is_running(int(process)):
            with contextlib.suppress(OSError):
                path.unlink()


def _is_running(process: int) -> bool:
    """Whether there is such a process; where the system does not say, there may be one."""
    if os.name == "nt":
        return True
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return True
