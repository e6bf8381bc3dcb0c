"""`speccheck sweep`: every combination of stated values judged by a ruleset, and counted."""

from __future__ import annotations

from pathlib import Path

import click

from speccheck.cli.inputs import FILE, ruleset_or_stop
from speccheck.cli.outputs import Outputs, replace_option
from speccheck.inputs import UnusableInput


@click.command()
@click.argument("ruleset", type=FILE)
@click.argument("values", nargs=-1, required=True)
@click.option("--clause", default="", metavar="LABEL", help="Count the verdicts of this clause alone.")
@click.option("--down", default="", metavar="TERM", help="Term whose values are the rows of the picture.")
@click.option("--across", default="", metavar="TERM", help="Term whose values are its columns.")
@click.option("--page", type=FILE, metavar="FILE", help="Write the picture and the counts as an HTML page.")
@replace_option
def command(
    ruleset: Path, values: tuple[str, ...], clause: str, down: str, across: str, page: Path | None, replace: bool
) -> int:
    """Judge every combination of VALUES by RULESET, and count the verdicts.

    VALUES are terms, each with its values parted by commas; terms are parted by
    semicolons or are arguments of their own. A range of pipe sizes stands for
    every nominal size in it, `all` for every choice of a list, and a range of
    quantities is gone through in steps.

    \b
    Examples:
      speccheck sweep project.clauses "pipe size 1/2 in to 12 in"
          "thickness 1/2 in, 1 in, 1-1/2 in, 2 in"
          "service heating hot water; operating temperature 180 F"
          --page sweep.html
      speccheck sweep project.clauses "location all"
          "operating temperature 40 F to 200 F every 20 F"

    Exit status: 0, or 3 where the ruleset, the values or the call cannot be used.
    """
    from speccheck.language.diagnostics import Diagnostic
    from speccheck.report.sweep import render_sweep
    from speccheck.report.terminal.portfolio import print_sweep
    from speccheck.review.sweep import axes_of, read_swept, sweep
    from speccheck.review.sweep.running import clause_named

    outputs = Outputs({"page": page}, replace=replace)
    loaded = ruleset_or_stop(ruleset)
    terms, problems = read_swept(values, loaded)
    if problems:
        raise UnusableInput("the values cannot be used", problems)
    axes, asked = axes_of(terms, down, across), clause_named(clause, loaded) if clause else None
    for found in (axes, asked):
        if isinstance(found, Diagnostic):
            raise UnusableInput("the sweep cannot be made", [found])
    swept = sweep(loaded, terms, axes, asked)  # type: ignore[arg-type]
    if "page" in outputs:
        outputs.write("page", render_sweep(swept))
    if not outputs.own_the_screen:
        print_sweep(swept)
    return outputs.finish(0)
