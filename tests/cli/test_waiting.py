"""What is shown while a command works: on a terminal alone, and gone before anything is printed."""

from __future__ import annotations

import ast
import io
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
from click.testing import CliRunner

from speccheck import cli
from speccheck.cli import COMMANDS, OWN_WAITS
from speccheck.cli.waiting import Waiting, shown_while_waiting, working_on
from tests.some import some


class Terminal(io.StringIO):
    """A stream that says it is a terminal."""

    def isatty(self) -> bool:
        """Return that it is one."""
        return True


def on_screen(written: str) -> str:
    """Return what a terminal shows on its last line: what follows a carriage return stands over what was there."""
    line = ""
    for part in written.split("\r"):
        line = part + line[len(part) :]
    return line.rstrip()


def test_the_line_says_what_is_done_and_for_how_long_and_goes_without_a_trace() -> None:
    """A shorter stage leaves nothing of a longer one; at the end the line is empty, and a late tick writes nothing."""
    terminal = Terminal()
    waiting = Waiting("reading schedule.xlsx", terminal)
    waiting.tick(1)
    assert on_screen(terminal.getvalue()) == "reading schedule.xlsx ... 1 s"
    waiting.stage = "judging"
    waiting.tick(2)
    assert on_screen(terminal.getvalue()) == "judging ... 2 s"
    waiting.end()
    waiting.tick(3)
    assert on_screen(terminal.getvalue()) == ""


def test_what_is_printed_ends_the_wait(monkeypatch: pytest.MonkeyPatch) -> None:
    """The line is taken away first, and the streams are those of before when the block is over."""
    screen = Terminal()
    monkeypatch.setattr(sys, "stdout", screen)
    monkeypatch.setattr(sys, "stderr", screen)
    with shown_while_waiting("checking"):
        working_on("judging 3 lines")
        print("The schedule complies.")
    assert on_screen(screen.getvalue()).strip() == "The schedule complies."
    assert sys.stdout is screen
    assert sys.stderr is screen


def test_without_a_terminal_nothing_is_shown(monkeypatch: pytest.MonkeyPatch) -> None:
    """A log or a pipe has no line that comes and goes, and keeps its own streams."""
    log = io.StringIO()
    monkeypatch.setattr(sys, "stderr", log)
    with shown_while_waiting("checking"):
        assert sys.stderr is log
    assert log.getvalue() == ""


def test_every_command_shows_what_it_waits_for(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever is called runs inside the line of a wait, but for commands that show how far they are themselves."""
    shown: list[str] = []

    @contextmanager
    def watched(stage: str) -> Iterator[None]:
        shown.append(stage)
        yield

    monkeypatch.setattr("speccheck.cli.waiting.shown_while_waiting", watched)
    found = CliRunner().invoke(cli.speccheck, ["guide", "L101"])
    assert (found.exit_code, shown) == (0, ["working"])
    assert set(OWN_WAITS) < set(COMMANDS)


def test_one_module_writes_the_files_of_all_commands() -> None:
    """So that none is written untold: `outputs` says of each file that it wrote it."""
    folder = Path(cli.__file__).parent
    writers = {"write_text", "write_bytes", "write_whole"}
    calls = {
        path.name
        for path in some(folder.glob("*.py"))
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call) and ast.unparse(node.func).split(".")[-1] in writers
    }
    assert calls == {"outputs.py"}
