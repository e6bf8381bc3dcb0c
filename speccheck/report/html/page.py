"""The HTML page: one file that needs nothing else, works without its script, in print and without colour."""

from __future__ import annotations

import base64
import hashlib
import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from speccheck.disk_cache import cache_folder
from speccheck.english import count
from speccheck.judge.judgement import Verdict
from speccheck.report import line_words, wording
from speccheck.report.cautions import STANDING_CAUTIONS
from speccheck.report.doubts import doubts, remarks_by_row
from speccheck.report.html.details import details_table
from speccheck.report.html.findings import advice_by_clause, findings_by_clause
from speccheck.report.html.matrix import plain_rows, verdict_columns
from speccheck.report.html.pictures import pictures
from speccheck.report.inferred import inferred_values
from speccheck.report.requests import requests, requests_by_term, unchecked_sections
from speccheck.review.matrix import Matrix
from speccheck.review.outcome import outcome_of

if TYPE_CHECKING:
    from jinja2 import Environment
    from markupsafe import Markup

    from speccheck.report.html.row_pictures import RowPicture
    from speccheck.report.sections import ReportTable

_TEMPLATES = Path(__file__).parents[1] / "templates"
_STYLES = ("page.css", "matrix.css", "panel.css", "print.css")
_SCRIPTS = (
    "details.js",
    "view.js",
    "arrangement.js",
    "panel.js",
    "grid.js",
    "filters.js",
    "lists.js",
    "taking.js",
    "printing.js",
    "opening.js",
)

FIRST = 6
"""How many findings stand on the first screen, each of another clause."""


def render_page(matrix: Matrix, *, title: str = "", navigation: str = "", papers: Sequence[Path] = ()) -> str:
    """Return the whole report as one HTML page.

    `title` is what the page is called, else the name of the ruleset; `navigation` is markup of ours to stand above it
    where the page is one of several. `papers` are the files that the schedule was read from: of a PDF, the page shows
    the rows that findings speak of. The page loads nothing from anywhere: styles, scripts and data are inside, and its
    content security policy allows only those.
    """
    from markupsafe import Markup

    rows = _row_pictures(matrix, papers)
    style, script = _joined((*_STYLES, *(("paper.css",) if rows else ()))), _joined(_SCRIPTS)
    return (
        _environment()
        .get_template("page.html.j2")
        .render(
            title=title or matrix.ruleset.name,
            policy=_policy(style, script, pictures=bool(rows)),
            row_picture=_each_once(rows) if rows else None,
            navigation=Markup(navigation),
            style=Markup(style),
            script=Markup(script),
            details=Markup(details_table(matrix)),
            plain_columns=verdict_columns(matrix),
            plain_rows=plain_rows(matrix),
            **_contents(matrix),
        )
    )


def _contents(matrix: Matrix) -> dict[str, Any]:
    """Return what the sections of the page tell."""
    asked = requests(matrix)
    failing, unclear = (findings_by_clause(matrix, verdict) for verdict in (Verdict.FAILS, Verdict.CANNOT_TELL))
    return {
        "first": [(group, group.alike[0]) for group in (*failing, *unclear)][:FIRST],
        "ruleset": matrix.ruleset,
        "schedule": matrix.schedule,
        "outcome": outcome_of(matrix),
        "extent": wording.extent(matrix),
        "services": sorted({name for line in matrix.schedule.lines if (name := line_words.service(line))}),
        "failing": failing,
        "unclear": unclear,
        "unchecked": findings_by_clause(matrix, Verdict.NOT_CHECKED),
        "advised": advice_by_clause(matrix),
        "pictures": pictures(matrix),
        "to_be_read": _to_be_read(matrix),
        "sections": _sections(matrix),
        "requests": asked,
        "requests_by_term": requests_by_term(asked),
        "clause_number": _numbering(matrix.ruleset.clauses),
        "remarks": remarks_by_row(matrix.schedule.remarks),
        "doubts": doubts(matrix.schedule.diagnostics),
        "inferred": inferred_values(matrix.schedule, matrix.ruleset.vocabulary, matrix.ruleset.units),
        "cautions": wording.cautions(matrix.ruleset),
        "unchecked_paragraphs": unchecked_sections(matrix.ruleset),
    }


