"""The shipped rulesets and vocabularies, and the file names that stand for the names of rulesets."""

from __future__ import annotations

from pathlib import Path

from speccheck.shipped import shipped_folder

SUFFIX = ".clauses"


def shipped_names() -> tuple[str, ...]:
    """Return the names of the shipped rulesets and vocabularies, without suffix, in order."""
    folder = shipped_folder("rulesets")
    return tuple(sorted(path.relative_to(folder).with_suffix("").as_posix() for path in folder.rglob(f"*{SUFFIX}")))


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
