"""The findings of a portfolio, one row each: to Parquet with pyarrow, otherwise to comma-separated values.

Columns: schedule, line, sheet, cell, clause, title, kind ("requirement" or "advice"), verdict, reason ("" unless
reasons were asked for). Rows come in the order of schedules, lines and clauses, and are written as they come.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator
from itertools import islice
from typing import BinaryIO

from speccheck.report.comma_separated import BYTE_ORDER_MARK
from speccheck.report.escaping import comma_separated_safe, encodable
from speccheck.report.wording import clause_label
from speccheck.review.portfolio.results import FINDINGS, MARKS, LineResult, ScheduleResult
from speccheck.review.portfolio.tallies import Layout

COLUMNS = ("schedule", "line", "sheet", "cell", "clause", "title", "kind", "verdict", "reason")
_ROWS_AT_ONCE = 100_000

Row = tuple[str, ...]


def finding_rows(files: Iterable[tuple[str, Iterator[ScheduleResult]]], layout: Layout) -> Iterator[Row]:
    """Yield a row of texts for each verdict that is a finding."""
    heads = _Heads(layout)
    for file, results in files:
        for result in results:
            schedule = f"{file}: {result.name}" if result.name else file
            for row, line in enumerate(result.lines):
                yield from heads.rows(schedule, row, line, result)


class _Heads:
    """What stands in a row for each mark of a line that is a finding."""

    def __init__(self, layout: Layout) -> None:
        verdicts = {MARKS[verdict]: str(verdict) for verdict in FINDINGS}
        places = [(number, number, "requirement") for number in layout.mandatory]
        places += [(len(layout.clauses) + at, number, "advice") for at, number in enumerate(layout.advised)]
        self._found: dict[tuple[int, str], tuple[int, Row]] = {}
        for place, number, kind in places:
            clause = layout.clauses[number]
            for mark, verdict in verdicts.items():
                self._found[place, mark] = number, (clause_label(clause), clause.title, kind, verdict)

    def rows(self, schedule: str, row: int, line: LineResult, result: ScheduleResult) -> Iterator[Row]:
        """Yield the findings on a line."""
        for place, mark in enumerate(line.marks):
            if (found := self._found.get((place, mark))) is not None:
                number, words = found
                reason = result.reasons.get((row, number), "") if words[2] == "requirement" else ""
                yield (schedule, line.name, line.sheet, line.cell, *words, reason)


def write_parquet(file: BinaryIO, rows: Iterable[Row]) -> None:
    """Write rows as Parquet, some row groups at a time."""
    import pyarrow as pa
    import pyarrow.parquet as pq

    schema = pa.schema([(name, pa.string()) for name in COLUMNS])
    with pq.ParquetWriter(file, schema, compression="zstd") as writer:
        for some in _some(rows):
            columns = zip(*some, strict=True)
            writer.write_table(pa.table([pa.array(encodable(list(column))) for column in columns], schema=schema))


def write_comma_separated(file: BinaryIO, rows: Iterable[Row]) -> None:
    """Write rows as comma-separated values (RFC 4180); what looks like a formula has an apostrophe before it."""
    file.write(BYTE_ORDER_MARK.encode() + _written([COLUMNS]))
    for some in _some(rows):
        file.write(_written(some))


def _some(rows: Iterable[Row]) -> Iterator[list[Row]]:
    remaining = iter(rows)
    while some := list(islice(remaining, _ROWS_AT_ONCE)):
        yield some


def _written(rows: Iterable[Row]) -> bytes:
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerows([comma_separated_safe(cell) for cell in row] for row in rows)
    return text.getvalue().encode()
