"""Entries: the schedules of a portfolio, in an order that depends on their names alone."""

from __future__ import annotations

import os
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from speccheck.review.portfolio.datasets import PARQUET, row_groups
from speccheck.schedule.formats.endings import IN_FOLDERS

SUFFIXES = (*IN_FOLDERS, PARQUET)
"""The endings of files that are read as schedules."""

_NOT_SHOWN = (".", "~$")


@dataclass(frozen=True, slots=True)
class Entry:
    """One thing to judge: a file by its name in the portfolio, parts of it with "/" between; of Parquet a row group."""

    name: str
    part: int | None = None


@dataclass
class Listing:
    """The entries of a portfolio; `left` counts, while they are gone through, the files that are none, by ending."""

    portfolio: Path
    into: Path
    left: Counter[str] = field(default_factory=Counter)

    def __iter__(self) -> Iterator[Entry]:
        """Go through the entries in the order of their names; each folder where its name stands among them."""
        self.left.clear()
        if self.portfolio.is_dir():
            yield from self._below(self.portfolio, "")
        else:
            yield from _entries(self.portfolio, self.portfolio.name)

    def _below(self, folder: Path, lead: str) -> Iterator[Entry]:
        try:
            inside = _sorted(folder)
        except OSError:
            yield Entry(lead.rstrip("/") or ".")  # judging it will say that it cannot be opened
            return
        for found in inside:
            path = folder / found.name
            if found.is_dir(follow_symlinks=False):
                if path.resolve() != self.into and not found.name.startswith(_NOT_SHOWN):
                    yield from self._below(path, f"{lead}{found.name}/")
            elif path.suffix.lower() in SUFFIXES and not found.name.startswith(_NOT_SHOWN):
                yield from _entries(path, lead + found.name)
            else:
                self.left[path.suffix.lower()] += 1


def _sorted(folder: Path) -> list[os.DirEntry[str]]:
    """Return what is in a folder, by name. Raises `OSError` where it may not be opened."""
    with os.scandir(folder) as found:
        return sorted(found, key=lambda one: os.fsencode(one.name))


def _entries(path: Path, name: str) -> Iterator[Entry]:
    """Yield the file, or its row groups; a Parquet file without any that can be read is one entry, which says why."""
    if path.suffix.lower() != PARQUET:
        yield Entry(name)
        return
    count = row_groups(path)
    yield from (Entry(name, part) for part in range(count)) if count else (Entry(name),)
