"""`speccheck corrections`: the corrections with which the lines of a schedule would comply."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from speccheck.cli.common_arguments import CommonArguments, submittal_and_ruleset
from speccheck.cli.inputs import FILE, show
from speccheck.cli.outputs import Outputs, copies_of, replace_option
from speccheck.cli.review_options import review_against, review_options
from speccheck.english import did_you_mean

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from speccheck.language.core import Ruleset
    from speccheck.review.corrections import Mending
    from speccheck.review.matrix import Matrix


@click.command()
@submittal_and_ruleset
@review_options
@click.option("--keep", multiple=True, metavar="TERM", help="Leave this term as it is; may be said several times.")
@click.option("--alternatives", type=click.IntRange(1, 20), default=3, show_default=True, help="Proposals for a line.")
@click.option(
    "--workbook",
    type=FILE,
    metavar="FILE",
    help="Write the schedule with the cheapest changes; for several files the folder of their copies.",
)
@replace_option
def command(
    asked: CommonArguments,
    keep: tuple[str, ...],
    alternatives: int,
    workbook: Path | None,
    replace: bool,
    **beside: Any,
) -> int:
    """Look for the smallest corrections with which each line of SCHEDULE complies.

    Only what the contractor proposes is changed, in stocked steps and allowed
    values; every proposal was judged as a whole. The ruleset can say which
    changes cost least. What is not given is not invented.

    \b
    Example:
      speccheck corrections schedule.xlsx --against project.clauses \\
          --keep insulation --workbook corrected.xlsx

    Exit status: 0 no line fails or lacks data, 1 some do, 2 some do and no
    change makes one of them comply, 3 the input or the call cannot be used.
    """
    from speccheck.report.terminal.corrections import print_mendings
    from speccheck.review.corrections import mend_schedule
    from speccheck.review.reviewing import judge_schedule

    copies, folder = ({}, None) if workbook is None else copies_of(asked.papers, workbook, "--workbook")
    outputs = Outputs({str(paper): copy for paper, copy in copies.items()}, replace=replace, folder=folder)
    ruleset = asked.ruleset()
    kept = _known(keep, ruleset)
    read = asked.read(ruleset)
    matrix = review_against(judge_schedule(read.schedule, ruleset), with_schedule=read.products, **beside)
    mendings = tuple(mend_schedule(matrix, keep=kept, most=alternatives))
    schedules = {line.place.file for line in matrix.schedule.lines}
    for paper in copies:
        if len(copies) == 1 or paper.name in schedules:
            _write(outputs, paper, matrix, mendings)
    if not outputs.own_the_screen:
        print_mendings(matrix, mendings)
    return outputs.finish(_status(mendings))


def _status(mendings: Sequence[Mending]) -> int:
    if not mendings:
        return 0
    return 1 if all(mending.proposals for mending in mendings) else 2


def _known(names: Iterable[str], ruleset: Ruleset) -> tuple[str, ...]:
    """Return the names of terms; one that is not known ends the run with the nearest that is."""

    found = []
    for name in names:
        term = ruleset.vocabulary.find(name)
        if term is None:
            hint = did_you_mean(name, ruleset.vocabulary.terms)
            raise click.UsageError("; ".join(filter(None, (f"no term is called `{name}`", hint))))
        found.append(term.name)
    return tuple(found)


def _write(outputs: Outputs, schedule: Path, matrix: Matrix, mendings: Sequence[Mending]) -> None:
    """Write the corrected workbook, and say what of it has to be done by hand."""
    from speccheck.language.diagnostics import Severity
    from speccheck.report.workbook.corrected import correct_workbook

    corrected = correct_workbook(schedule, matrix, mendings)
    show(one for one in corrected.diagnostics if one.severity is not Severity.ERROR)
    for problem in corrected.diagnostics:
        if problem.severity is Severity.ERROR:
            outputs.failed(problem)
    if corrected.content is not None:
        outputs.write(str(schedule), corrected.content)
