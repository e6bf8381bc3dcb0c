"""The matrix for a reader without a script: one row a line, and its clauses by their verdicts.

With its script the page draws the matrix as a grid from the table that it carries (`details`), as far as it is in
sight. A grid of 2,000 lines by 70 clauses as markup would be 4 MB that a browser takes ten seconds to lay out; the same
by verdict is a tenth of that, and can be read on a small screen too.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from speccheck.judge.judgement import BareVerdict, Verdict
from speccheck.report.line_words import brief, drawn_together
from speccheck.report.wording import clause_label, mark
from speccheck.review.matrix import Matrix

if TYPE_CHECKING:
    from markupsafe import Markup

TOLD = (Verdict.FAILS, Verdict.CANNOT_TELL, Verdict.ACCEPTED, Verdict.COMPLIES, Verdict.NOT_CHECKED)
"""The verdicts that have a column; clauses that a row does not name do not apply to its line."""


def finding_id(line: int, clause: int) -> str:
    """Return the name of the place in the page where the finding of a cell is told; both count from 0."""
    return f"finding-{line}-{clause}"


def verdict_columns(matrix: Matrix) -> tuple[Verdict, ...]:
    """Return the verdicts that some cell has, in the order of their columns."""
    present = {cell.verdict for row in matrix.cells for cell in row}
    return tuple(verdict for verdict in TOLD if verdict in present)


def plain_rows(matrix: Matrix) -> Markup:
    """Return the rows of the plain matrix. They are put together here, because a template takes too long."""
    from markupsafe import Markup, escape

    labels = [clause_label(clause) for clause in matrix.ruleset.clauses]
    columns = verdict_columns(matrix)
    rows = []
    for line, row in zip(matrix.schedule.lines, matrix.cells, strict=True):
        named = _named(row, labels)
        cells = "".join(f"<td>{escape(drawn_together(named[verdict]))}" for verdict in columns)
        rows.append(f'<tr><th scope="row"><b>{escape(line.name)}</b> {escape(brief(line))}</th>{cells}</tr>')
    return Markup("\n".join(rows))


def _named(row: tuple[BareVerdict, ...], labels: list[str]) -> dict[Verdict, list[str]]:
    """Return the clauses of a row by their verdicts; brackets and stars mean what they mean in the legend."""
    found: dict[Verdict, list[str]] = {verdict: [] for verdict in Verdict}
    for label, cell in zip(labels, row, strict=True):
        verdict = cell.verdict
        if verdict in TOLD:
            starred = mark(cell).endswith("*")
            found[verdict].append(f"({label})" if not cell.mandatory else f"{label}*" if starred else label)
    return found
