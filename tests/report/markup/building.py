"""A small schedule with faults as papers of each kind, judged and marked."""

from __future__ import annotations

from pathlib import Path

from speccheck.language import parse_ruleset
from speccheck.report.markup.copying import marked_copy
from speccheck.report.markup.marks import Comments, comments_of
from speccheck.report.reply.reply import reply_to
from speccheck.review import Matrix, judge_schedule
from speccheck.review.notes import Notes
from speccheck.schedule import read_schedule

CLAUSES = """ruleset "small"
  speaks mechanical insulation

clause 1 "thick"
  where service is chilled water
  shall thickness be at least 1-1/2 in

clause 2 "stops"
  shall vapor stop spacing be at most 15 ft

clause 3 "material"
  where location is outdoor
  shall insulation be cellular glass
"""
ROWS = (
    ("Mark", "Service", "Location", "Insulation", "Thk (in)", "Vapor Stop Spacing (ft)"),
    ("P-1", "CHW", "indoor", "fiberglass", "1", "18"),
    ("P-2", "HHW", "indoor", "fiberglass", "2", "12"),
    ("P-3", "CHW", "indoor", "fiberglass", "1.5", "TBD"),
    ("P-4", "HHW", "outdoor", "fiberglass", "1", "12"),
    ("P-5", "CHW", "indoor", "fiberglass", "", "12"),
)
FOUND = {"1R": "E2", "2R": "F2", "3P": "F4", "4R": "D5", "5P": "E6"}
"""Each comment with the cell that it speaks of, counted in the table: decided by hand from the rows and the clauses."""
GIVEN = {"author": "A. Reviewer", "date": "2026-03-04"}


def judged(path: Path) -> Matrix:
    """Return the matrix of a schedule file."""
    ruleset = parse_ruleset(CLAUSES).ruleset
    assert ruleset is not None
    return judge_schedule(read_schedule(path, ruleset.vocabulary), ruleset)


def marked(path: Path, *, author: str = "", date: str = "") -> tuple[bytes, Comments]:
    """Return the marked copy of a file, and the comments in it."""
    matrix = judged(path)
    comments = comments_of(matrix, reply_to(matrix, Notes(), (), "Revise and resubmit"), author=author, date=date)
    copy = marked_copy(path, matrix.schedule, comments)
    assert copy.content is not None, copy.diagnostics
    return copy.content, comments


def unmarked(path: Path) -> list[str]:
    """Return why a file cannot be marked."""
    matrix = judged(path)
    return [
        str(one)
        for one in marked_copy(path, matrix.schedule, comments_of(matrix, reply_to(matrix, Notes()))).diagnostics
    ]
