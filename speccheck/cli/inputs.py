"""What commands share: rulesets and schedules loaded, their diagnostics printed, unusable ones ending the run."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import click

from speccheck.cli import UNUSABLE
from speccheck.cli.saying import say
from speccheck.cli.waiting import working_on
from speccheck.english import count

if TYPE_CHECKING:
    from speccheck.inputs import UnusableInput
    from speccheck.language.core import Ruleset
    from speccheck.language.diagnostics import Diagnostic
    from speccheck.language.vocabulary.terms import Vocabulary
    from speccheck.review.package import Package
    from speccheck.schedule import ScheduleMapping

UNITS = click.Choice(["inch-pound", "metric"])
FILE = click.Path(path_type=Path)
DAY = click.DateTime(["%Y-%m-%d"])
_READ = "speccheck.files_read"


def note_read(*files: Path | str) -> None:
    """Remember that this run of a command read these files, none of which it may write over."""
    context = click.get_current_context(silent=True)
    if context is not None:
        context.meta.setdefault(_READ, []).extend(map(Path, files))


def files_read() -> tuple[Path, ...]:
    """Return the files that this run of a command read."""
    context = click.get_current_context(silent=True)
    return () if context is None else tuple(context.meta.get(_READ, ()))


def ruleset_or_stop(path: Path, *, drafts: bool = False) -> Ruleset:
    """Return the ruleset of `path`, its warnings printed; with errors, print them and end the run.

    Clauses that nobody has confirmed are errors unless `drafts` are asked for.
    """
    from speccheck.inputs import usable_ruleset

    working_on(f"reading the ruleset {path.name}")
    ruleset, loaded = usable_ruleset(path, drafts=drafts)
    note_read(path, *loaded.files)
    show(loaded.diagnostics)
    return ruleset


def package_or_stop(
    paths: Sequence[Path],
    ruleset: Ruleset,
    mapping: Path | None = None,
    units: str | None = None,
    sheet: str | None = None,
) -> Package:
    """Return the files of one submittal, which may be a single file or a folder; what cannot be used ends the run."""
    from speccheck.inputs import usable_package
    from speccheck.review.package import files_of

    note_read(*files_of(paths))
    names = " and ".join(path.name for path in paths[:2]) if len(paths) < 3 else f"{len(paths)} files"
    working_on(f"reading {names}")
    settled = mapping_or_stop(mapping, ruleset.vocabulary)
    package = usable_package(paths, ruleset, settled, units=units or "", sheet=sheet or "")
    working_on(f"checking {count(len(package.schedule.lines), 'line')} of {names}")
    return package


def mapping_or_stop(path: Path | None, vocabulary: Vocabulary) -> ScheduleMapping | None:
    """Return the mapping file of `path`, if there is one to be read; one that cannot be used ends the run."""
    if path is None:
        return None
    from speccheck.inputs import usable_mapping

    note_read(path)
    mapping, diagnostics = usable_mapping(path, vocabulary)
    show(diagnostics)
    return mapping


def show(diagnostics: Iterable[Diagnostic]) -> None:
    """Print diagnostics where errors are printed."""
    found = tuple(diagnostics)
    if found:
        from rich.console import Console

        from speccheck.report.terminal.diagnostics import print_diagnostics

        print_diagnostics(found, Console(stderr=True))


def stop(unusable: UnusableInput) -> NoReturn:
    """Print what is wrong with an input and why the run ends, and end it."""
    show(unusable.diagnostics)
    say(f"{unusable.what}; nothing was judged", err=True)
    raise SystemExit(UNUSABLE)
