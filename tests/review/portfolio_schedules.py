"""Small portfolios for the tests: a ruleset whose verdicts anybody can count, and schedules of an invented plant."""

from __future__ import annotations

import csv
import hashlib
import json
import random
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any

from speccheck.language import load_ruleset
from speccheck.language.core import Ruleset
from speccheck.review.portfolio import Request, Run, Totals, request_for, run_portfolio, sum_up
from speccheck.review.portfolio.store import ScheduleResult
from speccheck.review.portfolio.tallies import tallies

RULESET = """ruleset "Counted by hand"
  speaks mechanical insulation
  units  inch-pound

clause 1 "Thickness"
  where  service is chilled water
  shall  thickness be at least 1 in
  should thickness be at least 2 in

clause 2 "Outdoor jacket"
  where location is outdoor
  shall jacket be one of aluminum, stainless steel

clause 3 "Joints"
  should seam closure be factory adhesive
"""
HEADINGS = ("Mark", "Service", "Location", "Pipe Size (in)", "Thk (in)", "Jacket", "Seam Closure")


def write_ruleset(folder: Path) -> Path:
    """Write the ruleset, and return its path."""
    path = folder / "rules.clauses"
    path.write_text(RULESET, encoding="utf-8")
    return path


@cache
def loaded(path: Path) -> Ruleset:
    """Return the ruleset of a path."""
    found = load_ruleset(path)
    assert found.usable, found.diagnostics
    assert found.ruleset is not None
    return found.ruleset


def rows_of(number: int, lines: int) -> list[list[str]]:
    """Return the lines of a schedule: drawn at random from few values, the same for the same number."""
    chance = random.Random(number)
    return [
        [
            f"L-{line + 1}",
            chance.choice(("chilled water", "steam", "TBD")),
            chance.choice(("outdoor", "conditioned", "")),
            chance.choice(("2", "4", "1 to 3")),
            chance.choice(("1/2", "1", "2", "TBD")),
            chance.choice(("aluminum", "PVC", "")),
            chance.choice(("factory adhesive", "tape", "")),
        ]
        for line in range(lines)
    ]


def write_csv(path: Path, rows: Sequence[Sequence[str]], headings: Sequence[str] = HEADINGS) -> None:
    """Write a schedule as comma-separated values."""
    path.parent.mkdir(parents=True, exist_ok=True)
    with path.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows([headings, *rows])


def write_parquet(path: Path, columns: Mapping[str, Any], rows_in_group: int = 1_000) -> None:
    """Write a Parquet file with these columns."""
    import pyarrow as pa
    import pyarrow.parquet as pq

    path.parent.mkdir(parents=True, exist_ok=True)
    pq.write_table(pa.table(dict(columns)), path, row_group_size=rows_in_group)


def write_json(path: Path, rows: Sequence[Sequence[str]]) -> None:
    """Write a schedule as a list of objects."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(json.dumps([dict(zip(HEADINGS, row, strict=True)) for row in rows]), encoding="utf-8")


def write_portfolio(folder: Path, schedules: int, lines: int) -> Path:
    """Write a portfolio of good schedules, some in folders of their own, and return it."""
    for number in range(schedules):
        name = f"plant-{number % 3}/schedule-{number:03}" if number % 2 else f"schedule-{number:03}"
        writer, ending = (write_json, "json") if number % 4 == 1 else (write_csv, "csv")
        writer(folder / f"{name}.{ending}", rows_of(number, lines))
    return folder


def request_of(portfolio: Path, ruleset: Path, into: Path, *, units: str = "", reasons: bool = False) -> Request:
    """Return the request for a portfolio."""
    return request_for(portfolio, into, ruleset, loaded(ruleset), units=units, reasons=reasons)


def judged(portfolio: Path, ruleset: Path, into: Path, *, workers: int = 1) -> Run:
    """Return the run over a portfolio, which must be possible."""
    run = run_portfolio(request_of(portfolio, ruleset, into), workers=workers)
    assert isinstance(run, Run), run
    return run


def totals_of(run: Run, ruleset: Path) -> Totals:
    """Return the totals of a run."""
    return sum_up(tallies(run.results(), loaded(ruleset)), loaded(ruleset))


def results_of(run: Run) -> list[tuple[str, list[ScheduleResult]]]:
    """Return the name of each file of a run with its results."""
    return [(name, list(results)) for name, results in run.results()]


def contents(folder: Path) -> Mapping[str, str]:
    """Return the fingerprint of the bytes of every file of a folder, by its name in it."""
    files = (path for path in sorted(folder.rglob("*")) if path.is_file())
    return {path.relative_to(folder).as_posix(): hashlib.sha256(path.read_bytes()).hexdigest() for path in files}
