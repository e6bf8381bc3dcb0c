"""What comes from the editor, before the library takes it apart: messages whose head cannot be read are told and passed
over, so that none ends the server and none leaves it silent.

A message is a head of lines (`Content-Length: 42`), an empty line and a body of so many bytes (Language Server Protocol
3.17, base protocol).
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import BinaryIO

LARGEST_MESSAGE = 50_000_000
"""How many bytes a message may have; no text of clauses is a tenth of it."""
LONGEST_LINE = 65_536
_LENGTH = re.compile(rb"content-length\s*:\s*([0-9]{1,18})\s*\Z", re.IGNORECASE)
_TYPE = re.compile(rb"content-type\s*:", re.IGNORECASE)


class Incoming:
    """The input of the server, as the library reads it: lines of heads, and bodies.

    After a head that cannot be read, what follows is passed over up to the next length, which may stand right behind a
    body. `tell` gets what was wrong, once for each such run.
    """

    def __init__(self, stream: BinaryIO, tell: Callable[[str], None]) -> None:
        self.stream, self.tell = stream, tell
        self.lost = False

    def readline(self) -> bytes:
        """Return the next line of a head, with the length as the library expects it; b"" at the end."""
        line = self.stream.readline(LONGEST_LINE)
        bare = line.strip()
        if not bare or _TYPE.match(bare):
            return line
        found = _LENGTH.search(bare)
        if found is not None:
            if found.start() > 0:
                self._lose("what stands before a message belongs to none")
            if 0 < int(found[1]) <= LARGEST_MESSAGE:
                self.lost = False
                return b"Content-Length: %d\r\n" % int(found[1])
            self._lose(f"a message says that it has {int(found[1]):,} bytes; it may have 1 to {LARGEST_MESSAGE:,}")
        else:
            shown = bare[:40].decode("ascii", "backslashreplace")
            self._lose(f"`{shown}` is no head of a message; it begins with `Content-Length:` and a number of bytes")
        return b"-\r\n"

    def read(self, count: int) -> bytes:
        """Return a body."""
        return self.stream.read(count)

    def close(self) -> None:
        """Close the stream."""
        self.stream.close()

    def _lose(self, why: str) -> None:
        if not self.lost:
            self.tell(f"{why}; it was passed over")
        self.lost = True