def _to_be_read(matrix: Matrix) -> tuple[ReportTable, ...]:
    """Return what of the schedule a person has to read."""
    if not matrix.schedule.unread:
        return ()
    from speccheck.report.sections import to_be_read

    return to_be_read(matrix.schedule)


def _row_pictures(matrix: Matrix, papers: Sequence[Path]) -> Mapping[str, RowPicture]:
    """Return the pictures of rows on paper, by the names of their lines."""
    if not matrix.schedule.spots:
        return {}
    from speccheck.report.html.row_pictures import row_pictures

    return {name: picture for paper in papers for name, picture in row_pictures(paper, matrix).items()}


def _each_once(rows: Mapping[str, RowPicture]) -> Callable[[str], RowPicture | None]:
    """Return a function that gives the picture for a line the first time alone, so that no page has it twice."""
    left = dict(rows)
    return lambda line: left.pop(line, None)


def _sections(matrix: Matrix) -> tuple[ReportTable, ...]:
    """Return what a review found beside the verdicts."""
    if matrix.stands_alone:
        return ()
    from speccheck.report.sections import sections

    return sections(matrix)


def _numbering(things: Iterable[object]) -> Callable[[object], int]:
    """Return a function that gives the position, from 0, of one of `things`; they are told apart by identity."""
    numbers = {id(thing): number for number, thing in enumerate(things)}
    return lambda thing: numbers[id(thing)]


@cache
def _environment() -> Environment:
    """Return the template environment; everything that is not markup of ours is escaped."""
    from jinja2 import Environment, FileSystemBytecodeCache, FileSystemLoader, StrictUndefined

    folder = cache_folder()  # compiled templates are kept there; jinja2 sees by itself when one has changed
    environment = Environment(
        loader=FileSystemLoader(_TEMPLATES),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
        auto_reload=False,
        bytecode_cache=FileSystemBytecodeCache(str(folder)) if folder is not None else None,
    )
    environment.globals.update(
        brief=line_words.brief,
        place_words=line_words.place_words,
        line_names=line_words.line_names,
        label=wording.clause_label,
        count=count,
        legend=wording.LEGEND,
        standing_cautions=STANDING_CAUTIONS,
        ruleset_heading=wording.ruleset_heading,
    )
    environment.filters["quoted"] = _quoted
    environment.filters["label"] = wording.clause_label
    return environment


def _quoted(text: str) -> Markup:
    """Return the text of a diagnostic with what stands between backticks set apart as code."""
    from markupsafe import Markup, escape

    return Markup(re.sub(r"`([^`]+)`", r"<code>\1</code>", str(escape(text))))


@cache
def _joined(names: tuple[str, ...]) -> str:
    """Return the text of several files beside the templates, one after the other."""
    return "\n".join((_TEMPLATES / name).read_text(encoding="utf-8") for name in names)


def _policy(style: str, script: str, *, pictures: bool) -> str:
    """Return the content security policy: nothing is loaded, and no other style or script than these two runs.

    With `pictures` those that stand in the page itself are shown.
    """
    shown = "img-src data:; " if pictures else ""
    return (
        f"default-src 'none'; {shown}style-src '{_fingerprint(style)}'; script-src '{_fingerprint(script)}'; "
        "base-uri 'none'; form-action 'none'"
    )


def _fingerprint(text: str) -> str:
    """Return the hash of an inline style or script as Content Security Policy Level 3 writes it."""
    return "sha256-" + base64.b64encode(hashlib.sha256(text.encode()).digest()).decode("ascii")
