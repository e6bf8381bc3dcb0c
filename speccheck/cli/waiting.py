"""What a person at a terminal sees while a command works for longer than a second: what it is at, and for how long.

Nothing is shown where standard error is no terminal. The line is taken away before anything else is printed.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from threading import Event, Lock, Thread
from typing import Any, TextIO

FIRST_SECONDS = 1
"""What takes no longer is not worth a word."""


class Waiting:
    """A line on a terminal that says what a command is at. `stage` may be changed while it works."""

    def __init__(self, stage: str, terminal: TextIO) -> None:
        self.stage = stage
        self.terminal = terminal
        self.over = Event()
        self._lock = Lock()
        self._shown = 0

    def run(self) -> None:
        """Renew the line each second until the wait is over."""
        seconds = FIRST_SECONDS
        while not self.over.wait(1):
            self.tick(seconds)
            seconds += 1

    def tick(self, seconds: int) -> None:
        """Show what the command is at, after so many seconds."""
        with self._lock:
            if not self.over.is_set():
                text = f"{self.stage} ... {seconds} s"
                self.terminal.write("\r" + text.ljust(self._shown))
                self.terminal.flush()
                self._shown = len(text)

    def end(self) -> None:
        """Take the line away; it does not come back."""
        with self._lock:
            self.over.set()
            if self._shown:
                self.terminal.write("\r" + " " * self._shown + "\r")
                self.terminal.flush()
                self._shown = 0


class _EndsWaiting:
    """A stream that ends a wait before the first thing is printed on it."""

    def __init__(self, stream: Any, waiting: Waiting) -> None:
        self._stream = stream
        self._waiting = waiting

    def write(self, text: Any) -> Any:
        self._waiting.end()
        return self._stream.write(text)

    def __getattr__(self, name: str) -> Any:
        if name == "buffer":  # what is written there goes round this stream
            self._waiting.end()
        return getattr(self._stream, name)


_WAITING: list[Waiting] = []


def working_on(stage: str) -> None:
    """Say what the command that runs is at, for the line that a long wait shows."""
    if _WAITING:
        _WAITING[-1].stage = stage


def show_no_wait() -> None:
    """Show nothing for the command that runs: it says itself how far it is, or waits for somebody."""
    if _WAITING:
        _WAITING[-1].end()


@contextmanager
def shown_while_waiting(stage: str) -> Iterator[None]:
    """Show on a terminal what is worked on while the block runs, from the second second on."""
    if not sys.stderr.isatty():
        yield
        return
    out, err = sys.stdout, sys.stderr
    waiting = Waiting(stage, err)
    _WAITING.append(waiting)
    sys.stdout, sys.stderr = _EndsWaiting(out, waiting), _EndsWaiting(err, waiting)
    Thread(target=waiting.run, daemon=True).start()
    try:
        yield
    finally:
        waiting.end()
        _WAITING.remove(waiting)
        sys.stdout, sys.stderr = out, err
