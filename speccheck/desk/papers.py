"""The papers of a review, opened: a ruleset, a schedule with what it was read as, the matrix, the reviewer's notes.

`papers` names what a review is made of: `schedule` and `against`, and, where there are any, `mapping`, `units`,
`design`, `products`, `deviations` and `notes`. What was read or judged last is kept while none of its files changes, so
that the screens of one review read its schedule once.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING

from speccheck.inputs import (
    UnusableInput,
    usable_mapping,
    usable_notes,
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
    from speccheck.schedule import ScheduleMapping

Progress = Callable[[int, int, str], None]
Papers = Mapping[str, str]
FEW_CELLS = 10_000
"""Up to so many cells a review is not followed line by line."""
SHEETS = {"design": "design list", "products": "product data"}
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


def reading_of(papers: Papers, ruleset: Ruleset, progress: Progress) -> WhatWasRead:
    """Return the schedule with what it was read as, by its mapping file if it has one."""
    bearing = {key: papers[key] for key in READ_FROM if papers.get(key)}
    kept = _kept_reading((tuple(sorted(bearing.items())), _states(bearing)))
    if not kept:
        progress(0, 0, "reading the schedule")
        mapping = _mapping_of(papers, ruleset)
        path, units = Path(papers["schedule"]), papers.get("units", "")
        kept.append(what_was_read(path, ruleset.vocabulary, mapping, units=units, usual_units=ruleset.units))
    return kept[0]


def matrix_of(papers: Papers, progress: Progress = lambda *_: None) -> Matrix:
    """Return the matrix of some papers, that of the last ones again where no file has changed."""
    bearing = {key: value for key, value in papers.items() if key != "notes"}
    kept = _kept_matrix((tuple(sorted(bearing.items())), _states(bearing)))
    if not kept:
        kept.append(_judged(bearing, progress))
    return kept[0]


@lru_cache(maxsize=3)
def _kept_matrix(key: object) -> list[Matrix]:
    """Return the place where the matrix of some papers is kept."""
    return []


@lru_cache(maxsize=3)
def _kept_reading(key: object) -> list[WhatWasRead]:
    """Return the place where what was read of some papers is kept."""
    return []


def _judged(papers: Papers, progress: Progress) -> Matrix:
    """Read and judge, telling how far it is."""
    ruleset = ruleset_of(papers["against"])
    schedule = with_lines(reading_of(papers, ruleset, progress).schedule)
    if len(schedule.lines) * len(ruleset.clauses) < FEW_CELLS:
        return _beside(judge_schedule(schedule, ruleset), papers)
    return _beside(judge_schedule(schedule, ruleset, numbers=_told(len(ruleset.clauses), progress)), papers)


def _told(count: int, progress: Progress) -> Iterator[int]:
    """Yield the numbers of the clauses, and tell how many of them are judged."""
    for number in range(count):
        progress(number, count, "judging")
        yield number


def _beside(matrix: Matrix, papers: Papers) -> Matrix:
    """Return the matrix with what the design list, the product data and the deviations bring up."""
    from speccheck.review.reviewing import review_matrix

    named = {key: Path(papers[key]) for key in ("design", "products", "deviations") if papers.get(key)}
    if not named:
        return matrix
    ruleset, register = matrix.ruleset, None
    if "deviations" in named:
        register, _ = usable_register(named.pop("deviations"), ruleset)
    sheets = {key: usable_sheet(path, ruleset, SHEETS[key]) for key, path in named.items()}
    return review_matrix(
        matrix, design=sheets.get("design"), products=sheets.get("products"), register=register, on=None
    )


def _states(papers: Papers) -> tuple[tuple[str, int, int], ...]:
    """Return what tells whether a file has changed."""
    found = []
    for value in papers.values():
        path = Path(value)
        if path.is_absolute() and path.exists():
            beside = sorted(path.parent.glob("*.clauses")) if path.suffix == ".clauses" else [path]
            found += [(str(one), one.stat().st_mtime_ns, one.stat().st_size) for one in beside]
    return tuple(found)


def notes_of(papers: Papers, matrix: Matrix) -> Notes:
    """Return the reviewer's notes on a round."""
    from speccheck.review.notes import Notes

    return usable_notes(Path(papers["notes"]), matrix.ruleset) if papers.get("notes") else Notes()
