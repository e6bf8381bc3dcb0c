"""The kinds of report: one list, which the commands, the interface for scripts and the desk draw on.

What renders a kind is imported only when it is asked for.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from speccheck.review.matrix import Matrix


@dataclass(frozen=True, slots=True)
class ReportKind:
    """A kind of report: its name, which is that of its option, the endings of its files, what the option says of it.

    `module` has the function `function`, which takes a `Matrix` and returns text or bytes.
    """

    name: str
    endings: tuple[str, ...]
    help: str
    module: str
    function: str


KINDS = (
    ReportKind("page", (".html", ".htm"), "Write the report as an HTML page.", "html.page", "render_page"),
    ReportKind("workbook", (".xlsx",), "Write the report as a workbook (.xlsx).", "workbook.report", "render_workbook"),
    ReportKind("json", (".json",), "Write the matrix as JSON.", "json.report", "render_json"),
    ReportKind("markdown", (".md",), "Write the report as Markdown.", "markdown.report", "render_markdown"),
    ReportKind(
        "findings",
        (".csv",),
        "Write the findings as comma-separated values.",
        "comma_separated",
        "render_comma_separated",
    ),
)


def kind_of(ending: str) -> str:
    """Return the name of the kind whose files have an ending such as ".html"; "" where none has."""
    return next((kind.name for kind in KINDS if ending.lower() in kind.endings), "")


def renderer(name: str) -> Callable[[Matrix], str | bytes]:
    """Return what renders the kind of this name."""
    (kind,) = (kind for kind in KINDS if kind.name == name)
    render: Callable[[Matrix], str | bytes] = getattr(import_module(f"speccheck.report.{kind.module}"), kind.function)
    return render
