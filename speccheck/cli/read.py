"""`speccheck read`: what every table, column and cell of a schedule became, and a starter of a mapping file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING

import click

from speccheck.cli import UNUSABLE
from speccheck.cli.inputs import FILE, UNITS, mapping_or_stop, note_read, ruleset_or_stop, show
from speccheck.cli.outputs import Outputs, replace_option
from speccheck.cli.saying import say
from speccheck.english import listed
from speccheck.inputs import usable_vocabulary

if TYPE_CHECKING:
    from speccheck.language.core import Ruleset
    from speccheck.language.vocabulary.terms import Vocabulary
    from speccheck.review.package import File
    from speccheck.schedule.lines import Line
    from speccheck.schedule.what_was_read import WhatWasRead

VOCABULARY = "mechanical insulation"


@click.command()
@click.argument("schedule", type=FILE, nargs=-1, required=True)
@click.option("--against", type=FILE, metavar="RULESET", help="The ruleset whose terms and units count.")
@click.option("--mapping", type=FILE, help="Mapping file (.toml) that settles what cannot be guessed.")
@click.option("--starter", type=FILE, help="Write a mapping file with an entry for each open question.")
@click.option("--units", type=UNITS, help="Units of numbers for which the schedule states none; else the ruleset's.")
@click.option("--sheet", help="Read only this sheet of the workbook.")
@click.option("--all", "everything", is_flag=True, help="Show every table, column and question.")
@replace_option
def command(
    schedule: tuple[Path, ...],
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

    Several files, or a folder of them, are one submittal, for which one mapping
    file serves.

    Exit status: 0 all was read, 2 something was not, 3 nothing could be read.
    """
    from speccheck.report.terminal.reading import print_reading
    from speccheck.review.package import ReadAs, files_of, told
    from speccheck.schedule.questions import questions_of, together
    from speccheck.schedule.starter import starter_mapping
    from speccheck.schedule.what_was_read import what_was_read

    outputs = Outputs({"starter": starter}, replace=replace)
    ruleset = ruleset_or_stop(against) if against is not None else None
    vocabulary = ruleset.vocabulary if ruleset is not None else usable_vocabulary(VOCABULARY)[0]
    papers = files_of(schedule)
    note_read(*papers)
    settled = mapping_or_stop(mapping, vocabulary)
    usual = ruleset.units if ruleset is not None else ""
    found = {
        path: what_was_read(path, vocabulary, settled, units=units or "", usual_units=usual, sheet=sheet or "")
        for path in papers
    }
    files = _told_apart(found, vocabulary)
    readings = [found[file.path] for file in files if file.read_as is ReadAs.SCHEDULE]
    questions = questions_of(readings[0]) if len(files) == 1 else together(list(chain(*map(questions_of, readings))))
    lines = [line for read in readings for line in read.schedule.lines]
    if not lines:
        show(one for read in found.values() for one in read.schedule.diagnostics)
    if not outputs.own_the_screen:
        others = [told(file).message.replace("`", "") for file in files if file.read_as is not ReadAs.SCHEDULE]
        print_reading(readings, questions, everything=everything, others=others)
    if "starter" in outputs:
        wanted = _wanted(ruleset, lines) if ruleset is not None and lines else ()
        name = listed([read.schedule.name for read in readings])
        outputs.write("starter", starter_mapping(name, questions, wanted))
    elif questions:
        say("help: --starter mapping.toml writes a mapping file in which to answer these")
    unread = questions or any(file.read_as is ReadAs.NOTHING for file in files)
    return outputs.finish(UNUSABLE if not lines else 2 if unread else 0)


def _told_apart(found: Mapping[Path, WhatWasRead], vocabulary: Vocabulary) -> list[File]:
    """Return what each file is; one alone is a schedule."""
    from speccheck.review.package import File, ReadAs, told_apart

    read = [(path, one.schedule) for path, one in found.items()]
    return told_apart(read, vocabulary) if len(read) > 1 else [File(path, ReadAs.SCHEDULE, one) for path, one in read]


def _wanted(ruleset: Ruleset, lines: Sequence[Line]) -> tuple[str, ...]:
    """Return the terms that clauses ask for and no line states."""
    from speccheck.report.workbook.blank import needed_terms

    stated = {name for line in lines for name, datum in line.data.items() if datum.text}
    return tuple(term.name for term in needed_terms(ruleset) if term.name not in stated and not term.never_compared)
