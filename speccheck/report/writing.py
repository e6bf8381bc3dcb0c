"""Writing a report whole or not at all, and never over what it was made from."""

from __future__ import annotations

import contextlib
import os
import secrets
from collections.abc import Iterable
from pathlib import Path

from speccheck.language.diagnostics import Diagnostic, Place, Severity


def write_whole(
    path: str | os.PathLike[str], data: str | bytes, inputs: Iterable[str | os.PathLike[str]] = ()
) -> Diagnostic | None:
    """Write `data` (text as UTF-8) to `path` and return None, or leave everything as it was and return why.

    The data go to a new file in the same folder, which then takes the place of the old one in one step. `inputs` are
    files that were read; the report is not written over any of them, whatever they are called here.
    """
    try:
        target = Path(os.path.realpath(path))
        refusal = _refusal(target, str(path), inputs)
        if refusal is None:
            _replace(target, data.encode("utf-8", errors="replace") if isinstance(data, str) else data)
    except (OSError, ValueError) as error:
        # ValueError: a name that no system takes, such as one with a null character in it.
        why = (getattr(error, "strerror", None) or str(error)).lower()
        return _diagnostic(
            "R101", f"cannot write `{path}`: {why}", str(path), "check the folder and the disk, or write elsewhere"
        )
    return refusal


def _refusal(target: Path, name: str, inputs: Iterable[str | os.PathLike[str]]) -> Diagnostic | None:
    """Return why `target` must not be written, or None."""
    if any(_same_file(target, Path(one)) for one in inputs):
        message = f"`{name}` is a file that the report is made from"
        return _diagnostic("R102", message, name, "give the report another name")
    if not target.parent.is_dir():
        return _diagnostic(
            "R103", f"there is no folder for `{name}`", name, "make the folder first, or write elsewhere"
        )
    if target.exists() and not target.is_file():
        return _diagnostic("R104", f"`{name}` is no file", name, "give the name of a file")
    return None


def _same_file(first: Path, second: Path) -> bool:
    """Tell whether two paths lead to one file, also over links."""
    try:
        return first.samefile(second)
    except OSError:
        return first == Path(os.path.realpath(second))


def _replace(target: Path, content: bytes) -> None:
    """Put `content` in the place of `target` in one step; on any failure take the new file away again."""
    fresh = target.with_name(f".speccheck-{secrets.token_hex(8)}")
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


def _diagnostic(code: str, message: str, name: str, help: str) -> Diagnostic:
    return Diagnostic(code, Severity.ERROR, message, Place(file=name), help)
