"""Files that a browser sends: capped, and stored under names of our own; the name that came is only shown."""

from __future__ import annotations

from pathlib import PurePosixPath

from starlette.datastructures import UploadFile

from speccheck.schedule.formats.endings import READ

LARGEST_FILE = 50_000_000


class Refused(Exception):
    """A file that is not taken, and why."""


async def received(file: object) -> tuple[str, bytes]:
    """Return the suffix and the content of a file that was sent, or raise `Refused`."""
    if not isinstance(file, UploadFile) or not file.filename:
        raise Refused("choose a file first")
    suffix = PurePosixPath(file.filename.replace("\\", "/")).suffix.lower()
    if suffix not in READ:
        raise Refused(f"a schedule is a workbook, a table or a document: {', '.join(READ)}")
    content = await file.read(LARGEST_FILE + 1)
    if len(content) > LARGEST_FILE:
        raise Refused(f"this file is larger than {LARGEST_FILE // 1_000_000} MB")
    if not content:
        raise Refused("this file is empty")
    return suffix, content
