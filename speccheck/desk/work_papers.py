"""What the papers beside a submittal were read as, and what was found by them, for the screen Papers.

Each paper is read by itself, so that one that cannot be used is told beside the others.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from speccheck.desk.papers import Progress, matrix_of, ruleset_of, submittal_of, told, why_unusable
from speccheck.inputs import UnusableInput, usable_products, usable_received, usable_register, usable_sheet
from speccheck.report.line_words import brief, shown, understood
from speccheck.report.sections import sections
from speccheck.review.matrix import Matrix
from speccheck.review.products import product_name

if TYPE_CHECKING:
    from speccheck.language.core import Ruleset
    from speccheck.language.diagnostics import Diagnostic
    from speccheck.language.vocabulary.values import Single
    from speccheck.schedule.lines import Line, Schedule

Rows = list[list[str]]
ReadPaper = tuple[Rows, "Sequence[Diagnostic]"]


def beside(asked: dict[str, Any], progress: Progress) -> dict[str, Any]:
    """Return each paper with what it was read as, and the sections of what was found by all of them."""
    papers = asked["papers"]
    ruleset = ruleset_of(papers["against"])
    schedule = submittal_of(papers, ruleset, progress).schedule
    progress(0, 0, "reading the papers")
    found = [_paper(kind, Path(path), schedule, ruleset) for kind in READERS for path in _named(papers.get(kind))]
    try:
        made = sections(matrix_of(papers, progress))
    except UnusableInput:
        made = ()
    return {
        "papers": found,
        "sections": [
            {"title": one.title, "sentence": one.sentence, "headings": one.headings, "rows": one.rows} for one in made
        ],
    }


def _named(paths: str | list[str] | None) -> list[str]:
    return paths if isinstance(paths, list) else [paths] if paths else []


def _paper(kind: str, path: Path, schedule: Schedule, ruleset: Ruleset) -> dict[str, Any]:
    """Return one paper as plain values: its rows as they were read, and what is wrong with it."""
    try:
        rows, problems = READERS[kind](path, schedule, ruleset)
        why = [told(one) for one in problems if one.severity != "note"]
        return {"kind": kind, "name": path.name, "rows": rows, "problems": why, "usable": True}
    except UnusableInput as problem:
        return {"kind": kind, "name": path.name, "rows": [], "problems": why_unusable(problem), "usable": False}


def _design(path: Path, schedule: Schedule, ruleset: Ruleset) -> ReadPaper:
    sheet = usable_sheet(path, ruleset, "design list")
    return [[line.name, brief(line), _data(line, ruleset)] for line in sheet.lines], sheet.diagnostics


def _products(path: Path, schedule: Schedule, ruleset: Ruleset) -> ReadPaper:
    sheet, problems = usable_products([path], schedule, ruleset)
    assert sheet is not None, "a file that shows nothing is unusable"
    return [[product_name(line) or line.name, _data(line, ruleset)] for line in sheet.lines], problems


def _data(line: Line, ruleset: Ruleset) -> str:
    """Return what a line states, each datum as it was read."""
    terms, units = ruleset.vocabulary.terms, ruleset.units
    stated = ((name, understood(datum, terms.get(name), units) or shown(datum)) for name, datum in line.data.items())
    return "; ".join(f"{name}: {words}" for name, words in stated if words)


def _deviations(path: Path, schedule: Schedule, ruleset: Ruleset) -> ReadPaper:
    register, problems = usable_register(path, ruleset)
    return [[one.name, one.clause, one.words, str(one).partition(": ")[2]] for one in register.deviations], problems


def _received(path: Path, schedule: Schedule, ruleset: Ruleset) -> ReadPaper:
    register, problems = usable_received(path, ruleset)
    rows = [[one.kind.value, str(one), _of(one.of, ruleset), ", ".join(one.lines)] for one in register.entries]
    return rows, problems


def _of(of: Mapping[str, Single], ruleset: Ruleset) -> str:
    from speccheck.language.core.wording import value_text

    return ", ".join(f"{term} {value_text(value, ruleset.units)}" for term, value in of.items())


READERS: dict[str, Callable[[Path, Schedule, Ruleset], ReadPaper]] = {
    "design": _design,
    "products": _products,
    "deviations": _deviations,
    "received": _received,
}


def open_beside(matrix: Matrix) -> int:
    """Return how many findings of the papers, and documents that are asked for, somebody has to look at."""
    from speccheck.review.documents import DocumentStanding

    asked = (DocumentStanding.NOT_SATISFIED, DocumentStanding.CANNOT_TELL)
    found = sum(one.diagnostic.severity != "note" for one in matrix.observations)
    return found + sum(one.standing in asked for one in matrix.documents)


PAPER_WORK = {"beside": beside}
