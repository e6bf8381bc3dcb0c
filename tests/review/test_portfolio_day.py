"""The day of the review in portfolios: reports are as old there as in a check of each schedule alone."""

from __future__ import annotations

import datetime
from collections.abc import Sequence
from pathlib import Path

import pytest
from click.testing import CliRunner

from speccheck.cli import speccheck
from speccheck.cli.portfolio import command
from speccheck.judge import Verdict
from speccheck.review import judge_schedule
from speccheck.review.portfolio import Run, request_for, run_portfolio
from speccheck.review.portfolio.tallies import tallies
from speccheck.review.review_day import review_on
from speccheck.schedule import read_schedule
from tests.review.portfolio_schedules import loaded, write_csv, write_parquet

RULESET = """ruleset "Young reports"
  speaks mechanical insulation

clause 1 "Report on the fire test"
  shall fire report date be at most 24 months old
"""
HEADINGS = ("Mark", "Service", "Fire Test Date")
LINES = (
    ("A", "steam", "2024-03-04"),  # 24 months before 2026-03-04, by the calendar
    ("B", "steam", "2024-03-03"),  # a day older
    ("C", "steam", "2026-03-05"),  # after the review
    ("D", "steam", ""),
)
BY_DAY = {
    datetime.date(2026, 3, 4): {Verdict.COMPLIES: 1, Verdict.FAILS: 2, Verdict.CANNOT_TELL: 1},
    datetime.date(2026, 3, 3): {Verdict.COMPLIES: 2, Verdict.FAILS: 1, Verdict.CANNOT_TELL: 1},
    None: {Verdict.CANNOT_TELL: 4},
}
"""What becomes of the lines on each day of review; None: where none is stated, nobody knows how old anything is."""


@pytest.fixture
def ruleset(tmp_path: Path) -> Path:
    """A ruleset that asks how old something is."""
    path = tmp_path / "rules.clauses"
    path.write_text(RULESET, encoding="utf-8")
    return path


def write_schedule(path: Path, lines: Sequence[Sequence[str]] = LINES) -> None:
    """Write a schedule with dates as .csv, or as .parquet."""
    if path.suffix == ".parquet":
        write_parquet(path, {name: [line[place] or None for line in lines] for place, name in enumerate(HEADINGS)})
    else:
        write_csv(path, lines, HEADINGS)


def verdicts(portfolio: Path, ruleset: Path, on: datetime.date | None) -> dict[Verdict, int]:
    """Return how often each verdict was met in a portfolio judged on a day, kept results or not."""
    request = request_for(portfolio, portfolio.parent / "out", ruleset, loaded(ruleset), on=on)
    run = run_portfolio(request, workers=1)
    assert isinstance(run, Run)
    (tally,) = tallies(run.results(), loaded(ruleset))
    return {verdict: number for verdict, number in tally.lines.items() if number}


@pytest.mark.parametrize("name", ["one.csv", "one.parquet"])
def test_reports_are_as_old_as_on_the_day_that_is_stated(tmp_path: Path, ruleset: Path, name: str) -> None:
    """Each day gives its own verdicts, in one folder of results: what was kept for another day is judged again."""
    write_schedule(tmp_path / "all" / name)
    assert {on: verdicts(tmp_path / "all", ruleset, on) for on in BY_DAY} == BY_DAY


def test_verdicts_are_those_of_a_check_of_the_schedule_alone(tmp_path: Path, ruleset: Path) -> None:
    """On each day a portfolio counts what the judge says of the one schedule in it."""
    write_schedule(tmp_path / "all/one.csv")
    rules = loaded(ruleset)
    schedule = read_schedule(tmp_path / "all/one.csv", rules.vocabulary)
    for on, expected in BY_DAY.items():
        matrix = review_on(judge_schedule(schedule, rules), on)
        assert sorted(str(row[0].verdict) for row in matrix.cells) == sorted(
            str(verdict) for verdict, number in expected.items() for _ in range(number)
        )


def test_a_day_asks_for_nothing_where_no_clause_counts_from_it(tmp_path: Path, ruleset: Path) -> None:
    """Without a clause on ages the day is no part of the request, so that results of another day are kept."""
    ruleset.write_text(RULESET.replace("at most 24 months old", "at least 2024-01-01"), encoding="utf-8")
    days = (None, datetime.date(2026, 3, 4))
    found = [request_for(tmp_path, tmp_path / "out", ruleset, loaded(ruleset), on=on) for on in days]
    assert found[0] == found[1]


def test_command_takes_the_day_as_check_does(tmp_path: Path, ruleset: Path) -> None:
    """`--on` states the day for `portfolio` as for `check`: a report that is young enough, and one that is not."""
    write_schedule(tmp_path / "all/one.csv", LINES[:1])
    call = ["--against", str(ruleset), "--quiet"]
    for on, status in (("2026-03-04", 0), ("2026-03-05", 1)):
        whole = [str(tmp_path / "all"), *call, "--workers", "1", "--into", str(tmp_path / "out"), "--on", on]
        assert CliRunner().invoke(command, whole, standalone_mode=False).return_value == status
        alone = ["check", str(tmp_path / "all/one.csv"), *call, "--on", on]
        assert CliRunner().invoke(speccheck, alone, standalone_mode=False).return_value == status


def test_what_is_no_day_is_refused(tmp_path: Path, ruleset: Path) -> None:
    """A day that is none judges nothing, and names the option."""
    write_schedule(tmp_path / "all/one.csv")
    call = [str(tmp_path / "all"), "--against", str(ruleset), "--into", str(tmp_path / "out"), "--on", "4 March"]
    found = CliRunner().invoke(command, call)
    assert found.exit_code == 2
    assert "Invalid value for '--on': '4 March' does not match the format '%Y-%m-%d'." in found.output
    assert not (tmp_path / "out").exists()


def test_a_cluster_may_still_stand_behind_on(tmp_path: Path, ruleset: Path) -> None:
    """Scripts that name the cluster by `--on` still do: an address at which nothing answers is refused as one."""
    write_schedule(tmp_path / "all/one.csv")
    for option in ("--on", "--cluster"):
        call = [str(tmp_path / "all"), "--against", str(ruleset), "--into", str(tmp_path / "out"), option]
        found = CliRunner().invoke(
            command, [*call, "nowhere"] if option == "--cluster" else [*call, "tcp://127.0.0.1:x"]
        )
        assert "the portfolio cannot be judged" in str(found.exception)
