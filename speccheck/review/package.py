"""A package: several files that a contractor sent as one submittal, read as one schedule.

In: files, or folders of them. Out: one `Schedule` with the lines of all schedules among them, numbered through, the
product data that came with it, and what each file was read as. A file is a schedule where its lines say which systems
they are; it is product data where its lines state of products what has to be shown of them, or where it is a
manufacturer's data sheet.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from pathlib import Path

from speccheck.english import count
from speccheck.language.core import Ruleset
from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.language.vocabulary.terms import Vocabulary
from speccheck.review.products import PRODUCT, product_name
from speccheck.schedule import ScheduleMapping
from speccheck.schedule.kept_readings import read_once
from speccheck.schedule.lines import CellCount, Line, Schedule, Unread, UnreadKind
from speccheck.schedule.mapping import settled
from speccheck.schedule.messages.settled import FILES_OF_ONE_NAME, NOTHING_READ, READ_AS


class ReadAs(StrEnum):
    """What a file of a package was read as."""

    SCHEDULE = "schedule"
    PRODUCT_DATA = "product data"
    DATA_SHEET = "data sheet"
    NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class File:
    """One file of a package: its path, what it was read as, and what was read."""

    path: Path
    read_as: ReadAs
    read: Schedule


@dataclass(frozen=True, slots=True)
class Package:
    """The files of a package, its schedule with the lines of all of them, and its product data, None without any."""

    files: tuple[File, ...]
    schedule: Schedule
    products: Schedule | None


def files_of(paths: Iterable[Path]) -> tuple[Path, ...]:
    """Return the files that paths name: of a folder all that lie in it, by name, but for hidden ones."""
    found: list[Path] = []
    for path in paths:
        inside = path.iterdir() if path.is_dir() else [path]
        found += sorted(
            one for one in inside if one == path or (one.is_file() and not one.name.startswith((".", "~$")))
        )
    return tuple(dict.fromkeys(found))


def read_package(
    paths: Sequence[Path],
    ruleset: Ruleset,
    mapping: ScheduleMapping | None = None,
    *,
    units: str = "",
    sheet: str = "",
) -> Package:
    """Return what several files say together; `mapping`, `units` and `sheet` are as for one schedule.

    A file that is the whole submittal is its schedule, whatever it may look like.
    """
    if twice := _same_name(paths):
        return Package((), Schedule(twice.place.file, (), (), (), (twice,)), None)
    mapping = settled(mapping, units, ruleset.units, sheet)
    read = [read_once(path, ruleset.vocabulary, mapping) for path in paths]
    if len(read) == 1:
        return Package((File(paths[0], ReadAs.SCHEDULE, read[0]),), read[0], None)
    return package_of(told_apart(list(zip(paths, read, strict=True)), ruleset.vocabulary))


def package_of(files: Sequence[File]) -> Package:
    """Return several files that were read and told apart as one package."""
    products = [file.read for file in files if file.read_as in (ReadAs.PRODUCT_DATA, ReadAs.DATA_SHEET)]
    return Package(tuple(files), _together(files), products_together(products))


def told_apart(read: Sequence[tuple[Path, Schedule]], vocabulary: Vocabulary) -> list[File]:
    """Return what each of several files, read as a schedule, is; one of a data sheet is read again as such."""
    files = [File(path, _kind(schedule, vocabulary), schedule) for path, schedule in read]
    named = [name for file in files for line in file.read.lines if (name := product_name(line))]
    return [_as_data_sheet(file, vocabulary, named) for file in files]


def _same_name(paths: Sequence[Path]) -> Diagnostic | None:
    """Return why files of different folders cannot be one submittal: places would not tell two of a name apart."""
    name, times = next(iter(Counter(path.name for path in paths).most_common(1)), ("", 0))
    if times < 2:
        return None
    return FILES_OF_ONE_NAME.at(Place(name), number=times, file=name)


def _kind(read: Schedule, vocabulary: Vocabulary) -> ReadAs:
    """Return what a file is by its lines: those of product data name products, and state what has to be shown alone."""
    if not read.lines:
        return ReadAs.NOTHING
    terms = vocabulary.terms.values()
    shown = {PRODUCT, *(term.name for term in terms if term.needs_evidence or term.dates)}
    is_data = all(product_name(line) and set(line.data) <= shown for line in read.lines)
    return ReadAs.PRODUCT_DATA if is_data else ReadAs.SCHEDULE


def _as_data_sheet(file: File, vocabulary: Vocabulary, named: Sequence[str]) -> File:
    """Return a file read as a data sheet of one of the products that are named, where it is one.

    A table on a data sheet may read as one of a schedule, but no line of it says which system it is for.
    """
    from speccheck.schedule.data_sheets import is_data_sheet, read_data_sheet

    telling = {term.name for term in vocabulary.terms.values() if term.tells_apart} | {PRODUCT}
    if not is_data_sheet(file.path) or any(telling & set(line.data) for line in file.read.lines):
        return file
    read = read_data_sheet(file.path, vocabulary, named)
    return File(file.path, ReadAs.DATA_SHEET, read) if read.lines else file


def products_together(sheets: Sequence[Schedule]) -> Schedule | None:
    """Return the lines of several sheets of product data as one, None where there is no sheet."""
    if not sheets:
        return None
    return replace(sheets[0], lines=tuple(line for sheet in sheets for line in sheet.lines))


def _together(files: Sequence[File]) -> Schedule:
    """Return the schedules of a package as one, with what each file was read as."""
    schedules = [among_files(file.read) for file in files if file.read_as is ReadAs.SCHEDULE]
    words = [told(file) for file in files]
    unread = [
        Unread(UnreadKind.OTHER, f"nothing of {file.path.name} was read", Place(file.path.name, among_files=True))
        for file in files
        if file.read_as is ReadAs.NOTHING
    ]
    counts = [one.cells for one in schedules if one.cells is not None]
    return Schedule(
        ", ".join(one.name for one in schedules) or files[0].path.name,
        _numbered_through(schedules),
        tuple(column for one in schedules for column in one.columns),
        tuple(remark for one in schedules for remark in one.remarks),
        (
            *words,
            *(found for one in schedules for found in one.diagnostics),
            *(found for file in files if file.read_as in _NO_SCHEDULE for found in _heard(file)),
        ),
        (*(each for one in schedules for each in one.unread), *unread),
        CellCount(sum(one.filled for one in counts), sum(one.accounted for one in counts)) if counts else None,
        {place: spot for one in schedules for place, spot in one.spots.items()},
    )


def among_files(schedule: Schedule) -> Schedule:
    """Return a schedule whose places name their file, for they are told beside those of others."""

    def named(place: Place) -> Place:
        return replace(place, among_files=True)

    lines = (
        replace(
            line,
            place=named(line.place),
            data={name: replace(datum, place=named(datum.place)) for name, datum in line.data.items()},
        )
        for line in schedule.lines
    )
    return replace(
        schedule,
        lines=tuple(lines),
        columns=tuple(replace(one, place=named(one.place)) for one in schedule.columns),
        remarks=tuple(replace(one, place=named(one.place)) for one in schedule.remarks),
        diagnostics=tuple(replace(one, place=named(one.place)) for one in schedule.diagnostics),
        unread=tuple(replace(one, place=named(one.place)) for one in schedule.unread),
    )


def _heard(file: File) -> tuple[Diagnostic, ...]:
    """Return the diagnostics of a file that is no schedule, none of which makes the others unusable."""
    return tuple(
        replace(
            one,
            severity=Severity.WARNING if one.severity is Severity.ERROR else one.severity,
            place=replace(one.place, among_files=True),
        )
        for one in file.read.diagnostics
    )


def told(file: File) -> Diagnostic:
    """Return what a file was read as, in words."""
    name, lines = file.path.name, len(file.read.lines)
    if file.read_as is ReadAs.NOTHING:
        return NOTHING_READ.at(Place(name), file=name)
    about = {product_name(line) for line in file.read.lines} if file.read_as is ReadAs.DATA_SHEET else set()
    what = f"a {file.read_as} of `{about.pop()}`" if len(about) == 1 else f"{_ARTICLES[file.read_as]}{file.read_as}"
    more = f", {count(lines, 'line')}" if file.read_as is ReadAs.SCHEDULE else ""
    return READ_AS.at(Place(name), file=name, what=what, more=more)


_NO_SCHEDULE = (ReadAs.PRODUCT_DATA, ReadAs.NOTHING)
_ARTICLES = {ReadAs.SCHEDULE: "a ", ReadAs.DATA_SHEET: "a ", ReadAs.PRODUCT_DATA: ""}


def _numbered_through(schedules: Sequence[Schedule]) -> tuple[Line, ...]:
    """Return the lines of all schedules; a name that several of them have is followed by the file."""
    times = Counter(line.name for one in schedules for line in one.lines)
    return tuple(
        replace(line, name=f"{line.name} ({one.name})") if times[line.name] > 1 else line
        for one in schedules
        for line in one.lines
    )
