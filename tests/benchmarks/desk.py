"""The desk: command to first screen, the demo dropped on it, and the page of 2,000 lines by 70 clauses.

The first two stand beside what Python and the command itself take.
"""

from __future__ import annotations

import re
import shutil
import statistics
import subprocess
import sys
import time
import urllib.request
from http.cookiejar import CookieJar
from pathlib import Path
from tempfile import TemporaryDirectory

from benchmarks import report_page

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
        *report_page.rows(),
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
    """Return the time from the command to the first screen, and from the demo dropped to its matrix on screen."""
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
        return first, _dropped(found[0])
    finally:
        process.terminate()
        process.wait()


def _dropped(address: str) -> float:
    """Return the time from the press of the button to the first row of the matrix, in chromium."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as started:
        browser = started.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 1440, "height": 900})
        page.set_default_timeout(120_000)
        page.goto(address)
        page.wait_for_timeout(2000)  # the desk has made itself ready, as it has when a person has found the file
        begun = time.perf_counter()
        page.click("text=Open the invented dairy")
        page.wait_for_selector("#outcome")
        page.click(".desk-bar a:text-is('Matrix')")
        page.wait_for_selector("#grid tbody tr:not(.space)")
        took = time.perf_counter() - begun
        browser.close()
    return took
