"""A run of one target: guided by the code that its inputs reach, or by chance alone, within limits of time and memory.

A guided run is one of atheris (libFuzzer), which stops at the first fault and keeps its input. A run by chance goes on
after a fault and keeps one input for each place where something was raised.
"""

from __future__ import annotations

import random
import resource
import signal
import subprocess
import sys
import time
import traceback
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from importlib.util import find_spec
from pathlib import Path
from types import FrameType

from tests.fuzz.changes import changed
from tests.fuzz.targets import TARGETS, Target

MOST_SECONDS = 5
MOST_MEGABYTES = 500
CORPUS = Path(__file__).parent / "corpus"


@dataclass
class Run:
    """What a run came to: inputs tried, seconds, and the inputs that broke something, by what was raised where."""

    inputs: int = 0
    seconds: float = 0.0
    faults: dict[str, bytes] = field(default_factory=dict)


class TooSlowError(Exception):
    """An input took longer than the limit."""


@contextmanager
def limited(seconds: int = MOST_SECONDS) -> Iterator[None]:
    """Interrupt what takes longer than `seconds` of the processor, whatever else the machine does."""

    def stop(number: int, frame: FrameType | None) -> None:
        raise TooSlowError(f"more than {seconds} s")

    before = signal.signal(signal.SIGPROF, stop)
    signal.setitimer(signal.ITIMER_PROF, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.signal(signal.SIGPROF, before)


def inputs_of(target: Target) -> list[bytes]:
    """Return the examples of a target and what is kept of it."""
    kept = sorted((CORPUS / target.name).glob("*")) if (CORPUS / target.name).is_dir() else []
    return [*target.examples(), *(path.read_bytes() for path in kept)]


def fault_of(target: Target, data: bytes) -> str:
    """Return what an input breaks: what was raised and where, "" where it is answered."""
    try:
        with limited():
            target.run(data)
    except (Exception, RecursionError) as raised:
        last = traceback.extract_tb(raised.__traceback__)[-1]
        return (
            f"{type(raised).__name__} in {Path(last.filename).name}:{last.lineno} ({last.name}): {str(raised)[:80]!r}"
        )
    return ""


def by_chance(target: Target, *, seed: int, inputs: int = 0, minutes: float = 0.0) -> Run:
    """Try changed examples until so many inputs or minutes have passed; the same seed tries the same inputs."""
    chance, pool, run, start = random.Random(seed), inputs_of(target), Run(), time.monotonic()
    while (not inputs or run.inputs < inputs) and (not minutes or time.monotonic() - start < 60 * minutes):
        data = changed(chance.choice(pool), pool, chance)
        fault = fault_of(target, data)
        run.inputs += 1
        if fault:
            run.faults.setdefault(fault, data)
    run.seconds = time.monotonic() - start
    return run


def limit_memory() -> None:
    """Let this process have no more memory than a whole run may."""
    most = 4 * MOST_MEGABYTES * 1024 * 1024  # addresses, of which the libraries reserve many that they never use
    resource.setrlimit(resource.RLIMIT_AS, (most, most))


def can_be_guided() -> bool:
    """Whether the library that guides runs is installed."""
    return find_spec("atheris") is not None


def guided(target: Target, folder: Path, *, seed: int, minutes: float) -> int:
    """Run atheris on a target in a process of its own, inputs and faults kept in `folder`; return its status."""
    inputs = folder / target.name
    inputs.mkdir(parents=True, exist_ok=True)
    for number, data in enumerate(inputs_of(target)):
        (inputs / f"example-{number}").write_bytes(data)
    options = [
        f"-max_total_time={int(60 * minutes)}",
        f"-seed={seed}",
        f"-timeout={MOST_SECONDS}",
        f"-rss_limit_mb={MOST_MEGABYTES}",
        f"-artifact_prefix={folder}/fault-{target.name}-",
        "-max_len=20000",
        "-print_final_stats=1",
        "-verbosity=1",
    ]
    command = [sys.executable, "-m", "tests.fuzz.guided", target.name, str(inputs), *options]
    return subprocess.run(command, check=False).returncode


__all__ = ["CORPUS", "TARGETS", "Run", "by_chance", "can_be_guided", "fault_of", "guided", "inputs_of", "limit_memory"]
