"""The reports of a portfolio in its output folder: each whole, and the same for the same schedules; JSON is a stream.

summary.json      totals, and every schedule
summary.html      totals, for a person
findings.parquet  every finding; findings.csv where pyarrow is not installed
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable, Iterator, Mapping
from importlib.util import find_spec
from itertools import islice
from pathlib import Path
from typing import Any, BinaryIO

from speccheck.judge.judgement import Verdict
from speccheck.language.core import Ruleset
from speccheck.report.comma_separated import BYTE_ORDER_MARK
from speccheck.report.escaping import comma_separated_safe, encodable
from speccheck.report.html.small_page import render_small_page
from speccheck.report.portfolio import wording as words
from speccheck.report.wording import cautions, clause_label, ruleset_heading
from speccheck.review.outcome import Standing
from speccheck.review.portfolio.running import Run
from speccheck.review.portfolio.store import FINDINGS, MARKS, LineResult, ScheduleResult
from speccheck.review.portfolio.tallies import VERDICTS, ClauseTotal, MarkLayout, Tally, Totals, tallies


def render_portfolio(totals: Totals, left: Mapping[str, int]) -> str:
    """Return the page. It loads nothing from anywhere, and everything that schedules say is escaped."""
    return render_small_page(
        "portfolio.html.j2",
        ruleset=ruleset_heading(totals.ruleset),
        heading=words.heading(totals),
        status=totals.status,
        sentences=[*words.sentences(totals), *filter(None, [words.left_sentence(left)])],
        verdicts=list(zip(VERDICTS, words.OUTCOMES_HEADINGS, strict=True)),
        findings=FINDINGS,
        clauses=words.most_found_first(totals.clauses),
        clause_name=words.clause_name,
        worst=totals.worst,
        not_read=totals.not_read,
        cautions=cautions(totals.ruleset),
    )


COLUMNS = ("schedule", "line", "sheet", "cell", "clause", "title", "kind", "verdict", "reason")
_ROWS_AT_ONCE = 100_000

Row = tuple[str, ...]


def finding_rows(files: Iterable[tuple[str, Iterator[ScheduleResult]]], layout: MarkLayout) -> Iterator[Row]:
    """Yield a row of texts for each verdict that is a finding."""
    heads = _Heads(layout)
    for file, results in files:
        for result in results:
            schedule = f"{file}: {result.name}" if result.name else file
            for row, line in enumerate(result.lines):
                yield from heads.rows(schedule, row, line, result)


class _Heads:
    """What stands in a row for each mark of a line that is a finding."""

    def __init__(self, layout: MarkLayout) -> None:
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


def write_portfolio(file: BinaryIO, tallied: Iterable[Tally], totals: Totals, left: Mapping[str, int]) -> None:
    """Write the report; schedules are counted into `totals` as they are written."""
    for text in _texts(tallied, totals, left):
        file.write(text.encode())


def _texts(tallied: Iterable[Tally], totals: Totals, left: Mapping[str, int]) -> Iterator[str]:
    ruleset = {"name": totals.ruleset.name, "edition": totals.ruleset.edition}
    head = {"report": "speccheck portfolio", "version": 2, "ruleset": ruleset}
    yield f'{_json(head)[:-1]},\n"schedules": ['
    between = "\n"
    for tally in tallied:
        totals.add(tally)
        yield between + _json(_schedule(tally))
        between = ",\n"
    yield f"],\n{_json(_rest(totals, left))[1:]}\n"


def _json(content: Any) -> str:
    return json.dumps(encodable(content), ensure_ascii=False)


def _schedule(tally: Tally) -> dict[str, Any]:
    return {
        "name": tally.name,
        "outcome": str(tally.outcome.standing),
        "lines": tally.line_count,
        **_counted(tally.requirements),
        "warnings": tally.outcome.warnings,
        "problem": tally.outcome.problem,
    }


def _rest(totals: Totals, left: Mapping[str, int]) -> dict[str, Any]:
    return {
        "status": totals.status,
        "outcomes": {str(standing): totals.schedules[standing] for standing in Standing},
        "lines": _counted(totals.lines),
        "requirements": _counted(totals.requirements),
        "warnings": totals.warnings,
        "clauses": [_clause(one) for one in totals.clauses],
        "left": dict(left),
        "cautions": list(cautions(totals.ruleset)),
    }


def _clause(one: ClauseTotal) -> dict[str, Any]:
    return {
        "label": clause_label(one.clause),
        "title": one.clause.title,
        "ruleset": one.clause.ruleset,
        "mandatory": one.mandatory,
        **_counted(one.counts),
        "failing_schedules": one.failing_schedules,
    }


def _counted(counts: Mapping[Verdict, int]) -> dict[str, int]:
    return {verdict.value.replace(" ", "_"): counts.get(verdict, 0) for verdict in VERDICTS}


_FINDINGS = {"findings.parquet": write_parquet, "findings.csv": write_comma_separated}


def write_portfolio_files(run: Run, ruleset: Ruleset) -> tuple[Totals, tuple[Path, ...]]:
    """Write all reports of a run, as streams; return the totals and the files.

    Raises `OSError` where one cannot be written.
    """
    store, totals = run.store, Totals(ruleset)
    with store.whole_file(store.folder / "summary.json") as file:
        write_portfolio(file, tallies(run.results(), ruleset), totals, run.left)
    with store.whole_file(store.folder / "summary.html") as file:
        file.write(render_portfolio(totals, run.left).encode("utf-8", errors="replace"))
    name, other = _FINDINGS if find_spec("pyarrow") is not None else reversed(_FINDINGS)
    with store.whole_file(store.folder / name) as file:
        _FINDINGS[name](file, finding_rows(run.results(), MarkLayout(ruleset)))
    (store.folder / other).unlink(missing_ok=True)
    store.sweep()
    return totals, tuple(store.folder / one for one in ("summary.json", "summary.html", name))
