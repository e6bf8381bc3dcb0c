"""What else a schedule is checked against: a design list, product data, registers of deviations and papers, a day."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from speccheck.cli.inputs import DAY, FILE, note_read, show
from speccheck.inputs import usable_products, usable_received, usable_register, usable_sheet

if TYPE_CHECKING:
    from speccheck.language.core import Ruleset
    from speccheck.language.diagnostics import Diagnostic
    from speccheck.review.matrix import Matrix
    from speccheck.schedule import Schedule

Function = TypeVar("Function", bound=Callable[..., Any])
Read = TypeVar("Read")

_OPTIONS = (
    click.option("--design", type=FILE, metavar="FILE", help="List of the systems that the building has."),
    click.option(
        "--products",
        type=FILE,
        metavar="FILE",
        multiple=True,
        help="Product data: a table, or a data sheet (.pdf, .docx); may be said several times.",
    ),
    click.option(
        "--fill-from-data",
        is_flag=True,
        help="Judge what the schedule leaves out by what product data show; every finding says so.",
    ),
    click.option("--deviations", type=FILE, metavar="FILE", help="Register of accepted deviations (.toml)."),
    click.option("--received", type=FILE, metavar="FILE", help="Register of what was received (.toml, .csv)."),
    click.option(
        "--on",
        type=DAY,
        metavar="DATE",
        help="Day of the review, such as 2026-03-04; the clock is never asked.",
    ),
)
BESIDE = ("design", "products", "fill_from_data", "deviations", "received", "on")
"""The names by which a command gets these options, and `review_against` takes them."""


def review_options(function: Function) -> Function:
    """Give a command the options of what else a schedule is checked against."""
    for option in reversed(_OPTIONS):
        function = option(function)
    return function


def review_against(
    matrix: Matrix,
    *,
    design: Path | None = None,
    products: Sequence[Path] = (),
    fill_from_data: bool = False,
    deviations: Path | None = None,
    received: Path | None = None,
    on: datetime.datetime | None = None,
    with_schedule: Schedule | None = None,
) -> Matrix:
    """Return the matrix with what was found by the files that are named; one that cannot be used ends the run.

    `with_schedule` are product data that came with the schedule.
    """
    if fill_from_data and not products and with_schedule is None:
        raise click.UsageError("--fill-from-data needs --products FILE to fill from")
    from speccheck.review.reviewing import review_matrix

    ruleset = matrix.ruleset
    note_read(*products)
    sheet, told = usable_products(products, matrix.schedule, ruleset, with_schedule)
    show(told)
    if fill_from_data and sheet is not None:
        from speccheck.review.filling_from_data import fill_from_data as filled

        matrix = filled(matrix, sheet)
    return review_matrix(
        matrix,
        design=_sheet_or_stop(design, ruleset, "design list"),
        products=sheet,
        register=_read_register(deviations, ruleset, usable_register),
        received=_read_register(received, ruleset, usable_received),
        on=None if on is None else on.date(),
    )


def _read_register(
    path: Path | None, ruleset: Ruleset, usable: Callable[[Path, Ruleset], tuple[Read, Sequence[Diagnostic]]]
) -> Read | None:
    """Return a register, what is to be said of it printed."""
    if path is None:
        return None
    note_read(path)
    register, diagnostics = usable(path, ruleset)
    show(diagnostics)
    return register


def _sheet_or_stop(path: Path | None, ruleset: Ruleset, what: str) -> Schedule | None:
    """Return a file that is read as a schedule is, what was not understood of it printed."""
    if path is None:
        return None

    note_read(path)
    sheet = usable_sheet(path, ruleset, what)
    show(found for found in sheet.diagnostics if found.severity != "note")
    return sheet
