"""Least changes: what would make 200 lines comply with 40 clauses."""

from __future__ import annotations

import time
from pathlib import Path
from tempfile import TemporaryDirectory

from benchmarks.workload import ruleset_text, write_workbook

from speccheck.language import parse_ruleset
from speccheck.review import judge_schedule
from speccheck.review.corrections import mend_schedule
from speccheck.schedule import read_schedule

STOCKED = "  stocked thickness is one of 1/2 in, 3/4 in, 1 in, 1-1/2 in, 2 in, 2-1/2 in, 3 in\n"
ORDER = "  changes cheapest first vapor stop locations, vapor stop spacing, seam closure, jacket, thickness\n"


def run() -> list[tuple[str, str]]:
    """Return the rows of the table: how many proposals, and how long they took to find."""
    rows = []
    for what, order in (("by number of changes", ""), ("by an order of the ruleset", ORDER)):
        text = ruleset_text().replace("  units  inch-pound\n", f"  units  inch-pound\n{STOCKED}{order}", 1)
        ruleset = parse_ruleset(text).ruleset
        assert ruleset is not None
        with TemporaryDirectory() as name:
            write_workbook(Path(name) / "schedule.xlsx", 200)
            matrix = judge_schedule(read_schedule(Path(name) / "schedule.xlsx", ruleset.vocabulary), ruleset)
        for most in (1, 3):
            start = time.perf_counter()
            found = list(mend_schedule(matrix, most=most))
            taken = time.perf_counter() - start
            proposals = sum(len(one.proposals) for one in found)
            rows.append((f"{what}, at most {most} for a line", f"{proposals} for {len(found)} lines in {taken:.1f} s"))
    return rows
