"""`speccheck examples`: which typing errors the examples of a ruleset would notice, and which example would."""

from __future__ import annotations

from pathlib import Path

import click

from speccheck.cli import UNUSABLE
from speccheck.cli.inputs import FILE, ruleset_or_stop, show


@click.command()
@click.argument("ruleset", type=FILE)
@click.option("--all", "list_all", is_flag=True, help="List every change with the example that notices it.")
@click.option("--no-proposals", is_flag=True, help="Say what goes unnoticed, and propose no examples.")
def command(ruleset: Path, list_all: bool, no_proposals: bool) -> int:
    """Try how good the examples of RULESET are, a file or a shipped ruleset.

    Each number is put one step off, each limit is taken in or out, each condition
    and exception is left out, each table cell and band is changed, one at a time.
    A change that no example notices is told, with an example that would.

    \b
    Example:
      speccheck examples project.clauses

    Exit status: 0 every change that alters a verdict is noticed, 1 an example
    does not come out as it says, 2 a change goes unnoticed, 3 the ruleset cannot
    be used.
    """
    from speccheck.judge import rehearse
    from speccheck.proofread.mutation import adequacy, told, unnoticed

    loaded = ruleset_or_stop(ruleset)
    if not loaded.clauses:
        return UNUSABLE
    rehearsal = rehearse(loaded)
    if not all(result.right for result in rehearsal.results):
        show(found for found in rehearsal.diagnostics if found.code == "L502")
        click.echo("an example does not come out as it says; put it right first")
        return 1
    found = adequacy(loaded)
    for trial in found.trials if list_all else ():
        by = f"noticed by {trial.noticed_by[0]} {trial.noticed_by[1]}" if trial.noticed_by else "not noticed"
        click.echo(f"{trial.change.place.line}: {trial.change.words}: {by}")
    answers = unnoticed(loaded, found, propose=not no_proposals)
    show(told(answer, loaded, sought=not no_proposals) for answer in answers)
    same = sum(answer.same for answer in answers)
    click.echo(f"{len(found.trials) - len(answers)} of {len(found.trials)} changes are noticed by an example.")
    if same:
        click.echo(f"{same} of the others alter no verdict on any line that states what its clause asks for.")
    return 2 if len(answers) > same else 0
