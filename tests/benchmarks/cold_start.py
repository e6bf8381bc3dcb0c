"""Cold start: whole commands as processes of their own, workbook in and page out."""

from __future__ import annotations

import statistics
import subprocess
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory

from benchmarks.workload import ruleset_text, write_workbook

RUNS = 9


def run() -> list[tuple[str, str]]:
    """Return the rows of the table: what was run, and its median and least wall time."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "rules.clauses").write_text(ruleset_text(), encoding="utf-8")
        write_workbook(folder / "schedule.xlsx", 200)
        check = ["-m", "speccheck", "check", "schedule.xlsx", "--against", "rules.clauses", "--quiet"]
        commands = {
            "python that does nothing": ["-c", "pass"],
            "check, 200 lines x 40 clauses, no report": check,
            "check, 200 lines x 40 clauses, HTML page": [*check, "--page", "report.html"],
            "test a ruleset of 40 clauses": ["-m", "speccheck", "test", "rules.clauses"],
        }
        return [(what, _timed([sys.executable, *command], folder)) for what, command in commands.items()]


def _timed(command: list[str], folder: Path) -> str:
    """Return the wall time of a command: the median of some runs after one that warms the caches, and the least."""
    times = []
    for _ in range(RUNS + 1):
        start = time.perf_counter()
        subprocess.run(command, cwd=folder, capture_output=True, check=False)
        times.append(time.perf_counter() - start)
    return f"median {statistics.median(times[1:]) * 1000:.0f} ms, least {min(times[1:]) * 1000:.0f} ms"
