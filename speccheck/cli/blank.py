"""`speccheck blank`: a blank schedule workbook with the columns that a ruleset needs."""

from __future__ import annotations

from pathlib import Path

import click

from speccheck.cli import UNUSABLE
from speccheck.cli.inputs import FILE, UNITS, ruleset_or_stop, show


@click.command()
@click.argument("ruleset", type=FILE)
@click.argument("workbook", type=FILE)
@click.option("--units", type=UNITS, help="Units in the header; by default those of the ruleset.")
def command(ruleset: Path, workbook: Path, units: str | None) -> int:
    """Write WORKBOOK, a blank schedule for RULESET.

    It has only the columns that the clauses need, with units in the header and
    lists to choose from. `check` reads it back without a mapping file.

    \b
    Example:
      speccheck blank project.clauses schedule.xlsx

    Exit status: 0 the workbook was written, 3 it was not.
    """
    from speccheck.report.workbook.blank import render_blank
    from speccheck.report.writing import write_whole

    rules = ruleset_or_stop(ruleset)
    problem = write_whole(workbook, render_blank(rules, units or rules.units), [ruleset])
    if problem is not None:
        show([problem])
        return UNUSABLE
    click.echo(f"wrote {workbook}")
    return 0
