"""`speccheck check`: a schedule held against every clause of a ruleset."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING

import click

from speccheck.cli import UNUSABLE
from speccheck.cli.inputs import EXISTING_FILE, UNITS, ruleset_or_stop, schedule_or_stop, show

if TYPE_CHECKING:
    from collections.abc import Callable

    from speccheck.language.core import Ruleset
    from speccheck.language.diagnostics import Diagnostic
    from speccheck.review.matrix import Matrix
    from speccheck.submittal import Schedule

# From how many cells on a run is long enough to show how far it has come.
LONG = 40_000


@click.command()
@click.argument("schedule", type=EXISTING_FILE)
@click.option("--against", required=True, type=EXISTING_FILE, metavar="RULESET", help="Ruleset file, or a shipped one.")
@click.option("--mapping", type=EXISTING_FILE, help="Mapping file (.toml) that settles what cannot be guessed.")
@click.option("--units", type=UNITS, help="Units of numbers for which the schedule states none.")
@click.option("--sheet", help="Read only this sheet of the workbook.")
@click.option("--page", type=EXISTING_FILE, metavar="FILE", help="Write the report as an HTML page.")
@click.option("--workbook", type=EXISTING_FILE, metavar="FILE", help="Write the report as a workbook (.xlsx).")
@click.option("--json", type=EXISTING_FILE, metavar="FILE", help="Write the matrix as JSON.")
@click.option("--markdown", type=EXISTING_FILE, metavar="FILE", help="Write the report as Markdown.")
@click.option("--findings", type=EXISTING_FILE, metavar="FILE", help="Write the findings as comma-separated values.")
@click.option("--quiet", is_flag=True, help="Print only the outcome.")
def command(
    schedule: Path,
    against: Path,
    mapping: Path | None,
    units: str | None,
    sheet: str | None,
    quiet: bool,
    **reports: Path | None,
) -> int:
    """Hold SCHEDULE (.xlsx, .csv or .json) against every clause of a ruleset.

    \b
    Example:
      speccheck check schedule.xlsx --against project.clauses --page report.html

    Exit status: 0 everything complies, 1 something does not comply, 2 something
    cannot be told, 3 the schedule, the ruleset or the call cannot be used.
    """
    ruleset = ruleset_or_stop(against)
    read = schedule_or_stop(schedule, ruleset, mapping, units, sheet)
    matrix = _judged(read, ruleset)
    status = _print(matrix, quiet=quiet)
    inputs = [path for path in (schedule, against, mapping) if path is not None]
    problems = [problem for name, path in reports.items() if path and (problem := _write(name, matrix, path, inputs))]
    show(problems)
    return UNUSABLE if problems else status


def _judged(schedule: Schedule, ruleset: Ruleset) -> Matrix:
    """Return the matrix; a long run shows a bar where errors are printed, if that is a terminal."""
    from speccheck.engine import Judge
    from speccheck.review.matrix import Matrix

    judge, clauses = Judge(ruleset), range(len(ruleset.clauses))
    if len(schedule.lines) * len(clauses) < LONG:
        return Matrix(schedule, ruleset, tuple(judge.row(line) for line in schedule.lines))
    with click.progressbar(schedule.lines, label="judging", file=sys.stderr) as lines:
        return Matrix(schedule, ruleset, tuple(judge.row(line) for line in lines))


def _print(matrix: Matrix, *, quiet: bool) -> int:
    """Print the report and return the exit status that the matrix calls for."""
    from speccheck.report.wording import outcome

    result = outcome(matrix)
    if quiet:
        click.echo(" ".join((result.heading, *result.details)))
    else:
        from speccheck.report.terminal import print_matrix

        print_matrix(matrix)
    return result.status


def _write(name: str, matrix: Matrix, path: Path, inputs: list[Path]) -> Diagnostic | None:
    """Write one report whole, or return why it was not written."""
    from speccheck.report.writing import write_whole

    return write_whole(path, _renderer(name)(matrix), inputs)


def _renderer(name: str) -> Callable[[Matrix], str | bytes]:
    """Return the function that renders one kind of report, imported only when asked for."""
    if name == "page":
        from speccheck.report.page import render_page

        return render_page
    if name == "workbook":
        from speccheck.report.workbook import render_workbook

        return render_workbook
    if name == "json":
        from speccheck.report.json_report import render_json

        return render_json
    if name == "markdown":
        from speccheck.report.markdown import render_markdown

        return render_markdown
    from speccheck.report.comma_separated import render_comma_separated

    return render_comma_separated
