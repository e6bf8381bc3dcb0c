"""What most commands are asked: a submittal, the ruleset to check it against, and what settles how it is read.

A submittal is a file, several files, or a folder of them; every command that takes one takes all three.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from speccheck.cli.inputs import FILE, UNITS, package_or_stop, ruleset_or_stop

if TYPE_CHECKING:
    from speccheck.language.core import Ruleset
    from speccheck.review.package import Package

_OPTIONS = (
    click.argument("schedule", type=FILE, nargs=-1, required=True),
    click.option("--against", required=True, type=FILE, metavar="RULESET", help="Ruleset file, or a shipped one."),
    click.option("--mapping", type=FILE, help="Mapping file (.toml) that settles what cannot be guessed."),
    click.option(
        "--units", type=UNITS, help="Units of numbers for which the schedule states none; else the ruleset's."
    ),
    click.option("--sheet", help="Read only this sheet of the workbook."),
)


@dataclass(frozen=True, slots=True)
class CommonArguments:
    """The files of one submittal and the ruleset that a command was given, by their paths."""

    papers: tuple[Path, ...]
    against: Path
    mapping: Path | None
    units: str | None
    sheet: str | None

    def ruleset(self) -> Ruleset:
        """Return the ruleset; one that cannot be used ends the run."""
        return ruleset_or_stop(self.against)

    def read(self, ruleset: Ruleset) -> Package:
        """Return the submittal in the terms of the ruleset; one that cannot be used ends the run."""
        return package_or_stop(self.papers, ruleset, self.mapping, self.units, self.sheet)


def submittal_and_ruleset(function: Callable[..., int]) -> Callable[..., int]:
    """Give a command the files of a submittal and a ruleset; it gets them as its first argument, `CommonArguments`."""

    @wraps(function)
    def command(
        schedule: tuple[Path, ...],
        against: Path,
        mapping: Path | None,
        units: str | None,
        sheet: str | None,
        **others: Any,
    ) -> int:
        from speccheck.review.package import files_of

        papers = files_of(schedule)
        if not papers:
            raise click.UsageError(f"there is no file in the folder {schedule[0].name}")
        return function(CommonArguments(papers, against, mapping, units, sheet), **others)

    for option in reversed(_OPTIONS):
        command = option(command)
    return command
