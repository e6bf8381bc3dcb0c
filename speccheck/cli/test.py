"""`speccheck test`: a ruleset's diagnostics, its examples judged, and what no example touches."""

from __future__ import annotations

from pathlib import Path

import click

from speccheck.cli.inputs import FILE, ruleset_or_stop, show
from speccheck.cli.saying import say


@click.command()
@click.argument("ruleset", type=FILE)
@click.option("--each", is_flag=True, help="Print every example with its verdict and reason.")
def command(ruleset: Path, each: bool) -> int:
    """Try RULESET, a file or the name of a shipped ruleset.

    Says what is wrong with its wording, whether every example comes out as it
    says, and which clauses and table cells no example touches.

    \b
    Example:
      speccheck test project.clauses

    Exit status: 0 every example comes out, 1 one does not, 2 a clause or a table
    cell has no example, 3 the ruleset cannot be used.
    """
    from speccheck.judge import rehearse

    rehearsal = rehearse(ruleset_or_stop(ruleset, drafts=True))
    if each:
        for result in rehearsal.results:
            say(f"{result.clause.label} {result.example.title}: {result.cell.verdict}. {result.cell.reason}")
    show(rehearsal.diagnostics)
    wrong = sum(not result.right for result in rehearsal.results)
    touched = rehearsal.clauses - len(rehearsal.without_example)
    cells = rehearsal.cells - len(rehearsal.untouched)
    say(f"{len(rehearsal.results) - wrong} of {len(rehearsal.results)} examples come out as they say.")
    say(f"{touched} of {rehearsal.clauses} clauses and {cells} of {rehearsal.cells} table cells have an example.")
    return 1 if wrong else 2 if rehearsal.diagnostics else 0
