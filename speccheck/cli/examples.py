"""`speccheck examples`: which typing errors the examples of a ruleset would notice, and which example would."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import click

from speccheck.cli import UNUSABLE
from speccheck.cli.inputs import FILE, ruleset_or_stop, show
from speccheck.cli.outputs import Outputs, replace_option
from speccheck.cli.saying import say
from speccheck.english import agree

if TYPE_CHECKING:
    from speccheck.language.core import Ruleset
    from speccheck.proofread.drafting_examples import DraftedExample

# How many lines are shown; a screen has room for no more.
MOST_SHOWN = 10


@click.command()
@click.argument("ruleset", type=FILE)
@click.option("--all", "list_all", is_flag=True, help="List every change with the example that notices it.")
@click.option(
    "--into", "--write", "into", type=FILE, metavar="FILE", help="Write the proposed lines, verdicts left to you."
)
@replace_option
@click.option("--no-proposals", is_flag=True, help="Say what goes unnoticed, and propose no examples.")
def command(ruleset: Path, list_all: bool, into: Path | None, replace: bool, no_proposals: bool) -> int:
    """Try how good the examples of RULESET are, a file or a shipped ruleset.

    Each number is put one step off, each limit is taken in or out, each condition
    and exception is left out, each table cell and band is changed, one at a time.
    Told are the lines that would notice most of what no example notices. Their
    verdicts are left to you: a verdict of the rule would bless a fault in it.
    Copy them into the clauses, and `speccheck test` says where the rule disagrees.

    \b
    Examples:
      speccheck examples project.clauses
      speccheck examples project.clauses --into lines.txt

    Exit status: 0 every change that alters a verdict is noticed, 1 an example
    does not come out as it says, 2 a change goes unnoticed, 3 the ruleset cannot
    be used, or the file was not written.
    """
    from speccheck.judge import rehearse
    from speccheck.language.messages.tables import FAILED_EXAMPLE
    from speccheck.proofread.drafting_examples import drafted, drafted_text
    from speccheck.proofread.mutation import adequacy, told, unnoticed

    outputs = Outputs({"lines": into}, replace=replace)
    loaded = ruleset_or_stop(ruleset)
    if not loaded.clauses:
        return UNUSABLE
    rehearsal = rehearse(loaded)
    if not all(result.right for result in rehearsal.results):
        show(found for found in rehearsal.diagnostics if found.code == FAILED_EXAMPLE.code)
        say("an example does not come out as it says; put it right first")
        return 1
    found = adequacy(loaded)
    for trial in found.trials if list_all else ():
        by = f"noticed by {trial.noticed_by[0]} {trial.noticed_by[1]}" if trial.noticed_by else "not noticed"
        say(f"{trial.change.place.line}: {trial.change.words}: {by}")
    answers = unnoticed(loaded, found, propose=not no_proposals)
    lines = drafted(answers, loaded)
    if list_all or no_proposals:
        show(told(answer, loaded, sought=not no_proposals) for answer in answers)
    else:
        _most_valuable(lines, loaded)
    if "lines" in outputs:
        outputs.write("lines", drafted_text(lines, loaded))
    same = sum(answer.same for answer in answers)
    say(f"{len(found.trials) - len(answers)} of {len(found.trials)} changes are noticed by an example.")
    if same:
        say(f"{same} of the others alter no verdict on any line that states what its clause asks for.")
    return outputs.finish(2 if len(answers) > same else 0)


def _most_valuable(lines: Sequence[DraftedExample], ruleset: Ruleset) -> None:
    """Print the lines that notice most, and how many more there are."""
    for line in lines[:MOST_SHOWN]:
        number = len(line.changes)
        say(line.text(ruleset), nl=False)
        say(f"-- notices {number} {agree(number, 'change', 'changes')}, as where {line.changes[0].words}\n")
    if len(lines) > MOST_SHOWN:
        say(f"{len(lines) - MOST_SHOWN} more lines would notice the rest: `--into FILE` writes them all.")
