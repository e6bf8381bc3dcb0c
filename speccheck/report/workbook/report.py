"""The workbook: the matrix and its lists as an Office Open XML file, the same bytes on each run."""

from __future__ import annotations

import datetime
import io
import re
import zipfile
from collections.abc import Callable, Iterator
from functools import partial
from typing import TYPE_CHECKING

from speccheck.review.matrix import Matrix

if TYPE_CHECKING:
    from openpyxl.worksheet.worksheet import Worksheet

_ALWAYS = datetime.datetime(1980, 1, 1)  # the first day that a zip archive can state; no clock goes into a report
_MODIFIED = re.compile(rb"(<dcterms:modified[^>]*>)[^<]*")


def render_workbook(matrix: Matrix) -> bytes:
    """Return the workbook as the bytes of an .xlsx file: the same matrix gives the same bytes."""
    from openpyxl import Workbook

    from speccheck.report.workbook import sheets
    from speccheck.report.workbook.cells import add_styles

    workbook = Workbook()
    workbook.remove(workbook.worksheets[0])
    add_styles(workbook)
    for title, fill in (
        ("Matrix", sheets.fill_matrix),
        *_unread_sheet(matrix),
        ("Findings", sheets.fill_findings),
        ("Information needed", sheets.fill_missing),
        ("Recommendations", sheets.fill_advice),
        *_section_sheets(matrix),
        ("How it was read", sheets.fill_reading),
        ("Cautions", sheets.fill_cautions),
    ):
        fill(workbook.create_sheet(title), matrix)
    workbook.properties.creator = "speccheck"
    workbook.properties.created = _ALWAYS
    written = io.BytesIO()
    workbook.save(written)
    return without_clock(written.getvalue())


def _unread_sheet(matrix: Matrix) -> Iterator[tuple[str, Callable[[Worksheet, Matrix], None]]]:
    """Yield a sheet for what of the schedule a person has to read."""
    if not matrix.schedule.unread:
        return
    from speccheck.report.sections import to_be_read
    from speccheck.report.workbook.sheets import fill_section

    for section in to_be_read(matrix.schedule):
        yield section.title, partial(fill_section, section)


def _section_sheets(matrix: Matrix) -> Iterator[tuple[str, Callable[[Worksheet, Matrix], None]]]:
    """Yield a sheet for each thing that a review found beside the verdicts, and for what no clause checks."""
    if matrix.stands_alone and not matrix.ruleset.unchecked:
        return
    from speccheck.report.requests import unchecked_sections
    from speccheck.report.sections import sections
    from speccheck.report.workbook.sheets import fill_section

    for section in (*sections(matrix), *unchecked_sections(matrix.ruleset)):
        yield section.title, partial(fill_section, section)


def without_clock(archive: bytes) -> bytes:
    """Return the same archive with every date in it set to one fixed day."""
    result = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(archive)) as old, zipfile.ZipFile(result, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            content = old.read(name)
            if name == "docProps/core.xml":
                content = _MODIFIED.sub(rb"\g<1>1980-01-01T00:00:00Z", content)
            entry = zipfile.ZipInfo(name, _ALWAYS.timetuple()[:6])
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.create_system = 0  # otherwise the system that wrote it shows
            new.writestr(entry, content)
    return result.getvalue()
