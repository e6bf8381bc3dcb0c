"""What each step of the desk replaced, so that it can be undone.

    history/000012.json      which file, what was done, the fingerprint of what was written
    history/000012.before    the file as it was before, where there was one

A step may be several writes ("round 2": its submittal, its mapping file, its notes); all but the first are joined to
the one before, and all are undone together. What is replaced is kept before it is replaced, so that a desk that is
killed in between leaves a step that can be undone and changes nothing.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from speccheck.report.writing import write_whole

MOST_WRITES = 500
"""How many writes are kept; the oldest are forgotten."""
_NUMBER = re.compile(r"[0-9]{6}")


@dataclass(frozen=True, slots=True)
class Write:
    """One write: the `file` by its path inside the project, whether it was there before, and what it was given."""

    number: str
    file: str
    what: str
    was: bool
    after: str
    joined: bool = False


@dataclass(frozen=True, slots=True)
class UndoStep:
    """The writes that are undone together, the last one first."""

    writes: tuple[Write, ...]

    @property
    def number(self) -> str:
        """The number of its last write, by which a page asks to undo it."""
        return self.writes[0].number

    @property
    def what(self) -> str:
        """What was done, in a few words."""
        return self.writes[-1].what


@dataclass(frozen=True, slots=True)
class History:
    """The folder `history` of a project."""

    folder: Path

    def remember(self, file: str, before: bytes | None, after: bytes, what: str, *, joined: bool) -> None:
        """Keep what a write replaces, before it is replaced."""
        self.folder.mkdir(exist_ok=True)
        numbers = self._numbers()
        number = f"{int(numbers[-1]) + 1 if numbers else 1:06d}"
        if before is not None:
            write_whole(self.before(number), before, replace=True)
        entry = {"file": file, "what": what, "was": before is not None, "after": sha256(after).hexdigest()}
        write_whole(self.folder / f"{number}.json", json.dumps(entry | {"joined": joined}, ensure_ascii=False))
        for old in numbers[: max(0, len(numbers) + 1 - MOST_WRITES)]:
            self.forget(old)

    def before(self, number: str) -> Path:
        """Return where the file as it was before a write is kept."""
        return self.folder / f"{number}.before"

    def forget(self, number: str) -> None:
        """Forget a write; what it replaced goes last, so that no write is left without it."""
        (self.folder / f"{number}.json").unlink(missing_ok=True)
        self.before(number).unlink(missing_ok=True)

    def last_step(self) -> UndoStep | None:
        """Return the last step that can be undone."""
        writes: list[Write] = []
        for number in reversed(self._numbers()):
            write = self._write(number)
            if write is None:
                continue
            writes.append(write)
            if not write.joined:
                break
        return UndoStep(tuple(writes)) if writes else None

    def _numbers(self) -> list[str]:
        return sorted(one.stem for one in self.folder.glob("*.json") if _NUMBER.fullmatch(one.stem))

    def _write(self, number: str) -> Write | None:
        """Return a write, None where its entry cannot be read."""
        try:
            entry = json.loads((self.folder / f"{number}.json").read_text(encoding="utf-8"))
            return Write(number, **entry)
        except (OSError, ValueError, TypeError):
            return None
