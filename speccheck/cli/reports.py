"""The reports that commands write: their options, and each of them written whole or not at all."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from speccheck.cli.inputs import FILE
from speccheck.cli.outputs import Outputs, replace_option
from speccheck.report.kinds import KINDS, renderer

if TYPE_CHECKING:
    from speccheck.review.matrix import Matrix

Function = TypeVar("Function", bound=Callable[..., Any])


def report_options(function: Function) -> Function:
    """Give a command the options of all reports; it takes their paths as `page` and so on, and `replace`."""
    function = replace_option(function)
    for kind in reversed(KINDS):
        function = click.option(f"--{kind.name}", type=FILE, metavar="FILE", help=kind.help)(function)
    return function


def write_reports(matrix: Matrix, outputs: Outputs, papers: Sequence[Path] = ()) -> None:
    """Write the reports that were asked for; `papers` are the files that the schedule was read from."""
    for kind in outputs.named:
        if kind == "page" and papers:
            from speccheck.report.html.page import render_page

            outputs.write(kind, render_page(matrix, papers=papers))
        else:
            outputs.write(kind, renderer(kind)(matrix))
