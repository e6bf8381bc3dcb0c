"""`speccheck coverage`: what becomes of each paragraph of a section under a ruleset."""

from __future__ import annotations

from pathlib import Path

import click

from speccheck.cli.inputs import FILE, note_read, ruleset_or_stop
from speccheck.inputs import UnusableInput


@click.command()
@click.argument("ruleset", type=FILE)
@click.option("--section", type=FILE, required=True, metavar="FILE", help="The section (.docx, .pdf or plain text).")
@click.option("--full", is_flag=True, help="List the paragraphs that are checked too.")
def command(ruleset: Path, section: Path, full: bool) -> int:
    """Say which paragraphs of a section RULESET checks, which it says are not checked, and which nothing speaks of.

    \b
    Example:
      speccheck coverage project.clauses --section section.docx

    Exit status: 0 every paragraph is accounted for as it is now, 2 something is
    open or differs, 3 a file cannot be used.
    """
    from rich.console import Console

    from speccheck.report.terminal.coverage import print_coverage
    from speccheck.specification import coverage_of, read_section

    note_read(section)
    loaded = ruleset_or_stop(ruleset, drafts=True)
    blocks, problems = read_section(section)
    if problems:
        raise UnusableInput(f"{section.name} cannot be read", problems)
    report = coverage_of(loaded, blocks)
    print_coverage(report, Console(), full=full)
    return 0 if report.is_whole else 2
