"""`speccheck read`: what every table, column and cell of a schedule became, and a starter of a mapping file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from speccheck.cli import UNUSABLE
from speccheck.cli.inputs import FILE, UNITS, mapping_or_stop, note_read, ruleset_or_stop, show
from speccheck.cli.outputs import Outputs, replace_option
from speccheck.inputs import usable_vocabulary

if TYPE_CHECKING:
    from speccheck.language.core import Ruleset
    from speccheck.schedule import Schedule

VOCABULARY = "mechanical insulation"


@click.command()
@click.argument("schedule", type=FILE)
@click.option("--against", type=FILE, metavar="RULESET", help="The ruleset whose terms and units count.")
@click.option("--mapping", type=FILE, help="Mapping file (.toml) that settles what cannot be guessed.")
@click.option("--starter", type=FILE, help="Write a mapping file with an entry for each open question.")
@click.option("--units", type=UNITS, help="Units of numbers for which the schedule states none; else the ruleset's.")
@click.option("--sheet", help="Read only this sheet of the workbook.")
@click.option("--all", "everything", is_flag=True, help="Show every table, column and question.")
@replace_option
def command(
    schedule: Path,
    against: Path | None,
    mapping: Path | None,
    starter: Path | None,
    units: str | None,
    sheet: str | None,
    everything: bool,
    replace: bool,
) -> int:
    """Show what every table and column of SCHEDULE was read as, and what was not.

    \b
    Examples:
      speccheck read schedule.xlsx
      speccheck read schedule.xlsx --against project.clauses \\
          --starter mapping.toml

    Exit status: 0 all was read, 2 something was not, 3 nothing could be read.
    """
    from speccheck.report.terminal.reading import print_reading
    from speccheck.schedule.questions import questions_of
    from speccheck.schedule.starter import starter_mapping
    from speccheck.schedule.what_was_read import what_was_read

    outputs = Outputs({"starter": starter}, replace=replace)
    ruleset = ruleset_or_stop(against) if against is not None else None
    vocabulary = ruleset.vocabulary if ruleset is not None else usable_vocabulary(VOCABULARY)[0]
    note_read(schedule)
    settled = mapping_or_stop(mapping, vocabulary)
    usual = ruleset.units if ruleset is not None else ""
    read = what_was_read(schedule, vocabulary, settled, units=units or "", usual_units=usual, sheet=sheet or "")
    questions = questions_of(read)
    if not read.schedule.lines:
        show(read.schedule.diagnostics)
    if not outputs.own_the_screen:
        print_reading(read, questions, everything=everything)
    if "starter" in outputs:
        wanted = _wanted(ruleset, read.schedule) if ruleset is not None and read.schedule.lines else ()
        outputs.write("starter", starter_mapping(schedule.name, questions, wanted))
    elif questions:
        click.echo("help: --starter mapping.toml writes a mapping file in which to answer these")
    return outputs.finish(UNUSABLE if not read.schedule.lines else 2 if questions else 0)


def _wanted(ruleset: Ruleset, schedule: Schedule) -> tuple[str, ...]:
    """Return the terms that clauses ask for and no line states."""
    from speccheck.report.workbook.blank import needed_terms

    stated = {name for line in schedule.lines for name, datum in line.data.items() if datum.text}
    return tuple(term.name for term in needed_terms(ruleset) if term.name not in stated and not term.never_compared)
