"""Peak memory of the columns and of what is written by hand: each judges once, in a process of its own."""

from __future__ import annotations

import resource
import subprocess
import sys
from collections.abc import Callable, Mapping

from benchmarks import by_numpy, by_polars
from benchmarks.plain_columns import Plain, as_columns, plain_columns
from benchmarks.workload import ruleset_text

from speccheck.judge.vectorized import ColumnJudge
from speccheck.language import parse_ruleset


def _by_columns(plain: Plain) -> None:
    ruleset = parse_ruleset(ruleset_text(40)).ruleset
    assert ruleset is not None
    ColumnJudge(ruleset).judge(as_columns(plain, ruleset))


WAYS: Mapping[str, Callable[[Plain], object]] = {
    "data alone": lambda plain: plain,
    "columns": _by_columns,
    "NumPy by hand": lambda plain: by_numpy.verdicts(plain, 40),
    "Polars by hand": lambda plain: by_polars.verdicts(by_polars.frame_of(plain), 40),
}
"""What judges the rows, by the name that the table gives it."""


def peaks(rows: int) -> str:
    """Return the peak memory of each way over so many rows."""
    found = []
    for way in WAYS:
        command = [sys.executable, "-m", "benchmarks.memory", way, str(rows)]
        done = subprocess.run(command, capture_output=True, text=True, check=True)
        found.append(f"{way} {done.stdout.strip()}")
    return ", ".join(found)


def main(way: str, rows: int) -> None:
    """Judge so many rows in one way, and print the most memory that this process had."""
    WAYS[way](plain_columns(rows))
    print(f"{resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]))
