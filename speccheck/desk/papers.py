"""The papers of a review, opened: a ruleset, a schedule with what it was read as, the matrix, the reviewer's notes.

`papers` names what a review is made of: `schedule` (a file, or a folder of several) and `against`, and, where there are
any, `mapping`, `units`, `design`, `products` (a list), `deviations`, `received`, `on` and `notes`. What was read or
judged last is kept while none of its files changes, so that the screens of one review read its schedule once.
"""

from __future__ import annotations

import datetime
import json
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from speccheck.desk.projects import files_of
from speccheck.inputs import (
    UnusableInput,
    usable_mapping,
    usable_notes,
    usable_products,
    usable_received,
    usable_register,
    usable_ruleset,
    usable_sheet,
    with_lines,
)
from speccheck.language.diagnostics import Diagnostic
from speccheck.report.line_words import place_words
from speccheck.review import judge_schedule
from speccheck.review.matrix import Matrix
from speccheck.schedule.what_was_read import WhatWasRead, what_was_read

if TYPE_CHECKING:
    from speccheck.language.core import Ruleset
    from speccheck.review.notes import Notes
    from speccheck.schedule import Schedule, ScheduleMapping

Progress = Callable[[int, int, str], None]
Papers = Mapping[str, Any]
FEW_CELLS = 10_000
"""Up to so many cells a review is not followed line by line."""
READ_FROM = ("schedule", "against", "mapping", "units")


def why_unusable(problem: UnusableInput) -> list[dict[str, str]]:
    """Return what is wrong with papers that cannot be used, as plain values."""
    found = [told(one) for one in problem.diagnostics if one.severity != "note"] or [_because(problem.what)]
    if found[0]["message"] != problem.what:
        found.append(_because(problem.what))
    return found


def _because(why: str) -> dict[str, str]:
    return {"severity": "error", "code": "", "message": why, "help": "", "place": "", "cell": "", "sheet": ""}


def told(found: Diagnostic) -> dict[str, str]:
    """Return a diagnostic as plain values."""
    place = found.place
    where = place_words(place)
    return {
        "severity": str(found.severity), "code": found.code, "message": found.message, "help": found.help,
        "place": where, "cell": place.cell, "sheet": place.sheet,
    }  # fmt: skip


def ruleset_of(against: str) -> Ruleset:
    """Return the ruleset of a path or of a shipped name."""
    return usable_ruleset(Path(against))[0]


def _mapping_of(papers: Papers, ruleset: Ruleset) -> ScheduleMapping | None:
    """Return what the mapping file settles, None where there is none."""
    return usable_mapping(Path(papers["mapping"]), ruleset.vocabulary)[0] if papers.get("mapping") else None


@dataclass(frozen=True, slots=True)
class Submittal:
    """What was sent, read: each of its files that is or may be a schedule, all of them as one, and product data."""

    readings: tuple[WhatWasRead, ...]
    schedule: Schedule
    products: Schedule | None = None


def submittal_of(papers: Papers, ruleset: Ruleset, progress: Progress) -> Submittal:
    """Return the submittal with what it was read as, by its mapping file if it has one."""
    bearing = {key: papers[key] for key in READ_FROM if papers.get(key)}
    kept = _kept_reading(_key(bearing))
    if not kept:
        progress(0, 0, "reading the schedule")
        kept.append(_read(bearing, ruleset))
    return kept[0]


