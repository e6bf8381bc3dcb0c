"""What people wait for: whole commands as processes of their own, each beside its goal.

A time is the median of several runs that took turns, by the clock, with the processor time behind it; the start of
Python alone is in each of them and stands first. Peers are scripts that do as little as can be done.
"""

from __future__ import annotations

import csv
import shutil
import statistics
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from benchmarks import columns
from benchmarks.portfolio import Measured, command_measured, write_files
from benchmarks.workload import ruleset_text, schedule_rows, write_workbook

DEMO = Path(__file__).parents[2] / "examples" / "dairy"
SCHEDULE, PROJECT = str(DEMO / "schedule.xlsx"), str(DEMO / "project.clauses")
ROUNDS = 5
PORTFOLIO = 10_000
ENGINE = (100_000, 1_000_000, 10_000_000)
GROWTH = ((5_000, 70), (10_000, 70), (10_000, 35))
FRESH = "fresh.xlsx"
"""Stands for a copy of the schedule that has another name in each round, so that it was not read before."""
PAGE_ALONE = """
import jinja2
row = "<tr>{% for cell in row %}<td class={{ cell[0] }}>{{ cell[1] }}{% endfor %}"
table = "<table>{% for row in rows %}" + row + "{% endfor %}</table>"
cell = ("fail", "thickness is 1 in, but must be at least 1-1/2 in")
page = jinja2.Environment(autoescape=True).from_string(table).render(rows=[[cell] * 40] * 200)
open("bare.html", "w").write(page)
"""
AGAIN = """
import statistics, sys, time
import speccheck
rules, times = speccheck.load_ruleset(sys.argv[2]), []
for _ in range(12):
    begun = time.perf_counter()
    speccheck.check(sys.argv[1], rules).outcome
    times.append(time.perf_counter() - begun)
print(f"{statistics.median(times[2:]) * 1000:.0f} ms", file=open("again.txt", "w"))
"""
GROWING = """
import sys, time
from dataclasses import replace
import speccheck
from speccheck.review.outcome import outcome_of
from speccheck.review.reviewing import Reasons, judge_schedule
rules = speccheck.load_ruleset("growing.clauses")
schedule, told = speccheck.read_schedule("growing.csv", rules), []
for times in (1, 2):
    more = replace(schedule, lines=schedule.lines * times)
    begun = time.process_time()
    outcome_of(judge_schedule(more, rules.ruleset, reasons=Reasons.NONE))
    taken = time.process_time() - begun
    each = taken / len(more.lines) / len(rules.ruleset.clauses) * 1e6
    told.append(f"{len(more.lines):,} lines {taken:.1f} s, {each:.2f} microseconds a cell")
print("; ".join(told), file=open("growing.txt", "w"))
"""


@dataclass(frozen=True)
class Wait:
    """Something that people wait for: in words, the goal, the arguments of Python, and whether no cache is there."""

    what: str
    goal: str
    arguments: Sequence[str]
    without_cache: bool = False


def _speccheck(*arguments: str) -> tuple[str, ...]:
    return "-m", "speccheck", *arguments, "--replace"


def _check(schedule: str, *outputs: str, against: str = "rules.clauses") -> tuple[str, ...]:
    return _speccheck("check", schedule, "--against", against, "--quiet", *outputs)


SHORT = (
    Wait("Python that does nothing", "", ("-c", "pass")),
    Wait("bare script: pandas, openpyxl, 200 x 40", "", ("-m", "benchmarks.by_pandas", "schedule.xlsx")),
    Wait("bare page: jinja2 alone, 200 x 40", "", ("-c", PAGE_ALONE)),
    Wait("outcome alone, 200 x 40", "0.20 s", _check("schedule.xlsx")),
    Wait("  a file that was never read before", "", _check(FRESH)),
    Wait("check, 200 x 40, workbook in, page out", "0.30 s", _check("schedule.xlsx", "--page", "page.html")),
    Wait("check of the demo, page out", "0.6 s", _check(SCHEDULE, "--page", "demo.html", against=PROJECT)),
    Wait("  the first run ever, no cache", "1.2 s", _check(SCHEDULE, "--page", "demo.html", against=PROJECT), True),
    Wait("corrections of the demo", "1.0 s", _speccheck("corrections", SCHEDULE, "--against", PROJECT)),
    Wait(
        "reply with proposals, demo",
        "1.5 s",
        _speccheck("reply", SCHEDULE, "--against", PROJECT, "--proposals", "--page", "reply.html"),
    ),
    Wait(
        "compare the rounds of the demo",
        "1.0 s",
        _speccheck("compare", SCHEDULE, str(DEMO / "second-round" / "resubmittal.xlsx"), "--against", PROJECT),
    ),
    Wait("proofread the demo", "1.0 s", _speccheck("proofread", PROJECT)),
)
LARGE = Wait(
    "check, 2,000 x 70, page and workbook",
    "3 s of processor, page 3 MB",
    _check("large.xlsx", "--page", "large.html", "--workbook", "report.xlsx", against="large.clauses"),
)


