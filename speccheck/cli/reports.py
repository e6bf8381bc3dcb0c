"""The reports that commands write: their options, and each of them written whole or not at all."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from speccheck.cli.inputs import FILE, show

if TYPE_CHECKING:
    from speccheck.language.diagnostics import Diagnostic
    from speccheck.review.matrix import Matrix

Function = TypeVar("Function", bound=Callable[..., Any])

_OPTIONS = {
    "--page": "Write the report as an HTML page.",
    "--workbook": "Write the report as a workbook (.xlsx).",
    "--json": "Write the matrix as JSON.",
    "--markdown": "Write the report as Markdown.",
    "--findings": "Write the findings as comma-separated values.",
}


def report_options(function: Function) -> Function:
    """Give a command the options of all reports; it takes their paths as `page`, `workbook` and so on."""
    for name, help in reversed(_OPTIONS.items()):
        function = click.option(name, type=FILE, metavar="FILE", help=help)(function)
    return function


def write_reports(matrix: Matrix, reports: Mapping[str, Path | None], inputs: Iterable[Path]) -> bool:
    """Write the reports that were asked for; print why one was not written, and return whether all were."""
    read = tuple(inputs)
    written = [_write(name, matrix, path, read) for name, path in reports.items() if path is not None]
    problems = [problem for problem in written if problem is not None]
    show(problems)
    return not problems


def _write(name: str, matrix: Matrix, path: Path, inputs: Iterable[Path]) -> Diagnostic | None:
    """Write one report whole, or return why it was not written."""
    from speccheck.report.kinds import renderer
    from speccheck.report.writing import write_whole

    return write_whole(path, renderer(name)(matrix), inputs)
