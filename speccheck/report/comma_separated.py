"""The findings as comma-separated values (RFC 4180), for a spreadsheet program that reads nothing better."""

from __future__ import annotations

import csv
import io

from speccheck.report.escaping import comma_separated_safe
from speccheck.report.workbook.sheets import FINDING_HEADINGS, finding_rows
from speccheck.review.matrix import Matrix

BYTE_ORDER_MARK = "\ufeff"  # without it spreadsheet programs take UTF-8 for something else and spoil ½ and ″


def render_comma_separated(matrix: Matrix) -> str:
    """Return one row a finding under a row of headings; text that looks like a formula has an apostrophe before it."""
    written = io.StringIO()
    writer = csv.writer(written, lineterminator="\r\n")
    writer.writerow(heading for heading, _ in FINDING_HEADINGS)
    writer.writerows([comma_separated_safe(text) for text in row] for row in finding_rows(matrix))
    return BYTE_ORDER_MARK + written.getvalue()
