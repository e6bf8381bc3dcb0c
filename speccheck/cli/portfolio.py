"""`speccheck portfolio`: a folder of schedules, or a Parquet file of them, checked against a ruleset."""

from __future__ import annotations

import datetime
import os
import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

import click

from speccheck.cli import INTERRUPTED, UNUSABLE
from speccheck.cli.inputs import DAY, FILE, UNITS, mapping_or_stop, ruleset_or_stop
from speccheck.cli.outputs import Outputs
from speccheck.cli.saying import say, say_again
from speccheck.inputs import UnusableInput

if TYPE_CHECKING:
    from speccheck.review.portfolio import Run, Totals

_CLUSTER = re.compile(r"local|\w+://.+|.+:\d+", re.IGNORECASE)


def _day_or_cluster(context: click.Context, option: click.Parameter, said: str) -> datetime.date | str:
    """Return the day of the review; `--on` named the cluster once, and still may."""
    if not said or _CLUSTER.fullmatch(said):
        return said
    day: datetime.datetime = DAY.convert(said, option, context)
    return day.date()


@click.command()
@click.argument("schedules", type=FILE)
@click.option("--against", required=True, type=FILE, metavar="RULESET", help="Ruleset file, or a shipped one.")
@click.option("--into", required=True, type=FILE, metavar="FOLDER", help="Folder for the results.")
@click.option("--mapping", type=FILE, help="Mapping file (.toml) for all schedules.")
@click.option("--units", type=UNITS, help="Units of numbers for which a schedule states none; else the ruleset's.")
@click.option("--reasons", is_flag=True, help="Write the reason beside each finding, except of Parquet rows.")
@click.option("--workers", type=click.IntRange(1), help="Processes to use; as many as processors, if not said.")
@click.option(
    "--on",
    default="",
    metavar="DATE",
    callback=_day_or_cluster,
    help="Day of the review, such as 2026-03-04; the clock is never asked.",
)
@click.option("--cluster", default="", metavar="ADDRESS|local", help="Use a Dask cluster: its address, or `local`.")
@click.option("--quiet", is_flag=True, help="Print only how many schedules comply.")
def command(
    schedules: Path,
    against: Path,
    into: Path,
    mapping: Path | None,
    units: str | None,
    reasons: bool,
    workers: int | None,
    on: datetime.date | str,
    cluster: str,
    quiet: bool,
) -> int:
    """Check every schedule of a folder against a ruleset, and sum up.

    SCHEDULES is a folder with .xlsx, .csv and .json files at any depth, or with
    Parquet files that have a line in each row (a column `submittal` names the
    schedule). The results go into a folder of their own: summary.json,
    summary.html, the findings as Parquet (as CSV without pyarrow), and what is
    kept of each schedule. A run that was stopped goes on where it ended, and
    schedules that have not changed are not judged again. The workers of a
    cluster must see schedules, ruleset and results under the same names.

    \b
    Example:
      speccheck portfolio past-projects --against project.clauses --into judged

    Exit status: 0 everything complies, 1 something does not comply, 2 something
    cannot be determined, 3 a schedule was skipped because it cannot be used (the others
    are judged all the same), nothing was judged, or the call cannot be used.
    """
    from speccheck.language.diagnostics import Diagnostic
    from speccheck.report.portfolio.files import write_portfolio_files
    from speccheck.review.portfolio import request_for, run_portfolio

    day, cluster = (None, cluster or on) if isinstance(on, str) else (on, cluster)
    ruleset = ruleset_or_stop(against)
    request = request_for(
        schedules,
        into,
        against,
        ruleset,
        mapping=mapping,
        read=mapping_or_stop(mapping, ruleset.vocabulary),
        units=units or "",
        reasons=reasons,
        on=day,
    )
    try:
        run = run_portfolio(request, workers=workers or os.cpu_count() or 1, on=cluster, progress=_progress())
        if isinstance(run, Diagnostic):
            raise UnusableInput("the portfolio cannot be judged", [run])
        totals, written = write_portfolio_files(run, ruleset)
    except OSError as error:
        return _ended(f"the results cannot be written: {(error.strerror or str(error)).lower()}", UNUSABLE)
    except KeyboardInterrupt:
        return _ended("stopped", INTERRUPTED)
    _print(run, totals, quiet=quiet)
    outputs = Outputs({})
    for path in written:
        outputs.wrote(path)
    return outputs.finish(totals.status)


def _ended(why: str, status: int) -> int:
    """Say why a run ended early, and return its status."""
    say(f"{why}; what was judged is kept, run again to go on", err=True)
    return status


def _progress() -> Callable[[int], None] | None:
    """Return what shows how far a run has come, where errors are printed on a terminal."""
    if not sys.stderr.isatty():
        return None
    return lambda done: say_again(f"{done:,} judged ")


def _print(run: Run, totals: Totals, *, quiet: bool) -> None:
    from speccheck.report.portfolio.wording import heading, sentences
    from speccheck.report.terminal.portfolio import print_portfolio

    if quiet:
        say(" ".join((heading(totals), *sentences(totals))))
    else:
        print_portfolio(totals, run.left)
    if run.kept:
        say(f"{run.judged:,} judged now, {run.kept:,} kept from an earlier run.")
