"""Files of rulesets: those that are shipped, and resolved ones kept between runs while none of their files has
changed.

A ruleset is kept by the name and the content of its file, so that a copy in another folder is known. Besides the files
that were read, a kept one remembers where files were looked for and not found: a file that turns up there could mean
something else by the same name. Files beside the ruleset are remembered without their folder; where others but the
shipped ones were looked for, the ruleset counts in its own folder alone.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from speccheck.disk_cache import keep, program_fingerprint, recall
from speccheck.shipped import shipped_folder

SUFFIX = ".clauses"
# How many rulesets a process remembers.
MOST_REMEMBERED = 12


def shipped_names() -> tuple[str, ...]:
    """Return the names of the shipped rulesets and vocabularies, without suffix, in order."""
    folder = shipped_folder("rulesets")
    return tuple(sorted(path.relative_to(folder).with_suffix("").as_posix() for path in folder.rglob(f"*{SUFFIX}")))


def shipped_ruleset_names() -> tuple[str, ...]:
    """Return the names of the shipped rulesets, in order; vocabularies are none. No file is parsed."""
    folder = shipped_folder("rulesets")
    texts = ((name, (folder / file_name(name)).read_text(encoding="utf-8")) for name in shipped_names())
    return tuple(name for name, text in texts if text.lstrip().startswith("ruleset"))


def file_name(name: str) -> str:
    """Return the file that the name of a ruleset or a vocabulary stands for ("mechanical-insulation.clauses")."""
    return "-".join(name.split()) + SUFFIX


def located(path: Path | str) -> Path:
    """Return where a file is; a name that is no file may be that of a shipped ruleset."""
    given = Path(path)
    if not given.exists():
        shipped = shipped_folder("rulesets") / file_name(str(path))
        if shipped.is_file():
            return shipped
    return given


@dataclass(frozen=True, slots=True)
class Kept:
    """A thing that was loaded, by which program, and the fingerprints of its files ("" where there was none).

    Files in the folder of the first are called by their path from there, others by the whole path; `home` is the only
    folder where the thing counts, "" for any.
    """

    thing: Any
    program: str
    files: Mapping[str, str]
    home: str = ""


def shown_name(path: Path) -> str:
    """Return the name by which messages call a file: shipped files by their folder, others by their file name."""
    shipped = shipped_folder("rulesets")
    return f"rulesets/{path.relative_to(shipped).as_posix()}" if path.is_relative_to(shipped) else path.name


def recall_loaded(path: Path) -> tuple[Any, tuple[str, ...]]:
    """Return what was loaded from a file like that of `path`, and its files; None where that is not known."""
    name = _name(path)
    kept = _remembered.get(name) or recall(name)
    if not isinstance(kept, Kept) or kept.program != program_fingerprint():
        return None, ()
    if not _counts_here(kept, path):
        return None, ()
    if any(fingerprint(path.parent / file) != was for file, was in kept.files.items()):
        return None, ()
    _remember(name, kept)
    return kept.thing, tuple(str(path.parent / file) for file, was in kept.files.items() if was)


def _counts_here(kept: Kept, path: Path) -> bool:
    """Say whether all was looked for where it would be here: beside a link is looked beside its target."""
    folder = path.parent.resolve()
    if kept.home:
        return kept.home == os.fspath(folder)
    beside = (file for file, was in kept.files.items() if was and file != path.name and not Path(file).is_absolute())
    return all((folder / file).resolve() == folder / file for file in beside)


def keep_loaded(path: Path, thing: object, files: Mapping[str, str]) -> None:
    """Keep what was loaded from `path` with the fingerprints of the files that it came from."""
    named = {_beside(path, Path(file)): was for file, was in files.items()}
    elsewhere = any(Path(file).is_absolute() and not is_shipped(Path(file)) for file in named)
    home = os.fspath(path.parent.resolve()) if elsewhere else ""
    kept = Kept(thing, program_fingerprint(), named, home)
    name = _name(path)
    keep(name, kept)
    _remember(name, kept)


def _beside(path: Path, file: Path) -> str:
    """Return the path of a file from the folder of `path` where it lies in there, and else its whole path."""
    whole = Path(os.path.abspath(file))
    for folder in (Path(os.path.abspath(path.parent)), path.parent.resolve()):
        if whole.is_relative_to(folder):
            return whole.relative_to(folder).as_posix()
    return os.fspath(whole)


def is_shipped(path: Path) -> bool:
    """Say whether a file came with this installation."""
    return path.is_relative_to(shipped_folder("rulesets"))


_remembered: dict[str, Kept] = {}


def _remember(name: str, kept: Kept) -> None:
    """Remember in this process as well what is kept, and forget what was remembered first where it is too much."""
    _remembered[name] = kept
    if len(_remembered) > MOST_REMEMBERED:
        del _remembered[next(iter(_remembered))]


def fingerprint(path: Path) -> str:
    """Return a fingerprint of the bytes of a file, "" where there is no file to read."""
    try:
        return sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""


def _name(path: Path) -> str:
    """Return the name under which a file is kept: it changes with its content, and with what messages call it."""
    return f"ruleset-{sha256(os.fsencode(f'{shown_name(path)} {fingerprint(path)}')).hexdigest()[:32]}.kept"
