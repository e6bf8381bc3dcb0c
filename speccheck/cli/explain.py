"""`speccheck explain`: the working of one line and one clause, in full."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

import click

from speccheck.cli.common_arguments import CommonArguments, submittal_and_ruleset
from speccheck.english import did_you_mean

if TYPE_CHECKING:
    from collections.abc import Mapping

Found = TypeVar("Found")


@click.command()
@submittal_and_ruleset
@click.option("--line", required=True, help="Name of the line: its mark in the schedule, or `row 12`.")
@click.option("--clause", required=True, help="Number of the clause, as reports have it.")
def command(
    asked: CommonArguments,
    line: str,
    clause: str,
) -> int:
    """Show what one clause makes of one line of SCHEDULE, step by step.

    \b
    Example:
      speccheck explain schedule.xlsx --against project.clauses \\
          --line CHW-3 --clause 2.1.A

    Exit status: 0 it complies or does not apply, 1 it does not comply, 2 it
    cannot be determined, 3 the input or the call cannot be used.
    """
    from speccheck.judge import Judge, Verdict
    from speccheck.language.clause_names import clauses_by_name
    from speccheck.report.terminal.working import print_working

    ruleset = asked.ruleset()
    read = asked.read(ruleset).schedule
    chosen_line = _chosen(line, {one.name: one for one in read.lines}, "line")
    chosen = _chosen(clause, clauses_by_name(ruleset.clauses), "clause")
    cell = Judge(ruleset).cell(ruleset.clauses.index(chosen), chosen_line)
    print_working(chosen_line, chosen, cell, ruleset)
    return {Verdict.FAILS: 1, Verdict.CANNOT_TELL: 2}.get(cell.verdict, 0)


def _chosen(name: str, known: Mapping[str, Found], what: str) -> Found:
    """Return the thing with a name; a name that is not known ends the run with the nearest that is."""

    if name in known:
        return known[name]
    number = len({id(one) for one in known.values()})
    hint = did_you_mean(name, known, f"there are {number}, such as `{next(iter(known))}`")
    raise click.UsageError(f"no {what} is called `{name}`; {hint}")
