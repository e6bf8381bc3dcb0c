"""The desk: command to first screen, and the demo dropped on it, beside what Python and the command itself take."""

from __future__ import annotations

import re
import statistics
import subprocess
import sys
import time
import urllib.parse
import urllib.request
from http.cookiejar import CookieJar
from pathlib import Path
from tempfile import TemporaryDirectory

RUNS = 5
DEMO = Path(__file__).parents[2] / "examples" / "dairy"
SERVER = "import starlette.applications, uvicorn, jinja2"
CHECK = (
    "import sys, time; from speccheck.cli import main; begun = time.perf_counter(); sys.argv[1:] = {words!r}\n"
    "try: main()\nexcept SystemExit: pass\nprint(time.perf_counter() - begun, file=sys.stderr)"
)


def run() -> list[tuple[str, str]]:
    """Return the rows of the table: medians of runs that took turns."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        times: dict[str, list[float]] = {"server": [], "screen": [], "drop": [], "check": []}
        for number in range(RUNS + 1):  # the first warms the caches
            times["server"].append(_seconds([sys.executable, "-c", SERVER]))
            screen, drop = _desk(folder / f"reviews-{number}")
            times["screen"].append(screen)
            times["drop"].append(drop)
            times["check"].append(_check(folder / f"page-{number}.html"))
        server, screen, drop, check = (statistics.median(found[1:]) for found in times.values())
    return [
        (
            "command to first screen",
            f"{screen * 1000:.0f} ms, {(screen - server) * 1000:.0f} beyond Python and its server",
        ),
        (
            "demo dropped, matrix on screen",
            f"{drop * 1000:.0f} ms, {drop / check:.2f} x `check` without the start of Python",
        ),
    ]


def _seconds(command: list[str]) -> float:
    begun = time.perf_counter()
    subprocess.run(command, check=True, capture_output=True)
    return time.perf_counter() - begun


def _check(page: Path) -> float:
    """Return how long `check` takes with a page, from within a Python that has started."""
    words = ["check", str(DEMO / "schedule.xlsx"), "--against", str(DEMO / "project.clauses"), "--page", str(page)]
    done = subprocess.run([sys.executable, "-c", CHECK.format(words=words)], capture_output=True, text=True, check=True)
    return float(done.stderr.split()[-1])


def _desk(folder: Path) -> tuple[float, float]:
    """Return the time from the command to the first screen, and from the demo dropped to its matrix."""
    begun = time.perf_counter()
    process = subprocess.Popen(
        [sys.executable, "-u", "-m", "speccheck", "desk", str(folder), "--no-browser"],
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        assert process.stdout is not None
        found = re.search(r"http://\S+", process.stdout.readline())
        assert found is not None
        opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor(CookieJar()))
        opener.open(found[0]).read()
        first = time.perf_counter() - begun
        home = found[0].split("/?")[0]
        time.sleep(1)
        begun = time.perf_counter()
        post = urllib.request.Request(f"{home}/example", data=b"", headers={"Origin": home})
        project = _finished(opener, opener.open(post))
        _finished(opener, opener.open(f"{project}/matrix"))
        return first, time.perf_counter() - begun
    finally:
        process.terminate()
        process.wait()


def _finished(opener: urllib.request.OpenerDirector, answer: object) -> str:
    """Wait until long work behind an address is done, and return the address."""
    while True:
        assert hasattr(answer, "status")
        if answer.status != 202:
            answer.read()
            return str(answer.geturl())
        time.sleep(0.02)
        answer = opener.open(answer.geturl())
