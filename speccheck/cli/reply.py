"""`speccheck reply`: review comments to send back, as a page and as a document, with the reviewer's own notes."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from speccheck.cli.common_arguments import CommonArguments, submittal_and_ruleset
from speccheck.cli.inputs import FILE, note_read
from speccheck.cli.outputs import Outputs, replace_option
from speccheck.cli.review_options import review_against, review_options
from speccheck.inputs import usable_notes

if TYPE_CHECKING:
    from speccheck.language.core import Ruleset
    from speccheck.report.reply.reply import Reply
    from speccheck.review.matrix import Matrix
    from speccheck.review.notes import Notes


@click.command()
@submittal_and_ruleset
@review_options
@click.option("--page", type=FILE, metavar="FILE", help="Write the reply as an HTML page.")
@click.option("--word", type=FILE, metavar="FILE", help="Write the reply as a .docx (needs the extra `word`).")
@click.option("--notes", type=FILE, metavar="FILE", help="The reviewer's notes (.toml).")
@click.option("--keep-notes", type=FILE, metavar="FILE", help="Write the notes for the next round (.toml).")
@click.option("--action", default="", metavar="WORD", help="The reviewer's action word; never chosen by the program.")
@replace_option
@click.option("--proposals", is_flag=True, help="Say what changes would comply.")
def command(
    asked: CommonArguments,
    page: Path | None,
    word: Path | None,
    notes: Path | None,
    keep_notes: Path | None,
    action: str,
    proposals: bool,
    replace: bool,
    **beside: Any,
) -> int:
    """Write the comments on SCHEDULE by line and clause, to be sent back.

    \b
    Example:
      speccheck reply schedule.xlsx --against project.clauses \\
          --notes notes.toml --word reply.docx --page reply.html \\
          --keep-notes next-round.toml --action "Revise and resubmit"

    Several files, or a folder of them, are one submittal and get one reply.
    Notes name a line by what it is, so they stay with it from round to round.

    Exit status: 0 written, 3 the input or the call cannot be used, or a file
    was not written.
    """
    from speccheck.report.reply.reply import reply_to
    from speccheck.review.corrections import mend_schedule
    from speccheck.review.reviewing import judge_schedule

    if page is None and word is None and keep_notes is None:
        raise click.UsageError("say what to write: --page FILE.html, --word FILE.docx, --keep-notes FILE.toml")
    outputs = Outputs({"page": page, "word": word, "keep-notes": keep_notes}, replace=replace)
    ruleset = asked.ruleset()
    said = notes_or_stop(notes, ruleset)
    read = asked.read(ruleset)
    matrix = review_against(judge_schedule(read.schedule, ruleset), with_schedule=read.products, **beside)
    reply = reply_to(matrix, said, tuple(mend_schedule(matrix)) if proposals else (), action)
    _write(reply, outputs)
    if "keep-notes" in outputs:
        outputs.write("keep-notes", _notes_for_the_next_round(said, reply, matrix))
    return outputs.finish(0)


def notes_or_stop(path: Path | None, ruleset: Ruleset) -> Notes:
    """Return the notes of a file, none where there is no file; one that cannot be used ends the run."""
    from speccheck.review.notes import Notes

    if path is None:
        return Notes()
    note_read(path)
    return usable_notes(path, ruleset)


def _write(reply: Reply, outputs: Outputs) -> None:
    """Write the reply in the forms that were asked for."""
    if "page" in outputs:
        from speccheck.report.reply.reply import render_reply_page

        outputs.write("page", render_reply_page(reply))
    if "word" in outputs:
        from speccheck.report.word.document import missing_library
        from speccheck.report.word.reply import render_reply_document

        missing = missing_library()
        if missing is not None:
            outputs.failed(missing)
        else:
            outputs.write("word", render_reply_document(reply))


def _notes_for_the_next_round(notes: Notes, reply: Reply, matrix: Matrix) -> str:
    """Return the notes for the next round: the old ones, and an empty one for each new comment."""
    from speccheck.report.wording import clause_label
    from speccheck.review.notes import keep_notes

    commented = [(comment.line, clause_label(comment.clause)) for comment in reply.comments]
    return keep_notes(notes, commented, matrix.schedule.lines, matrix.ruleset)
