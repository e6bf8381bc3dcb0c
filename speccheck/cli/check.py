"""`speccheck check`: a schedule checked against every clause of a ruleset."""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Any

import click

from speccheck.cli.common_arguments import CommonArguments, submittal_and_ruleset
from speccheck.cli.outputs import Outputs
from speccheck.cli.reports import report_options, write_reports
from speccheck.cli.review_options import BESIDE, review_against, review_options
from speccheck.cli.saying import say

if TYPE_CHECKING:
    from speccheck.language.core import Ruleset
    from speccheck.review.matrix import Matrix
    from speccheck.schedule import Schedule

# From how many cells on a run is long enough to show how far it has come.
LONG = 40_000


@click.command()
@submittal_and_ruleset
@review_options
@report_options
@click.option("--quiet", is_flag=True, help="Print only the outcome.")
@click.option("--full", is_flag=True, help="Print every reason, every datum that is needed, and every doubt.")
def command(
    asked: CommonArguments,
    quiet: bool,
    full: bool,
    replace: bool,
    **others: Any,
) -> int:
    """Check SCHEDULE (.xlsx, .xls, .ods, .docx, .pdf, .csv or .json) against every clause of a ruleset.

    \b
    Examples:
      speccheck check schedule.xlsx --against project.clauses --page report.html
      speccheck check schedule.xlsx --against project.clauses \\
          --design systems.csv --products products.toml \\
          --deviations deviations.toml --on 2026-03-04

    Several files, or a folder of them, are one submittal: schedules, their
    continuations, product data and data sheets.

    A design list and product data are read as schedules are; .toml as well.

    Exit status: 0 everything complies, 1 something does not comply, 2 something
    cannot be determined, 3 the schedule, the ruleset or the call cannot be used. An
    accepted deviation is not a fail; a system that no line covers, or a value
    that product data do not bear out, cannot be determined to comply.
    """
    beside = {name: others.pop(name) for name in BESIDE}
    outputs = Outputs(others, replace=replace)
    ruleset = asked.ruleset()
    read = asked.read(ruleset)
    written = any(beside.values()) or bool(outputs.named) or read.products is not None
    judged = _judged(read.schedule, ruleset, written=written, printed=not quiet)
    matrix = review_against(judged, with_schedule=read.products, **beside)
    if len(asked.papers) > 1 and not (quiet or outputs.own_the_screen):
        _tell_files(matrix.schedule)
    write_reports(matrix, outputs, asked.papers)  # first, for a reader of the output may stop early
    return outputs.finish(_print(matrix, quiet=quiet, full=full, silent=outputs.own_the_screen))


def _tell_files(schedule: Schedule) -> None:
    """Say what each file of several was read as."""
    from speccheck.schedule.messages.settled import FILE_READ_AS

    for found in schedule.diagnostics:
        if found.code == FILE_READ_AS.code:
            say(found.message.replace("`", ""))
    say()


def _judged(schedule: Schedule, ruleset: Ruleset, *, written: bool, printed: bool) -> Matrix:
    """Return the matrix; a long run shows a bar where errors are printed, if that is a terminal."""
    from speccheck.review.reviewing import Reasons, judge_schedule

    if not written:
        return judge_schedule(schedule, ruleset, reasons=Reasons.FINDINGS if printed else Reasons.NONE)
    if len(schedule.lines) * len(ruleset.clauses) < LONG:
        return judge_schedule(schedule, ruleset)
    with click.progressbar(range(len(ruleset.clauses)), label="judging", file=sys.stderr) as numbers:
        return judge_schedule(schedule, ruleset, numbers=numbers)


def _print(matrix: Matrix, *, quiet: bool, full: bool, silent: bool) -> int:
    """Print the report, unless a report went to the screen, and return the exit status that the matrix calls for."""
    from speccheck.review.outcome import outcome_of

    result = outcome_of(matrix)
    if silent:
        return result.status
    if quiet:
        from speccheck.report.requests import unchecked_sentence

        unchecked = unchecked_sentence(matrix.ruleset)
        say(" ".join((result.heading, *result.details, *filter(None, [unchecked]))))
    elif full:
        from speccheck.report.terminal.report import print_matrix

        print_matrix(matrix)
    else:
        from speccheck.report.terminal.short_report import print_short

        print_short(matrix)
    return result.status
