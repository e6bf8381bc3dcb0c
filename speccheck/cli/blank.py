"""`speccheck blank`: a blank schedule workbook with the columns that a ruleset needs."""

from __future__ import annotations

from pathlib import Path

import click

from speccheck.cli.inputs import FILE, UNITS, ruleset_or_stop
from speccheck.cli.outputs import Outputs, replace_option


@click.command()
@click.argument("ruleset", type=FILE)
@click.argument("workbook", type=FILE)
@click.option("--units", type=UNITS, help="Units in the header; by default those of the ruleset.")
@replace_option
def command(ruleset: Path, workbook: Path, units: str | None, replace: bool) -> int:
    """Write WORKBOOK, a blank schedule for RULESET.

    It has only the columns that the clauses need, with units in the header and
    lists to choose from. `check` reads it back without a mapping file.

    \b
    Example:
      speccheck blank project.clauses schedule.xlsx

    Exit status: 0 the workbook was written, 3 it was not.
    """
    from speccheck.report.workbook.blank import render_blank

    outputs = Outputs({"workbook": workbook}, replace=replace)
    rules = ruleset_or_stop(ruleset)
    outputs.write("workbook", render_blank(rules, units or rules.units))
    return outputs.finish(0)
