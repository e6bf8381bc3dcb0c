"""Terminals and surroundings that are legal and odd: what is printed is the same in each, wrapped as far as it may be.

Each command runs in a process of its own, since all of this is found out when one starts.
"""

from __future__ import annotations

import os
import pty
import re
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

import pytest

RULES = """ruleset "small"
  speaks mechanical insulation
  units inch-pound
clause 1.1 "Thickness"
  where   service is chilled water
  shall   thickness be at least 1 in
"""
LINES = "Mark,Service,Operating temperature,Thickness\nP-1,chilled water,40 °F to 48 °F,1/2 in\n"
SURROUNDINGS: Mapping[str, Mapping[str, str]] = {
    "a terminal without columns": {"COLUMNS": "0"},
    "a terminal of 20 columns": {"COLUMNS": "20"},
    "columns that are no number": {"COLUMNS": "wide"},
    "docstrings left out": {"PYTHONOPTIMIZE": "2"},
    "the C locale": {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
    "ASCII": {"PYTHONIOENCODING": "ascii"},
    "a terminal that can do nothing": {"TERM": "dumb"},
    "a terminal of no known kind": {"TERM": "of-no-known-kind"},
    "no home": {"HOME": "/nowhere"},
}


Usual = Mapping[tuple[str, ...], tuple[int, str, str]]
CHECK = ("check", "lines.csv", "--against", "small.clauses")
HELP = (("--help",), ("check", "--help"))


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a folder with a small ruleset and a schedule of one line that is too thin."""
    made = tmp_path_factory.mktemp("surroundings")
    (made / "small.clauses").write_text(RULES, encoding="utf-8")
    (made / "lines.csv").write_text(LINES, encoding="utf-8")
    return made


@pytest.fixture(scope="module")
def usual(folder: Path) -> Usual:
    """Return what commands give in usual surroundings."""
    return {words: run(folder, {}, *words) for words in (CHECK, *HELP)}


def run(folder: Path, surroundings: Mapping[str, str], *arguments: str) -> tuple[int, str, str]:
    """Run a command with no terminal and nothing to read; return its status, and what it printed in both places."""
    kept = {name: os.environ[name] for name in ("PATH", "PYTHONPATH", "SPECCHECK_CACHE", "HOME") if name in os.environ}
    done = subprocess.run(
        [sys.executable, "-m", "speccheck", *arguments], cwd=folder, env={**kept, **surroundings},
        stdin=subprocess.DEVNULL, capture_output=True, timeout=120, check=False,
    )  # fmt: skip
    return done.returncode, done.stdout.decode("utf-8"), done.stderr.decode("utf-8")


@pytest.mark.parametrize("name", SURROUNDINGS)
def test_a_check_says_the_same_in_all_surroundings(name: str, folder: Path, usual: Usual) -> None:
    """1/2 in is thinner than 1 in: the status is 1, and the words are the same, whatever their lines."""
    expected, found = usual[CHECK], run(folder, SURROUNDINGS[name], *CHECK)
    assert (expected[0], expected[2]) == (found[0], found[2]) == (1, "")
    assert "P-1: thickness is 1/2 in, but must be at least 1 in" in expected[1]
    assert found[1].split() == expected[1].split()


@pytest.mark.parametrize("name", SURROUNDINGS)
def test_help_and_errors_are_told_in_all_surroundings(name: str, folder: Path, usual: Usual) -> None:
    """Help says what the whole and a command are for, and a file that is not there is told by name."""
    for words in HELP:
        assert "Check" in usual[words][1].split()
        assert run(folder, SURROUNDINGS[name], *words)[1].split() == usual[words][1].split()
    status, _, told = run(folder, SURROUNDINGS[name], "check", "none.csv", "--against", "small.clauses")
    assert status == 3
    assert "`none.csv` is not a file that can be opened" in " ".join(told.split())


@pytest.mark.parametrize("columns", ["0", "1", "20", "500"])
def test_a_check_ends_with_its_outcome_in_a_terminal_of_any_width(columns: str, folder: Path) -> None:
    """However few columns a terminal says it has, or none, the outcome is the last that is printed."""
    screen, terminal = pty.openpty()
    command = [sys.executable, "-m", "speccheck", "check", "lines.csv", "--against", "small.clauses"]
    with subprocess.Popen(command, cwd=folder, env={**os.environ, "COLUMNS": columns}, stdout=terminal) as running:
        os.close(terminal)
        told = b""
        while part := _read(screen):
            told += part
    os.close(screen)
    words = re.sub(r"\x1b\[[\d;]*m", "", told.decode("utf-8")).split()
    assert running.returncode == 1
    assert " ".join(words).endswith("The schedule does not comply.")


def _read(screen: int) -> bytes:
    """Return what a screen shows next; nothing where all that writes to it has ended, which Linux calls an error."""
    try:
        return os.read(screen, 65536)
    except OSError:
        return b""
