"""The matrix of the page as markup: one row a line, one column a clause, each cell a short mark.

The rows are put together here and not in the template, because a template takes too long over thousands of cells.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from speccheck.judge.judgement import Cell, Verdict
from speccheck.report.line_words import brief, service
from speccheck.report.wording import clause_label, mark
from speccheck.review.matrix import Matrix

if TYPE_CHECKING:
    from markupsafe import Markup

CLASSES = {
    Verdict.FAILS: "fail",
    Verdict.CANNOT_TELL: "ask",
    Verdict.ACCEPTED: "dev",
    Verdict.COMPLIES: "ok",
    Verdict.NOT_CHECKED: "off",
    Verdict.NOT_APPLICABLE: "off",
}
_FOUND = (Verdict.FAILS, Verdict.CANNOT_TELL)


def finding_id(line: int, clause: int) -> str:
    """Return the name of the place in the page where the finding of a cell is told; both count from 0."""
    return f"finding-{line}-{clause}"


def matrix_head(matrix: Matrix) -> Markup:
    """Return the cells of the header row, the clauses, each a link to its wording."""
    from markupsafe import Markup, escape

    cells = [
        f'<th scope="col"><a href="#clause-{number}" title="{escape(clause.title)}">'
        f"<b>{escape(clause_label(clause))}</b> <span>{escape(clause.title)}</span></a></th>"
        for number, clause in enumerate(matrix.ruleset.clauses)
    ]
    return Markup("".join(cells))


def matrix_body(matrix: Matrix) -> Markup:
    """Return the rows. A cell with a finding links to it, so that it can be followed without a script."""
    from markupsafe import Markup, escape

    rows = []
    for number, (line, row) in enumerate(zip(matrix.schedule.lines, matrix.cells, strict=True)):
        head = f'<th scope="row"><b>{escape(line.name)}</b> <span>{escape(brief(line))}</span></th>'
        cells = "".join(_cells(number, row))
        rows.append(f'<tr data-line="{number}" data-service="{escape(service(line))}">{head}{cells}</tr>')
    return Markup("\n".join(rows))


def _cells(number: int, row: tuple[Cell, ...]) -> list[str]:
    """Return the cells of one row; a clause of advice alone has no finding among the mandatory ones, but a mark."""
    written = []
    for clause, cell in enumerate(row):
        style, short = CLASSES[cell.verdict], mark(cell)
        if not cell.mandatory:
            written.append(f'<td class="{style} advice">{short}</td>')
        elif cell.verdict in _FOUND:
            written.append(f'<td class="{style}"><a href="#{finding_id(number, clause)}">{short}</a></td>')
        else:
            written.append(f'<td class="{style}">{short}</td>')
    return written
