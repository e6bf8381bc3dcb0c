"""Results: what is kept of a schedule, as JSON Lines, one object a line.

A verdict is one letter. The marks of a line are its verdicts by all clauses in the order of the ruleset, then those
on the advice of the clauses that advise.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import asdict, dataclass, field
from typing import Any

from speccheck.engine.judgement import Verdict
from speccheck.language.diagnostics import Diagnostic, Place, Severity
from speccheck.submittal.lines import CellCount, UnreadKind

MARKS: Mapping[Verdict, str] = {
    Verdict.FAILS: "F",
    Verdict.CANNOT_TELL: "?",
    Verdict.COMPLIES: "+",
    Verdict.NOT_APPLICABLE: "-",
}
FINDINGS = (Verdict.FAILS, Verdict.CANNOT_TELL)
"""The verdicts that somebody has to act on or to answer."""

NO_MARK = "."
"""Stands where there is no verdict: on advice, where the cases of a line are too many."""


@dataclass(frozen=True, slots=True)
class LineResult:
    """A line: its name, its sheet and cell ("" where the file has none), its marks."""

    name: str
    sheet: str
    cell: str
    marks: str


@dataclass(frozen=True, slots=True)
class ScheduleResult:
    """A schedule, or a part of a long one: its lines, and the errors and warnings of reading it.

    `name` is "" for a file that is one schedule. `reasons` are the sentences of the judge by the position of the line
    and the clause, where they were asked for. `unread` counts what a person has yet to read, `cells` the filled cells.
    """

    lines: tuple[LineResult, ...] = ()
    diagnostics: tuple[Diagnostic, ...] = ()
    name: str = ""
    reasons: Mapping[tuple[int, int], str] = field(default_factory=dict)
    unread: Mapping[UnreadKind, int] = field(default_factory=dict)
    cells: CellCount | None = None


def written(results: Iterable[ScheduleResult], *, again: bool) -> Iterator[str]:
    """Yield the lines of the file that keeps results.

    The last one says that it is whole, and `again` that the next run should judge afresh.
    """
    for result in results:
        yield _line(
            {
                "schedule": result.name,
                "lines": [[line.name, line.sheet, line.cell, line.marks] for line in result.lines],
                "diagnostics": [asdict(found) for found in result.diagnostics],
                "unread": {str(kind): number for kind, number in result.unread.items()},
                "cells": None if result.cells is None else asdict(result.cells),
                "reasons": [[line, clause, text] for (line, clause), text in result.reasons.items()],
            }
        )
    yield _line({"whole": True, "again": again})


def read_back(lines: Iterable[str]) -> Iterator[ScheduleResult]:
    """Yield the results that the lines of a file keep."""
    for line in lines:
        kept = json.loads(line)
        if "whole" not in kept:
            yield ScheduleResult(
                tuple(LineResult(*one) for one in kept["lines"]),
                tuple(_diagnostic(one) for one in kept["diagnostics"]),
                kept["schedule"],
                {(line, clause): text for line, clause, text in kept["reasons"]},
                {UnreadKind(kind): number for kind, number in kept["unread"].items()},
                None if kept["cells"] is None else CellCount(**kept["cells"]),
            )


def is_whole(last_line: bytes) -> bool:
    """Say whether the last line of a file says that it is whole, and need not be made again."""
    return last_line == _line({"whole": True, "again": False}).encode()


def _line(content: Mapping[str, Any]) -> str:
    return json.dumps(content, separators=(",", ":")) + "\n"


def _diagnostic(kept: dict[str, Any]) -> Diagnostic:
    return Diagnostic(**{**kept, "severity": Severity(kept["severity"]), "place": Place(**kept["place"])})