def _read(papers: Papers, ruleset: Ruleset) -> Submittal:
    """Read a submittal of one file as a schedule, and one of several as `check` does."""
    from speccheck.review.package import ReadAs, among_files, package_of, told_apart

    mapping, path, units = _mapping_of(papers, ruleset), Path(papers["schedule"]), papers.get("units", "")

    def read(path: Path) -> WhatWasRead:
        return what_was_read(path, ruleset.vocabulary, mapping, units=units, usual_units=ruleset.units)

    found = {one: read(one) for one in files_of(path)}
    if len(found) == 1:
        (alone,) = found.values()
        return Submittal((alone,), alone.schedule)
    package = package_of(told_apart([(one, read.schedule) for one, read in found.items()], ruleset.vocabulary))
    readings = (found[one.path] for one in package.files if one.read_as in (ReadAs.SCHEDULE, ReadAs.NOTHING))
    named = tuple(replace(one, schedule=among_files(one.schedule)) for one in readings)
    return Submittal(named, package.schedule, package.products)


def matrix_of(papers: Papers, progress: Progress = lambda *_: None) -> Matrix:
    """Return the matrix of some papers, that of the last ones again where no file has changed."""
    bearing = {key: value for key, value in papers.items() if key != "notes"}
    kept = _kept_matrix(_key(bearing))
    if not kept:
        kept.append(_judged(bearing, progress))
    return kept[0]


@lru_cache(maxsize=3)
def _kept_matrix(key: object) -> list[Matrix]:
    """Return the place where the matrix of some papers is kept."""
    return []


@lru_cache(maxsize=3)
def _kept_reading(key: object) -> list[Submittal]:
    """Return the place where what was read of some papers is kept."""
    return []


def _judged(papers: Papers, progress: Progress) -> Matrix:
    """Read and judge, telling how far it is."""
    ruleset = ruleset_of(papers["against"])
    read = submittal_of(papers, ruleset, progress)
    schedule = with_lines(read.schedule)
    if len(schedule.lines) * len(ruleset.clauses) < FEW_CELLS:
        return _beside(judge_schedule(schedule, ruleset), papers, read.products)
    judged = judge_schedule(schedule, ruleset, numbers=_told(len(ruleset.clauses), progress))
    return _beside(judged, papers, read.products)


def _told(count: int, progress: Progress) -> Iterator[int]:
    """Yield the numbers of the clauses, and tell how many of them are judged."""
    for number in range(count):
        progress(number, count, "judging")
        yield number


def _beside(matrix: Matrix, papers: Papers, products: Schedule | None) -> Matrix:
    """Return the matrix with what the papers beside the submittal bring up; `products` came with the submittal."""
    from speccheck.review.reviewing import review_matrix

    ruleset, lines = matrix.ruleset, matrix.schedule
    products, _ = usable_products([Path(one) for one in papers.get("products", ())], lines, ruleset, products)
    named = {key: Path(papers[key]) for key in ("design", "deviations", "received") if papers.get(key)}
    return review_matrix(
        matrix,
        design=usable_sheet(named["design"], ruleset, "design list") if "design" in named else None,
        products=products,
        register=usable_register(named["deviations"], ruleset)[0] if "deviations" in named else None,
        received=usable_received(named["received"], ruleset)[0] if "received" in named else None,
        on=datetime.date.fromisoformat(papers["on"]) if papers.get("on") else None,
    )


def paths_of(papers: Papers) -> tuple[Path, ...]:
    """Return the files of papers: of a folder those in it, and beside clauses the other clauses in their folder."""
    found: list[Path] = []
    for value in papers.values():
        for one in value if isinstance(value, list) else [value]:
            path = Path(one)
            if path.is_absolute() and path.exists():
                found += sorted(path.parent.glob("*.clauses")) if path.suffix == ".clauses" else files_of(path)
    return tuple(found)


def _key(papers: Papers) -> str:
    """Return what tells papers from others, and whether a file of theirs has changed."""
    states = [(str(path), path.stat().st_mtime_ns, path.stat().st_size) for path in paths_of(papers)]
    return json.dumps([papers, states], sort_keys=True)


def notes_of(papers: Papers, matrix: Matrix) -> Notes:
    """Return the reviewer's notes on a round."""
    from speccheck.review.notes import Notes

    return usable_notes(Path(papers["notes"]), matrix.ruleset) if papers.get("notes") else Notes()
