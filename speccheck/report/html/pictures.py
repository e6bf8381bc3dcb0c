"""The pictures of the page: surface temperature and heat flow against thickness, for lines whose surface is judged, and
the courses of other values that run over years or lengths.

A line has a picture where a clause that works such a value out finds that it does not comply.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from speccheck.judge.cell import told
from speccheck.judge.judgement import Verdict
from speccheck.language.core import Clause
from speccheck.language.core.walking import conditions_of, terms_of
from speccheck.language.core.wording import value_text
from speccheck.report.line_words import brief
from speccheck.report.wording import clause_label
from speccheck.review.matrix import Matrix

if TYPE_CHECKING:
    from markupsafe import Markup

SURFACE = ("surface temperature", "condensation thickness", "touch thickness")
MOST = 40


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture with the number of its line and the clause that asked for it; a course runs over years or lengths."""

    line: int
    title: str
    clause: str
    drawing: Markup
    course: bool = False


def pictures(matrix: Matrix) -> tuple[Picture, ...]:
    """Return the pictures of a matrix, one a line at the most and no more than `MOST`."""
    clauses = [number for number, clause in enumerate(matrix.ruleset.clauses) if _is_pictured(clause)]
    found: list[Picture] = []
    for line, row in enumerate(matrix.cells):
        clause = next((number for number in clauses if row[number].verdict is Verdict.FAILS), None)
        picture = _picture(matrix, line, clause) if clause is not None and len(found) < MOST else None
        if picture is not None:
            found.append(picture)
    return tuple(found)


def _is_pictured(clause: Clause) -> bool:
    """Say whether a clause works a value out of which there are pictures; physics is loaded for such a clause alone."""
    names = {term.name for term in terms_of(conditions_of(clause)) if term.computed}
    if not names:
        return False
    from speccheck.judge.courses import DRAWN

    return not names.isdisjoint((*SURFACE, *DRAWN))


def _picture(matrix: Matrix, number: int, clause_number: int) -> Picture | None:
    from markupsafe import Markup

    from speccheck.judge.courses import DRAWN, courses
    from speccheck.judge.curves import ThicknessCurve, thickness_curve
    from speccheck.report.course_picture import draw_courses
    from speccheck.report.thickness_picture import draw_thickness

    line, clause = matrix.schedule.lines[number], matrix.ruleset.clauses[clause_number]
    failing = told(matrix.cells[number][clause_number]).grounds.deciding[0]
    system, case = matrix.ruleset.units, failing.case
    sizes = [value_text(value, system) for _, value in failing.varied]
    title = ", ".join((f"{line.name}: {brief(line)}", *(f"at {size}" for size in sizes)))
    names = tuple(term.name for term in terms_of(conditions_of(clause)) if term.computed and term.name in DRAWN)
    if names:
        shown = courses(case, names)
        drawing = draw_courses(shown, title, system) if shown else ""
    else:
        curve = thickness_curve(case, system)
        drawing = draw_thickness(curve, title, system) if isinstance(curve, ThicknessCurve) else ""
    return Picture(number, title, clause_label(clause), Markup(drawing), bool(names)) if drawing else None
