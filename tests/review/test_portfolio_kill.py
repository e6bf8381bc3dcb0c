"""Runs that are killed: nothing is lost, nothing is judged twice, and the outcome is that of an undisturbed run."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from collections.abc import Mapping
from pathlib import Path

from speccheck.review.portfolio import Request
from speccheck.review.portfolio.entries import Entry
from speccheck.review.portfolio.judging import Receipt, judge_entry
from speccheck.review.portfolio.workers import spread
from tests.review.portfolio_schedules import (
    contents,
    judged,
    request_of,
    results_of,
    write_portfolio,
    write_ruleset,
)

SCHEDULES, LINES, KILLS = 40, 6, 10
PATIENCE = 60  # seconds after which a run that does not go on is a failure


def start(folder: Path, into: str, workers: int) -> subprocess.Popen[bytes]:
    """Start the command over the portfolio in a process of its own."""
    command = ["-m", "speccheck", "portfolio", "all", "--against", "rules.clauses", "--into", into]
    arguments = [sys.executable, *command, "--workers", str(workers), "--quiet"]
    return subprocess.Popen(arguments, cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def kept(into: Path) -> Mapping[str, tuple[int, int]]:
    """Return the results that are kept, each with what tells a file that was written again: its number and its time."""
    found = {}
    for path in into.glob("results/*/*.jsonl"):
        state = path.stat()
        found[path.name] = (state.st_ino, state.st_mtime_ns)
    return found


def wait_for(into: Path, count: int, process: subprocess.Popen[bytes]) -> None:
    """Wait until so many results are kept, or the process has ended."""
    until = time.monotonic() + PATIENCE
    while len(kept(into)) < count and process.poll() is None:
        assert time.monotonic() < until, "the run does not go on"
        time.sleep(0.002)


def test_killed_at_ten_random_moments(tmp_path: Path) -> None:
    """Each time the command is killed outright and started again; every file of the output is the same in the end."""
    write_portfolio(tmp_path / "all", SCHEDULES, LINES)
    (tmp_path / "all/bad.xlsx").write_bytes(b"no workbook")
    write_ruleset(tmp_path)
    undisturbed = start(tmp_path, "undisturbed", 1)
    assert undisturbed.wait(PATIENCE) == 3
    chance = random.Random(7)
    moments = sorted(chance.sample(range(1, SCHEDULES + 1), KILLS))
    before: Mapping[str, tuple[int, int]] = {}
    killed = 0
    for number, moment in enumerate(moments):
        process = start(tmp_path, "disturbed", 1 + number % 2)
        wait_for(tmp_path / "disturbed", moment, process)
        time.sleep(chance.random() * 0.01)
        process.send_signal(signal.SIGKILL)
        killed += process.wait(PATIENCE) == -signal.SIGKILL
        now = kept(tmp_path / "disturbed")
        assert before.items() <= now.items(), "a result that was kept is neither lost nor written again"
        before = now
    assert killed == KILLS
    assert start(tmp_path, "disturbed", 2).wait(PATIENCE) == 3
    assert before.items() <= kept(tmp_path / "disturbed").items()
    assert contents(tmp_path / "disturbed") == contents(tmp_path / "undisturbed")
    assert len(kept(tmp_path / "disturbed")) == SCHEDULES + 1


def ended_by_one(request: Request, entry: Entry) -> Receipt:
    """Judge an entry, but end the process at one of them, as the system does where memory runs out."""
    if entry.name == "schedule-004.csv":
        os._exit(1)
    return judge_entry(request, entry)


def test_schedule_that_ends_its_process_costs_no_other(tmp_path: Path) -> None:
    """The schedule is reported, all others are judged, and the receipts come once each and in order."""
    portfolio, ruleset = write_portfolio(tmp_path / "all", 10, 3), write_ruleset(tmp_path)
    expected = results_of(judged(portfolio, ruleset, tmp_path / "alone"))
    run = judged(portfolio, ruleset, tmp_path / "out")
    for path in (tmp_path / "out/results").rglob("*.jsonl"):
        path.unlink()
    names = [name for name, _ in expected]
    entries = [Entry(name) for name in names]
    receipts = list(spread(request_of(portfolio, ruleset, tmp_path / "out"), entries, 2, ended_by_one))
    assert [receipt.entry.name for receipt in receipts] == names
    found = dict(results_of(run))
    assert [(one.code, one.message) for one in found["schedule-004.csv"][0].diagnostics] == [
        ("V503", "the process that read it was ended")
    ]
    del found["schedule-004.csv"]
    assert found == {name: results for name, results in expected if name != "schedule-004.csv"}


def test_processes_do_not_change_the_output(tmp_path: Path) -> None:
    """One process or several: every file of the output is the same."""
    portfolio, ruleset = write_portfolio(tmp_path / "all", 12, 4), write_ruleset(tmp_path)
    judged(portfolio, ruleset, tmp_path / "one")
    judged(portfolio, ruleset, tmp_path / "two", workers=2)
    assert contents(tmp_path / "one") == contents(tmp_path / "two")
    assert len(contents(tmp_path / "one")) == 13


def test_interrupted_from_the_keyboard(tmp_path: Path) -> None:
    """Ctrl+C ends the command and its processes in one sentence; what was judged is kept."""
    write_portfolio(tmp_path / "all", SCHEDULES, LINES)
    write_ruleset(tmp_path)
    command = ["-m", "speccheck", "portfolio", "all", "--against", "rules.clauses", "--into", "out", "--workers", "2"]
    process = subprocess.Popen(
        [sys.executable, *command], cwd=tmp_path, stdout=subprocess.PIPE, stderr=subprocess.PIPE, process_group=0
    )
    wait_for(tmp_path / "out", 3, process)
    os.killpg(process.pid, signal.SIGINT)
    output, errors = process.communicate(timeout=PATIENCE)
    assert (process.returncode, output) == (130, b"")
    assert errors.decode() == "stopped; what was judged is kept, run again to go on\n"
    assert len(kept(tmp_path / "out")) >= 3
