"""`speccheck requirements`: which published requirements apply to a line, with their numbers and sources."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from speccheck.cli.inputs import FILE, UNITS, package_or_stop, ruleset_or_stop
from speccheck.english import did_you_mean
from speccheck.inputs import UnusableInput

if TYPE_CHECKING:
    from speccheck.language.core import Ruleset
    from speccheck.schedule.lines import Line


@click.command()
@click.argument("line", metavar="LINE")
@click.option("--line", "mark", metavar="MARK", help="Take the line of this name from the schedule that LINE names.")
@click.option(
    "--against",
    multiple=True,
    type=FILE,
    metavar="RULESET",
    help="Ask this ruleset, a file or a shipped one, instead of all shipped ones; may be given again.",
)
@click.option("--mapping", type=FILE, help="Mapping file (.toml) for the schedule.")
@click.option("--units", type=UNITS, help="Units of numbers for which the line states none.")
@click.option("--sheet", help="Read only this sheet of the workbook.")
@click.option("--full", is_flag=True, help="Print what may apply too, with all sources, notes and cautions.")
def command(
    line: str,
    mark: str | None,
    against: tuple[Path, ...],
    mapping: Path | None,
    units: str | None,
    sheet: str | None,
    full: bool,
) -> int:
    """List the requirements that apply to a line; with --full their sources too.

    LINE states the line in the words of the vocabulary, parted by commas; with
    --line it names a schedule, or the folder of a submittal. Where it is not known
    whether clauses apply, the information that is needed is named.

    \b
    Examples:
      speccheck requirements "service chilled water, pipe size 4 in,
          operating temperature 44 F, location mechanical room"
      speccheck requirements schedule.xlsx --line CHW-3

    Exit status: 0 something applies or may, 2 nothing does, 3 the line or a
    ruleset cannot be read.
    """
    from speccheck.report.terminal.requirements import print_requirements, print_short_requirements
    from speccheck.review.requirements import requirements_of, shipped_rulesets

    rulesets = tuple(ruleset_or_stop(path) for path in against) or shipped_rulesets()
    if mark is None:
        stated = _line_in_words(line, rulesets[0], units)
    else:
        stated = _line_of_schedule(mark, Path(line), rulesets[0], mapping, units, sheet)
    found = requirements_of(stated, rulesets, inherited=bool(against))
    (print_requirements if full else print_short_requirements)(stated, found)
    return 0 if any(one.applying or one.perhaps for one in found) else 2


def _line_in_words(text: str, ruleset: Ruleset, units: str | None) -> Line:
    """Return the line that a text states; one that cannot be read ends the run."""
    from speccheck.language.diagnostics import has_errors
    from speccheck.schedule.words import line_in_words

    stated, diagnostics = line_in_words(text, ruleset.vocabulary, units or ruleset.units)
    if has_errors(diagnostics):
        raise UnusableInput("the line cannot be read", diagnostics)
    if not stated.data:
        raise click.UsageError("the line states nothing; write what is known of it: `service steam, pipe size 2 in`")
    return stated


def _line_of_schedule(
    mark: str, path: Path, ruleset: Ruleset, mapping: Path | None, units: str | None, sheet: str | None
) -> Line:
    """Return the line of a schedule that has a name; where there is none, the nearest is named and the run ends."""

    lines = {one.name: one for one in package_or_stop([path], ruleset, mapping, units, sheet).schedule.lines}
    if mark in lines:
        return lines[mark]
    hint = did_you_mean(mark, lines, f"there are {len(lines)}, such as `{next(iter(lines))}`")
    raise click.UsageError(f"no line is called `{mark}`; {hint}")
