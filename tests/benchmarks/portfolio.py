"""Portfolios and sweeps: thousands of schedules as files and as one Parquet file, and a million combinations.

Times are those of whole commands as processes of their own. Memory is that of the largest process of a run.
"""

from __future__ import annotations

import csv
import json
import os
import random
import subprocess
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from benchmarks.workload import ruleset_text, schedule_rows

LINES = 50
SIZES = (1_000, 10_000)
_STOCK = 2_000  # different lines from which schedules are put together
SWEEP = (
    "pipe size 1/2 in to 12 in",
    "operating temperature 20 F to 269 F every 1 F",
    "thickness 1/2 in, 1 in, 1-1/2 in, 2 in, 3 in",
    "service chilled water, heating hot water, steam, domestic hot water, glycol, refrigerant suction",
    "insulation fiberglass, elastomeric foam, cellular glass; location outdoor, plenum, conditioned",
    "ambient temperature 75 F; jacket aluminum; concealed no; vapor stop spacing 15 ft; vapor stop locations valves",
)


@dataclass(frozen=True, slots=True)
class Measured:
    """A command that was run: seconds by the clock, seconds of processors, megabytes of its largest process."""

    seconds: float
    processors: float
    megabytes: float

    def __str__(self) -> str:
        return f"{self.seconds:.1f} s ({self.processors:.0f} s of processors), {self.megabytes:.0f} MB"


def schedules(count: int) -> Iterator[list[list[str]]]:
    """Yield the lines of so many schedules, the same each time."""
    stock, chance = schedule_rows(_STOCK)[1:], random.Random(5)
    for _ in range(count):
        yield [[f"L-{number + 1}", *row[1:]] for number, row in enumerate(chance.choices(stock, k=LINES))]


def write_files(folder: Path, headings: Sequence[str], count: int) -> None:
    """Write so many schedules, two of three as comma-separated values and one as JSON, a hundred in a folder."""
    for number, rows in enumerate(schedules(count)):
        path = folder / f"{number // 100:04}" / f"schedule-{number:06}"
        path.parent.mkdir(parents=True, exist_ok=True)
        if number % 3 == 2:
            lines = [dict(zip(headings, row, strict=True)) for row in rows]
            path.with_suffix(".json").write_text(json.dumps(lines), encoding="utf-8")
        else:
            with path.with_suffix(".csv").open("w", encoding="utf-8", newline="") as file:
                csv.writer(file).writerows([headings, *rows])


def write_parquet(path: Path, headings: Sequence[str], count: int) -> None:
    """Write the same schedules as one Parquet file, two thousand of them to a row group."""
    import pyarrow as pa
    import pyarrow.parquet as pq

    names = ("Submittal", *headings)
    schema = pa.schema([(name, pa.string()) for name in names])
    with pq.ParquetWriter(path, schema) as writer:
        several: list[tuple[str, ...]] = []
        for number, rows in enumerate(schedules(count)):
            several += [(f"schedule-{number:06}", *row) for row in rows]
            if number % 2_000 == 1_999 or number == count - 1:
                writer.write_table(pa.table([pa.array(list(one)) for one in zip(*several, strict=True)], schema=schema))
                several = []


# A process counts the memory of the one that started it, so that a small one has to stand between.
_BETWEEN = """
import json, resource, subprocess, sys, time
start = time.perf_counter()
subprocess.run(sys.argv[1:], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(json.dumps([time.perf_counter() - start, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024]))
"""


def measured(folder: Path, *arguments: str) -> Measured:
    """Run a command of the program, and return what it took."""
    return command_measured(folder, "-m", "speccheck", *arguments)


def command_measured(folder: Path, *arguments: str, cache: str | None = None) -> Measured:
    """Run Python with arguments, `cache` for the folder of what is kept, and return what it took."""
    command = [sys.executable, "-c", _BETWEEN, sys.executable, *arguments]
    around = {**os.environ, "PYTHONPYCACHEPREFIX": str(folder / "compiled")}  # as installed, whatever this shell says
    around.pop("PYTHONDONTWRITEBYTECODE", None)
    around |= {} if cache is None else {"SPECCHECK_CACHE": cache}
    done = subprocess.run(command, cwd=folder, stdout=subprocess.PIPE, check=True, env=around)
    return Measured(*json.loads(done.stdout))


def run(sizes: Sequence[int] = SIZES) -> list[tuple[str, str]]:
    """Return the rows of the table."""
    headings = schedule_rows(0)[0]
    rows = []
    with TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "rules.clauses").write_text(ruleset_text(), encoding="utf-8")
        measured(folder, "test", "rules.clauses")  # warms the caches
        for count in sizes:
            write_files(folder / f"files-{count}", headings, count)
            write_parquet(folder / f"{count}.parquet", headings, count)
            call = ("--against", "rules.clauses", "--quiet", "--into", f"judged-{count}")
            first = measured(folder, "portfolio", f"files-{count}", *call)
            again = measured(folder, "portfolio", f"files-{count}", *call)
            dataset = measured(folder, "portfolio", f"{count}.parquet", *call[:-1], f"set-{count}")
            what = f"{count:,} schedules of {LINES} lines x 40 clauses"
            rate = f"{count / first.seconds:.0f} schedules/s, {count * LINES / first.seconds:,.0f} lines/s"
            rows += [
                (f"{what}, files", f"{first}; {rate}"),
                ("  the same again, all kept", str(again)),
                ("  as one Parquet file", f"{dataset}; {count * LINES / dataset.seconds:,.0f} lines/s"),
            ]
        swept = measured(folder, "sweep", "rules.clauses", *SWEEP, "--page", "sweep.html")
        rows.append(("sweep of 1,012,500 combinations x 40 clauses, HTML picture", str(swept)))
    return rows


if __name__ == "__main__":
    for what, result in run():
        print(f"{what}: {result}")
