"""The workbook: the matrix and its lists as an Office Open XML file, the same bytes on each run."""

from __future__ import annotations

import datetime
import io
import re
import zipfile
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import partial
from types import MappingProxyType
from typing import TYPE_CHECKING

from speccheck.review.matrix import Matrix

if TYPE_CHECKING:
    from speccheck.report.workbook.streaming import StreamedSheet

_ALWAYS = datetime.datetime(1980, 1, 1)  # the first day that a zip archive can state; no clock goes into a report
_ROWS = re.compile(rb"<sheetData>.*?</sheetData>|<sheetData ?/>", re.DOTALL)
_MODIFIED = re.compile(rb"(<dcterms:modified[^>]*>)[^<]*")


def render_workbook(matrix: Matrix) -> bytes:
    """Return the workbook as the bytes of an .xlsx file: the same matrix gives the same bytes."""
    from openpyxl import Workbook

    from speccheck.report.workbook import sheets
    from speccheck.report.workbook.cells import add_styles
    from speccheck.report.workbook.streaming import StreamedSheet, StreamedWorkbook

    workbook = Workbook()
    streamed = StreamedWorkbook(workbook.worksheets[0])
    workbook.remove(workbook.worksheets[0])
    add_styles(workbook)
    filled = []
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
        filled.append(StreamedSheet(workbook.create_sheet(title), streamed))
        fill(filled[-1], matrix)
        filled[-1].measure()
    workbook.properties.creator = "speccheck"
    workbook.properties.created = _ALWAYS
    written = io.BytesIO()
    workbook.save(written)
    return without_clock(written.getvalue(), {sheet.frame.path.lstrip("/"): sheet.rows for sheet in filled})


def _unread_sheet(matrix: Matrix) -> Iterator[tuple[str, Callable[[StreamedSheet, Matrix], None]]]:
    """Yield a sheet for what of the schedule a person has to read."""
    if not matrix.schedule.unread:
        return
    from speccheck.report.sections import to_be_read
    from speccheck.report.workbook.sheets import fill_section

    for section in to_be_read(matrix.schedule):
        yield section.title, partial(fill_section, section)


def _section_sheets(matrix: Matrix) -> Iterator[tuple[str, Callable[[StreamedSheet, Matrix], None]]]:
    """Yield a sheet for each thing that a review found beside the verdicts, and for what no clause checks."""
    if matrix.stands_alone and not matrix.ruleset.unchecked:
        return
    from speccheck.report.requests import unchecked_sections
    from speccheck.report.sections import sections
    from speccheck.report.workbook.sheets import fill_section

    for section in (*sections(matrix), *unchecked_sections(matrix.ruleset)):
        yield section.title, partial(fill_section, section)


def without_clock(archive: bytes, rows: Mapping[str, Iterable[str]] = MappingProxyType({})) -> bytes:
    """Return the same archive with every date in it set to one fixed day.

    `rows` are those of some sheets, by the name of their part, and take the place of the ones that it has.
    """
    result = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(archive)) as old, zipfile.ZipFile(result, "w", zipfile.ZIP_DEFLATED) as new:
        for name in old.namelist():
            content = old.read(name)
            if name == "docProps/core.xml":
                content = _MODIFIED.sub(rb"\g<1>1980-01-01T00:00:00Z", content)
            entry = zipfile.ZipInfo(name, _ALWAYS.timetuple()[:6])
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.create_system = 0  # otherwise the system that wrote it shows
            with new.open(entry, "w") as part:
                for piece in _with_rows(content, rows[name]) if name in rows else (content,):
                    part.write(piece)
    return result.getvalue()


def _with_rows(sheet: bytes, rows: Iterable[str]) -> Iterator[bytes]:
    """Yield a sheet in pieces, with other rows."""
    before, after = _ROWS.split(sheet, maxsplit=1)
    yield before + b"<sheetData>"
    yield from (row.encode("ascii") for row in rows)
    yield b"</sheetData>" + after
