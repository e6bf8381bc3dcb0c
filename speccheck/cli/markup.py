"""`speccheck markup`: the contractor's own file with the comments in it, to be sent back."""

from __future__ import annotations

import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from speccheck.cli.common_arguments import CommonArguments, submittal_and_ruleset
from speccheck.cli.inputs import DAY, FILE, show
from speccheck.cli.outputs import Outputs, copies_of, replace_option
from speccheck.cli.reply import notes_or_stop
from speccheck.cli.review_options import review_against, review_options
from speccheck.cli.saying import say
from speccheck.english import count

if TYPE_CHECKING:
    from speccheck.report.markup.marks import Comments
    from speccheck.schedule import Schedule


@click.command()
@submittal_and_ruleset
@review_options
@click.option(
    "--into",
    required=True,
    type=FILE,
    metavar="FILE",
    help="The marked copy, of the same kind; for several files the folder of their copies.",
)
@click.option("--author", default="", metavar="NAME", help="Who marks; left out where it is not given.")
@click.option(
    "--date",
    type=DAY,
    metavar="DATE",
    help="Date of the marks, such as 2026-03-04; the clock is never asked.",
)
@click.option("--notes", type=FILE, metavar="FILE", help="The reviewer's notes (.toml).")
@click.option("--action", default="", metavar="WORD", help="The reviewer's action word; never chosen by the program.")
@replace_option
def command(
    asked: CommonArguments,
    into: Path,
    author: str,
    date: datetime.datetime | None,
    notes: Path | None,
    action: str,
    replace: bool,
    **beside: Any,
) -> int:
    """Write a copy of SCHEDULE (.pdf, .docx or .xlsx) with a comment at the cell of each finding.

    A numbered list of the comments stands at the end, with cautions. The numbers
    are those of `speccheck reply`. The schedule itself is not changed. Several files,
    or a folder of them, are one submittal: the comments are numbered through, and
    each schedule has its copy in the folder that --into names.

    \b
    Example:
      speccheck markup schedule.pdf --against project.clauses \\
          --into marked.pdf --author "A. Reviewer" --date 2026-03-04

    Exit status: 0 written, 3 the input or the call cannot be used, or the copy
    was not written.
    """
    from speccheck.report.markup.marks import comments_of, comments_on
    from speccheck.report.reply.reply import reply_to
    from speccheck.review.reviewing import judge_schedule

    copies, folder = copies_of(asked.papers, into, "--into")
    outputs = Outputs({str(paper): copy for paper, copy in copies.items()}, replace=replace, folder=folder)
    ruleset = asked.ruleset()
    said = notes_or_stop(notes, ruleset)
    read = asked.read(ruleset)
    matrix = review_against(judge_schedule(read.schedule, ruleset), with_schedule=read.products, **beside)
    day = "" if date is None else date.date().isoformat()
    comments = comments_of(matrix, reply_to(matrix, said, (), action), author=author, date=day)
    schedules = {line.place.file for line in matrix.schedule.lines}
    marked = [paper for paper in copies if paper.name in schedules]
    for paper in marked:
        own = comments_on(comments, paper.name, with_others=paper == marked[0]) if len(copies) > 1 else comments
        _write(paper, matrix.schedule, own, outputs)
    for paper in copies:
        if paper not in marked:
            say(f"{paper.name} is no schedule, and was not marked", err=True)
    return outputs.finish(0)


def _write(paper: Path, schedule: Schedule, comments: Comments, outputs: Outputs) -> None:
    """Write the marked copy of one file, or keep why there is none."""
    from speccheck.report.markup.copying import marked_copy

    marked = marked_copy(paper, schedule, comments)
    for problem in marked.diagnostics:
        if problem.severity == "error":
            outputs.failed(problem)
    show(one for one in marked.diagnostics if one.severity != "error")
    if marked.content is not None:
        outputs.write(str(paper), marked.content)
        _tell(comments, silent=outputs.own_the_screen)


def _tell(comments: Comments, *, silent: bool) -> None:
    """Say how many comments there are, and what the whole comes to."""
    words = f"{comments.title}: {count(len(comments.marks), 'comment')} in the copy. {' '.join(comments.summary)}"
    say(words, err=silent)