def run() -> Iterator[tuple[str, str]]:
    """Yield the rows of the table."""
    with TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "rules.clauses").write_text(ruleset_text(), encoding="utf-8")
        (folder / "large.clauses").write_text(ruleset_text(70), encoding="utf-8")
        write_workbook(folder / "schedule.xlsx", 200)
        write_workbook(folder / "large.xlsx", 2_000)
        yield from _rows(SHORT, folder, ROUNDS)
        yield from _rows((LARGE,), folder, 2)
        yield "  its page", f"{(folder / 'large.html').stat().st_size / 1e6:.2f} MB"
        command_measured(folder, "-c", AGAIN, SCHEDULE, PROJECT)
        yield "the demo again, in a running process (goal 30 ms)", (folder / "again.txt").read_text().strip()
        yield from _growth(folder)
        write_files(folder / "files", schedule_rows(0)[0], PORTFOLIO)
        portfolio = (
            "-m",
            "speccheck",
            "portfolio",
            "files",
            "--against",
            "rules.clauses",
            "--quiet",
            "--into",
            "judged",
        )
        taken = command_measured(folder, *portfolio)
        yield f"{PORTFOLIO:,} schedules of 50 lines (goal 30 s)", f"{taken}; {PORTFOLIO / taken.seconds:.0f} a second"
    yield from columns.beside_by_hand(ENGINE)
    yield from columns.from_parquet()


def _rows(waits: Sequence[Wait], folder: Path, rounds: int) -> Iterator[tuple[str, str]]:
    """Yield what each takes: the median of some rounds, in which all take turns, after one that warms the caches."""
    found: dict[Wait, list[Measured]] = {wait: [] for wait in waits}
    for number in range(rounds + 1):
        for wait in waits:
            shutil.copy(folder / "schedule.xlsx", folder / f"{number}-{FRESH}")
            arguments = [f"{number}-{FRESH}" if one == FRESH else one for one in wait.arguments]
            cache = str(folder / (f"cache-{number}" if wait.without_cache else "cache"))
            found[wait].append(command_measured(folder, *arguments, cache=cache))
    for wait, taken in found.items():
        clock = statistics.median(one.seconds for one in taken[1:])
        processors = statistics.median(one.processors for one in taken[1:])
        goal = f" (goal {wait.goal})" if wait.goal else ""
        yield f"{wait.what}{goal}", f"{clock:.2f} s, {processors:.2f} s of processor"


def _growth(folder: Path) -> Iterator[tuple[str, str]]:
    """Yield what a cell takes in schedules of more and more lines: no more in the largest than in the smallest."""
    for lines, clauses in GROWTH:
        (folder / "growing.clauses").write_text(ruleset_text(clauses), encoding="utf-8")
        with (folder / "growing.csv").open("w", encoding="utf-8", newline="") as file:
            csv.writer(file).writerows(schedule_rows(lines))
        taken = command_measured(folder, *_check("growing.csv", against="growing.clauses"))
        each = taken.processors / lines / clauses * 1e6
        yield f"outcome alone, {lines:,} x {clauses}", f"{taken}; {each:.1f} microseconds a cell"
    (folder / "growing.clauses").write_text(ruleset_text(70), encoding="utf-8")
    command_measured(folder, "-c", GROWING)
    yield "judged by 70 clauses, beyond what a file may hold", (folder / "growing.txt").read_text().strip()


if __name__ == "__main__":
    for what, result in run():
        print(f"{what}: {result}", flush=True, file=sys.stdout)
