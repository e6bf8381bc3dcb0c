"""The inputs of a review: each file read, or `UnusableInput` raised with what is wrong with it.

Commands, the desk and scripts read their files here, so that all of them refuse the same ones. What is returned beside
an input are its diagnostics, none of which keeps it from being used.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

if TYPE_CHECKING:
    from speccheck.language.core import Ruleset
    from speccheck.language.diagnostics import Diagnostic
    from speccheck.language.loading import LoadedRuleset
    from speccheck.language.vocabulary.terms import Vocabulary
    from speccheck.review.deviations import Register
    from speccheck.review.notes import Notes
    from speccheck.review.package import Package
    from speccheck.review.received import ReceivedRegister
    from speccheck.schedule import Schedule, ScheduleMapping

Problems: TypeAlias = "tuple[Diagnostic, ...]"


class UnusableInput(ValueError):  # noqa: N818 - the name says what is wrong, and whose doing it is
    """An input that nothing can be judged by. `diagnostics` say what is wrong, where, and what to write instead."""

    def __init__(self, what: str, diagnostics: Iterable[Diagnostic] = ()) -> None:
        super().__init__(what, tuple(diagnostics))
        self.what = what
        self.diagnostics = tuple(diagnostics)

    def __str__(self) -> str:
        return "\n".join((self.what, *map(str, self.diagnostics)))


def usable_ruleset(path: Path | str, *, drafts: bool = False) -> tuple[Ruleset, LoadedRuleset]:
    """Return the ruleset of a file or of a shipped name, and how it was loaded.

    Clauses that nobody has confirmed are errors unless `drafts` are asked for.
    """
    from speccheck.language import load_ruleset

    loaded = load_ruleset(path, drafts=drafts)
    if loaded.ruleset is None or not loaded.usable:
        raise UnusableInput(f"the ruleset {Path(path).name} cannot be used", loaded.diagnostics)
    return loaded.ruleset, loaded


def usable_vocabulary(name: Path | str) -> tuple[Vocabulary, Problems]:
    """Return the vocabulary of a file or of a shipped name."""
    from speccheck.language import load_vocabulary

    loaded = load_vocabulary(name)
    if loaded.vocabulary is None:
        raise UnusableInput(f"the vocabulary {Path(name).name} cannot be used", loaded.diagnostics)
    return loaded.vocabulary, loaded.diagnostics


def usable_mapping(path: Path, vocabulary: Vocabulary) -> tuple[ScheduleMapping, Problems]:
    """Return what a mapping file settles."""
    from speccheck.language.diagnostics import has_errors
    from speccheck.schedule import read_mapping

    mapping, diagnostics = read_mapping(path, vocabulary)
    if mapping is None or has_errors(diagnostics):
        raise UnusableInput(f"the mapping file {path.name} cannot be used", diagnostics)
    return mapping, diagnostics


def with_lines(schedule: Schedule) -> Schedule:
    """Return a schedule that was read; without any line nothing can be judged."""
    if not schedule.lines:
        raise UnusableInput(f"no line of {schedule.name} can be judged", schedule.diagnostics)
    return schedule


def usable_package(
    paths: Sequence[Path],
    ruleset: Ruleset,
    mapping: ScheduleMapping | None = None,
    *,
    units: str = "",
    sheet: str = "",
) -> Package:
    """Return files and folders that were submitted together, read as one schedule; one file is a submittal too."""
    from speccheck.review.package import files_of, read_package

    files = files_of(paths)
    if not files:
        raise UnusableInput(f"there is no file in the folder {paths[0].name}")
    package = read_package(files, ruleset, mapping, units=units, sheet=sheet)
    if len(files) == 1:
        with_lines(package.schedule)
    elif not package.schedule.lines:
        raise UnusableInput("no line of any of the files can be judged", package.schedule.diagnostics)
    return package


def usable_sheet(path: Path, ruleset: Ruleset, what: str) -> Schedule:
    """Return a file that is read as a schedule is and is none: a "design list", "product data"."""
    from speccheck.schedule import read_schedule

    sheet = read_schedule(path, ruleset.vocabulary, units=ruleset.units)
    if not sheet.lines:
        raise UnusableInput(f"no line of the {what} {path.name} can be used", sheet.diagnostics)
    return sheet


def usable_products(
    paths: Sequence[Path], schedule: Schedule, ruleset: Ruleset, found: Schedule | None = None
) -> tuple[Schedule | None, Problems]:
    """Return all product data as one sheet: tables of them, and data sheets (.pdf, .docx) of products of the schedule.

    `found` are those that came with the schedule, and stand first.
    """
    from speccheck.review.package import products_together

    sheets = [_product_sheet(path, schedule, ruleset) for path in paths]
    told = tuple(one for sheet in sheets for one in sheet.diagnostics if one.severity != "note")
    return products_together([*([] if found is None else [found]), *sheets]), told


def _product_sheet(path: Path, schedule: Schedule, ruleset: Ruleset) -> Schedule:
    """Return what one file shows of products."""
    from speccheck.review.products import product_name
    from speccheck.schedule import read_schedule
    from speccheck.schedule.data_sheets import is_data_sheet, read_data_sheet

    if not is_data_sheet(path):
        return usable_sheet(path, ruleset, "product data")
    if any(map(product_name, read_schedule(path, ruleset.vocabulary, units=ruleset.units).lines)):
        return usable_sheet(path, ruleset, "product data")
    sheet = read_data_sheet(path, ruleset.vocabulary, [name for line in schedule.lines if (name := product_name(line))])
    if any(one.severity == "error" for one in sheet.diagnostics):
        raise UnusableInput(f"the data sheet {path.name} cannot be used", sheet.diagnostics)
    return sheet


def usable_register(path: Path, ruleset: Ruleset) -> tuple[Register, Problems]:
    """Return a register of deviations."""
    from speccheck.review.deviations import read_register

    register, diagnostics = read_register(path, ruleset)
    if register is None:
        raise UnusableInput(f"the register of deviations {path.name} cannot be used", diagnostics)
    return register, diagnostics


def usable_received(path: Path, ruleset: Ruleset) -> tuple[ReceivedRegister, Problems]:
    """Return a register of what was received."""
    from speccheck.review.received import read_received

    register, diagnostics = read_received(path, ruleset)
    if register is None:
        raise UnusableInput(f"the register of what was received {path.name} cannot be used", diagnostics)
    return register, diagnostics


def usable_notes(path: Path, ruleset: Ruleset) -> Notes:
    """Return the reviewer's notes."""
    from speccheck.review.notes import read_notes

    notes, diagnostics = read_notes(path, ruleset)
    if notes is None:
        raise UnusableInput(f"the notes {path.name} cannot be used", diagnostics)
    return notes
