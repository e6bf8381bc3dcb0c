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
from speccheck.schedule.lines import Schedule
from speccheck.schedule.mapping import ScheduleMapping

MOST_REMEMBERED = 8
"""How many readings a process remembers."""

KIND = "reading"
"""The first word of the names of kept readings."""

_remembered: dict[str, Schedule] = {}


def read_once(path: Path, vocabulary: Vocabulary, mapping: ScheduleMapping) -> Schedule:
    """Return what `read_schedule` does of a file, which is read once; `mapping` has the units and the sheet already."""
    content = _content(path)
    if content is None:
        return _read(path, vocabulary, mapping)
    told = repr((path.name, mapping, program_fingerprint(), sys.version, _told_of(vocabulary)))
    name = f"{KIND}-{sha256(told.encode(errors='surrogatepass') + content).hexdigest()[:32]}.kept"
    own = _read_by_own_code(path, content)
    found = _remembered.get(name) or (recall(name) if own else None)
    if not isinstance(found, Schedule):
        found = _read(path, vocabulary, mapping)
        if own and found.lines:
            keep(name, found)
    _remembered[name] = found
    if len(_remembered) > MOST_REMEMBERED:
        del _remembered[next(iter(_remembered))]
    return found


def _read(path: Path, vocabulary: Vocabulary, mapping: ScheduleMapping) -> Schedule:
    from speccheck.schedule.schedule import read_schedule  # many modules, which nobody needs whose file is known

    return read_schedule(path, vocabulary, mapping)


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
