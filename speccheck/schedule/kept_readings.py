"""Readings kept: a file that was read before, in the same terms and as settled then, is not read once more.

In this process the last few are remembered. Between runs those of files that only code of this package reads are kept
in the user's cache folder; a library that is renewed may read its files otherwise. A reading is known by the name and
the content of its file, by all that the vocabulary and the mapping say, and by the program.
"""

from __future__ import annotations

import sys
from hashlib import sha256
from pathlib import Path

from speccheck.disk_cache import keep, program_fingerprint, recall
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.phrases.kept import kept_by_vocabulary
from speccheck.schedule.formats.endings import JSON, PACKAGES, SEPARATED
from speccheck.schedule.formats.safety import MOST_FILE_BYTES
from speccheck.schedule.grid import Grid
from speccheck.schedule.lines import Schedule
from speccheck.schedule.mapping import ScheduleMapping

MOST_REMEMBERED = 8
"""How many readings a process remembers."""

KIND = "reading"
"""The first word of the names of kept readings."""

_remembered: dict[str, Schedule] = {}


def read_once(path: Path, vocabulary: Vocabulary, mapping: ScheduleMapping) -> Schedule:
    """Return what `read_schedule` does of a file, which is read once; `mapping` has the units and the sheet already."""
    name, lasts = _known_as(path, vocabulary, mapping)
    found = _kept(name, lasts)
    return found if found is not None else _keep(name, lasts, _read(path, vocabulary, mapping)[0])


def read_once_with_grids(
    path: Path, vocabulary: Vocabulary, mapping: ScheduleMapping
) -> tuple[Schedule, tuple[Grid, ...]]:
    """Return the same with the sheets as they came, which are opened again where the reading is known."""
    name, lasts = _known_as(path, vocabulary, mapping)
    found = _kept(name, lasts)
    if found is not None:
        from speccheck.schedule.formats.opening import open_schedule

        return found, tuple(open_schedule(path)[0])
    found, grids = _read(path, vocabulary, mapping)
    return _keep(name, lasts, found), grids


def _known_as(path: Path, vocabulary: Vocabulary, mapping: ScheduleMapping) -> tuple[str, bool]:
    """Return the name by which a reading is known, "" where there is none, and whether it is kept between runs."""
    content = _content(path)
    if content is None:
        return "", False
    told = repr((path.name, mapping, program_fingerprint(), sys.version, _told_of(vocabulary)))
    name = f"{KIND}-{sha256(told.encode(errors='surrogatepass') + content).hexdigest()[:32]}.kept"
    return name, _read_by_own_code(path, content)


def _kept(name: str, lasts: bool) -> Schedule | None:
    """Return the reading that is kept under a name, None where there is none."""
    found = _remembered.get(name) or (recall(name) if lasts else None)
    return _remember(name, found) if isinstance(found, Schedule) else None


def _keep(name: str, lasts: bool, found: Schedule) -> Schedule:
    """Keep a reading under its name, where it has one, and return it."""
    if lasts and found.lines:
        keep(name, found)
    return _remember(name, found) if name else found


def _remember(name: str, found: Schedule) -> Schedule:
    """Remember a reading in this process, and return it."""
    _remembered[name] = found
    if len(_remembered) > MOST_REMEMBERED:
        del _remembered[next(iter(_remembered))]
    return found


def _read(path: Path, vocabulary: Vocabulary, mapping: ScheduleMapping) -> tuple[Schedule, tuple[Grid, ...]]:
    # many modules, which nobody needs whose file is known
    from speccheck.schedule.header_words import HeaderReader
    from speccheck.schedule.schedule import read_with_grids

    return read_with_grids(path, mapping, HeaderReader(vocabulary))


def _content(path: Path) -> bytes | None:
    """Return the bytes of a file; None where there is none, or more than is read."""
    try:
        return path.read_bytes() if path.is_file() and path.stat().st_size <= MOST_FILE_BYTES else None
    except OSError:
        return None


@kept_by_vocabulary
def _told_of(vocabulary: Vocabulary) -> str:
    """Return a fingerprint of all that a vocabulary says."""
    return sha256(repr(vocabulary).encode(errors="surrogatepass")).hexdigest()


def _read_by_own_code(path: Path, content: bytes) -> bool:
    """Say whether a file is one that no library reads: packages of Word and Excel, separated text and JSON."""
    ending = path.suffix.lower()
    if content.startswith(b"PK"):
        return ending in PACKAGES
    return ending in (*SEPARATED, *JSON) and not content.startswith((b"%PDF", b"\xd0\xcf\x11\xe0"))
