"""Files of rulesets: those that are shipped, and resolved ones kept between runs while none of their files has
changed.

Besides the files that were read, a kept ruleset remembers where files were looked for and not found: a file that
turns up there could mean something else by the same name.
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
    """A thing that was loaded, by which program, and the fingerprints of its files ("" where there was none)."""

    thing: Any
    program: str
    files: Mapping[str, str]


def recall_loaded(path: Path) -> Any:
    """Return what was loaded from `path`, or None where nothing is kept or a file has changed since."""
    kept = _remembered.get(_name(path)) or recall(_name(path))
    if not isinstance(kept, Kept) or kept.program != program_fingerprint():
        return None
    if any(fingerprint(Path(file)) != was for file, was in kept.files.items()):
        return None
    _remember(path, kept)
    return kept.thing


def keep_loaded(path: Path, thing: object, files: Mapping[str, str]) -> None:
    """Keep what was loaded from `path` with the fingerprints of the files that it came from."""
    kept = Kept(thing, program_fingerprint(), dict(files))
    keep(_name(path), kept)
    _remember(path, kept)


_remembered: dict[str, Kept] = {}


def _remember(path: Path, kept: Kept) -> None:
    """Remember in this process as well what is kept, and forget what was remembered first where it is too much."""
    _remembered[_name(path)] = kept
    if len(_remembered) > MOST_REMEMBERED:
        del _remembered[next(iter(_remembered))]


def fingerprint(path: Path) -> str:
    """Return a fingerprint of the bytes of a file, "" where there is no file to read."""
    try:
        return sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""


def _name(path: Path) -> str:
    return f"ruleset-{sha256(os.fsencode(path.resolve())).hexdigest()[:32]}.kept"
