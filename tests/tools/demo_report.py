"""The reports of the demo: `python -m tests.tools.demo_report` renews them in `examples/dairy/report`.

The pictures are taken with a browser, by `python -m tests.tools.desk_pictures`.
"""

from __future__ import annotations

import io
from pathlib import Path

from rich.console import Console

from speccheck.language import load_ruleset
from speccheck.report.html.page import render_page
from speccheck.report.markdown.report import render_markdown
from speccheck.report.terminal.report import print_matrix
from speccheck.report.workbook.report import render_workbook
from speccheck.review import Matrix, judge_schedule
from speccheck.schedule import read_schedule

DEMO = Path(__file__).parents[2] / "examples" / "dairy"
REPORTS = DEMO / "report"


def demo_matrix() -> Matrix:
    """Return the matrix of the demo's first round."""
    ruleset = load_ruleset(DEMO / "project.clauses").ruleset
    assert ruleset is not None
    return judge_schedule(read_schedule(DEMO / "schedule.xlsx", ruleset.vocabulary), ruleset)


def terminal_text(matrix: Matrix) -> str:
    """Return what a terminal of 80 columns shows."""
    written = io.StringIO()
    print_matrix(matrix, Console(file=written, width=80), width=80)
    return written.getvalue()


def texts(matrix: Matrix) -> dict[str, str]:
    """Return the reports that are texts, by the name of their file."""
    return {
        "report.html": render_page(matrix),
        "report.md": render_markdown(matrix),
        "terminal.txt": terminal_text(matrix),
    }


def main() -> None:
    """Write all reports anew."""
    matrix = demo_matrix()
    REPORTS.mkdir(exist_ok=True)
    for name, text in texts(matrix).items():
        (REPORTS / name).write_text(text, encoding="utf-8")
    (REPORTS / "report.xlsx").write_bytes(render_workbook(matrix))


if __name__ == "__main__":
    main()
