"""`speccheck test`: a ruleset's diagnostics, its examples judged, and what no example touches."""

from __future__ import annotations

from pathlib import Path

import click

from speccheck.cli.inputs import FILE, ruleset_or_stop, show
from speccheck.cli.saying import say

# How many clauses and cells without an example are named one by one; of more, their number is told.
MOST_LISTED = 3


@click.command()
@click.argument("ruleset", type=FILE)
@click.option("--each", is_flag=True, help="Print every example with its verdict and reason.")
@click.option("--missing", is_flag=True, help="List every clause and table cell that no example touches.")
def command(ruleset: Path, each: bool, missing: bool) -> int:
    """Try RULESET, a file or the name of a shipped ruleset.

    Says what is wrong with its wording, whether every example comes out as it
    says, and how many clauses and table cells no example touches.

    \b
    Examples:
      speccheck test project.clauses
      speccheck test project.clauses --missing

    Exit status: 0 every example comes out, 1 one does not, 2 a clause or a table
    cell has no example, 3 the ruleset cannot be used.
    """
    from speccheck.judge import rehearse
    from speccheck.language.diagnostics import Severity

    rehearsal = rehearse(ruleset_or_stop(ruleset, drafts=True))
    if each:
        for result in rehearsal.results:
            say(f"{result.clause.label} {result.example.title}: {result.cell.verdict}. {result.cell.reason}")
    bare = len(rehearsal.without_example) + len(rehearsal.untouched)
    show(found for found in rehearsal.diagnostics if missing or bare <= MOST_LISTED or found.severity is Severity.ERROR)
    wrong = sum(not result.right for result in rehearsal.results)
    touched = rehearsal.clauses - len(rehearsal.without_example)
    cells = rehearsal.cells - len(rehearsal.untouched)
    say(f"{ruleset.name} is read without errors.")
    say(f"{len(rehearsal.results) - wrong} of {len(rehearsal.results)} examples come out as they say.")
    say(f"{touched} of {rehearsal.clauses} clauses and {cells} of {rehearsal.cells} table cells have an example.")
    if bare > MOST_LISTED and not missing:
        say(f"`--missing` lists the others; `speccheck examples {ruleset.name}` proposes lines for them.")
    return 1 if wrong else 2 if rehearsal.diagnostics else 0
