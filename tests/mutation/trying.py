"""One mistake in a copy of the checkout: the tests of its package are run until one fails."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from random import Random
from typing import NamedTuple

from tests.mutation.changes import Mistake, mistakes

TOP = Path(__file__).parents[2]
# The tests that are asked first of each package; the conformance cases hold whatever decides a verdict.
TESTS = {
    "quantities": ["tests/quantities", "tests/language/test_values.py"],
    "phrases": ["tests/phrases", "tests/schedule/test_as_written.py"],
    "schedule": ["tests/schedule", "tests/phrases"],
    "judge": ["tests/conformance", "tests/judge"],
    "physics": ["tests/physics"],
    "review": ["tests/review"],
}
_MOST_SECONDS = 900


class Tried(NamedTuple):
    """A mistake that was tried: its file, the mistake, and whether a test failed."""

    file: Path
    mistake: Mistake
    noticed: bool


def drawn(package: str, count: int, seed: int) -> list[tuple[Path, Mistake]]:
    """Return so many mistakes of a package, the same for the same seed, each file drawn by its length."""
    every = [
        (path.relative_to(TOP), mistake)
        for path in sorted((TOP / "speccheck" / package).rglob("*.py"))
        for mistake in mistakes(path.read_text(encoding="utf-8"))
    ]
    return Random(seed).sample(every, min(count, len(every)))


def tried(package: str, count: int, seed: int, folder: Path) -> Iterator[Tried]:
    """Yield what became of each mistake; `folder` is where the copy of the checkout is made."""
    copy = folder / "checkout"
    shutil.copytree(TOP, copy, ignore=shutil.ignore_patterns(".git", ".venv", "__pycache__", ".hypothesis", ".*_cache"))
    for file, mistake in drawn(package, count, seed):
        original = (copy / file).read_text(encoding="utf-8")
        (copy / file).write_text(mistake.text, encoding="utf-8")
        try:
            yield Tried(file, mistake, _is_noticed(copy, TESTS[package]))
        finally:
            (copy / file).write_text(original, encoding="utf-8")


def _is_noticed(copy: Path, tests: list[str]) -> bool:
    """Run tests in a copy until one fails; what takes much longer than they do is noticed too."""
    environment = {
        **os.environ,
        "PYTHONPATH": str(copy),
        "SPECCHECK_CACHE": str(copy / ".cache"),
        "PYTHONDONTWRITEBYTECODE": "1",
    }
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *tests]
    try:
        done = subprocess.run(
            command, cwd=copy, env=environment, capture_output=True, timeout=_MOST_SECONDS, check=False
        )
    except subprocess.TimeoutExpired:
        return True
    return done.returncode != 0
