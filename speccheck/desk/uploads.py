"""Files that a browser sends: capped, and stored under names of our own; the name that came is only shown."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import PurePosixPath

from starlette.datastructures import FormData, UploadFile

from speccheck.desk.projects import project_name
from speccheck.schedule.formats.endings import READ

LARGEST_FILE = 50_000_000


MOST_FILES = 40


class UploadRefused(Exception):
    """A file that is not taken, and why."""


@dataclass(frozen=True, slots=True)
class Received:
    """A file that was sent: its name in plain letters, without its ending, its ending, and its content."""

    name: str
    suffix: str
    content: bytes

    def numbered(self, number: int) -> str:
        """Return a name of our own under which the file can stand beside others."""
        return f"{number:02d}-{self.name}{self.suffix}"


async def received(file: object, endings: Iterable[str] = READ) -> Received:
    """Return a file that was sent, or raise `UploadRefused`."""
    if not isinstance(file, UploadFile) or not file.filename:
        raise UploadRefused("choose a file first")
    sent = PurePosixPath(file.filename.replace("\\", "/"))
    suffix = sent.suffix.lower()
    if suffix not in endings:
        raise UploadRefused(f"`{suffix or sent.name[:40]}` is not read here; give one of these: {', '.join(endings)}")
    content = await file.read(LARGEST_FILE + 1)
    if len(content) > LARGEST_FILE:
        raise UploadRefused(f"this file is larger than {LARGEST_FILE // 1_000_000} MB")
    if not content:
        raise UploadRefused("this file is empty")
    return Received(project_name(sent.stem), suffix, content)


async def all_received(form: FormData, field: str, endings: Iterable[str] = READ) -> list[Received]:
    """Return the files that were sent in one field, at least one, or raise `UploadRefused`."""
    files: list[object] = list(form.getlist(field))
    if len(files) > MOST_FILES:
        raise UploadRefused(f"a submittal has at most {MOST_FILES} files")
    return [await received(file, endings) for file in files or [None]]
