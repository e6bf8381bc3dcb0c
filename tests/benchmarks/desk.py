"""The desk: command to first screen, the demo dropped on it, and the page of 2,000 lines by 70 clauses.

The first two stand beside what Python and the command itself take; the drop twice, of a file that neither the desk nor
the command has read before, and of one that both have, since neither reads such a file once more.
"""

from __future__ import annotations

import re
import shutil
import statistics
import subprocess
import sys
import time
import urllib.request
import zipfile
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
    times: dict[str, list[float]] = {}

    def took(what: str, seconds: float) -> None:
        times.setdefault(what, []).append(seconds)

    with TemporaryDirectory() as name:
        for number in range(RUNS + 1):  # the first warms the caches
            folder = Path(name) / str(number)
            folder.mkdir()
            took("server", _seconds([sys.executable, "-c", SERVER]))
            schedule = unread_copy(folder / "schedule.xlsx", f"{number} of {folder}")
            for read in ("unread", "read before"):
                took(f"check, {read}", _check(schedule, folder / f"{read}.html"))
                screen, drop = _desk(folder / f"reviews, {read}", schedule)
                took("screen", screen)
                took(f"drop, {read}", drop)
    middle = {what: statistics.median(found[1:]) for what, found in times.items()}
    screen, server = middle["screen"], middle["server"]
    return [
        (
            "command to first screen",
            f"{screen * 1000:.0f} ms, {(screen - server) * 1000:.0f} beyond Python and its server",
        ),
        *(
            (
                f"demo dropped, {read}, matrix on screen",
                f"{middle[f'drop, {read}'] * 1000:.0f} ms, {middle[f'drop, {read}'] / middle[f'check, {read}']:.2f} x "
                "`check` of such a file without the start of Python",
            )
            for read in ("unread", "read before")
        ),
        *report_page.rows(),
    ]


def unread_copy(path: Path, comment: str) -> Path:
    """Write a copy of the demo's workbook that is read as a new one: it differs in the comment of its package alone."""
    shutil.copyfile(DEMO / "schedule.xlsx", path)
    with zipfile.ZipFile(path, "a") as package:
        package.comment = comment.encode()
    return path


def _seconds(command: list[str]) -> float:
    begun = time.perf_counter()
    subprocess.run(command, check=True, capture_output=True)
    return time.perf_counter() - begun


def _check(schedule: Path, page: Path) -> float:
    """Return how long `check` takes with a page, from within a Python that has started."""
    words = ["check", str(schedule), "--against", str(DEMO / "project.clauses"), "--page", str(page)]
    done = subprocess.run([sys.executable, "-c", CHECK.format(words=words)], capture_output=True, text=True, check=True)
    return float(done.stderr.split()[-1])


def _desk(folder: Path, schedule: Path) -> tuple[float, float]:
    """Return the time from the command to the first screen, and from a schedule dropped to its matrix on screen."""
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
        return first, _dropped(found[0], schedule)
    finally:
        process.terminate()
        process.wait()


def _dropped(address: str, schedule: Path) -> float:
    """Return the time from the press of the button to the first row of the matrix, in chromium."""
    from playwright.sync_api import sync_playwright

    with sync_playwright() as started:
        browser = started.chromium.launch(executable_path=shutil.which("chromium"), args=["--no-sandbox"])
        page = browser.new_page(viewport={"width": 1440, "height": 900})
        page.set_default_timeout(120_000)
        page.goto(address)
        page.set_input_files("input[name=schedule]", schedule)
        page.check("input[value='own clauses']")
        page.set_input_files("input[name=clauses]", DEMO / "project.clauses")
        page.wait_for_timeout(2000)  # the desk has made itself ready, as it has when a person has found the file
        begun = time.perf_counter()
        page.click("text=Check the schedule")
        page.wait_for_selector("#outcome")
        page.click(".desk-bar a:text-is('Matrix')")
        page.wait_for_selector("#grid tbody tr:not(.space)")
        took = time.perf_counter() - begun
        browser.close()
    return took
