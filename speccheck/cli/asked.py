"""What most commands are asked: a schedule, the ruleset to check it against, and what settles how it is read."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from speccheck.cli.inputs import (
    FILE,
    UNITS,
    mapping_or_stop,
    note_read,
    ruleset_or_stop,
    schedule_or_stop,
)
from speccheck.inputs import UnusableInput

if TYPE_CHECKING:
    from speccheck.language.core import Ruleset
    from speccheck.schedule import Schedule

_OPTIONS = (
    click.argument("schedule", type=FILE),
    click.option("--against", required=True, type=FILE, metavar="RULESET", help="Ruleset file, or a shipped one."),
    click.option("--mapping", type=FILE, help="Mapping file (.toml) that settles what cannot be guessed."),
    click.option(
        "--units", type=UNITS, help="Units of numbers for which the schedule states none; else the ruleset's."
    ),
    click.option("--sheet", help="Read only this sheet of the workbook."),
)


@dataclass(frozen=True, slots=True)
class Asked:
    """The schedule and the ruleset that a command was given, by their paths."""

    schedule: Path
    against: Path
    mapping: Path | None
    units: str | None
    sheet: str | None

    @property
    def files(self) -> tuple[Path, ...]:
        """The files, none of which may be written over."""
        return (self.schedule, self.against, *(() if self.mapping is None else (self.mapping,)))

    def ruleset(self) -> Ruleset:
        """Return the ruleset; one that cannot be used ends the run."""
        return ruleset_or_stop(self.against)

    def read(self, ruleset: Ruleset) -> Schedule:
        """Return the schedule in the terms of the ruleset; one that cannot be used ends the run."""
        return schedule_or_stop(self.schedule, ruleset, self.mapping, self.units, self.sheet)


@dataclass(frozen=True, slots=True)
class AskedPackage:
    """The files of one submittal and the ruleset that a command was given; one file is a submittal too."""

    asked: Asked
    papers: tuple[Path, ...]

    def read(self, ruleset: Ruleset) -> tuple[Schedule, Schedule | None]:
        """Return the schedule, and the product data among the files; what cannot be used ends the run."""
        if self.papers == (self.asked.schedule,):
            return self.asked.read(ruleset), None
        from speccheck.review.package import read_package

        note_read(*self.papers)
        mapping = mapping_or_stop(self.asked.mapping, ruleset.vocabulary)
        read = read_package(
            self.papers, ruleset, mapping, units=self.asked.units or ruleset.units, sheet=self.asked.sheet or ""
        )
        if not read.schedule.lines:
            raise UnusableInput("no line of any of the files can be judged", read.schedule.diagnostics)
        return read.schedule, read.products


def package_and_ruleset(function: Callable[..., int]) -> Callable[..., int]:
    """Give a command the files of a submittal and a ruleset; it gets them as its first argument, an `AskedPackage`."""

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

        folders = [path for path in schedule if path.is_dir()]
        papers = files_of(schedule) if folders or len(schedule) > 1 else schedule
        if not papers:
            raise click.UsageError(f"there is no file in the folder {folders[0].name}")
        return function(AskedPackage(Asked(papers[0], against, mapping, units, sheet), papers), **others)

    several = click.argument("schedule", type=FILE, nargs=-1, required=True)
    for option in reversed((several, *_OPTIONS[1:])):
        command = option(command)
    return command


def schedule_and_ruleset(function: Callable[..., int]) -> Callable[..., int]:
    """Give a command a schedule and a ruleset with their options; it gets them as its first argument, an `Asked`."""

    @wraps(function)
    def command(
        schedule: Path, against: Path, mapping: Path | None, units: str | None, sheet: str | None, **others: Any
    ) -> int:
        return function(Asked(schedule, against, mapping, units, sheet), **others)

    for option in reversed(_OPTIONS):
        command = option(command)
    return command
