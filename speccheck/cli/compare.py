"""`speccheck compare`: a resubmittal checked against the round before, or two editions of a ruleset."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from speccheck.cli.inputs import FILE, UNITS, package_or_stop, ruleset_or_stop
from speccheck.cli.outputs import Outputs
from speccheck.cli.reports import report_options, write_reports
from speccheck.cli.review_options import BESIDE, review_against, review_options
from speccheck.cli.saying import say

if TYPE_CHECKING:
    from speccheck.language.core import Ruleset
    from speccheck.review.matrix import Matrix
    from speccheck.schedule import Schedule

RULESET_SUFFIX = ".clauses"


@click.command()
@click.argument("old", type=FILE)
@click.argument("new", type=FILE)
@click.option("--against", type=FILE, metavar="RULESET", help="Ruleset that judges both schedules.")
@click.option("--schedule", type=FILE, help="For two rulesets: judge this schedule by both.")
@click.option("--mapping", type=FILE, help="Mapping file (.toml) for the schedules.")
@click.option("--units", type=UNITS, help="Units of numbers for which a schedule states none; else the ruleset's.")
@click.option("--sheet", help="Read only this sheet of the workbooks.")
@review_options
@report_options
@click.option("--quiet", is_flag=True, help="Print only what became of the findings.")
def command(
    old: Path,
    new: Path,
    against: Path | None,
    schedule: Path | None,
    mapping: Path | None,
    units: str | None,
    sheet: str | None,
    quiet: bool,
    replace: bool,
    **others: Any,
) -> int:
    """Check NEW against OLD: two schedules, or two editions of a ruleset.

    Findings are followed from round to round: closed, still open, new. Changes
    that no finding asked for are shown. Lines are matched by what they are, and
    clauses by what they mean. A round of several files is named by its folder.

    \b
    Examples:
      speccheck compare round-1.xlsx round-2.xlsx --against project.clauses
      speccheck compare issue-1.clauses issue-2.clauses --schedule round-2.xlsx

    Exit status is that of the new round: 0 it complies, 1 something does not
    comply, 2 something cannot be determined, 3 a file or the call cannot be used. Two
    rulesets without a schedule: 0 they mean the same, 1 they do not, 2 it could not
    be decided.
    """
    beside = {name: others.pop(name) for name in BESIDE}
    outputs = Outputs(others, replace=replace)
    judged = _judged_by(old, new, against, schedule)
    if judged is None:
        return _compare_rulesets(old, new)
    rulesets = {path: ruleset_or_stop(path) for path in dict.fromkeys(path for _, path in judged)}
    rounds = [package_or_stop([read], rulesets[path], mapping, units, sheet) for read, path in judged]
    before, now = (_matrix(one.schedule, rulesets[path]) for one, (_, path) in zip(rounds, judged, strict=True))
    now = review_against(now, with_schedule=rounds[1].products, **beside)
    return _compare_rounds(before, now, outputs, quiet=quiet)


def _judged_by(old: Path, new: Path, against: Path | None, schedule: Path | None) -> list[tuple[Path, Path]] | None:
    """Return the schedule and the ruleset of either round, None where two rulesets are to be compared alone."""
    rulesets = [path.suffix == RULESET_SUFFIX for path in (old, new)]
    if rulesets == [False, False]:
        if against is None or schedule is not None:
            raise click.UsageError("name the ruleset that judges both schedules: `--against project.clauses`")
        return [(old, against), (new, against)]
    if rulesets != [True, True]:
        raise click.UsageError(f"compare two schedules or two rulesets; only one of the two ends in {RULESET_SUFFIX}")
    if against is not None:
        raise click.UsageError("two rulesets are compared with one another; name no third with `--against`")
    return None if schedule is None else [(schedule, old), (schedule, new)]


def _matrix(schedule: Schedule, ruleset: Ruleset) -> Matrix:
    from speccheck.review import judge_schedule

    return judge_schedule(schedule, ruleset)


def _compare_rounds(before: Matrix, now: Matrix, outputs: Outputs, *, quiet: bool) -> int:
    """Compare two rounds, print and write what became of the first, and return the exit status of the second."""
    from speccheck.report.sections import counted
    from speccheck.report.terminal.report import print_matrix
    from speccheck.review.outcome import outcome_of
    from speccheck.review.rounds import compare_rounds

    matrix = compare_rounds(before, now)
    write_reports(matrix, outputs)  # first, for a reader of the output may stop early
    if outputs.own_the_screen:
        pass
    elif quiet and matrix.comparison is not None:
        say(counted(matrix.comparison))
    else:
        print_matrix(matrix)
    return outputs.finish(outcome_of(matrix).status)


def _compare_rulesets(old: Path, new: Path) -> int:
    """Print what changed between two editions of a ruleset."""
    from speccheck.report.terminal.terms import print_clause_changes
    from speccheck.review.editions import ClauseFate, compare_clauses

    changes = compare_clauses(ruleset_or_stop(old), ruleset_or_stop(new))
    print_clause_changes(changes)
    if any(change.changes_meaning for change in changes):
        return 1
    return 2 if any(change.fate is ClauseFate.NOT_DECIDED for change in changes) else 0
