"""`speccheck prose`: a ruleset written out as a specification section in three parts."""

from __future__ import annotations

from pathlib import Path

import click

from speccheck.cli.inputs import FILE, ruleset_or_stop
from speccheck.cli.outputs import Outputs, replace_option


@click.command()
@click.argument("ruleset", type=FILE)
@click.option("--page", type=FILE, metavar="FILE", help="Write the section as an HTML page.")
@click.option("--word", type=FILE, metavar="FILE", help="Write it as a .docx (needs the extra `word`).")
@click.option("--wording", is_flag=True, help="Use the section's own words where clauses have them.")
@click.option("--sources", is_flag=True, help="Add sources, reasons and notes.")
@click.option("--this-section-only", is_flag=True, help="Name the rulesets it builds on, and leave out their clauses.")
@replace_option
def command(
    ruleset: Path,
    page: Path | None,
    word: Path | None,
    wording: bool,
    sources: bool,
    this_section_only: bool,
    replace: bool,
) -> int:
    """Write RULESET out in prose: General, Products, Execution.

    A clause numbered as a section is (2.1.A) keeps its number, and stands once: in
    the sentences of its rule, which `speccheck draft` reads back, or in the
    section's own words. Word numbers the paragraphs of the document.

    \b
    Example:
      speccheck prose project.clauses --page section.html --word section.docx

    Exit status: 0 written, 3 the ruleset cannot be used or a file not written.
    """
    from speccheck.report.prose.articles import Telling
    from speccheck.report.prose.section import render_prose_page
    from speccheck.report.word.document import missing_library
    from speccheck.report.word.section import render_prose_document

    if page is None and word is None:
        raise click.UsageError("say what to write: --page FILE.html, --word FILE.docx, or both")
    outputs = Outputs({"page": page, "word": word}, replace=replace)
    telling = Telling(as_worded=wording, sources=sources)
    loaded = ruleset_or_stop(ruleset, drafts=True)
    if "page" in outputs:
        outputs.write("page", render_prose_page(loaded, own_only=this_section_only, telling=telling))
    if "word" in outputs:
        missing = missing_library()
        if missing is not None:
            outputs.failed(missing)
        else:
            outputs.write("word", render_prose_document(loaded, own_only=this_section_only, telling=telling))
    return outputs.finish(0)
