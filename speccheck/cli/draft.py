"""`speccheck draft`: a specification section turned into clauses that a person has to confirm."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import click

from speccheck.cli.inputs import FILE, note_read
from speccheck.cli.outputs import Outputs, replace_option
from speccheck.cli.saying import say
from speccheck.english import count, listed
from speccheck.inputs import UnusableInput, usable_vocabulary


@click.command()
@click.argument("section", type=FILE)
@click.option("--into", type=FILE, required=True, metavar="FILE", help="The ruleset to write (.clauses).")
@click.option("--page", type=FILE, metavar="FILE", help="Write what came from which words, side by side, as HTML.")
@click.option("--vocabulary", default="mechanical insulation", show_default=True, help="The vocabulary it speaks.")
@replace_option
def command(section: Path, into: Path, page: Path | None, vocabulary: str, replace: bool) -> int:
    """Draft clauses from SECTION, a specification section (.docx, .pdf or plain text).

    Each paragraph becomes a clause, a document or a relation marked `draft`, a paragraph that is `not checked` with
    the reason, or one with `todo` where words were not understood. Nothing judges before somebody has read each of
    them and taken the mark out.

    \b
    Example:
      speccheck draft section.docx --into project.clauses --page draft.html

    Exit status: 0 all was read, 2 something is left to do, 3 the section cannot be read or a file not written.
    """
    from speccheck.language.format.house_style import format_text
    from speccheck.language.syntax.source_text import SourceText
    from speccheck.report.html.draft import render_draft
    from speccheck.specification import draft, read_section, ruleset_text

    note_read(section)
    outputs = Outputs({"ruleset": into, "page": page}, replace=replace)
    words, _ = usable_vocabulary(vocabulary)
    blocks, problems = read_section(section)
    if problems:
        raise UnusableInput(f"{section.name} cannot be drafted from", problems)
    drafted = draft(blocks, words)
    text = format_text(SourceText(into.name, ruleset_text(section.stem, words, drafted)))
    assert isinstance(text, str), text
    outputs.write("ruleset", text)
    if "page" in outputs:
        outputs.write("page", render_draft(section.name, drafted))
    counts = Counter(one.sort for one in drafted)
    if not outputs.own_the_screen:
        beside = [count(counts[sort], sort) for sort in ("document", "relation") if counts[sort]]
        drafts = listed([f"{counts['clause']} clauses", f"{counts['table']} tables", *beside])
        say(
            f"{drafts} drafted, {counts['not checked']} paragraphs not checked, {counts['todo']} left to do, "
            f"{counts['heading']} headings.\n"
            "Read each draft beside its wording, and take the line `draft` out where it says the same."
        )
    return outputs.finish(2 if counts["todo"] else 0)
